//! `snell why`: what names mean, as short pages.

use super::{Ended, Outcome, Session};
use crate::cli::Why;
use crate::inputs;
use crate::prose::{WIDEST, pad, printable, width, wrap};
use crate::terminal::{Stream, Terminal};
use crate::trouble::Trouble;
use snell_analysis::{Explained, explain, explain_in};
use std::io::Write;
use std::path::PathBuf;

/// Runs the command.
///
/// # Errors
/// A name means nothing, or the output cannot be written.
pub fn run(options: &Why, session: &mut Session) -> Outcome {
    let mut pages = Vec::new();
    for name in &options.names {
        pages.extend(explained(name, &options.within)?);
    }
    let terminal = Terminal::of(Stream::Out, session.colour);
    for (index, page) in pages.iter().enumerate() {
        let before = if index == 0 { "" } else { "\n" };
        write!(session.out, "{before}{}", written(page, &terminal))?;
    }
    Ok(Ended::Well)
}

/// What a name means to the language; only for a name that it does not have, what it means to the files.
fn explained(name: &str, within: &[PathBuf]) -> Result<Vec<Explained>, Trouble> {
    if within.is_empty() {
        let here = [PathBuf::from(".")];
        return explain(name).or_else(|near| {
            let notebook = inputs::open(&here, None);
            // Files that cannot be read have no say in what a word means.
            let found = notebook.map_or(Err(near), |notebook| explain_in(&notebook, name));
            found.map_err(|near| unknown(name, near))
        });
    }
    let notebook = inputs::open(within, None)?;
    explain_in(&notebook, name).map_err(|near| unknown(name, near))
}

fn unknown(name: &str, near: Option<String>) -> Trouble {
    Trouble::Unknown {
        what: "word",
        name: name.to_owned(),
        places: "the language, what ships with it, or your files".to_owned(),
        near,
    }
}

fn written(page: &Explained, terminal: &Terminal) -> String {
    let room = terminal.width.min(WIDEST);
    let kind = match &page.file {
        Some(file) => format!("{} of {}", page.kind, file.display()),
        None => page.kind.clone(),
    };
    let mut text = format!(
        "{}, {}\n",
        terminal.strong(&printable(&page.name)),
        terminal.quiet(&kind)
    );
    let paragraphs = page
        .about
        .split("\n\n")
        .filter(|paragraph| !paragraph.trim().is_empty());
    for (index, paragraph) in paragraphs.enumerate() {
        if index > 0 {
            text.push('\n');
        }
        for line in wrap(&printable(paragraph), room - 2) {
            text.push_str(&format!("  {line}\n"));
        }
    }
    let column = page.facts.iter().map(|(word, _)| width(word)).max().unwrap_or(0);
    for (word, fact) in &page.facts {
        let mut word = format!("  {}  ", terminal.quiet(&pad(word, column)));
        for line in wrap(&printable(fact), room.saturating_sub(column + 4)) {
            text.push_str(&format!("{word}{line}\n"));
            word = " ".repeat(column + 4);
        }
    }
    text
}
