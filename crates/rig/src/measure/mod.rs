//! The one table of measures: what can be told of a rig and its parts.
//!
//! Claims, rules, `show` and the reference read it. A measure is a function of
//! an evaluation; adding one is a row here and a function beside its like.

mod fly;
mod gap;
mod join;
mod length;
mod section;

pub(crate) use join::ratio_of as join_ratio;

use crate::evaluation::Evaluation;
use crate::value::Outcome;
use units::Dimension;

/// What a measure is of.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Kind {
    /// The whole rig.
    Rig,
    /// A piece of line.
    Section,
    /// Where two sections meet.
    Join,
    /// A tag with its fly.
    Dropper,
    /// Two flies next to each other.
    Gap,
    /// A fly.
    Fly,
    /// The rod.
    Rod,
    /// The water.
    Water,
}

impl Kind {
    /// The word for it in the language.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Rig => "rig",
            Self::Section => "section",
            Self::Join => "join",
            Self::Dropper => "dropper",
            Self::Gap => "gap",
            Self::Fly => "fly",
            Self::Rod => "rod",
            Self::Water => "water",
        }
    }
}

/// A thing that can be measured; numbers count from the reel.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, PartialOrd, Ord)]
pub enum Thing {
    /// The whole rig.
    Rig,
    /// A section.
    Section(usize),
    /// The join below a section.
    Join(usize),
    /// A dropper.
    Dropper(usize),
    /// The gap below a fly.
    Gap(usize),
    /// A fly.
    Fly(usize),
    /// The rod.
    Rod,
    /// The water.
    Water,
}

impl Thing {
    /// What kind of thing it is.
    pub const fn kind(self) -> Kind {
        match self {
            Self::Rig => Kind::Rig,
            Self::Section(_) => Kind::Section,
            Self::Join(_) => Kind::Join,
            Self::Dropper(_) => Kind::Dropper,
            Self::Gap(_) => Kind::Gap,
            Self::Fly(_) => Kind::Fly,
            Self::Rod => Kind::Rod,
            Self::Water => Kind::Water,
        }
    }

    /// Its number among its kind, from 0.
    pub const fn index(self) -> usize {
        match self {
            Self::Section(index) | Self::Join(index) | Self::Dropper(index) | Self::Gap(index) | Self::Fly(index) => index,
            Self::Rig | Self::Rod | Self::Water => 0,
        }
    }
}

/// A function that answers a measure.
#[derive(Clone, Copy, Debug)]
pub enum Get {
    /// In a quantity.
    Value(fn(&Evaluation<'_, '_>, Thing) -> Outcome),
    /// In words that `is` asks for.
    Words(fn(&Evaluation<'_, '_>, Thing) -> Vec<String>),
}

/// A row of the table.
#[derive(Debug)]
pub struct Measure {
    /// What it is of.
    pub of: Kind,
    /// Its name.
    pub name: &'static str,
    /// Its dimension; plain numbers and words have none.
    pub dimension: Dimension,
    /// One line of documentation.
    pub about: &'static str,
    /// How it is had.
    pub get: Get,
}

const fn value(
    of: Kind,
    name: &'static str,
    dimension: Dimension,
    get: fn(&Evaluation<'_, '_>, Thing) -> Outcome,
    about: &'static str,
) -> Measure {
    Measure {
        of,
        name,
        dimension,
        about,
        get: Get::Value(get),
    }
}

const fn words(
    of: Kind,
    name: &'static str,
    get: fn(&Evaluation<'_, '_>, Thing) -> Vec<String>,
    about: &'static str,
) -> Measure {
    Measure {
        of,
        name,
        dimension: Dimension::NONE,
        about,
        get: Get::Words(get),
    }
}

const LENGTH: Dimension = Dimension::LENGTH;
const MASS: Dimension = Dimension::MASS;
const NONE: Dimension = Dimension::NONE;

/// Every measure.
pub static MEASURES: &[Measure] = &[
    value(Kind::Rig, "total", LENGTH, length::total, "The leader: from the lower end of the line to the point's eye. Tags and the line itself do not count."),
    value(Kind::Rig, "tippet", LENGTH, length::tippet, "From the lower end of the sighter to the point; without a sighter, from the first tippet piece."),
    value(Kind::Rig, "sighter", LENGTH, length::sighter, "All sighter pieces together."),
    value(Kind::Rig, "tippet-ratio", NONE, length::tippet_ratio, "The tippet over the water's depth."),
    value(Kind::Rig, "depth", LENGTH, length::depth, "The water's depth; of a spread, its middle."),
    value(Kind::Rig, "flies", NONE, fly::count, "How many flies there are."),
    value(Kind::Rig, "weight", MASS, fly::weight, "The mass of all flies together, an estimate unless they were weighed."),
    value(Kind::Rig, "lead", MASS, fly::lead, "The mass of lead on the rig: beads, wire and shot."),
    value(Kind::Rig, "leader-mass", MASS, section::leader_mass, "The mass of the leader's pieces, without the line and the flies."),
    value(Kind::Rig, "fly-spread", LENGTH, gap::spread, "Along the line from the first fly to the last."),
    value(Kind::Rig, "float-to-point", LENGTH, gap::float_to_point, "Along the line from the float to the point."),
    words(Kind::Rig, "method", fly::method, "The method that the rig is for."),
    value(Kind::Section, "length", LENGTH, section::length, "Its finished length between knots."),
    value(Kind::Section, "to-point", LENGTH, length::to_point, "From its lower end along the line to the point."),
    value(Kind::Section, "diameter", LENGTH, section::diameter, "Its diameter: as measured, or else by its label; of a tapered piece, the middle of its ends."),
    value(Kind::Section, "area", Dimension::AREA, section::area, "The area of its cross-section; of a tapered piece, the mean along it."),
    value(Kind::Section, "mass", MASS, section::mass, "Its mass, out of length, area and material; of a fly line, by its weight."),
    value(Kind::Section, "rated", Dimension::FORCE, section::rated, "The strength that its label claims."),
    words(Kind::Section, "role", section::role, "Its role: line, butt, taper, sighter or tippet."),
    words(Kind::Section, "material", section::material, "What it is made of."),
    words(Kind::Section, "colour", section::colour, "Its colours as written."),
    value(Kind::Join, "step", LENGTH, join::step, "How much thinner the piece below is; less than nothing where it is thicker."),
    value(Kind::Join, "ratio", NONE, join::ratio, "The thicker of the two diameters over the thinner."),
    words(Kind::Join, "kind", join::kind, "The knot's name, `ring`, or `through` where one piece of line goes on."),
    value(Kind::Dropper, "length", LENGTH, length::dropper, "From its knot to the fly's eye."),
    value(Kind::Dropper, "changes", NONE, length::changes, "How many more flies can be tied on before the tag is too short."),
    value(Kind::Gap, "length", LENGTH, gap::length, "Along the line between the places of two flies."),
    value(Kind::Gap, "hung", LENGTH, gap::hung, "From eye to eye when the rig hangs straight down."),
    value(Kind::Fly, "mass", MASS, fly::mass, "Its mass: as weighed, or else an estimate out of hook, bead, wire and dressing."),
    value(Kind::Fly, "bead", LENGTH, fly::bead, "The diameter of its bead."),
    words(Kind::Fly, "hook", fly::hook, "Its hook's size."),
    value(Kind::Rod, "length", LENGTH, |evaluation, _| length::rod(evaluation), "The rod's length."),
    value(Kind::Water, "depth", LENGTH, |evaluation, _| length::depth(evaluation, Thing::Rig), "Its depth."),
    value(Kind::Water, "speed", Dimension::SPEED, |evaluation, _| length::speed(evaluation), "Its speed as it is given, of the surface or the mean."),
];

/// The measure of a kind of thing with a name.
pub fn of(kind: Kind, name: &str) -> Option<&'static Measure> {
    MEASURES.iter().find(|measure| measure.of == kind && measure.name == name)
}

/// The measure of rigs with a name.
pub fn of_rig(name: &str) -> Option<&'static Measure> {
    of(Kind::Rig, name)
}

/// Every measure of a kind of thing.
pub fn all_of(kind: Kind) -> impl Iterator<Item = &'static Measure> {
    MEASURES.iter().filter(move |measure| measure.of == kind)
}
