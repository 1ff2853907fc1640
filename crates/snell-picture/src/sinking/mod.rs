//! The picture of a sink: the depth of each fly against the way down the
//! stream, between surface and bed, with the water's speed at the side.
//!
//! It is drawn from plain figures; how they were worked out is not known here.
//! Depths and ways have scales of their own, and say so on their rulers.

mod layout;
mod sunk;

use crate::medium::Medium;
use crate::scene::Scene;
pub use sunk::{Sunk, SunkFly};

/// The picture of a sink; `None` where there is no water or no fly.
pub fn scene(sunk: &Sunk, medium: Medium) -> Option<Scene> {
    layout::lay_out(sunk, medium)
}
