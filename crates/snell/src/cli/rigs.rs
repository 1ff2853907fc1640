//! Which rigs a command is about, and the units that it shows them in.

use clap::{Args, ValueEnum};
use std::path::PathBuf;

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
