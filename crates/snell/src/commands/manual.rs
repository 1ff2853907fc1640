//! `snell manual`: man pages, made from the table of commands.

use super::{Ended, Outcome, Session};
use crate::cli::{Cli, Manual};
use crate::trouble::Trouble;
use clap::CommandFactory;
use std::fs;
use std::io::Write;

/// Runs the command.
///
/// # Errors
/// The folder or the output cannot be written.
pub fn run(options: &Manual, session: &mut Session) -> Outcome {
    // A page about the word `help` helps nobody.
    let mut command = Cli::command().disable_help_subcommand(true);
    command.build();
    let Some(folder) = &options.folder else {
        let mut page = Vec::new();
        clap_mangen::Man::new(command).render(&mut page)?;
        session.out.machine().write_all(&page)?;
        return Ok(Ended::Well);
    };
    fs::create_dir_all(folder).map_err(|error| Trouble::unwritten(folder, error))?;
    clap_mangen::generate_to(command, folder).map_err(|error| Trouble::unwritten(folder, error))?;
    writeln!(session.out, "wrote the manual pages into {}", folder.display())?;
    Ok(Ended::Well)
}
