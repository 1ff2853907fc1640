//! Options of the commands that ask what if: one thing varied, and a day over several waters.

use crate::cli::rigs::UnitsShown;
use clap::{Args, ValueEnum};
use std::path::PathBuf;

/// `snell vary`.
#[derive(Debug, Args)]
#[command(
    after_help = "WHAT is a part by its label, its role or its place (upper, tippet, butt, point, dropper), a line of the rig (cast, reach, wind, rod, …), or a figure of its water (depth, speed, temperature, bed). A size keeps the material of the piece, a bead the hook and the metal of the fly.\n\n  snell vary harrow-low tippet 5X 6X 7X\n  snell vary harrow-low point 2.4 mm 2.8 mm 3.3 mm\n  snell vary harrow-low cast tuck up\n\nEvery difference is reckoned on the same draws of what is not known well, so that the errors which both have cancel: sure where 95 of 100 agree, likely where 80 do. All of it is an estimate."
)]
pub struct Vary {
    /// The rig, by name or as FILE:RIG; - reads standard input
    #[arg(value_name = "RIG")]
    pub rig: String,
    /// What is varied
    #[arg(value_name = "WHAT")]
    pub target: String,
    /// What it is to be, one after the other
    #[arg(value_name = "VALUE", num_args = 1.., required = true)]
    pub values: Vec<String>,
    /// File or folder in which the rig is looked up by name, as often as wanted; - reads standard input
    #[arg(long = "in", value_name = "PATH", default_value = ".")]
    pub within: Vec<PathBuf>,
    /// How it is told.
    #[command(flatten)]
    pub told: Told,
}

/// How these commands tell what they find.
#[derive(Debug, Args)]
pub struct Told {
    /// The form
    #[arg(long, value_enum, default_value_t, value_name = "FORM")]
    pub form: BankForm,
    /// The units of values; without it, those that the author wrote
    #[arg(long, value_enum, value_name = "UNITS")]
    pub units: Option<UnitsShown>,
}

/// The forms of what these commands tell.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default, ValueEnum)]
pub enum BankForm {
    /// A table for people.
    #[default]
    Table,
    /// JSON, with every figure in SI beside the text.
    Json,
}

/// `snell plan`.
#[derive(Debug, Args)]
#[command(
    after_help = "The waters are those of the notebook, by name, in the order in which they are fished; without any, all of the rig's file in their order. A fly, a tag or a piece that is trimmed is one knot, a piece that becomes longer two, another cast none. What the first water wants is tied at home and not counted. All of it is an estimate, and no word on where to stand."
)]
pub struct Plan {
    /// The rig, by name or as FILE:RIG
    #[arg(value_name = "RIG")]
    pub rig: String,
    /// The waters of the day, by name, in their order
    #[arg(value_name = "WATER")]
    pub waters: Vec<String>,
    /// File or folder in which rig and waters are looked up, as often as wanted; - reads standard input
    #[arg(long = "in", value_name = "PATH", default_value = ".")]
    pub within: Vec<PathBuf>,
    /// How it is told.
    #[command(flatten)]
    pub told: Told,
}
