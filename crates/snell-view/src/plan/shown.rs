//! A day over several waters, as it is shown.

use crate::verdict::shown::ShownVerdict;
use schemars::JsonSchema;
use serde::Serialize;

/// A rig through a day.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct ShownPlan {
    /// The rig's name.
    pub name: String,
    /// Its title for people.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub title: Option<String>,
    /// The file that it stands in.
    pub file: String,
    /// The answer in words, in at most three lines.
    pub answer: Vec<String>,
    /// The waters, in the order of the day.
    pub stops: Vec<ShownStop>,
    /// How many knots are tied from the first water to the last.
    pub knots: usize,
}

impl ShownPlan {
    /// The day in a line, as it stands on a card: `start as it is; stones: point to 3.3 mm; weir: nothing`.
    pub fn in_a_line(&self) -> String {
        let changes = |stop: &ShownStop| match stop.changes.is_empty() {
            true => "nothing".to_owned(),
            false => stop.changes.join(" and "),
        };
        let told = self.stops.iter().enumerate().map(|(index, stop)| match index {
            0 if stop.changes.is_empty() => format!("start at {} as it is", stop.water),
            0 => format!("start at {}: {}", stop.water, changes(stop)),
            _ => format!("{}: {}", stop.water, changes(stop)),
        });
        told.collect::<Vec<_>>().join("; ")
    }
}

/// One water of the day.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct ShownStop {
    /// The water's name.
    pub water: String,
    /// The water in words.
    pub about: String,
    /// What is changed on the way there; at the first water, on the rig as it is written.
    pub changes: Vec<String>,
    /// How many knots that takes.
    pub knots: usize,
    /// Whether it is right there, as far as changes can make it.
    pub right: bool,
    /// The verdict on the rig there.
    pub verdict: ShownVerdict,
}
