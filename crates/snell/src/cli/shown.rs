//! Options of the commands that show, draw and fit rigs.

use crate::cli::rigs::{Rigs, UnitsShown};
use crate::sheet::Form as SheetForm;
use clap::builder::{PossibleValue, PossibleValuesParser};
use clap::{Args, ValueEnum};
use snell_rig::keywords::{Cast, Named};
use std::path::PathBuf;

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
    /// In the table, also what was assumed and what is unknown; the other forms have it always
    #[arg(long)]
    pub all: bool,
    /// With the form markdown: write the pictures as SVG files into this folder, and refer to them
    ///
    /// Most readers of Markdown show no picture that stands in the text itself. Without this, pictures are drawn
    /// in letters, which all of them show. The folder is made if need be; the reference is the folder as it is
    /// given here, and pictures of the same name are written over.
    #[arg(long, value_name = "FOLDER")]
    pub pictures: Option<PathBuf>,
    /// With the form fragment: what the picture shows in your own words, instead of snell's
    #[arg(long, value_name = "TEXT")]
    pub alt: Option<String>,
    /// With the form html: leave out the water and all that rests on it, for a class in which each has a water of
    /// their own
    #[arg(long)]
    pub class: bool,
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
    /// All of it is an estimate; the bars beside the flies show between which depths they may ride, and of a depth
    /// that is a spread the bed is drawn at both ends. A rig without a water has no such picture. Where a water is
    /// told but no drift can be found in it, the rig is drawn dashed, and the picture says what is wanting.
    #[arg(long)]
    pub in_water: bool,
    /// Draw all that is printed of a rig on one sheet: the verdict, the rig, what to cut, the rig in its water, the
    /// waters that it fishes as it is tied, and cautions
    #[arg(long, requires = "out", conflicts_with = "in_water")]
    pub sheet: bool,
    /// The file to draw into, ending in .svg, .png or .pdf; of several rigs, each gets a file with its name put in
    #[arg(short, long, value_name = "FILE")]
    pub out: Option<PathBuf>,
    /// The units of values; without it, those that the author wrote
    #[arg(long, value_enum, value_name = "UNITS")]
    pub units: Option<UnitsShown>,
}

/// What may be another of the water than is written.
#[derive(Debug, Args)]
pub struct OtherWater {
    /// Take another depth than the water has, such as "3 ft" or "80 cm to 1 m"
    #[arg(long, value_name = "LENGTH")]
    pub depth: Option<String>,
    /// Take another speed of the water's surface, such as "2 ft/s"
    #[arg(long, value_name = "SPEED")]
    pub speed: Option<String>,
    /// Take another temperature of the water, such as "8 C"
    #[arg(long, value_name = "TEMPERATURE")]
    pub temperature: Option<String>,
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
    /// What is another of the water.
    #[command(flatten)]
    pub other: OtherWater,
    /// Lay the flies on the water in another way
    #[arg(long, value_parser = casts(), value_name = "CAST")]
    pub cast: Option<String>,
    /// The form
    #[arg(long, value_enum, default_value_t, value_name = "FORM")]
    pub form: DriftForm,
    /// The file to draw into, ending in .svg, .png or .pdf; of several rigs, each gets a file with its name put in
    #[arg(short, long, value_name = "FILE")]
    pub out: Option<PathBuf>,
    /// The units of values; without it, those that the author wrote
    #[arg(long, value_enum, value_name = "UNITS")]
    pub units: Option<UnitsShown>,
}

/// The ways to lay flies on the water, in the words of the language.
fn casts() -> PossibleValuesParser {
    let cast = |cast: &Named| PossibleValue::new(cast.word).help(cast.about);
    PossibleValuesParser::new(Cast::WORDS.iter().map(cast))
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
    #[arg(long, value_parser = casts(), value_name = "CAST")]
    pub cast: Option<String>,
    /// Try only these flies of those in sight; without it, all that the rig's method fishes
    #[arg(long, value_name = "FLY", num_args = 1.., conflicts_with = "beads")]
    pub flies: Vec<String>,
    /// Put a day over these waters on the card, in their order: what to start with, and what to change from one to the next
    #[arg(long, value_name = "WATER", num_args = 1..)]
    pub day: Vec<String>,
    /// Put the trade's bead sizes on the rig's point fly, instead of the flies in sight; so it is done where there are none
    #[arg(long)]
    pub beads: bool,
    /// The form; without it that of the file's ending, or a table
    #[arg(long, value_enum, value_name = "FORM")]
    pub form: Option<CardForm>,
    /// The file to write into, ending in .html, .svg, .png, .pdf, .json or .txt; of several rigs, each picture gets a file with its name put in
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
    /// What is another of the water.
    #[command(flatten)]
    pub other: OtherWater,
    /// Take another bed: its name, or the size of its stones
    #[arg(long, value_name = "BED")]
    pub bed: Option<String>,
    /// Every way, what was assumed, and the rig as it would be kept; the form json has it always
    #[arg(long)]
    pub all: bool,
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
