//! `snell why`: what names mean, as short pages.

use super::{Ended, Outcome, Session};
use crate::cli::Why;
use crate::prose::{pad, printable, width, wrap};
use crate::terminal::{Stream, Terminal};
use crate::trouble::Trouble;
use notebook::{Explained, explain};
use std::io::Write;

/// Beyond this a line of prose is hard to read back from.
const WIDEST: usize = 100;

/// Runs the command.
///
/// # Errors
/// A name means nothing, or the output cannot be written.
pub fn run(options: &Why, session: &mut Session) -> Outcome {
    let mut pages = Vec::new();
    for name in &options.names {
        let explained = explain(name).map_err(|near| Trouble::Unknown {
            what: "word",
            name: name.clone(),
            places: "the language or what ships with it".to_owned(),
            near,
        })?;
        pages.extend(explained);
    }
    let terminal = Terminal::of(Stream::Out, session.colour);
    for (index, page) in pages.iter().enumerate() {
        let before = if index == 0 { "" } else { "\n" };
        write!(session.out, "{before}{}", written(page, &terminal))?;
    }
    Ok(Ended::Well)
}

fn written(page: &Explained, terminal: &Terminal) -> String {
    let room = terminal.width.min(WIDEST);
    let mut text = format!("{}, {}\n", terminal.strong(&printable(&page.name)), terminal.quiet(&page.kind));
    for line in wrap(&printable(&page.about), room - 2) {
        text.push_str(&format!("  {line}\n"));
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
