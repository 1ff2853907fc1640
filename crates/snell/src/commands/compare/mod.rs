//! `snell compare`: what changed between two states of rigs, for people,
//! programs, and git itself.

mod drivers;
mod sides;
mod standing;

use super::{Ended, Outcome, Session};
use crate::cli::Compare;
use crate::comparison::{Form, json, markdown, table, text};
use crate::terminal::{Stream, Terminal};
use crate::trouble::Trouble;
use snell_view::compare::Comparison;
use std::io::Write;

/// Runs the command.
///
/// # Errors
/// A side cannot be read, or the output cannot be written.
pub fn run(options: &Compare, session: &mut Session) -> Outcome {
    if let Some(words) = &options.git_diff {
        return drivers::diff(words, session);
    }
    if let Some(path) = &options.git_text {
        return drivers::text(path, session);
    }
    let comparison = match options.staged {
        true => sides::staged(options.was.as_deref())?,
        false => sides::compared(options.was.as_deref(), options.now.as_deref())?,
    };
    print(&comparison, options.form, session)?;
    Ok(Ended::found_if(!comparison.is_empty()))
}

fn print(comparison: &Comparison, form: Form, session: &mut Session) -> Result<(), Trouble> {
    let terminal = Terminal::of(Stream::Out, session.colour);
    let written = match form {
        Form::Json => return json::write(&mut session.out.machine(), comparison),
        Form::Text => text::write(comparison, &terminal),
        Form::Table => table::write(comparison, &terminal),
        Form::Markdown => markdown::write(comparison),
    };
    session.out.write_all(written.as_bytes())?;
    if comparison.is_empty() {
        writeln!(session.out, "{}", nothing(comparison.same))?;
    }
    Ok(())
}

/// What is said where nothing changed.
fn nothing(same: usize) -> String {
    match same {
        0 => "no rig in either".to_owned(),
        1 => "the rig is the same in both".to_owned(),
        same => format!("all {same} rigs are the same in both"),
    }
}
