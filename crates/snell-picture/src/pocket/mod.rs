//! The picture of a card for the pocket: depths down, speeds across, and in
//! each cell the fly and what it wants; heavier lines part one fly's water
//! from the next one's. Below it stands what it rests on.
//!
//! It is drawn from written words: what they mean is not known here. Black on
//! white, for paper; nothing is told by colour.

mod cells;
mod layout;

use crate::scene::Scene;
pub use cells::{NoteHead, Pocket, PocketCell, PocketNote, Sign};

/// The picture of a card; `None` where it has no cell.
pub fn scene(pocket: &Pocket) -> Option<Scene> {
    layout::lay_out(pocket)
}
