//! The steady drift: a rig that goes down the stream with one speed and one
//! shape.
//!
//! It knows nothing of how the rig came there ([`crate::sink`] does) nor of the
//! rod that leads it ([`crate::sag`]).

mod shape;
mod solve;
mod straight;

use crate::Stream;
use crate::tackle::Tackle;
use shape::{End, Passed, Trace};
use thiserror::Error;
use uom::si::f64::{Force, Length, Velocity};
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::velocity::meter_per_second;

/// How much line is under water.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Under {
    /// This much, from the point fly up.
    Length(Length),
    /// As much as holds the point fly at this height over the bed.
    PointOffBed(Length),
}

/// What the line above the water does.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Lead {
    /// It pulls nowhere along the stream: the free drift.
    Free,
    /// It pulls downstream with a force, or upstream where that is below nothing.
    Pull(Force),
    /// It goes down the stream with a speed.
    Speed(Velocity),
}

/// Why there is no steady drift.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum NoDrift {
    /// A fly is lighter than the water it displaces; by its place from the point up.
    #[error("a fly floats")]
    Floats(usize),
    /// The point lies on the bed with this much line under water or more.
    #[error("the point lies on the bed")]
    OnBed {
        /// The longest line under water that holds it just off the bed.
        lifts: Length,
    },
    /// The height asked for is not under water: it is over the surface, below the bed or no number.
    #[error("the point has to hang between the bed and the surface")]
    OverSurface,
    /// However much line there is, its top does not come up to the surface.
    #[error("the line never reaches the surface")]
    NeverUp,
    /// No steady state was found with the work that one answer may cost.
    #[error("no steady drift was found")]
    Unsettled,
    /// A depth or a length is nothing, or one of these, a speed or a pull is no number.
    #[error("a drift needs water with a depth, line in it, and a speed or a pull that is a number")]
    NoWater,
}

/// A fly in the drift.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ride {
    /// Below the surface.
    pub depth: Length,
    /// Over the bed.
    pub off_bed: Length,
    /// Downstream of where the line enters the water; below nothing where it is upstream.
    pub ahead: Length,
    /// The water's speed where it is.
    pub water: Velocity,
    /// What the water pulls it downstream with.
    pub drag: Force,
    /// Tension in the line just above it.
    pub tension: Force,
}

/// A steady drift. Depths are good to 5-10 cm in a real stream.
#[derive(Debug, Clone, PartialEq)]
pub struct Drift {
    /// The whole rig's speed down the stream.
    pub speed: Velocity,
    /// Line under water.
    pub submerged: Length,
    /// The line's pull at the surface along the stream: downstream above nothing.
    pub pull: Force,
    /// The weight that the line carries at the surface.
    pub load: Force,
    /// The flies, the point first and the others from it upward.
    pub rides: Vec<Ride>,
    /// The line from the point to the surface: downstream of its entry, and height over the bed.
    pub line: Vec<(Length, Length)>,
}

impl Ride {
    /// How much slower than the water beside it a fly goes when the rig has this speed; below nothing
    /// where it is dragged ahead.
    pub fn lag(&self, rig: Velocity) -> Velocity {
        self.water - rig
    }
}

/// Segments that the line is cut into: doubling them moves a depth by less than 0.1 %.
pub(crate) const SEGMENTS: usize = 16;

/// The steady drift of a rig.
///
/// Source of the equations: a cable in a stream (Pode 1951, David Taylor Model Basin report 687) with
/// the coefficients of [`crate::drag`].
///
/// # Errors
/// Where there is none; see [`NoDrift`].
pub fn drift(tackle: &Tackle, stream: &Stream, under: Under, lead: Lead) -> Result<Drift, NoDrift> {
    solve::solve(tackle, stream, under, lead, SEGMENTS)
}

/// The weight that the line carries at the surface in a drift, also where the point lies on the bed.
pub(crate) fn load(tackle: &Tackle, stream: &Stream, under: Under, lead: Lead) -> Option<f64> {
    solve::load(tackle, stream, under, lead, SEGMENTS)
}

impl Drift {
    fn read(stream: &Stream, speed: f64, end: End, trace: Trace) -> Self {
        let depth = stream.profile.depth_si();
        let entry = end.step.at[0];
        let ride = |passed: &Passed| Ride {
            depth: Length::new::<meter>(depth - passed.at[1]),
            off_bed: Length::new::<meter>(passed.at[1]),
            ahead: Length::new::<meter>(passed.at[0] - entry),
            water: Velocity::new::<meter_per_second>(stream.profile.speed(passed.at[1])),
            drag: Force::new::<newton>(passed.drag),
            tension: Force::new::<newton>(passed.above.pull[0].hypot(passed.above.pull[1])),
        };
        let place = |at: &[f64; 2]| (Length::new::<meter>(at[0] - entry), Length::new::<meter>(at[1]));
        Self {
            speed: Velocity::new::<meter_per_second>(speed),
            submerged: Length::new::<meter>(end.length),
            pull: Force::new::<newton>(end.step.pull[0]),
            load: Force::new::<newton>(end.step.pull[1]),
            rides: trace.flies.iter().map(ride).collect(),
            line: trace.line.iter().map(place).collect(),
        }
    }
}

#[cfg(test)]
mod refined;
