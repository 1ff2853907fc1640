//! The binary `snell`: reads the command line, runs one command, and turns how
//! it ended into an exit status.

mod article;
mod cli;
mod commands;
mod comparison;
mod cutting;
mod drawing;
mod export;
mod forms;
mod git;
mod inputs;
mod mending;
mod page;
mod picked;
mod progress;
mod prose;
mod scenes;
mod screen;
mod season;
mod sheet;
mod terminal;
mod trouble;
mod unified;
mod write;

use clap::Parser;
use cli::{Cli, Command};
use commands::{Ended, Outcome, Session};
use screen::StandardOutput;
use std::ffi::OsString;
use std::io::Write;
use std::path::Path;
use std::process::ExitCode;

/// The tool could not do its work.
const NOT_DONE: u8 = 2;
/// Something was found.
const FOUND: u8 = 1;

fn main() -> ExitCode {
    let cli = Cli::parse_from(words());
    let mut session = Session {
        out: StandardOutput::stdout(cli.colour),
        colour: cli.colour,
    };
    let ended = run(cli.command, &mut session);
    let flushed = session.out.flush();
    match ended.and_then(|ended| Ok(flushed.map(|()| ended)?)) {
        Ok(Ended::Well) => ExitCode::SUCCESS,
        Ok(Ended::Found) => FOUND.into(),
        // Whoever read the output has seen enough.
        Err(trouble) if trouble.is_broken_pipe() => ExitCode::SUCCESS,
        Err(trouble) => {
            trouble.tell();
            NOT_DONE.into()
        }
    }
}

/// Programs that a filter or preprocessor is named to without arguments, each with the command that it means.
const NAMES: [(&str, &str); 2] = [("snell-pandoc", "pandoc"), ("mdbook-snell", "mdbook")];

/// The words of the command line; called by another name, the command that the name means comes first.
fn words() -> Vec<OsString> {
    let mut words: Vec<OsString> = std::env::args_os().collect();
    let name = words
        .first()
        .and_then(|path| Path::new(path).file_stem())
        .unwrap_or_default();
    let meant = NAMES.iter().find(|(known, _)| name == *known);
    if let Some((_, command)) = meant {
        words.insert(1, OsString::from(command));
    }
    words
}

fn run(command: Command, session: &mut Session) -> Outcome {
    match command {
        Command::Check(options) => commands::check::run(&options, session),
        Command::Show(options) => commands::show::run(&options, session),
        Command::Draw(options) => commands::draw::run(&options, session),
        Command::Drift(options) => commands::drift::run(&options, session),
        Command::Card(options) => commands::card::run(&options, session),
        Command::Cut(options) => commands::cut::run(&options, session),
        Command::Fit(options) => commands::fit::run(&options, session),
        Command::Plan(options) => commands::plan::run(&options, session),
        Command::Vary(options) => commands::vary::run(&options, session),
        Command::Tidy(options) => commands::tidy::run(&options, session),
        Command::Why(options) => commands::why::run(&options, session),
        Command::Start(options) => commands::start::run(&options, session),
        Command::Compare(options) => commands::compare::run(&options, session),
        Command::Season(options) => commands::season::run(&options, session),
        Command::Fill(options) => commands::fill::run(&options, session),
        Command::Mdbook(options) => commands::mdbook::run(&options, session),
        Command::Pandoc(options) => commands::pandoc::run(&options, session),
        Command::Export(options) => commands::export::run(&options, session),
        Command::Serve(options) => commands::serve::run(&options),
        Command::Shell(options) => commands::shell::run(&options, session),
        Command::Manual(options) => commands::manual::run(&options, session),
    }
}
