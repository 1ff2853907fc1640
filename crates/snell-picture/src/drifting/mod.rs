//! The picture of a rig in its water: the line between surface and bed in the
//! steady drift, where each fly rides and may ride, the water's speed at the
//! side, and the line in the air up to the rod's tip.
//!
//! It is drawn from plain figures; how they were worked out is not known here.
//! Under water one scale holds both ways, or the picture says the stretch; over
//! the water lengths have a scale of their own.

mod bed;
mod beside;
mod drifted;
mod frame;
mod layout;
mod over;
mod sheet;
mod table;
#[cfg(test)]
mod tests;
mod under;
mod unridden;

use crate::medium::Medium;
use crate::scene::Scene;
pub use drifted::{
    Afloat, Air, Bed, BedEnd, Drifted, Dry, Led, Over, Piece, Ride, Riding, Rigged, Unridden, Water,
};

/// The picture of a drift; `None` where the water has no depth or a figure is none.
pub fn scene(drifted: &Drifted, medium: Medium) -> Option<Scene> {
    layout::lay_out(drifted, medium)
}
