//! What a picture of a rig in the water shows.

use crate::colours::Colour;
use crate::scene::MarkKind;
use snell_units::System;

/// What is drawn, in SI: along the stream downward, and below or above the surface.
#[derive(Clone, Debug, PartialEq)]
pub struct Drifted {
    /// The rig's name.
    pub name: String,
    /// Its title.
    pub title: Option<String>,
    /// What is told of the water, the drift and how good all of it is, a sentence each.
    pub told: Vec<String>,
    /// The units of its rulers.
    pub system: System,
    /// The water.
    pub water: Water,
    /// The rig in it.
    pub rig: Rigged,
    /// What the picture shows in words.
    pub about: String,
}

/// What is known of a rig in its water.
#[derive(Clone, Debug, PartialEq)]
pub enum Rigged {
    /// How it rides.
    Rides(Box<Riding>),
    /// Nobody knows how it rides: its flies, the point first.
    Unknown(Vec<Unridden>),
}

/// A fly or a shot of which nobody knows how deep it rides.
#[derive(Clone, Debug, PartialEq)]
pub struct Unridden {
    /// Its name.
    pub name: String,
    /// Its sign.
    pub kind: MarkKind,
    /// How far up the line from the point it is tied, where that is known.
    pub up_the_line: Option<f64>,
}

impl Drifted {
    /// How the rig rides, where that is known.
    pub(super) const fn riding(&self) -> Option<&Riding> {
        match &self.rig {
            Rigged::Rides(riding) => Some(riding),
            Rigged::Unknown(_) => None,
        }
    }
}

/// What a bed is of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Bed {
    /// Stones of a size.
    Stones(f64),
    /// Weed of a height.
    Weed(f64),
}

/// A rig in its drift.
#[derive(Clone, Debug, PartialEq)]
pub struct Riding {
    /// Its speed down the stream.
    pub speed: f64,
    /// The same as it is written.
    pub drifts: String,
    /// The line from the point to the surface: downstream of its entry, and depth.
    pub line: Vec<(f64, f64)>,
    /// How much line that is.
    pub submerged: f64,
    /// The flies and shots, the point first.
    pub flies: Vec<Ride>,
    /// What is over the surface.
    pub over: Over,
}

/// A fly or a shot.
#[derive(Clone, Debug, PartialEq)]
pub struct Ride {
    /// Its name.
    pub name: String,
    /// Its sign.
    pub kind: MarkKind,
    /// Downstream of the line's entry, and depth.
    pub at: (f64, f64),
    /// How far up the line from the point it is tied.
    pub up_the_line: f64,
    /// The depths between which it rides.
    pub between: (f64, f64),
    /// Its depth as it is written.
    pub rides: String,
    /// The depths between which it rides as they are written.
    pub may_be: String,
    /// Its height over the bed as it is written.
    pub off_bed: String,
    /// Its speed against the water beside it, and which of them is the faster.
    pub against: String,
}

/// What is over the surface.
#[derive(Clone, Debug, PartialEq)]
pub enum Over {
    /// A float or a fly that floats: the rig hangs from it.
    Afloat(Afloat),
    /// The line goes up to a rod.
    Led(Led),
}

/// What the rig hangs from.
#[derive(Clone, Debug, PartialEq)]
pub struct Afloat {
    /// Its name.
    pub name: String,
    /// Its sign.
    pub kind: MarkKind,
    /// Its colour, where it has one.
    pub colour: Option<Colour>,
}

/// The line over the surface.
#[derive(Clone, Debug, PartialEq)]
pub struct Led {
    /// Its pieces, from the water up.
    pub pieces: Vec<Piece>,
    /// Flies and shots that stay over the water.
    pub dry: Vec<Dry>,
    /// Where its sighter begins, in words.
    pub sighter: Option<String>,
    /// How it hangs from the rod's tip, or why that is not drawn.
    pub air: Result<Air, String>,
}

/// How the line hangs in the air.
#[derive(Clone, Debug, PartialEq)]
pub struct Air {
    /// From the entry to the tip: along the water, and over it.
    pub curve: Vec<(f64, f64)>,
    /// How high the tip is and how far off, in words.
    pub tip: String,
    /// How far it sags, in words.
    pub sag: String,
}

/// The water.
#[derive(Clone, Debug, PartialEq)]
pub struct Water {
    /// The depth that the rig is drawn in.
    pub depth: f64,
    /// The least and the greatest depth, where it is told as a spread.
    pub ends: Option<[BedEnd; 2]>,
    /// Height over the bed and the speed there, from the bed up.
    pub profile: Vec<(f64, f64)>,
    /// The speed at the surface, as it is written.
    pub surface: String,
    /// What the bed is of.
    pub bed: Bed,
}

/// The bed at one end of a water's depths.
#[derive(Clone, Debug, PartialEq)]
pub struct BedEnd {
    /// How deep it lies.
    pub depth: f64,
    /// What is told of it.
    pub told: String,
}

impl Water {
    /// How deep its deepest place is.
    pub(super) fn deepest(&self) -> f64 {
        self.ends
            .as_ref()
            .map_or(self.depth, |[_, deep]| deep.depth.max(self.depth))
    }
}

/// A fly or a shot that stays over the water.
#[derive(Clone, Debug, PartialEq)]
pub struct Dry {
    /// Its name.
    pub name: String,
    /// Its sign.
    pub kind: MarkKind,
    /// How far up the line from the surface it is tied.
    pub up: f64,
}

/// A piece of the line over the surface.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// Its name.
    pub name: String,
    /// From where to where it runs, along the line from the surface up.
    pub reach: (f64, f64),
    /// Its colours in turn; none where it has none.
    pub colours: Vec<Colour>,
    /// Whether it is of the sighter.
    pub sighter: bool,
}
