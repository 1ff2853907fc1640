//! What was taken because a rig leaves it unsaid, as data. Its words are made where the names of things are
//! known.

use crate::keywords::{Cast, Stands};
use crate::missing::Of;
use crate::project::BlockId;
use crate::value::Value;
use snell_units::Quantity;

/// Something taken because the rig leaves it unsaid.
#[derive(Clone, Debug, PartialEq)]
pub struct Assumed {
    /// What it is about.
    pub what: Usual,
    /// What that is of.
    pub of: Of,
    /// What was taken.
    pub value: Taken,
}

/// What may be taken as usual.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Usual {
    /// The knot of a join.
    Knot(UsualKnot),
    /// The knots at the eyes of what joins two pieces.
    EyeKnots(Eyes),
    /// The knot that ties a fly on.
    FlyKnot(UsualKnot),
    /// The mass that a rod bends under.
    Bends,
    /// The fish of the sudden run.
    Fish,
    /// The hook of a fly that was weighed and shows none.
    Hook,
    /// How a fly is dressed.
    Dressing,
    /// What an untested label is worth.
    Label,
    /// How the flies are laid on the water.
    Cast,
    /// The water's temperature.
    Temperature,
    /// The grain of the bed.
    Grain,
    /// How a fly rides.
    Afloat,
    /// What a piece or a tag is made of.
    Material,
    /// The height of the rod tip.
    Tip,
    /// Where the rod tip is, seen from the flies.
    Stands,
    /// The density of the line.
    LineDensity,
    /// The sag that is let pass.
    Sag,
    /// The drag of a fly that was timed.
    Drag,
    /// The drag of an untimed fly, by flies that are dressed alike.
    DragOfDressing {
        /// How many of them were timed.
        flies: usize,
        /// The factor to within which it is known then, nine times out of ten.
        known_to: f64,
    },
    /// How high off the bed the point is to ride.
    OffBed,
    /// How long the run is.
    Run,
    /// What line bears whose label says nothing.
    Strength,
}

/// Hardware with an eye on each side.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Eyes {
    /// A ring.
    Ring,
    /// A swivel.
    Swivel,
}

/// Where which knot is usual.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum UsualKnot {
    /// Where a line meets its leader.
    LineToLeader,
    /// Where a tag is left for a dropper.
    WithDropper,
    /// Between pieces of nearly one size.
    NearSizes,
    /// Between pieces of unlike size.
    UnlikeSizes,
    /// At an eye.
    AtAnEye,
    /// On a streamer.
    OnAStreamer,
}

impl UsualKnot {
    /// The name of the shipped knot. Source: common practice, no source.
    pub const fn knot(self) -> &'static str {
        match self {
            Self::LineToLeader => "nail",
            Self::WithDropper | Self::UnlikeSizes => "three-turn-surgeon",
            Self::NearSizes => "blood",
            Self::AtAnEye => "clinch",
            Self::OnAStreamer => "non-slip-loop",
        }
    }
}

/// What was taken.
#[derive(Clone, Debug, PartialEq)]
pub enum Taken {
    /// A shipped block.
    Block(BlockId),
    /// A figure.
    Figure(Quantity),
    /// A share of one.
    Share(f64),
    /// So many times what its parts come to.
    Times(f64),
    /// A hook of a size.
    Hook(u32),
    /// A figure that fits what was timed in still water.
    FittedTo(Value),
    /// A cast.
    Cast(Cast),
    /// Where the rod tip is.
    Stands(Stands),
    /// That it rides afloat.
    Afloat,
}
