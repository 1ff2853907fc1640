//! The line in the air and the line in the water, joined where they meet.
//!
//! Both have one direction at the surface; which pull makes it so is found here.

use crate::drift::{self, Drift, Lead, NoDrift, Under};
use crate::sag::curve::{Air, Curve};
use crate::stream::Stream;
use crate::tackle::Tackle;
use uom::si::f64::{Force, Velocity};
use uom::si::force::newton;

/// Which way the rod stands from the flies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Across {
    /// Across the stream, where the water is at rest.
    Stream,
    /// Up the stream, against the water.
    Up,
}

/// A rig that hangs from the tip with nothing else to hold it.
#[derive(Debug, Clone, PartialEq)]
pub struct Settled {
    /// In the air.
    pub curve: Curve,
    /// In the water, in the plane of the pull.
    pub drift: Drift,
    /// How fast the pull moves the flies: across the stream, or slower than they would drift.
    pub moves: Velocity,
}

/// The state that a rig comes to under the weight of the line in the air.
///
/// # Errors
/// Where the rig has no drift under the pull that it comes to.
pub fn settled(
    air: &Air,
    tackle: &Tackle,
    stream: &Stream,
    under: Under,
    across: Across,
) -> Result<Settled, NoDrift> {
    let (water, sign) = match across {
        Across::Stream => (stream.at_rest(), 1.0),
        Across::Up => (*stream, -1.0),
    };
    let lead = |pull: f64| Lead::Pull(Force::new::<newton>(sign * pull));
    let carried = |pull: f64| drift::load(tackle, &water, under, lead(pull));
    // The steeper the line comes out of the water the less it can pull, so the difference grows with it.
    let pull = air
        .pull_for(|pull, curve| carried(pull).map_or(f64::NAN, |load| curve.at_entry() - load))
        .ok_or(NoDrift::NeverUp)?;
    let drift = drift::drift(tackle, &water, under, lead(pull))?;
    let curve = air.under(Force::new::<newton>(pull)).ok_or(NoDrift::NeverUp)?;
    let moves = match across {
        Across::Stream => drift.speed,
        Across::Up => drift::drift(tackle, stream, under, Lead::Free)?.speed - drift.speed,
    };
    Ok(Settled { curve, drift, moves })
}
