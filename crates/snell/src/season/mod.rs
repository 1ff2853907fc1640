//! The story of a season: gone through commit by commit, and laid out for
//! people and programs.

pub mod chart;
pub mod json;
pub mod page;
pub mod progress;
mod read;
pub mod text;

pub use read::{Counted, Season, read};

use notebook::season::{Event, RigStory};
use notebook::view::Written;
use rig::measure;

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
pub const USUAL: [&str; 3] = ["total", "tippet", "weight"];

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
    for event in &story.events {
        let written = written(event, measure);
        let value = |written: &Option<Written>| written.as_ref().and_then(|one| one.value);
        let same = points
            .last()
            .is_some_and(|last| value(&last.written) == value(&written));
        if !same {
            points.push(Point {
                commit: event.commit,
                written,
            });
        }
    }
    points
}

fn written(event: &Event, measure: &str) -> Option<Written> {
    use notebook::season::Happened::{Dropped, Unreadable};
    match event.what {
        Dropped => None,
        Unreadable => event
            .card
            .sound
            .then(|| event.card.shown.measures.get(measure).cloned())
            .flatten(),
        _ => event.card.shown.measures.get(measure).cloned(),
    }
}

/// The measure of rigs of a name, if it is told in a figure.
pub fn measure(name: &str) -> Option<&'static str> {
    let measure = measure::of_rig(name)?;
    matches!(measure.get, measure::Get::Value(_)).then_some(measure.name)
}
