//! The story of a season: gone through commit by commit, and laid out for
//! people and programs.

pub mod chart;
mod day;
mod estimates;
pub mod json;
pub mod page;
mod read;
mod reader;
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
    /// A chart of the measures as SVG.
    Svg,
    /// One HTML page with the chart, which needs nothing else.
    Html,
}

/// What is told where nobody chooses.
pub const USUAL: [&str; 4] = ["total", "tippet", "weight", "point.rides"];
