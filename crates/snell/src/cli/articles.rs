//! Options of the commands that feed articles, books and other programs.

use crate::cli::rigs::{Rigs, UnitsShown};
use crate::export::{Form as ExportForm, SchemaOf};
use clap::{Args, Subcommand};
use std::path::PathBuf;

/// `snell fill`.
#[derive(Debug, Args)]
#[command(after_help = "\
A marker is a comment in the Markdown, and what belongs to it is written between it and its end:

  <!-- rig: show harrow-low -->
  <!-- rig: end -->

It asks for `show RIG`, `parts of RIG`, `measures of RIG`, `cut RIG`, `card RIG`, `draw RIG`, `drift RIG` or `compare RIG \
with RIG`, each alone on its lines, or in running text for a figure or a word: `total of RIG`, `length of PART of RIG`, \
`stuff of PART of RIG`, `fly on PART of RIG`, `knot below PART of RIG`, `verdict of RIG`. Behind it may stand `in metric`, \
`in imperial`, `in both`, for a figure also a unit (`in cm`), and behind a picture `into FILE.svg` or `into FILE.png`, and \
`as \"WHAT IT SHOWS\"`.

What is filled gets a checksum in its end. Text that somebody wrote over it is kept, and told with what the rig says.

Rigs are those of the page's own `rig` fences and of the files that these `use`; a page without a fence names a file \
by `<!-- rig: use \"rigs.rig\" -->`, alone on a line.")]
pub struct Fill {
    /// Markdown pages, or folders to search for them; - reads standard input and writes to standard output
    #[arg(default_value = ".", value_name = "ARTICLE")]
    pub articles: Vec<PathBuf>,
    /// Change nothing; list the places that are out of date, and exit with 1 if there are any
    #[arg(long)]
    pub check: bool,
    /// Read standard input as if it were this file: its folder is where `use` looks
    #[arg(long, value_name = "FILE")]
    pub stdin_name: Option<PathBuf>,
}

/// `snell export`.
#[derive(Debug, Args)]
pub struct Export {
    /// The rigs.
    #[command(flatten)]
    pub rigs: Rigs,
    /// The form of the rigs
    #[arg(long, value_enum, default_value_t, value_name = "FORM")]
    pub form: ExportForm,
    /// The units of the texts beside the SI values; without it, those that the author wrote
    #[arg(long, value_enum, value_name = "UNITS")]
    pub units: Option<UnitsShown>,
    /// Print the JSON Schema of a form instead, and read no file
    #[arg(long, value_enum, value_name = "OF", conflicts_with_all = ["named", "within", "form", "units"])]
    pub schema: Option<SchemaOf>,
}

/// `snell mdbook`.
#[derive(Debug, Args)]
#[command(after_help = "Put this into the book's book.toml:

  [preprocessor.snell]
  command = \"snell mdbook\"
  after = [\"links\"]

With `live = \"rigs\"` in it the rigs of its pages are live: the folder src/rigs holds what makes them so.")]
pub struct Mdbook {
    /// What mdBook asks first; without it, a book is read from standard input and written to standard output.
    #[command(subcommand)]
    pub question: Option<MdbookQuestion>,
}

/// What mdBook asks a preprocessor.
#[derive(Debug, Subcommand)]
pub enum MdbookQuestion {
    /// Whether a renderer is served: all are
    Supports {
        /// The renderer
        renderer: String,
    },
}

/// `snell pandoc`.
#[derive(Debug, Args)]
#[command(after_help = "\
  pandoc -t json article.md | snell pandoc | pandoc -f json -o article.html

or, with a link to snell by the name of snell-pandoc on the path:

  pandoc --filter snell-pandoc article.md -o article.html

Pandoc does not say which file it reads: call it in the article's folder, where `use` looks.")]
pub struct Pandoc {
    /// The form that pandoc will write, which it tells every filter
    #[arg(value_name = "FORMAT")]
    pub format: Option<String>,
}
