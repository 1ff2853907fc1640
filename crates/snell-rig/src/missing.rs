//! What a rig leaves unsaid, as data: what is missing, and of which thing. Its words are made where the
//! names of things are known.

use crate::keywords::{PartKind, Row};
use crate::project::BlockId;
use crate::thing::{Kind, Thing};
use snell_text::Place;
use snell_units::Quantity;
use snell_water::NoTackle;

/// Something that is missing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Missing {
    /// What.
    pub what: Unsaid,
    /// Of what.
    pub of: Of,
    /// Where it could be said.
    pub place: Option<Place>,
}

/// What something is missing of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Of {
    /// The rig as a whole.
    Rig,
    /// A part of it, its rod or its water.
    Thing(Thing),
    /// Its float.
    Float,
    /// A block.
    Block(BlockId),
}

/// What a word may call for: a kind of thing, or of part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Noun {
    /// A kind of thing.
    Thing(Kind),
    /// A kind of part.
    Part(PartKind),
}

impl Noun {
    /// What a word calls for.
    pub fn of(word: &str) -> Option<Self> {
        let thing = Kind::of(word).map(Self::Thing);
        thing.or_else(|| PartKind::of(word).map(Self::Part))
    }

    /// The word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Thing(kind) => kind.word(),
            Self::Part(kind) => kind.word(),
        }
    }
}

impl Missing {
    /// Something of the rig as a whole.
    pub const fn new(what: Unsaid) -> Self {
        Self {
            what,
            of: Of::Rig,
            place: None,
        }
    }

    /// What it is of.
    #[must_use]
    pub const fn of(mut self, of: Of) -> Self {
        self.of = of;
        self
    }

    /// The thing that it is of.
    #[must_use]
    pub const fn of_thing(self, thing: Thing) -> Self {
        self.of(Of::Thing(thing))
    }

    /// Where it could be said.
    #[must_use]
    pub const fn at(mut self, place: Place) -> Self {
        self.place = Some(place);
        self
    }
}

/// What may be missing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Unsaid {
    /// A line of a block.
    Line(&'static Row),
    /// What a measure would tell in words.
    Words(&'static str),
    /// Which of several is meant.
    Which(Noun),
    /// A thing of a kind, which this rig has none of.
    None(Noun),

    // Of a piece of line, a tag or what sits on the line.
    /// Its length.
    Length,
    /// Its diameter.
    Diameter,
    /// Its size.
    Size,
    /// What it is made of.
    Material,
    /// The mass of a length of it.
    MassByLength,
    /// The strength that its label claims.
    RatedStrength,
    /// Its strength.
    Strength,
    /// A length and a thickness of more than nothing.
    LengthAndThickness,
    /// Both a size and a measured diameter.
    SizeAndMeasured,

    // Of a fly.
    /// Its hook.
    Hook,
    /// Its hook, or else its mass.
    HookOrMass,
    /// Its hook, or else its bead.
    HookOrBead,
    /// The mass of a hook of its size.
    HookMass,
    /// What its bead or wire is made of.
    BeadOrWireMaterial,
    /// How thick its wire is.
    WireThickness,
    /// How many turns of wire it has.
    WireTurns,
    /// How it is dressed.
    Dressing,
    /// A bead, of a fly that has none.
    Bead,
    /// What it carries, of a fly that sinks.
    Lift,
    /// A speed of sinking, of a fly that floats.
    Sink,
    /// The same of one that is lighter than water.
    SinkOfLighter,
    /// A place in the drift, of a fly that is not under water.
    Ride,
    /// A fly that is under water at all.
    FlyUnderWater,
    /// A drift of something that is lighter than water.
    DriftOfLighter,

    // Of a rig's line and knots.
    /// A knot.
    Knot,
    /// A knot, where a line goes through or a ring joins.
    KnotBetween,
    /// The line that a knot takes.
    KnotOfJoin,
    /// A piece of line above the fly.
    LineAbove,
    /// A piece of leader, to be weighed.
    LeaderToWeigh,
    /// A piece of leader.
    Leader,
    /// A tippet.
    Tippet,
    /// A sighter.
    Sighter,
    /// A sighter that is led by hand.
    LedSighter,
    /// A float.
    Float,
    /// A shot.
    Shot,
    /// Two flies.
    TwoFlies,
    /// A fly below a dropper.
    FlyBelow,
    /// A point that sinks.
    SinkingPoint,

    // Of rod, reel and water.
    /// A rod.
    Rod,
    /// How the rod bends.
    Bends,
    /// The rod's line weight.
    RodWeight,
    /// A rod that bends.
    BendingRod,
    /// The reel's drag.
    Drag,
    /// A water.
    Water,
    /// Its depth.
    Depth,
    /// Its speed.
    Speed,
    /// Its temperature.
    Temperature,
    /// How long a drift it gives.
    Run,
    /// A depth of more than nothing.
    SomeDepth,
    /// The reach.
    Reach,
    /// A reach longer than the tip is high.
    LongerReach,
    /// A reach at which the line leads the flies.
    LeadingReach,

    // Of a drift.
    /// Flies that get down in time.
    SinkInTime,
    /// Less line under water than this.
    LessLine(Quantity),
    /// Water deeper than the point is to ride off the bed.
    DeeperWater,
    /// A drift that is held back less.
    FreerDrift,
    /// A rig of which a steady drift can be found.
    PlainerRig,
    /// Water, and line that hangs in it.
    WaterAndLine,
    /// What stands against a tackle.
    Tackle(NoTackle),
}

impl Unsaid {
    /// Whether it tells that the rig is none that has such a thing, rather than one that leaves it unsaid.
    pub const fn is_of_other_kind(self) -> bool {
        match self {
            Self::None(_)
            | Self::SizeAndMeasured
            | Self::Bead
            | Self::Lift
            | Self::Sink
            | Self::SinkOfLighter
            | Self::Ride
            | Self::FlyUnderWater
            | Self::DriftOfLighter
            | Self::KnotBetween
            | Self::Leader
            | Self::Tippet
            | Self::Sighter
            | Self::LedSighter
            | Self::Float
            | Self::Shot
            | Self::TwoFlies
            | Self::FlyBelow
            | Self::SinkingPoint
            | Self::Drag => true,
            Self::Line(_)
            | Self::Words(_)
            | Self::Which(_)
            | Self::Length
            | Self::Diameter
            | Self::Size
            | Self::Material
            | Self::MassByLength
            | Self::RatedStrength
            | Self::Strength
            | Self::LengthAndThickness
            | Self::Hook
            | Self::HookOrMass
            | Self::HookOrBead
            | Self::HookMass
            | Self::BeadOrWireMaterial
            | Self::WireThickness
            | Self::WireTurns
            | Self::Dressing
            | Self::Knot
            | Self::KnotOfJoin
            | Self::LineAbove
            | Self::LeaderToWeigh
            | Self::Rod
            | Self::Bends
            | Self::RodWeight
            | Self::BendingRod
            | Self::Water
            | Self::Depth
            | Self::Speed
            | Self::Temperature
            | Self::Run
            | Self::SomeDepth
            | Self::Reach
            | Self::LongerReach
            | Self::LeadingReach
            | Self::SinkInTime
            | Self::LessLine(_)
            | Self::DeeperWater
            | Self::FreerDrift
            | Self::PlainerRig
            | Self::WaterAndLine
            | Self::Tackle(_) => false,
        }
    }
}
