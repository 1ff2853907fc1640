//! `snell tidy`: files laid out in place, or only what would change.
//!
//! How a line is laid out is not known here.

use super::{Ended, Outcome, Session};
use crate::cli::Tidy;
use crate::prose::{counted, printable};
use crate::terminal::{Stream, Terminal};
use crate::trouble::Trouble;
use crate::unified::{Line, hunks};
use crate::{inputs, write};
use owo_colors::Style;
use snell_analysis::{Disk, Document, Kind, LocalDisk};
use snell_text::{Span, TextId};
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Runs the command.
///
/// # Errors
/// A file cannot be read or written, or the output cannot be written. The other files are done all the same.
pub fn run(options: &Tidy, session: &mut Session) -> Outcome {
    if inputs::is_standard_input(&options.paths)? {
        return standard_input(options, session);
    }
    let files = inputs::files(&options.paths)?;
    let mut changed = 0;
    inputs::each(&files, |path| {
        changed += usize::from(file(path, options, session)?);
        Ok(())
    })?;
    if !options.check && !options.diff {
        writeln!(session.out, "{}", summary(changed, files.len()))?;
    }
    Ok(Ended::found_if(options.check && changed > 0))
}

fn summary(changed: usize, all: usize) -> String {
    match (changed, all) {
        (_, 0) => "nothing to lay out: no rig file and no Markdown page".to_owned(),
        (0, _) => format!("{}, nothing to lay out", counted(all, "file", "files")),
        _ => format!("{} of {} laid out", changed, counted(all, "file", "files")),
    }
}

/// Lays one file out, or shows what would change; whether anything does.
fn file(path: &Path, options: &Tidy, session: &mut Session) -> Result<bool, Trouble> {
    let kind = Kind::of(path).unwrap_or(Kind::Rig);
    let text = LocalDisk
        .read(path)
        .map_err(|unread| Trouble::unread(path, unread))?;
    let laid = LaidOut::of(path, kind, text);
    if !laid.changes() {
        return Ok(false);
    }
    if options.diff {
        diff(session, path, &laid)?;
    } else if options.check {
        writeln!(session.out, "{}", path.display())?;
    } else {
        write::replace(path, &laid.text, &laid.new)
            .map_err(|unwritten| Trouble::unwritten(path, unwritten))?;
        writeln!(session.out, "laid out {}", path.display())?;
    }
    Ok(true)
}

fn standard_input(options: &Tidy, session: &mut Session) -> Outcome {
    let path = options
        .stdin_name
        .clone()
        .unwrap_or_else(|| PathBuf::from(inputs::STANDARD_INPUT));
    let kind = Kind::of(&path).unwrap_or(Kind::Rig);
    let laid = LaidOut::of(&path, kind, inputs::standard_input()?);
    if options.diff {
        diff(session, &path, &laid)?;
    } else if !options.check {
        write!(session.out.machine(), "{}", laid.new)?;
    } else if laid.changes() {
        writeln!(session.out, "{}", path.display())?;
    }
    Ok(Ended::found_if(options.check && laid.changes()))
}

/// A text as it was read, and laid out.
struct LaidOut {
    text: Arc<str>,
    edits: Vec<(Span, String)>,
    new: String,
}

impl LaidOut {
    fn of(path: &Path, kind: Kind, text: String) -> Self {
        let id = TextId(0);
        let document = Document::new(id, path.to_owned(), kind, text.into());
        let edits = match kind {
            Kind::Published => Vec::new(),
            Kind::Rig | Kind::Page(_) => snell_syntax::tidy(&document.text, id, &document.passages()),
        };
        let edits: Vec<_> = edits
            .into_iter()
            .map(|edit| (edit.place.span, edit.new))
            .collect();
        Self {
            new: snell_finding::apply(&document.text, edits.iter().cloned()),
            text: document.text,
            edits,
        }
    }

    fn changes(&self) -> bool {
        *self.text != self.new
    }
}

/// Writes what would change as a unified diff.
fn diff(session: &mut Session, path: &Path, laid: &LaidOut) -> io::Result<()> {
    let terminal = Terminal::of(Stream::Out, session.colour);
    let out = &mut session.out;
    let name = path.display().to_string();
    writeln!(out, "{}", terminal.strong(&printable(&format!("--- {name}"))))?;
    writeln!(out, "{}", terminal.strong(&printable(&format!("+++ {name}"))))?;
    for hunk in hunks(&laid.text, &laid.edits) {
        writeln!(out, "{}", terminal.quiet(&hunk.to_string()))?;
        for line in &hunk.lines {
            let (sign, line, style) = match line {
                Line::Kept(line) => (' ', *line, Style::new()),
                Line::Taken(line) => ('-', *line, Style::new().magenta()),
                Line::Put(line) => ('+', line.as_str(), Style::new().cyan()),
            };
            let (line, ended) = line.strip_suffix('\n').map_or((line, false), |line| (line, true));
            writeln!(
                out,
                "{}",
                terminal.paint(&printable(&format!("{sign}{line}")), style)
            )?;
            if !ended {
                writeln!(out, "\\ No newline at end of file")?;
            }
        }
    }
    Ok(())
}
