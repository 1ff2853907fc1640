//! The steady drift: a rig that goes down the stream with one speed and one
//! shape.
//!
//! It knows nothing of how the rig came there ([`crate::sink`] does) nor of the
//! rod that leads it ([`crate::sag`]).

mod follow;
mod solve;
mod state;
mod states;
mod steady;
mod straight;
mod top;
mod walk;

use crate::leader::{Hanging, Reach};
use crate::stream::Stream;
use crate::tackle::Tackle;
pub(crate) use follow::{Followed, follow};
pub use state::{Drift, Lead, NoDrift, Ride, Standing, State, Under};
pub use steady::{drift, states};
pub(crate) use steady::{drift_from, only};
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::velocity::meter_per_second;

/// The leader that hangs over a drift from the tip that it is led by; nothing where no leader comes to the tip.
pub fn leader(tackle: &Tackle, drift: &Drift, reach: &Reach) -> Option<Hanging> {
    let line = tackle.above(drift.submerged.get::<meter>());
    let (pull, load) = (drift.pull.get::<newton>(), drift.load.get::<newton>());
    Hanging::of(reach, &line, pull, load, drift.speed.get::<meter_per_second>())
}

/// The drift across the stream of a rig whose tip stands across from it: its leader draws the flies to the tip's
/// side, through water that is taken to be at rest that way. An upper bound of how fast; only the distance of the
/// tip counts, not its side.
///
/// # Errors
/// Where the rig has no such drift.
pub fn across(tackle: &Tackle, stream: &Stream, under: Under, reach: &Reach) -> Result<Drift, NoDrift> {
    let along = reach.along.abs();
    let reach = Reach { along, ..*reach };
    drift(tackle, &stream.at_rest(), under, Lead::Reach(reach))
}

#[cfg(test)]
mod refined;
