//! The commands and their options, with every word of their help: the one
//! table that parsing, completions and man pages are made from.
//!
//! It knows nothing of what a command does.

use crate::comparison::Form as ComparisonForm;
use crate::export::{Form as ExportForm, SchemaOf};
use crate::forms::Form;
use crate::season::Form as SeasonForm;
use crate::sheet::Form as SheetForm;
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

impl From<Bar> for report::Level {
    fn from(bar: Bar) -> Self {
        match bar {
            Bar::Fault => Self::Fault,
            Bar::Caution => Self::Caution,
            Bar::Advice => Self::Advice,
        }
    }
}

/// Which rigs a command is about.
#[derive(Debug, Args)]
pub struct Rigs {
    /// Rigs by name or as FILE:RIG, or files and folders for all of their rigs; without any, all rigs in sight
    #[arg(value_name = "RIG")]
    pub named: Vec<String>,
    /// File or folder in which rigs are looked up by name, as often as wanted; - reads standard input
    #[arg(long = "in", value_name = "PATH", default_value = ".")]
    pub within: Vec<PathBuf>,
}

/// `snell show`.
#[derive(Debug, Args)]
pub struct Show {
    /// The rigs.
    #[command(flatten)]
    pub rigs: Rigs,
    /// The units of values; without it, those that the author wrote
    #[arg(long, value_enum, value_name = "UNITS")]
    pub units: Option<UnitsShown>,
    /// The form of the rigs
    #[arg(long, value_enum, default_value_t, value_name = "FORM")]
    pub form: SheetForm,
    /// With the form markdown: write the pictures as SVG files into this folder, and refer to them
    ///
    /// Most readers of Markdown show no picture that stands in the text itself. Without this, pictures are drawn
    /// in letters, which all of them show. The folder is made if need be; the reference is the folder as it is
    /// given here, and pictures of the same name are written over.
    #[arg(long, value_name = "FOLDER")]
    pub pictures: Option<PathBuf>,
}

/// `snell draw`.
#[derive(Debug, Args)]
pub struct Draw {
    /// The rigs.
    #[command(flatten)]
    pub rigs: Rigs,
    /// Draw the rig in its water: the line in the steady drift, where each fly rides, the water's speed, the bed,
    /// and the line in the air where the rig says its reach
    ///
    /// All of it is an estimate; the bars beside the flies show between which depths they may ride. A rig without
    /// a water has no such picture. Where a water is told but no drift can be found in it, the water is drawn
    /// and the picture says what is wanting.
    #[arg(long)]
    pub in_water: bool,
    /// The file to draw into, ending in .svg or .png; of several rigs, each gets a file with its name put in
    #[arg(short, long, value_name = "FILE")]
    pub out: Option<PathBuf>,
    /// The units of values; without it, those that the author wrote
    #[arg(long, value_enum, value_name = "UNITS")]
    pub units: Option<UnitsShown>,
}

/// `snell drift`.
#[derive(Debug, Args)]
#[command(
    after_help = "All of it is an estimate: depths in a real stream are off by 5 to 10 cm, times by a third, and more where a fly was not timed in still water (`snell why sinks` says how). What a drift says is no word on where to stand: wade by what the river shows, not by a figure."
)]
pub struct Drift {
    /// The rigs.
    #[command(flatten)]
    pub rigs: Rigs,
    /// Take another depth than the rig's water has, such as "3 ft" or "80 cm"
    #[arg(long, value_name = "LENGTH")]
    pub depth: Option<String>,
    /// Take another speed of the water's surface, such as "2 ft/s"
    #[arg(long, value_name = "SPEED")]
    pub speed: Option<String>,
    /// Take another temperature of the water, such as "8 C"
    #[arg(long, value_name = "TEMPERATURE")]
    pub temperature: Option<String>,
    /// Lay the flies on the water in another way
    #[arg(long, value_enum, value_name = "CAST")]
    pub cast: Option<Cast>,
    /// The form
    #[arg(long, value_enum, default_value_t, value_name = "FORM")]
    pub form: DriftForm,
    /// The file to draw into, ending in .svg or .png; of several rigs, each gets a file with its name put in
    #[arg(short, long, value_name = "FILE")]
    pub out: Option<PathBuf>,
    /// The units of values; without it, those that the author wrote
    #[arg(long, value_enum, value_name = "UNITS")]
    pub units: Option<UnitsShown>,
}

/// How the flies are laid on the water, in the words of the language.
#[derive(Clone, Copy, PartialEq, Eq, Debug, ValueEnum)]
pub enum Cast {
    /// Flies first, slack line above them.
    Tuck,
    /// Straight, the flies upstream.
    Up,
    /// Straight, the flies downstream.
    Down,
}

impl Cast {
    /// Its word in the language.
    pub fn word(self) -> &'static str {
        match self {
            Self::Tuck => "tuck",
            Self::Up => "up",
            Self::Down => "down",
        }
    }
}

/// The forms of a drift.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default, ValueEnum)]
pub enum DriftForm {
    /// Figures and a plot for people.
    #[default]
    Table,
    /// JSON: what was taken, the steady state, and the sink as a series.
    Json,
}

/// `snell card`.
#[derive(Debug, Args)]
#[command(
    after_help = "A cell says the lightest fly that is down in time and is not dragged, by the rules sink-late and fly-drags as the rig's rulebooks have them, the tippet that goes under water, and the seconds until it is down. All of it is an estimate (`snell why card`), and no word on where to stand: cells over the limits of the rule wading are marked."
)]
pub struct Card {
    /// The rigs.
    #[command(flatten)]
    pub rigs: Rigs,
    /// Depths of the water, such as "2 ft" "3 ft", or spreads of them, such as "1 ft to 6 ft" [default: 1 to 6 ft, or 0.3 to 1.8 m]
    #[arg(long, value_name = "LENGTH", num_args = 1..)]
    pub depths: Vec<String>,
    /// Speeds of its surface, or spreads of them [default: 0.5 to 4 ft/s, or 0.2 to 1.2 m/s]
    #[arg(long, value_name = "SPEED", num_args = 1..)]
    pub speeds: Vec<String>,
    /// Take another bed than the rig's water has: one that ships, such as cobble, or a size of grain
    #[arg(long, value_name = "BED")]
    pub bed: Option<String>,
    /// Take another temperature of the water, such as "8 C"
    #[arg(long, value_name = "TEMPERATURE")]
    pub temperature: Option<String>,
    /// Take another length of the run that is fished, such as "20 ft"
    #[arg(long, value_name = "LENGTH")]
    pub run: Option<String>,
    /// Lay the flies on the water in another way
    #[arg(long, value_enum, value_name = "CAST")]
    pub cast: Option<Cast>,
    /// Try only these flies of those in sight
    #[arg(long, value_name = "FLY", num_args = 1.., conflicts_with = "beads")]
    pub flies: Vec<String>,
    /// Put the trade's bead sizes on the rig's point fly, instead of the flies in sight; so it is done where there are none
    #[arg(long)]
    pub beads: bool,
    /// The form; without it that of the file's ending, or a table
    #[arg(long, value_enum, value_name = "FORM")]
    pub form: Option<CardForm>,
    /// The file to write into, ending in .html, .svg, .png, .json or .txt; of several rigs, each picture gets a file with its name put in
    #[arg(short, long, value_name = "FILE")]
    pub out: Option<PathBuf>,
    /// The units of values; without it, those that the author wrote
    #[arg(long, value_enum, value_name = "UNITS")]
    pub units: Option<UnitsShown>,
}

/// The forms of a card.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default, ValueEnum)]
pub enum CardForm {
    /// For the terminal.
    #[default]
    Table,
    /// A page for the printer, one sheet of A5 a card; legible on A6.
    Html,
    /// A picture for the printer.
    Svg,
    /// JSON, with every figure in SI beside the text.
    Json,
}

impl CardForm {
    /// The form that a file's ending says.
    pub fn of(ending: &str) -> Self {
        match ending {
            "html" | "htm" => Self::Html,
            "svg" => Self::Svg,
            "json" => Self::Json,
            _ => Self::Table,
        }
    }
}

/// `snell cut`.
#[derive(Debug, Args)]
#[command(
    after_help = "Lengths are rounded up to half an inch or a centimetre. What a knot takes is the `uses` line of its block: measure yours and write it down. Take cut ends home; line in the grass snares birds."
)]
pub struct Cut {
    /// The rigs.
    #[command(flatten)]
    pub rigs: Rigs,
    /// Take what is cut off the `left` lines of the spools; without it, nothing is written
    #[arg(long)]
    pub take: bool,
    /// The units of values; without it, those that the author wrote
    #[arg(long, value_enum, value_name = "UNITS")]
    pub units: Option<UnitsShown>,
    /// The form of the list
    #[arg(long, value_enum, default_value_t, value_name = "FORM")]
    pub form: CutForm,
}

/// The forms of a tying list.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default, ValueEnum)]
pub enum CutForm {
    /// For people.
    #[default]
    Table,
    /// JSON, with every length in SI beside the text.
    Json,
}

/// `snell fit`.
#[derive(Debug, Args)]
#[command(
    after_help = "What is changed: the length of a tippet or a tag, a fly for another of the box (the flies that the rig's file sees) or one with another bead, the cast; never more than three of them. A rig is right when nothing above advice is found of it that a change could remove, it drifts, and its point comes to its height off the bed. All of that is reckoned from estimates: look at the river. Exit status 1 says that no set of changes makes a rig right."
)]
pub struct Fit {
    /// The rigs.
    #[command(flatten)]
    pub rigs: Rigs,
    /// The water: a name in the notebook; without it, the rig's own
    #[arg(long, value_name = "WATER")]
    pub water: Option<String>,
    /// Take another depth than the water has, such as "3 ft" or "80 cm to 1 m"
    #[arg(long, value_name = "LENGTH")]
    pub depth: Option<String>,
    /// Take another speed of the water's surface, such as "2 ft/s"
    #[arg(long, value_name = "SPEED")]
    pub speed: Option<String>,
    /// Take another temperature of the water, such as "8 C"
    #[arg(long, value_name = "TEMPERATURE")]
    pub temperature: Option<String>,
    /// Take another bed: its name, or the size of its stones
    #[arg(long, value_name = "BED")]
    pub bed: Option<String>,
    /// Add the rig with the changes made to the file of the one that it is made from
    #[arg(long)]
    pub write: bool,
    /// Which of the ways is added
    #[arg(long, value_name = "NUMBER", default_value_t = 1, value_parser = clap::value_parser!(u8).range(1..))]
    pub way: u8,
    /// The name of the rig that is added; without it, the rig's with the water's behind it
    #[arg(long, value_name = "NAME")]
    pub name: Option<String>,
    /// The form
    #[arg(long, value_enum, default_value_t, value_name = "FORM")]
    pub form: FitForm,
    /// The units of values; without it, those that the author wrote
    #[arg(long, value_enum, value_name = "UNITS")]
    pub units: Option<UnitsShown>,
}

/// The forms of a fit.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default, ValueEnum)]
pub enum FitForm {
    /// For people.
    #[default]
    Table,
    /// JSON, with every figure in SI beside the text.
    Json,
}

/// The units that values are shown in.
#[derive(Clone, Copy, PartialEq, Eq, Debug, ValueEnum)]
pub enum UnitsShown {
    /// Feet, inches, pounds.
    Imperial,
    /// Metres, millimetres, grams.
    Metric,
    /// The author's, with the others behind them.
    Both,
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
    /// Words to explain, such as blood, 6X, tippet-ratio, dropper
    #[arg(required = true, value_name = "NAME")]
    pub names: Vec<String>,
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

/// `snell compare`.
#[derive(Debug, Args)]
#[command(
    after_help = "A and B are each a file, a folder, FILE:RIG, a git revision, REV:FILE or REV:FILE:RIG. With \
    A alone, a path is held against what was committed last, and a revision against the working tree; with neither, \
    the working tree against what was committed last. Exit status 1 says that something changed."
)]
pub struct Compare {
    /// The earlier state
    #[arg(value_name = "A")]
    pub was: Option<String>,
    /// The later state
    #[arg(value_name = "B")]
    pub now: Option<String>,
    /// The form of what changed
    #[arg(long, value_enum, default_value_t, value_name = "FORM")]
    pub form: ComparisonForm,
    /// Be git's external diff: the words that follow are those that git gives it
    #[arg(
        long,
        value_name = "GIT",
        num_args = 1..,
        allow_hyphen_values = true,
        conflicts_with_all = ["was", "now", "git_text"]
    )]
    pub git_diff: Option<Vec<String>>,
    /// Be git's textconv: print the rigs of a file, evaluated, in lines that can be compared
    #[arg(long, value_name = "FILE", conflicts_with_all = ["was", "now"])]
    pub git_text: Option<PathBuf>,
}

/// `snell season`.
#[derive(Debug, Args)]
pub struct Season {
    /// The file or folder whose rigs are told; it may be gone by now
    #[arg(default_value = ".", value_name = "PATH")]
    pub path: PathBuf,
    /// Tell only these rigs, by any name that they had
    #[arg(long = "rig", value_name = "RIG", num_args = 1..)]
    pub rigs: Vec<String>,
    /// Measures whose ways are followed; of a fly by its name or place, such as `point.rides` [default: total tippet weight point.rides]
    #[arg(long = "measure", value_name = "MEASURE", num_args = 1..)]
    pub measures: Vec<String>,
    /// The form of the season
    #[arg(long, value_enum, default_value_t, value_name = "FORM")]
    pub form: SeasonForm,
    /// Tell as well who made each change
    #[arg(long)]
    pub who: bool,
    /// The revision that the season ends with
    #[arg(long, default_value = "HEAD", value_name = "REVISION")]
    pub until: String,
}

/// `snell fill`.
#[derive(Debug, Args)]
#[command(after_help = "\
A marker is a comment in the Markdown, and what belongs to it is written between it and its end:

  <!-- rig: show harrow-low -->
  <!-- rig: end -->

It asks for `show RIG`, `parts of RIG`, `measures of RIG`, `draw RIG`, `drift RIG` or `cut RIG`, each alone on its \
lines, or in running text for one figure: `total of RIG`, `length of PART of RIG`. Behind it may stand `in metric`, \
`in imperial`, `in both`, for a figure also a unit (`in cm`), and behind a picture `into FILE.svg`.

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
  after = [\"links\"]")]
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
