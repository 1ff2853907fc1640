//! `snell why`: what names mean, as short pages.

use super::{Ended, Outcome, Session};
use crate::cli::{Rigs, Why};
use crate::inputs;
use crate::picked::Picked;
use crate::prose::{WIDEST, pad, printable, width, wrap};
use crate::sheet::vary;
use crate::terminal::{Stream, Terminal};
use crate::trouble::Trouble;
use snell_analysis::{Explained, LocalDisk, explain, explain_in};
use snell_view::lore::{Lore, lore};
use std::io::Write;
use std::path::PathBuf;

/// Runs the command.
///
/// # Errors
/// A name means nothing, or the output cannot be written.
pub fn run(options: &Why, session: &mut Session) -> Outcome {
    let terminal = Terminal::of(Stream::Out, session.colour);
    let mut pages = Vec::new();
    for name in &options.names {
        match lore(name) {
            Some(lore) => pages.push(argued(lore, options, &terminal)?),
            None => {
                let explained = explained(name, &options.within)?;
                pages.extend(explained.iter().map(|page| written(page, &terminal)));
            }
        }
    }
    for (index, page) in pages.iter().enumerate() {
        let before = if index == 0 { "" } else { "\n" };
        write!(session.out, "{before}{page}")?;
    }
    Ok(Ended::Well)
}

/// A piece of lore, with the table that argues it for the rig that is asked for, or for one that ships.
fn argued(lore: &Lore, options: &Why, terminal: &Terminal) -> Result<String, Trouble> {
    let tables = match &options.rig {
        None => lore.of_the_pair(&LocalDisk),
        Some(rig) => {
            let within = match options.within.is_empty() {
                true => vec![PathBuf::from(".")],
                false => options.within.clone(),
            };
            let named = vec![rig.clone()];
            let picked = Picked::read(&Rigs { named, within })?;
            lore.of(&picked.notebook, &LocalDisk, |name, file| {
                picked.takes(name, file)
            })
        }
    };
    let page = Explained {
        kind: "what is said, and what comes out".to_owned(),
        name: lore.name.to_owned(),
        file: None,
        about: lore.page.replace('\n', " "),
        facts: Vec::new(),
    };
    let mut text = written(&page, terminal);
    for table in tables.map_err(Trouble::NoQuantity)? {
        text.push('\n');
        text.push_str(&vary::write(&table, terminal));
    }
    Ok(text)
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
