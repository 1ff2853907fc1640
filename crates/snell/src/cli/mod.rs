//! The commands and their options, with every word of their help: the one
//! table that parsing, completions and man pages are made from.
//!
//! It knows nothing of what a command does.

mod articles;
mod bank;
mod history;
mod rigs;
mod shown;

pub use articles::{Export, Fill, Mdbook, MdbookQuestion, Pandoc};
pub use bank::{BankForm, Plan, Vary};
pub use history::{Compare, Season};
pub use rigs::{Rigs, UnitsShown};
pub use shown::{Card, CardForm, Cut, CutForm, Draw, Drift, DriftForm, Fit, FitForm, Show};

use crate::forms::Form;
use crate::terminal::Colour;
use clap::{Args, Parser, Subcommand, ValueEnum};
use clap_complete::Shell;
use std::path::PathBuf;

/// Fishing rigs as plain text: checked, laid out and shown.
///
/// A rig file reads like the card one angler writes for another: rod end first, one line a part, a unit on every
/// number. snell reads such files, and the `rig` fences of Markdown pages.
#[derive(Debug, Parser)]
#[command(name = "snell", version, max_term_width = 100)]
#[command(after_help = "Exit status: 0 all is well, 1 something was found, 2 snell could not do its work.")]
pub struct Cli {
    /// When to colour what is printed
    #[arg(long, global = true, value_enum, default_value_t, value_name = "WHEN")]
    pub colour: Colour,
    /// What to do
    #[command(subcommand)]
    pub command: Command,
}

/// The commands.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Check rigs: read them, work them out, say what does not hold together
    Check(Check),
    /// Show a rig from rod to fly, with its measures and what it leaves unsaid
    Show(Show),
    /// Draw a rig to scale, in the terminal or as an SVG or PNG file
    Draw(Draw),
    /// Tell how a rig drifts and sinks in its water, and how deep each fly rides
    Drift(Drift),
    /// Make a card for the pocket: which fly and tippet fish which depth at which speed
    Card(Card),
    /// List what to cut for a rig in tying order, with what its knots and tags take
    Cut(Cut),
    /// Fit a rig to another water: the fewest changes at the bank that make it right
    Fit(Fit),
    /// Tell what a rig comes to with one thing varied, and how sure each difference is
    Vary(Vary),
    /// Plan a day over several waters: what to start with, and the fewest knots from water to water
    Plan(Plan),
    /// Lay files out: indents, columns, plain spelling; what they say stays the same
    Tidy(Tidy),
    /// Explain a word: a unit, measure, knot, material, line of the language or fault
    Why(Why),
    /// Write a first notebook to start from
    Start(Start),
    /// Tell what changed between two states of rigs, part by part and measure by measure
    Compare(Compare),
    /// Tell what became of rigs through git's history: born, changed, renamed, dropped, and what was caught with them
    Season(Season),
    /// Bring the tables, pictures and figures of articles up to date between their markers
    Fill(Fill),
    /// Write all rigs, evaluated, for other programs; or the JSON Schema of what is written
    Export(Export),
    /// Fill the articles of a book: a preprocessor that mdBook calls
    Mdbook(Mdbook),
    /// Fill an article: a filter that pandoc calls
    Pandoc(Pandoc),
    /// Serve an editor: the Language Server Protocol on standard input and output
    Serve(Serve),
    /// Print completions for a shell
    Shell(ShellFor),
    /// Print the manual page, or write the pages of all commands into a folder
    Manual(Manual),
}

/// `snell check`.
#[derive(Debug, Args)]
#[command(
    after_help = "Folders are searched for .rig, .md and .markdown files; hidden files and those that an ignore file names are passed over."
)]
pub struct Check {
    /// Files or folders to check; - reads standard input
    #[arg(default_value = ".", value_name = "PATH")]
    pub paths: Vec<PathBuf>,
    /// The form of the findings
    #[arg(long, value_enum, default_value_t, value_name = "FORM")]
    pub form: Form,
    /// The lightest level that makes the exit status 1
    #[arg(long, value_enum, default_value_t, value_name = "LEVEL")]
    pub bar: Bar,
    /// List the rules that could not be judged, and what the rigs would have to say; in the forms text and json
    #[arg(long)]
    pub skipped: bool,
    /// Make the mends that can only mean what was meant, in the files themselves; what needs a choice is left
    ///
    /// Each file is replaced as a whole and keeps its permissions and line ends. A mend that would raise a
    /// finding elsewhere is not made. How many mends went into each file is told on standard error where the
    /// form is not text.
    #[arg(long)]
    pub mend: bool,
    /// Read standard input as if it were this file: its ending says what it is, its folder where `use` looks
    #[arg(long, value_name = "FILE")]
    pub stdin_name: Option<PathBuf>,
}

/// From which level findings count.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default, ValueEnum)]
pub enum Bar {
    /// Only faults.
    Fault,
    /// Cautions and faults.
    #[default]
    Caution,
    /// Everything that is found.
    Advice,
}

impl From<Bar> for snell_finding::Level {
    fn from(bar: Bar) -> Self {
        match bar {
            Bar::Fault => Self::Fault,
            Bar::Caution => Self::Caution,
            Bar::Advice => Self::Advice,
        }
    }
}

/// `snell tidy`.
#[derive(Debug, Args)]
#[command(
    after_help = "Lines that cannot be read are left as they are; `snell check` says what is wrong with them."
)]
pub struct Tidy {
    /// Files or folders to lay out; - reads standard input and writes to standard output
    #[arg(default_value = ".", value_name = "PATH")]
    pub paths: Vec<PathBuf>,
    /// Change nothing; list the files that would change, and exit with 1 if there are any
    #[arg(long)]
    pub check: bool,
    /// Change nothing; print what would change, line by line
    #[arg(long)]
    pub diff: bool,
    /// Read standard input as if it were this file: its ending says what it is
    #[arg(long, value_name = "FILE")]
    pub stdin_name: Option<PathBuf>,
}

/// `snell why`.
#[derive(Debug, Args)]
pub struct Why {
    /// Words to explain, such as blood, 6X, tippet-ratio, dropper; or a piece of lore to argue: thin-tippet, thin-butt,
    /// heavy-or-slim, tuck-cast, long-tags, close-in
    #[arg(required = true, value_name = "NAME")]
    pub names: Vec<String>,
    /// Argue lore with this rig, in place of one that ships
    #[arg(long, value_name = "RIG")]
    pub rig: Option<String>,
    /// File or folder whose own blocks count as well, as often as wanted; without it, those of this folder, for
    /// words that the language does not have
    #[arg(long = "in", value_name = "PATH")]
    pub within: Vec<PathBuf>,
}

/// `snell start`.
#[derive(Debug, Args)]
pub struct Start {
    /// The folder to write into; it is made if need be, and nothing in it is written over
    #[arg(default_value = ".", value_name = "FOLDER")]
    pub folder: PathBuf,
    /// Set the folder's git repository up to show rigs in their own terms, without asking; files that are there
    /// are kept
    #[arg(long, conflicts_with = "no_git")]
    pub git: bool,
    /// Do not ask about git
    #[arg(long)]
    pub no_git: bool,
}

/// `snell serve`.
#[derive(Debug, Args)]
#[command(after_help = "Editors start it by themselves; how is told in their set-up.")]
pub struct Serve {
    /// Taken for editors that always say so; standard input and output are all there is
    #[arg(long, hide = true)]
    pub stdio: bool,
}

/// `snell shell`.
#[derive(Debug, Args)]
pub struct ShellFor {
    /// The shell
    #[arg(value_enum, value_name = "SHELL")]
    pub shell: Shell,
}

/// `snell manual`.
#[derive(Debug, Args)]
pub struct Manual {
    /// The folder to write all pages into; it is made if need be
    #[arg(value_name = "FOLDER")]
    pub folder: Option<PathBuf>,
}
