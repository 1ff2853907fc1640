//! The picture of a card for the pocket: depths down, speeds across. Cells
//! with one answer are one region with one name; what nothing fishes is hatched.
//! Below it stand the rig itself and what the card rests on.
//!
//! It is drawn from written words: what they mean is not known here. Black on
//! white, for paper; nothing is told by colour. It is as wide as A6 stands, which
//! is a phone's width too, and wider only where its figures want more.

mod cells;
mod layout;
mod paper;
mod regions;

use crate::scene::Scene;
pub use cells::{NoteHead, Paper, Pocket, PocketCell, PocketNote, PocketPart, Sign};

/// The picture of a card; `None` where it has no cell.
pub fn scene(pocket: &Pocket) -> Option<Scene> {
    layout::lay_out(pocket)
}
