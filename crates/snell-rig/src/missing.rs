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

/// The rig leaves it unsaid.
const NEEDED: bool = false;
/// The rig is none that has such a thing.
const ABSENT: bool = true;
/// Its words take `the`, and may be followed by what it is of.
const THE: bool = true;
/// Its words are whole.
const PLAIN: bool = false;

macro_rules! unsaid {
    ($($name:ident $other_kind:ident $article:ident $words:literal)*) => {
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
            /// Less line under water than this.
            LessLine(Quantity),
            /// What stands against a tackle.
            Tackle(NoTackle),
            $(#[doc = $words] $name,)*
        }

        impl Unsaid {
            /// Whether it tells that the rig is none that has such a thing, rather than one that leaves it
            /// unsaid.
            pub const fn is_of_other_kind(self) -> bool {
                match self {
                    Self::None(_) => true,
                    Self::Line(_)
                    | Self::Words(_)
                    | Self::Which(_)
                    | Self::LessLine(_)
                    | Self::Tackle(_) => false,
                    $(Self::$name => $other_kind,)*
                }
            }

            /// Whether it tells that the water lets the rig do no such thing, however much more were said.
            pub const fn is_of_the_water(self) -> bool {
                matches!(
                    self,
                    Self::SinkInTime | Self::DeeperWater | Self::FreerDrift | Self::LessLine(_)
                )
            }

            /// Its words, and whether they take `the`; nothing for those that hold more than a name.
            pub(crate) const fn words(self) -> Option<(bool, &'static str)> {
                match self {
                    Self::Line(_)
                    | Self::Words(_)
                    | Self::Which(_)
                    | Self::None(_)
                    | Self::LessLine(_)
                    | Self::Tackle(_) => None,
                    $(Self::$name => Some(($article, $words)),)*
                }
            }
        }
    };
}

unsaid! {
    // Of a piece of line, a tag or what sits on the line.
    Length NEEDED THE "length"
    Diameter NEEDED THE "diameter"
    Size NEEDED THE "size"
    Material NEEDED THE "material"
    MassByLength NEEDED THE "mass by length"
    RatedStrength NEEDED THE "rated strength"
    Strength NEEDED THE "strength"
    LengthAndThickness NEEDED PLAIN "a length and a thickness"
    SizeAndMeasured ABSENT PLAIN "a size and a measured diameter"

    // Of a fly.
    Hook NEEDED THE "hook"
    HookOrMass NEEDED THE "hook or the mass"
    HookOrBead NEEDED THE "hook or the bead"
    HookMass NEEDED THE "mass of its hook"
    BeadOrWireMaterial NEEDED THE "material of bead or wire"
    WireThickness NEEDED THE "thickness of the wire"
    WireTurns NEEDED THE "turns of wire"
    Dressing NEEDED THE "dressing"
    Bead ABSENT PLAIN "a bead"
    Ring ABSENT PLAIN "a ring"
    Lift ABSENT PLAIN "a lift"
    Sink ABSENT PLAIN "a sink"
    Weighed ABSENT PLAIN "a mass that was weighed"
    Timed ABSENT PLAIN "a sink that was timed"
    SinkOfLighter ABSENT PLAIN "a sink"
    Ride ABSENT PLAIN "a ride"
    FlyUnderWater ABSENT PLAIN "that fly under water"
    DriftOfLighter ABSENT PLAIN "a drift under water"

    // Of a rig's line and knots.
    Knot NEEDED PLAIN "a knot"
    KnotBetween ABSENT PLAIN "a knot"
    KnotOfJoin NEEDED PLAIN "the knot of a join"
    LineAbove NEEDED PLAIN "a line above the fly"
    LeaderToWeigh NEEDED PLAIN "a piece of leader"
    Leader ABSENT PLAIN "a piece of leader"
    Tippet ABSENT PLAIN "a tippet"
    Sighter ABSENT PLAIN "a sighter"
    LedSighter ABSENT PLAIN "a sighter that is led: it hangs from what floats"
    Float ABSENT PLAIN "a float"
    Shot ABSENT PLAIN "a shot"
    TwoFlies ABSENT PLAIN "two flies"
    FlyBelow ABSENT PLAIN "a fly below the dropper"
    SinkingPoint ABSENT PLAIN "a point fly that sinks"

    // Of rod, reel and water.
    Rod NEEDED PLAIN "a rod"
    Bends NEEDED PLAIN "how the rod `bends`"
    RodWeight NEEDED PLAIN "the rod's line weight"
    BendingRod NEEDED PLAIN "a rod that has a length and bends"
    Drag ABSENT PLAIN "a drag"
    Water NEEDED PLAIN "a water"
    Depth NEEDED THE "depth"
    Speed NEEDED THE "speed"
    Temperature NEEDED THE "temperature"
    Run NEEDED THE "run"
    SomeDepth NEEDED PLAIN "a depth of more than nothing"
    Reach NEEDED PLAIN "the reach, from the rod tip to where the leader meets the water"
    LongerReach NEEDED PLAIN "a reach that is longer than the tip is high"
    Wind ABSENT PLAIN "a wind"
    WindToFishIn NEEDED PLAIN "a wind in which it fishes less deep"
    LeadingReach NEEDED PLAIN "a reach at which the line leads the flies at all"

    // Of a drift.
    SinkInTime NEEDED PLAIN "flies that get down within a minute"
    DeeperWater NEEDED PLAIN "water that is deeper than the point is to ride off the bed"
    FreerDrift NEEDED PLAIN "a drift that is held back less: the line streams out flat"
    PlainerRig NEEDED PLAIN "a plainer rig or water: no steady drift of this one was found"
    WaterAndLine NEEDED PLAIN "water with a depth and line to hang in it"
}
