//! What happened to rigs, commit by commit.

use snell_view::compare::{Card, Change, Moved};
use std::sync::Arc;

/// A state that a history went through.
#[derive(Clone, Debug, Default)]
pub struct Commit {
    /// What it is called.
    pub id: String,
    /// The states that it was made from, as numbers of earlier ones.
    pub parents: Vec<usize>,
    /// When, as ISO 8601 writes it: the day stands in the first ten letters.
    pub when: String,
    /// Who made it.
    pub who: String,
    /// What its maker said of it, in one line.
    pub subject: String,
}

impl Commit {
    /// The day, as ISO 8601 writes it.
    pub fn day(&self) -> &str {
        self.when.get(..10).unwrap_or(&self.when)
    }
}

/// What happened to a rig.
#[derive(Clone, Debug)]
pub enum Happened {
    /// It was written down first.
    Born,
    /// It changed.
    Changed {
        /// Its name before, where that changed.
        renamed: Option<String>,
        /// What changed of it.
        changes: Vec<Change>,
        /// Measures that moved.
        measures: Vec<Moved>,
        /// The rig that it is made from, where that one changed in just the same way.
        follows: Option<String>,
    },
    /// It could not be read.
    Unreadable,
    /// It could be read again, and was as before.
    Mended,
    /// It was taken out.
    Dropped,
    /// It was put back.
    Returned,
}

impl Happened {
    /// The word for it.
    pub fn word(&self) -> &'static str {
        match self {
            Self::Born => "born",
            Self::Changed { renamed: Some(_), .. } => "renamed",
            Self::Changed { .. } => "changed",
            Self::Unreadable => "unreadable",
            Self::Mended => "mended",
            Self::Dropped => "dropped",
            Self::Returned => "returned",
        }
    }
}

/// Something that happened to a rig.
#[derive(Clone, Debug)]
pub struct Event {
    /// In which state of the history, as its number.
    pub commit: usize,
    /// What.
    pub what: Happened,
    /// The rig from then on, as far as it could be read.
    pub card: Arc<Card>,
}

/// What became of one rig.
#[derive(Clone, Debug)]
pub struct RigStory {
    /// Its last name.
    pub name: String,
    /// The file that it stands in, or stood in last.
    pub file: String,
    /// Whether the last state has it.
    pub alive: bool,
    /// What happened, in the order of the history.
    pub events: Vec<Event>,
}

impl RigStory {
    /// The rig as it stood last.
    pub fn last(&self) -> Option<&Card> {
        self.events.last().map(|event| &*event.card)
    }

    /// Every name that it had, the first one first.
    pub fn names(&self) -> Vec<&str> {
        let mut names: Vec<&str> = Vec::new();
        for event in &self.events {
            if names.last() != Some(&event.card.shown.name.as_str()) {
                names.push(&event.card.shown.name);
            }
        }
        names
    }
}
