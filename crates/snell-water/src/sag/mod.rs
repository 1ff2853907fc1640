//! The line in the air: how it sags between the rod's tip and the water, and
//! what its pull does to the flies.
//!
//! It knows no wind. The tip is held still over water that is level.

mod catenary;
mod curve;

use crate::drift::{self, Drift, Lead, NoDrift, Under};
use crate::stream::Stream;
use crate::tackle::Tackle;
pub use catenary::From;
pub use curve::{Air, Curve};
use uom::si::f64::Force;

/// The drift across the stream that a pull gives a rig, were the water at rest that way: an upper bound
/// of how fast the line's pull draws the flies to the angler's side.
///
/// # Errors
/// Where the rig has no such drift.
pub fn creep(tackle: &Tackle, stream: &Stream, under: Under, pull: Force) -> Result<Drift, NoDrift> {
    drift::drift(tackle, &stream.at_rest(), under, Lead::Pull(pull))
}
