//! `snell check`: every finding, in the form that was asked for.

use super::{Ended, Outcome, Session};
use crate::cli::Check;
use crate::forms::{Form, json, junit, lines, sarif, skipped, text};
use crate::inputs;
use crate::mending::{Mended, mend};
use crate::prose::{counted, printable};
use crate::terminal::{Stream, Terminal};
use crate::trouble::Trouble;
use snell_analysis::{Notebook, Wanted};
use snell_finding::{Finding, Level};
use snell_text::TextId;
use snell_view::Places;
use std::collections::HashSet;
use std::io::{self, Write};

/// Runs the command.
///
/// # Errors
/// A path cannot be read, a mended file cannot be written, or the output cannot be written.
pub fn run(options: &Check, session: &mut Session) -> Outcome {
    if options.skipped && !matches!(options.form, Form::Text | Form::Json) {
        return Err(Trouble::NoSkipped);
    }
    let troubles = if options.mend {
        mended(options, session)?
    } else {
        Vec::new()
    };
    let notebook = inputs::open(&options.paths, options.stdin_name.as_deref())?;
    let wanted = if options.skipped {
        Wanted::Skipped
    } else if options.form == Form::Lines {
        Wanted::Bare
    } else {
        Wanted::Found
    };
    let checked = snell_article::examine(&notebook, wanted);
    let findings = checked.findings;
    let places = Places::new(&notebook, &findings);
    let unjudged = options.skipped.then_some(checked.skipped.as_slice());
    let bar = Level::from(options.bar);
    match options.form {
        Form::Text => {
            let mut summary = summary(&notebook, checked.rigs, &findings);
            let terminal = || Terminal::of(Stream::Out, session.colour);
            if !findings.is_empty() {
                text::write(&mut session.out, &findings, &places, &terminal())?;
            }
            if let Some(unjudged) = unjudged {
                skipped::write(&mut session.out, unjudged, &terminal())?;
                summary = format!("{summary}, {}", skipped_rules(skipped::rules(unjudged)));
            }
            writeln!(session.out, "{summary}")?;
        }
        Form::Lines => lines::write(&mut session.out.verbatim(), &findings, &places)?,
        Form::Json => json::write(&mut session.out.machine(), &findings, unjudged, &places)?,
        Form::Sarif => sarif::write(&mut session.out.machine(), &findings, &places)?,
        Form::Junit => junit::write(&mut session.out.machine(), &findings, &places, &notebook, bar)?,
    }
    let found = findings.iter().any(|finding| finding.level >= bar);
    // The program ends here: giving a large notebook back piece by piece would only take time.
    std::mem::forget(notebook);
    // What is left is of use even where a file could not be mended.
    told(troubles).map_or(Ok(Ended::found_if(found)), Err)
}

/// Mends the files and tells what was done; the files that could not be written.
fn mended(options: &Check, session: &mut Session) -> Result<Vec<Trouble>, Trouble> {
    if inputs::is_standard_input(&options.paths)? {
        return Err(Trouble::NothingToMend);
    }
    let mended = mend(&inputs::files(&options.paths)?)?;
    // Programs that read the findings must not stumble over it.
    match options.form {
        Form::Text => tell_mended(&mut session.out, &mended)?,
        Form::Lines | Form::Json | Form::Sarif | Form::Junit => tell_mended(&mut session.err(), &mended)?,
    }
    Ok(mended.troubles)
}

fn tell_mended(out: &mut impl Write, mended: &Mended) -> io::Result<()> {
    for (path, count) in &mended.files {
        let path = path.display().to_string();
        writeln!(
            out,
            "{} in {}",
            counted(*count, "mend", "mends"),
            printable(&path)
        )?;
    }
    for left in &mended.left {
        writeln!(out, "{}", printable(left))?;
    }
    if !mended.files.is_empty() || !mended.left.is_empty() {
        writeln!(out)?;
    }
    Ok(())
}

/// Tells all troubles but the last, which ends the run.
fn told(mut troubles: Vec<Trouble>) -> Option<Trouble> {
    let last = troubles.pop();
    troubles.iter().for_each(Trouble::tell);
    last
}

fn skipped_rules(count: usize) -> String {
    match count {
        0 => "no rule skipped".to_owned(),
        _ => format!("{} skipped", counted(count, "rule", "rules")),
    }
}

/// What was found and in how much, in one line.
fn summary(notebook: &Notebook, rigs: usize, findings: &[Finding]) -> String {
    let touched: HashSet<_> = findings.iter().map(|finding| finding.place().text).collect();
    let files = files(notebook, &touched);
    let read = match (rigs, files) {
        (_, 0) => return "nothing to check: no rig file and no page with a rig fence".to_owned(),
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
    format!(
        "{} in {}; checked {read}",
        counts.join(", "),
        counted(touched.len(), "file", "files")
    )
}

/// How many texts there are with anything to read in them, or with something to tell: a page without a fence has neither.
fn files(notebook: &Notebook, touched: &HashSet<TextId>) -> usize {
    let project = notebook.project();
    let own = project.files().filter(|file| !project.ships(*file));
    let mut texts: HashSet<TextId> = own.map(|file| project.source(file).file.text).collect();
    let told = touched.iter().filter(|text| notebook.document(**text).is_some());
    texts.extend(told);
    texts.len()
}
