//! `snell tidy`: files laid out in place, or only what would change.
//!
//! How a line is laid out is not known here.

use super::{Ended, Outcome, Session};
use crate::cli::Tidy;
use crate::prose::{counted, printable};
use crate::terminal::{Stream, Terminal};
use crate::trouble::Trouble;
use crate::{inputs, write};
use owo_colors::Style;
use similar::{ChangeTag, TextDiff};
use snell_analysis::{Disk, Document, Kind, LocalDisk};
use snell_text::TextId;
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::time::Duration;

/// Texts that take longer are compared more roughly.
const PATIENCE: Duration = Duration::from_secs(2);
/// Lines shown above and below a change.
const AROUND: usize = 3;

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
    let (text, new) = laid_out(path, kind, text);
    if *text == new {
        return Ok(false);
    }
    if options.diff {
        diff(session, path, &text, &new)?;
    } else if options.check {
        writeln!(session.out, "{}", path.display())?;
    } else {
        write::replace(path, &text, &new).map_err(|unwritten| Trouble::unwritten(path, unwritten))?;
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
    let (text, new) = laid_out(&path, kind, inputs::standard_input()?);
    let changes = *text != new;
    if options.diff {
        diff(session, &path, &text, &new)?;
    } else if !options.check {
        write!(session.out.machine(), "{new}")?;
    } else if changes {
        writeln!(session.out, "{}", path.display())?;
    }
    Ok(Ended::found_if(options.check && changes))
}

/// A text as it was read, and laid out.
fn laid_out(path: &Path, kind: Kind, text: String) -> (std::sync::Arc<str>, String) {
    if kind == Kind::Published {
        return (text.as_str().into(), text);
    }
    let id = TextId(0);
    let document = Document::new(id, path.to_owned(), kind, text.into());
    let edits = snell_syntax::tidy(&document.text, id, &document.passages());
    let edits = edits.into_iter().map(|edit| (edit.place.span, edit.new));
    let new = snell_finding::apply(&document.text, edits);
    (document.text, new)
}

/// Writes what would change as a unified diff.
fn diff(session: &mut Session, path: &Path, old: &str, new: &str) -> io::Result<()> {
    let terminal = Terminal::of(Stream::Out, session.colour);
    let out = &mut session.out;
    let diff = TextDiff::configure().timeout(PATIENCE).diff_lines(old, new);
    let name = path.display().to_string();
    writeln!(out, "{}", terminal.strong(&printable(&format!("--- {name}"))))?;
    writeln!(out, "{}", terminal.strong(&printable(&format!("+++ {name}"))))?;
    for hunk in diff.unified_diff().context_radius(AROUND).iter_hunks() {
        writeln!(out, "{}", terminal.quiet(&hunk.header().to_string()))?;
        for change in hunk.iter_changes() {
            let line = change.value();
            let ended = line.ends_with('\n');
            let line = format!("{}{}", change.tag(), line.strip_suffix('\n').unwrap_or(line));
            let style = match change.tag() {
                ChangeTag::Equal => Style::new(),
                ChangeTag::Delete => Style::new().magenta(),
                ChangeTag::Insert => Style::new().cyan(),
            };
            writeln!(out, "{}", terminal.paint(&printable(&line), style))?;
            if !ended {
                writeln!(out, "\\ No newline at end of file")?;
            }
        }
    }
    Ok(())
}
