//! The sink: how a rig that has just landed comes down to where it drifts.
//!
//! It knows the line as lumps of mass on springs that only pull. How the flies
//! land matters more than any drag constant, so that is asked for.

mod chain;
mod closed;
mod fall;
mod step;
mod way;

use crate::drift::Drift;
use crate::stream::Stream;
use crate::tackle::Tackle;
pub use closed::{ClosedForm, closed_form};
use fall::Fall;
use uom::si::f64::{Length, Time};
use uom::si::length::meter;
use uom::si::time::second;
use uom::si::velocity::meter_per_second;
pub(crate) use way::Way;
pub use way::{Cast, Moment};

/// A sink, from landing on. Times are good to about 30 % in a real stream.
#[derive(Debug, Clone, PartialEq)]
pub struct Sink {
    /// What was seen on the way, evenly in time, and at the last when it ended.
    pub moments: Vec<Moment>,
}

/// Least number of segments of the line. Where several flies come straight one after the other, a time moves by up to a
/// twentieth with where the nodes lie, from 8 to 30 of them; elsewhere by a hundredth.
pub(crate) const SEGMENTS: usize = 8;

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
    let way = Way {
        length: drift.submerged.get::<meter>(),
        speed: drift.speed.get::<meter_per_second>(),
        cast,
    };
    let mut fall = Fall::new(tackle, stream, way, segments);
    let target = depth_of_point(drift) * share;
    let longest = longest.get::<second>();
    let apart = fall.usual / MOMENTS;
    let mut moments = vec![fall.moment_at(0.0)];
    if !(longest > 0.0 && apart > 0.0 && apart.is_finite()) {
        return Sink { moments };
    }
    let apart = apart.min(longest);
    loop {
        let next = moments.len() as f64 * apart;
        while fall.time < next && fall.goes_on() {}
        let given_up = fall.time < next;
        let moment = fall.moment_at(next.min(fall.time));
        let there = moment.depths[0].get::<meter>() >= target;
        moments.push(moment);
        if there || given_up || next >= longest || moments.len() >= MOST_MOMENTS || target.is_nan() {
            return Sink { moments };
        }
    }
}

/// When the point first is at a depth, s, by steps so many times as long as usual; nothing where it is not by `longest`.
pub(crate) fn time_to(
    tackle: &Tackle,
    stream: &Stream,
    way: Way,
    depth: f64,
    longest: f64,
    long: f64,
) -> Option<f64> {
    let mut fall = Fall::new(tackle, stream, way, SEGMENTS).in_steps(long);
    while fall.time < longest && fall.goes_on() {
        if fall.point_depth() >= depth {
            return fall.passed(depth);
        }
    }
    None
}

/// How high over the bed the point is after a time, m.
pub(crate) fn height_after(tackle: &Tackle, stream: &Stream, way: Way, time: f64) -> f64 {
    let mut fall = Fall::new(tackle, stream, way, SEGMENTS);
    while fall.time < time && fall.goes_on() {}
    stream.profile.depth_si() - fall.point_depth()
}

fn depth_of_point(drift: &Drift) -> f64 {
    drift
        .rides
        .first()
        .map_or(0.0, |point| point.depth.get::<meter>())
}

/// Moments in the time in which the line would go by at the fastest speed about.
const MOMENTS: f64 = 100.0;
/// By then a sink is given up, as it comes no nearer.
const MOST_MOMENTS: usize = 5000;

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
