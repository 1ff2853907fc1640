//! What a drift is asked for, and what it comes to.

use super::walk;
use crate::float::Float;
use crate::leader::Reach;
use crate::plane::size;
use crate::stream::Stream;
use thiserror::Error;
use uom::si::f64::{Force, Length, Ratio, Velocity};
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
    /// The same, told as a share of the surface's speed. An angler leads by what the surface does, and a depth told
    /// so is known twice as well.
    Share(Ratio),
    /// The rig hangs from a float, which its own drag takes along. The line above the float is slack.
    Float(Float),
    /// The leader hangs from the tip, which goes with the rig and is known to be somewhere.
    Reach(Reach),
}

impl Lead {
    /// Whether it may hold a rig up however long its line is.
    pub fn holds_up(&self) -> bool {
        match self {
            Self::Reach(_) | Self::Pull(_) => true,
            Self::Free | Self::Speed(_) | Self::Share(_) | Self::Float(_) => false,
        }
    }
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

/// How a rig stands in a steady state.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Standing {
    /// Pushed off, it comes back.
    Stable,
    /// Nothing stays in it: it parts those that end above from those that end below.
    Unstable,
    /// The point lies on the bed. There is no friction in it, which would hold the rig back.
    OnBed {
        /// What the bed bears of the point.
        bears: Force,
        /// The longest line under water that holds it just off the bed.
        lifts: Length,
        /// How much of the line lies along the bed.
        lies: Length,
    },
}

/// A steady state of a length of line.
#[derive(Debug, Clone, PartialEq)]
pub struct State {
    /// Whether the rig stays in it.
    pub standing: Standing,
    /// Of the line that is off the bed.
    pub drift: Drift,
}

impl State {
    /// Whether a rig stays in it.
    pub fn stays(&self) -> bool {
        match self.standing {
            Standing::Stable | Standing::OnBed { .. } => true,
            Standing::Unstable => false,
        }
    }

    /// Whether its point lies on the bed.
    pub fn is_on_bed(&self) -> bool {
        matches!(self.standing, Standing::OnBed { .. })
    }
}

/// How far a point is pushed up to see whether it comes back, m.
pub(super) const NUDGE: f64 = 1e-3;

impl Drift {
    pub(super) fn read(stream: &Stream, speed: f64, end: walk::End, trace: walk::Trace) -> Self {
        let depth = stream.profile.depth_si();
        let entry = end.step.at[0];
        let ride = |passed: &walk::Passed| Ride {
            depth: Length::new::<meter>(depth - passed.at[1]),
            off_bed: Length::new::<meter>(passed.at[1]),
            ahead: Length::new::<meter>(passed.at[0] - entry),
            water: Velocity::new::<meter_per_second>(stream.profile.speed(passed.at[1])),
            drag: Force::new::<newton>(passed.drag),
            tension: Force::new::<newton>(size(passed.above.pull)),
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
