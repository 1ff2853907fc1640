//! How a rig stood in the states of a line.
//!
//! A long history has many states, and all that a rig measures is large. Of each
//! state only what tells the rig from others is kept, with the figures that are
//! followed; the rest is read anew from that state where it is asked for.

use snell_view::Written;
use snell_view::compare::{Called, Card};
use std::sync::Arc;

/// What a rig of a state is known by.
#[derive(Clone, Debug)]
pub struct Seen {
    /// What it is called, and where it stands.
    pub called: Called,
    /// The rig that it is made from.
    pub from: Option<String>,
    /// Whether all of it could be read.
    pub sound: bool,
}

impl Seen {
    /// What a card is known by.
    pub fn of(card: &Card) -> Self {
        Self {
            called: card.into(),
            from: card.shown.from.clone(),
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
