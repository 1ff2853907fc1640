//! One key of the table: what a line that opens with it takes.

use super::groups::GROUPS;
use super::slot::{Need, Slot};
use snell_syntax::Joint;

/// One key of one kind of block.
#[derive(Debug, PartialEq)]
pub struct Row {
    /// The word that opens the line.
    pub key: &'static str,
    /// Values, in order.
    pub takes: &'static [Slot],
    /// Clauses, in any order.
    pub clauses: &'static [ClauseRow],
    /// Whether the line ends in a text.
    pub text: TextNeed,
    /// How often it may stand in a block.
    pub often: Often,
    /// Whether its first value names what it is about: a derived block's line replaces the one of that name.
    pub names: bool,
    /// One line of documentation.
    pub about: &'static str,
}

/// How often a key may stand in one block.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Often {
    /// At most once.
    Once,
    /// Exactly once.
    Needed,
    /// As often as wanted.
    Many,
}

/// Whether a line takes a text in quotes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TextNeed {
    /// No.
    None,
    /// It may end in one.
    May,
    /// It must end in one.
    Needed,
}

/// A clause of a line.
#[derive(Debug, PartialEq)]
pub struct ClauseRow {
    /// Its joining word.
    pub joint: Joint,
    /// Its values, in order.
    pub takes: &'static [Slot],
    /// Whether it takes a text.
    pub text: TextNeed,
}

pub(super) const fn clause(joint: Joint, takes: &'static [Slot]) -> ClauseRow {
    ClauseRow {
        joint,
        takes,
        text: TextNeed::None,
    }
}

impl Row {
    pub(super) const fn new(key: &'static str, takes: &'static [Slot], about: &'static str) -> Self {
        Self {
            key,
            takes,
            clauses: &[],
            text: TextNeed::None,
            often: Often::Once,
            names: false,
            about,
        }
    }

    pub(super) const fn text(key: &'static str, about: &'static str) -> Self {
        let mut row = Self::new(key, &[], about);
        row.text = TextNeed::Needed;
        row
    }

    /// The line may end in a text: what the thing is called.
    pub(super) const fn called(mut self) -> Self {
        self.text = TextNeed::May;
        self
    }

    pub(super) const fn with(mut self, clauses: &'static [ClauseRow]) -> Self {
        self.clauses = clauses;
        self
    }

    pub(super) const fn needed(mut self) -> Self {
        self.often = Often::Needed;
        self
    }

    pub(super) const fn names(mut self) -> Self {
        self.names = true;
        self
    }

    pub(super) const fn often(mut self) -> Self {
        self.often = Often::Many;
        self
    }

    /// The clause that a joining word opens here.
    pub fn clause(&self, joint: Joint) -> Option<&'static ClauseRow> {
        self.clauses.iter().find(|row| row.joint == joint)
    }

    /// What the line looks like: `tippet LENGTH [of STUFF] [as LABEL]`.
    pub fn shape(&self) -> String {
        let mut shape = self.key.to_owned();
        push_values(&mut shape, self.takes);
        for row in self.clauses {
            shape.push_str(" [");
            shape.push_str(row.joint.word());
            push_values(&mut shape, row.takes);
            if row.text == TextNeed::Needed {
                shape.push_str(" \"text\"");
            }
            shape.push(']');
        }
        match self.text {
            TextNeed::None => {}
            TextNeed::May => shape.push_str(" [\"text\"]"),
            TextNeed::Needed => shape.push_str(" \"text\""),
        }
        shape
    }
}

fn push_values(shape: &mut String, slots: &[Slot]) {
    if let Some((word, _)) = GROUPS.iter().find(|(_, group)| *group == slots) {
        shape.push(' ');
        shape.push_str(word);
        return;
    }
    for slot in slots {
        shape.push(' ');
        let word = slot.take.word();
        match slot.need {
            Need::Must => shape.push_str(&word),
            Need::May => shape.push_str(&format!("[{word}]")),
            Need::Many => shape.push_str(&format!("[{word}]…")),
        }
    }
}
