//! The sink: how a rig that has just landed comes down to where it drifts.
//!
//! It knows the line as lumps of mass on springs that only pull. How the flies
//! land matters more than any drag constant, so that is asked for.

mod chain;
mod closed;
mod step;

use crate::Stream;
use crate::drift::Drift;
use crate::tackle::Tackle;
use chain::Chain;
pub use closed::{ClosedForm, closed_form};
use step::Stepper;
use uom::si::f64::{Length, Time};
use uom::si::length::meter;
use uom::si::time::second;

/// How the flies come down on the water.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Cast {
    /// Flies first, with the line slack above them.
    Tuck,
    /// Straight along the surface with the flies upstream.
    Up,
    /// Straight along the surface with the flies downstream.
    Down,
}

/// The flies at one moment.
#[derive(Debug, Clone, PartialEq)]
pub struct Moment {
    /// Since they landed.
    pub time: Time,
    /// How far the top of the line has gone down the stream.
    pub entry: Length,
    /// Depth of each fly, the point first and the others from it upward.
    pub depths: Vec<Length>,
    /// How far downstream of where the rig landed each fly is.
    pub along: Vec<Length>,
}

/// A sink, from landing on. Times are good to about 30 % in a real stream.
#[derive(Debug, Clone, PartialEq)]
pub struct Sink {
    /// What was seen on the way, evenly in time, and at the last when it ended.
    pub moments: Vec<Moment>,
}

/// Least number of segments of the line.
pub(crate) const SEGMENTS: usize = 16;

/// Sinks a rig to a share of its point's depth in a steady drift, or until `longest` has gone by.
///
/// The top of the line goes down the stream with the drift's speed, and no more line goes under than
/// the drift has. Where no time is given, or the share is no number, there is only the landing. Masses of water carried along are counted; line goes slack but never pushes.
pub fn sink(tackle: &Tackle, stream: &Stream, drift: &Drift, cast: Cast, share: f64, longest: Time) -> Sink {
    sink_in(tackle, stream, drift, cast, share, longest, SEGMENTS)
}

/// [`sink`] with the line cut into another number of segments.
pub(crate) fn sink_in(
    tackle: &Tackle,
    stream: &Stream,
    drift: &Drift,
    cast: Cast,
    share: f64,
    longest: Time,
    segments: usize,
) -> Sink {
    let target = drift
        .rides
        .first()
        .map_or(0.0, |point| point.depth.get::<meter>())
        * share;
    let longest = longest.get::<second>();
    let mut chain = Chain::new(tackle, stream, drift, cast, segments);
    let by = (drift.submerged.get::<meter>() / chain.fastest() / STEPS as f64).min(longest);
    let mut stepper = Stepper::default();
    let mut moments = vec![moment(&chain, 0.0)];
    let mut time = 0.0;
    if !(by > 0.0 && by.is_finite()) {
        return Sink { moments };
    }
    while time < longest && chain.point_depth() < target && moments.len() < MOST_MOMENTS {
        for _ in 0..STEPS_A_MOMENT {
            stepper.step(&mut chain, by);
            time += by;
        }
        moments.push(moment(&chain, time));
    }
    Sink { moments }
}

/// Steps in the time in which the line would go by at the fastest speed about.
const STEPS: usize = 1000;
const STEPS_A_MOMENT: usize = 10;
/// By then a sink is given up, as it comes no nearer.
const MOST_MOMENTS: usize = 5000;

fn moment(chain: &Chain<'_>, time: f64) -> Moment {
    let (depths, along) = chain
        .places()
        .map(|(depth, along)| (Length::new::<meter>(depth), Length::new::<meter>(along)))
        .unzip();
    Moment {
        time: Time::new::<second>(time),
        entry: Length::new::<meter>(chain.entry()),
        depths,
        along,
    }
}

impl Sink {
    /// When the point first was as deep as this, where it got there.
    pub fn reaches(&self, depth: Length) -> Option<Time> {
        let deep = |moment: &Moment| moment.depths.first().copied().unwrap_or_default();
        let after = self.moments.iter().position(|moment| deep(moment) >= depth)?;
        let late = &self.moments[after];
        let Some(early) = after.checked_sub(1).and_then(|before| self.moments.get(before)) else {
            return Some(late.time);
        };
        let part = (depth - deep(early)) / (deep(late) - deep(early));
        Some(early.time + (late.time - early.time) * part)
    }
}

#[cfg(test)]
mod tests;
