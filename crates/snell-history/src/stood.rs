//! How a rig stood in the states of a line.

use snell_view::compare::Card;
use std::sync::Arc;

/// How a rig stood from a state on.
#[derive(Clone, Debug)]
pub struct Stood {
    /// From which state of the history on, as its number.
    pub commit: usize,
    /// As it was read there; nothing where it was not to be found.
    pub card: Option<Arc<Card>>,
}
