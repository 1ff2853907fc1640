//! `snell check`: every finding, in the form that was asked for.

use super::{Ended, Outcome, Session};
use crate::cli::Check;
use crate::forms::places::Places;
use crate::forms::{Form, json, lines, text};
use crate::inputs;
use crate::prose::counted;
use crate::terminal::{Stream, Terminal};
use notebook::Notebook;
use report::{Finding, Level};
use std::collections::HashSet;
use std::io::Write;

/// Runs the command.
///
/// # Errors
/// A path cannot be read, or the output cannot be written.
pub fn run(options: &Check, session: &mut Session) -> Outcome {
    let notebook = inputs::open(&options.paths, options.stdin_name.as_deref())?;
    let checked = notebook::examine(&notebook, notebook::Wanted::Found);
    let findings = checked.findings;
    let places = Places::new(&notebook, &findings);
    match options.form {
        Form::Text => {
            if !findings.is_empty() {
                let terminal = Terminal::of(Stream::Out, session.colour);
                text::write(&mut session.out, &findings, &places, &terminal)?;
            }
            writeln!(session.out, "{}", summary(&notebook, checked.rigs, &findings))?;
        }
        Form::Lines => lines::write(&mut session.out, &findings, &places)?,
        Form::Json => json::write(&mut session.out, &findings, &places)?,
    }
    let bar = Level::from(options.bar);
    Ok(Ended::found_if(
        findings.iter().any(|finding| finding.level >= bar),
    ))
}

/// What was found and in how much, in one line.
fn summary(notebook: &Notebook, rigs: usize, findings: &[Finding]) -> String {
    let files = files(notebook);
    let read = match (rigs, files) {
        (_, 0) => return "nothing to check: no rig file and no Markdown page with a rig fence".to_owned(),
        (0, _) => counted(files, "file", "files"),
        _ => format!(
            "{} in {}",
            counted(rigs, "rig", "rigs"),
            counted(files, "file", "files")
        ),
    };
    if findings.is_empty() {
        return format!("{read}, nothing to mend");
    }
    let count = |level| findings.iter().filter(|finding| finding.level == level).count();
    let levels = [
        (Level::Fault, "fault", "faults"),
        (Level::Caution, "caution", "cautions"),
        (Level::Advice, "advice", "advice"),
    ];
    let counts: Vec<String> = levels
        .into_iter()
        .map(|(level, one, many)| (count(level), one, many))
        .filter(|(count, _, _)| *count > 0)
        .map(|(count, one, many)| counted(count, one, many))
        .collect();
    let touched: HashSet<_> = findings.iter().map(|finding| finding.place().text).collect();
    format!(
        "{} in {}; checked {read}",
        counts.join(", "),
        counted(touched.len(), "file", "files")
    )
}

/// How many texts there are with anything to read in them: a page without a fence has nothing.
fn files(notebook: &Notebook) -> usize {
    let project = notebook.project();
    let own = project.files().filter(|file| !project.ships(*file));
    own.map(|file| project.source(file).file.text)
        .collect::<HashSet<_>>()
        .len()
}
