//! The story of a season: gone through commit by commit, and laid out for
//! people and programs.

mod ahead;
pub mod chart;
pub mod csv;
mod day;
mod estimates;
pub mod json;
pub mod page;
mod read;
mod reader;
mod state;
pub mod text;
mod words;

pub use read::{Wanted, read};

/// The forms of a season.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default, clap::ValueEnum)]
pub enum Form {
    /// Tables for people.
    #[default]
    Table,
    /// JSON, with values in SI beside the author's own text.
    Json,
    /// Comma-separated values: each line one thing that happened, a figure or fish.
    Csv,
    /// How figures moved, as SVG.
    Svg,
    /// One HTML page that needs nothing else.
    Html,
}

/// What is told where nobody chooses.
pub const USUAL: [&str; 4] = ["total", "tippet", "weight", "point.rides"];
