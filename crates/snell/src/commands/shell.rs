//! `snell shell`: completions for a shell, made from the table of commands.

use super::{Ended, Outcome, Session};
use crate::cli::{Cli, ShellFor};
use clap::CommandFactory;
use std::io::Write;

/// Runs the command.
///
/// # Errors
/// The output cannot be written.
pub fn run(options: &ShellFor, session: &mut Session) -> Outcome {
    // Written in one go: the generator itself panics when its reader goes away.
    let mut script = Vec::new();
    clap_complete::generate(options.shell, &mut Cli::command(), "snell", &mut script);
    session.out.machine().write_all(&script)?;
    Ok(Ended::Well)
}
