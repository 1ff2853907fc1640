//! The story of a season: gone through commit by commit, and laid out for
//! people and programs.

pub mod chart;
mod day;
pub mod json;
pub mod page;
mod read;
pub mod text;

pub use read::{Season, read};

use snell_history::RigStory;
use snell_rig::measure::{self, Kind};
use snell_view::Written;
use snell_view::compare::Card;

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

/// A figure at a moment of the history.
#[derive(Clone, Debug)]
pub struct Point {
    /// The state of the history, as its number.
    pub commit: usize,
    /// The figure; nothing where it is unknown or the rig is gone.
    pub written: Option<Written>,
}

/// How a measure of a rig moved: where it was first told, and each time it changed.
pub fn points(story: &RigStory, measure: &str) -> Vec<Point> {
    let mut points: Vec<Point> = Vec::new();
    for stood in &story.stood {
        let written = stood.card.as_deref().and_then(|card| written(card, measure));
        let value = |written: &Option<Written>| written.as_ref().and_then(|one| one.value);
        let same = points
            .last()
            .is_some_and(|last| value(&last.written) == value(&written));
        if !same {
            points.push(Point {
                commit: stood.commit,
                written,
            });
        }
    }
    points
}

fn written(card: &Card, measure: &str) -> Option<Written> {
    let measures = match measure.split_once('.') {
        Some((fly, _)) => &card.fly(fly)?.measures,
        None => &card.shown.measures,
    };
    measures.get(measure.rsplit('.').next()?).cloned()
}

/// Whether a name is that of a measure of rigs, or of a fly with the fly's name or place before it, that is told in
/// a figure.
pub fn is_measure(name: &str) -> bool {
    let measure = match name.split_once('.') {
        Some((_, name)) => measure::of(Kind::Fly, name),
        None => measure::of_rig(name),
    };
    measure.is_some_and(|measure| matches!(measure.get, measure::Get::Value(_)))
}
