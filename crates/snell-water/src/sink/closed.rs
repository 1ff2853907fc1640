//! The sink in closed form, where it holds.
//!
//! It knows flies one below the other on a line that comes straight down after
//! them; a line laid out along the surface is beyond it.

use crate::bracket::{self, Bracket};
use crate::drag::LEAST_ALONG;
use crate::stream::Stream;
use crate::tackle::Tackle;
use uom::si::f64::{Length, Time};
use uom::si::length::meter;
use uom::si::time::second;

/// A time by the closed form, and whether it may be believed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ClosedForm {
    /// Since the flies landed.
    pub time: Time,
    /// Whether the depth is less than 85 % of the line under water. Then, for dressed flies on a tuck
    /// cast, it is within 6 % of the whole sink; elsewhere it is 25-60 % off.
    pub holds: bool,
}

/// Below this share of the line under water the line has not yet come straight.
const HOLDS_TO: f64 = 0.85;

/// Steps of the integral.
const STEPS: usize = 200;

/// How soon the point is at a depth with this much line under water, were it to sink straight down:
/// `t = ∫ d(depth) / v` with `W = drag(v) + 2 mu v depth`, where `W` and the drag are those of the flies
/// that are under water by then and `W` counts the line too. Nothing where it does not sink.
pub fn closed_form(tackle: &Tackle, stream: &Stream, depth: Length, submerged: Length) -> Option<ClosedForm> {
    let deep = depth.get::<meter>();
    let by = deep / STEPS as f64;
    let slowness = |at: f64| speed_at(tackle, stream, at).map(|speed| speed.recip());
    // Simpson's rule, whose ends stand a little inside so that nothing hangs exactly on one.
    let time = (0..STEPS).try_fold(0.0, |sum, step| {
        let from = step as f64 * by;
        let (low, high) = (slowness(from + by * 1e-9)?, slowness(from + by * (1.0 - 1e-9))?);
        Some(sum + by / 6.0 * (low + 4.0 * slowness(from + by / 2.0)? + high))
    })?;
    Some(ClosedForm {
        time: Time::new::<second>(time),
        holds: deep < HOLDS_TO * submerged.get::<meter>(),
    })
}

/// The speed at which the point goes down when it is at a depth.
pub(super) fn speed_at(tackle: &Tackle, stream: &Stream, depth: f64) -> Option<f64> {
    let fluid = &stream.fluid;
    let hung = tackle.hung().iter();
    let under = hung.filter(|hung| hung.above_point.get::<meter>() < depth);
    let flies: Vec<_> = std::iter::once(tackle.point())
        .chain(under.map(|hung| &hung.fly))
        .map(|fly| fly.body(fluid))
        .collect();
    let reaches = tackle.reaches(depth);
    let line: f64 = reaches
        .iter()
        .map(|reach| reach.strand.weight_in(fluid) * (reach.to - reach.from))
        .sum();
    let weight = line + flies.iter().map(|fly| fly.weight).sum::<f64>();
    let left = |speed: f64| {
        let resistance: f64 = flies.iter().map(|fly| fly.falling(speed)).sum();
        (resistance + LEAST_ALONG * fluid.mu * depth) * speed - weight
    };
    (weight > 0.0).then(|| {
        let fastest = bracket::upward(left, 1.0);
        Bracket::of(left, 0.0, fastest).map(|bracket| bracket.root(1e-10))
    })?
}
