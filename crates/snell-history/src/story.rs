//! What happened to rigs, commit by commit.

use crate::series::Series;
use crate::stood::{Seen, Stood};
use snell_view::compare::{Change, Figure, Moved, Piece};
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
    /// The same moment in seconds since 1970.
    pub time: i64,
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
        /// Measures that moved, where they are followed or nothing else changed.
        measures: Vec<Moved>,
        /// Its line as it is now, where hardly anything stayed as it was.
        another: Option<Arc<[Piece]>>,
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
    /// Whether nothing changed but how much of the rig can be read.
    pub(crate) fn is_reading_alone(&self) -> bool {
        match self {
            Self::Changed {
                renamed,
                changes,
                measures,
                ..
            } => renamed.is_none() && changes.is_empty() && measures.is_empty(),
            Self::Born | Self::Unreadable | Self::Mended | Self::Dropped | Self::Returned => false,
        }
    }

    /// The same, as small as a history of thousands of changes keeps it.
    pub(crate) fn kept(mut self, every_measure: bool) -> Self {
        if let Self::Changed {
            changes, measures, ..
        } = &mut self
        {
            if !every_measure && !changes.is_empty() {
                measures.clear();
            }
            changes.shrink_to_fit();
            measures.shrink_to_fit();
        }
        self
    }

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

/// What is followed of rigs through a history.
#[derive(Clone, Copy, Debug)]
pub struct Followed<'f> {
    /// Figures that are told from state to state along the line.
    pub figures: &'f [Figure],
    /// Whether each change says what it did to all measures; else only one does that nothing but they show.
    pub every_measure: bool,
}

/// Something that happened to a rig.
#[derive(Clone, Debug)]
pub struct Event {
    /// In which state of the history, as its number.
    pub commit: usize,
    /// Whether that state joins branches, and so brings what they did.
    pub merge: bool,
    /// What.
    pub what: Happened,
    /// The rig from then on, as far as it could be read.
    pub rig: Arc<Seen>,
}

/// What happened to a rig on a branch, beside the line that the history follows.
#[derive(Clone, Debug)]
pub struct Side {
    /// The state of the line that the branch was joined in, as its number.
    pub joined: usize,
    /// Whether the rig came out of the joining as the branch had it.
    pub kept: bool,
    /// What happened, by the authors' time.
    pub events: Vec<Event>,
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
    /// What happened along the line of first parents, which ends with the last state. A merge tells here what it
    /// brought to the line.
    pub events: Vec<Event>,
    /// What happened on branches, in the order in which they were joined.
    pub sides: Vec<Side>,
    /// How it stood along the line: an entry for each state in which it is another than before.
    pub stood: Vec<Stood>,
    /// How the figures that are followed went along the line.
    pub series: Vec<Series>,
}

impl RigStory {
    /// The rig as it stood last; where it never came to the line, as a branch had it last.
    pub fn last(&self) -> Option<&Seen> {
        let side = || self.sides.last().and_then(|side| side.events.last());
        self.events.last().or_else(side).map(|event| &*event.rig)
    }

    /// Whether anything happened to it since it was written down.
    pub fn has_changed(&self) -> bool {
        self.all_events().nth(1).is_some()
    }

    /// What happened, on the line and on branches.
    pub fn all_events(&self) -> impl Iterator<Item = &Event> {
        let sides = self.sides.iter().flat_map(|side| &side.events);
        self.events.iter().chain(sides)
    }

    /// Every name that it had, the first one first.
    pub fn names(&self) -> Vec<&str> {
        let mut names: Vec<&str> = Vec::new();
        for event in self.all_events() {
            if !names.contains(&event.rig.called.name.as_str()) {
                names.push(&event.rig.called.name);
            }
        }
        names
    }
}
