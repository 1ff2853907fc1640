//! A rig: its settings, and its parts from the reel to the point.
//!
//! Only what was written is here. Lengths may be expressions, so what they
//! come to, and all that follows from it, is for `evaluation`.

mod catch;
mod chain;
pub(crate) mod edits;
pub(crate) mod lay_out;
mod part;
mod seat;
mod settings;
mod stuff;
mod whole;

pub use chain::{Chain, Dropper, Float, FlyAt, FlyOn, Join, PartId, Ring, Section, Shot, Swivel};
pub use part::{Part, Tied, What};
pub use seat::{Below, Seat};
pub use settings::{Settings, Stated};
pub use stuff::Stuff;
pub use whole::{Rig, name};
