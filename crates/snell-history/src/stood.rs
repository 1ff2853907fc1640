//! How a rig stood in the states of a line.
//!
//! A long history has many states, and all that a rig measures is large. Of each
//! state only what tells the rig from others is kept, with the figures that are
//! followed; the rest is read anew from that state where it is asked for.

use snell_view::Written;
use snell_view::compare::Card;
use std::sync::Arc;

/// What a rig of a state is known by.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Seen {
    /// Its name.
    pub name: String,
    /// Its title for people.
    pub title: Option<String>,
    /// The file that it stands in.
    pub file: String,
    /// Its line in that file, from 1.
    pub line: u32,
    /// The rig that it is made from.
    pub from: Option<String>,
    /// Whether all of it could be read.
    pub sound: bool,
}

impl Seen {
    /// What a card is known by.
    pub fn of(card: &Card) -> Self {
        let shown = &card.shown;
        Self {
            name: shown.name.clone(),
            title: shown.title.clone(),
            file: shown.file.clone(),
            line: shown.line,
            from: shown.from.clone(),
            sound: card.sound,
        }
    }
}

/// How a rig stood from a state on.
#[derive(Clone, Debug)]
pub struct Stood {
    /// From which state of the history on, as its number.
    pub commit: usize,
    /// As it was read there; nothing where it was not to be found.
    pub rig: Option<Arc<Seen>>,
    /// The figures that are followed, in their order; nothing where one cannot be told.
    pub figures: Vec<Option<Written>>,
}
