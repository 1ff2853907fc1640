//! The one table of measures: what can be told of a rig and its parts.
//!
//! Claims, rules, `show` and the reference read it. A measure is a function of
//! an evaluation; adding one is a row here and a function beside its like.

mod fly;
mod gap;
mod join;
mod length;
mod section;
mod strength;

pub(crate) use join::ratio_of as join_ratio;
pub use strength::{places as breaking_places, weakest_place};

use crate::evaluation::Evaluation;
use crate::value::Outcome;
use rustc_hash::FxHashMap;
use std::sync::LazyLock;
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
    /// A shot.
    Shot,
    /// The rod.
    Rod,
    /// The water.
    Water,
}

impl Kind {
    /// The kinds that a rule may look at one by one.
    pub const EACH: [Self; 6] = [Self::Section, Self::Join, Self::Dropper, Self::Gap, Self::Fly, Self::Shot];

    /// The kind that a word names, among those.
    pub fn of(word: &str) -> Option<Self> {
        Self::EACH.into_iter().find(|kind| kind.word() == word)
    }

    /// The word for it in the language.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Rig => "rig",
            Self::Section => "section",
            Self::Join => "join",
            Self::Dropper => "dropper",
            Self::Gap => "gap",
            Self::Fly => "fly",
            Self::Shot => "shot",
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
    /// A shot, counted among what sits on the line.
    Shot(usize),
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
            Self::Shot(_) => Kind::Shot,
            Self::Rod => Kind::Rod,
            Self::Water => Kind::Water,
        }
    }

    /// Its number among its kind, from 0.
    pub const fn index(self) -> usize {
        match self {
            Self::Section(index)
            | Self::Join(index)
            | Self::Dropper(index)
            | Self::Gap(index)
            | Self::Fly(index)
            | Self::Shot(index) => index,
            Self::Rig | Self::Rod | Self::Water => 0,
        }
    }
}

/// What is called with each word that a measure tells.
pub type Told<'t> = dyn FnMut(&str) + 't;

/// A function that answers a measure.
#[derive(Clone, Copy, Debug)]
pub enum Get {
    /// In a quantity.
    Value(fn(&Evaluation<'_, '_>, Thing) -> Outcome),
    /// In words that `is` asks for.
    Words(fn(&Evaluation<'_, '_>, Thing, &mut Told<'_>)),
}

impl Measure {
    /// The words that it tells of a thing; none where it is told in a quantity.
    pub fn words(&self, evaluation: &Evaluation<'_, '_>, thing: Thing) -> Vec<String> {
        let mut words = Vec::new();
        if let Get::Words(get) = self.get {
            get(evaluation, thing, &mut |word| words.push(word.to_owned()));
        }
        words
    }
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
    get: fn(&Evaluation<'_, '_>, Thing, &mut Told<'_>),
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
const FORCE: Dimension = Dimension::FORCE;
const NONE: Dimension = Dimension::NONE;

/// Every measure.
pub static MEASURES: &[Measure] = &[
    value(Kind::Rig, "total", LENGTH, length::total, "The leader: from the lower end of the line to the point's eye. Tags and the line itself do not count."),
    value(Kind::Rig, "tippet", LENGTH, length::tippet, "From the lower end of the sighter to the point; without a sighter, from the first tippet piece."),
    value(Kind::Rig, "sighter", LENGTH, length::sighter, "All sighter pieces together."),
    value(Kind::Rig, "tippet-ratio", NONE, length::tippet_ratio, "The tippet over the water's depth."),
    value(Kind::Rig, "depth", LENGTH, length::depth, "The water's depth; of a spread, its middle."),
    value(Kind::Rig, "wading", Dimension::SPEED_BY_DEPTH, length::wading, "Depth times mean speed, each at its worse end: how hard the water pushes somebody who stands in it. Over a bed that is not said, the surface speed stands for the mean, which is the safer side."),
    value(Kind::Rig, "flies", NONE, fly::count, "How many flies there are."),
    value(Kind::Rig, "weight", MASS, fly::weight, "The mass of all flies together, an estimate unless they were weighed."),
    value(Kind::Rig, "lead", MASS, fly::lead, "The mass of lead on the rig: beads, wire and shot."),
    value(Kind::Rig, "sunk-mass", MASS, fly::sunk_mass, "The mass of the flies that do not float, and of the shots. Weighed in air; in water it is a little less."),
    value(Kind::Rig, "float-lift", MASS, fly::float_lift, "The mass that the float carries before it goes under, reckoned as a ball."),
    value(Kind::Rig, "leader-mass", MASS, section::leader_mass, "The mass of the leader's pieces, without the line and the flies."),
    value(Kind::Rig, "weakest", FORCE, strength::weakest, "The strength of the leader's weakest place, wet and knotted: an estimate, for no knot has one strength."),
    value(Kind::Rig, "breaks-above", LENGTH, strength::breaks_above, "How far above the point the rig breaks first, where a place above the last run is clearly the weakest; nothing where it breaks in the last run, on a tag or at the fly. An estimate."),
    value(Kind::Rig, "cushion", Dimension::SPEED, strength::cushion, "The speed of a sudden run of a 1 kg fish that the weakest place just bears with the reel held, rod and leader being springs: an estimate, to within 30 %."),
    value(Kind::Rig, "fly-spread", LENGTH, gap::spread, "Along the line from the first fly to the last."),
    value(Kind::Rig, "float-to-point", LENGTH, gap::float_to_point, "Along the line from the float to the point."),
    words(Kind::Rig, "method", fly::method, "The method that the rig is for."),
    value(Kind::Section, "length", LENGTH, section::length, "Its finished length between knots."),
    value(Kind::Section, "to-point", LENGTH, length::to_point, "From its lower end along the line to the point."),
    value(Kind::Section, "diameter", LENGTH, section::diameter, "Its diameter: as measured, or else by its label; of a tapered piece, the middle of its ends."),
    value(Kind::Section, "x-size", NONE, section::x, "Its diameter as an X size: 6 for 0.127 mm. Less than nothing above 0X."),
    value(Kind::Section, "area", Dimension::AREA, section::area, "The area of its cross-section; of a tapered piece, the mean along it."),
    value(Kind::Section, "mass", MASS, section::mass, "Its mass, out of length, area and material; of a fly line, by its weight."),
    value(Kind::Section, "rated", FORCE, section::rated, "The strength that its label claims."),
    value(Kind::Section, "strength", FORCE, strength::of_section, "Its strength wet and without a knot: as tested, or 85 % of its label times its material's wet factor."),
    value(Kind::Section, "stress", Dimension::STRESS, strength::stress, "The strength that its label claims over its area: what the claim asks of the material."),
    value(Kind::Section, "stretch", NONE, strength::stretch, "How far it stretches before it breaks, as a share of its length."),
    value(Kind::Section, "off-label", LENGTH, strength::off_label, "What its size by the label and its measured diameter differ by."),
    words(Kind::Section, "role", section::role, "Its role: line, butt, taper, sighter or tippet."),
    words(Kind::Section, "material", section::material, "What it is made of."),
    words(Kind::Section, "colour", section::colour, "Its colours as written."),
    value(Kind::Join, "step", LENGTH, join::step, "How much thinner the piece below is; less than nothing where it is thicker."),
    value(Kind::Join, "ratio", NONE, join::ratio, "The thicker of the two diameters over the thinner."),
    value(Kind::Join, "knot-ratio", NONE, strength::knot_step, "The largest ratio of diameters that its knot joins well."),
    value(Kind::Join, "strength", FORCE, strength::of_join, "The weaker side's strength times its knot's share."),
    words(Kind::Join, "knot", join::knot, "Its knot's name."),
    words(Kind::Join, "kind", join::kind, "The knot's name, `ring`, or `through` where one piece of line goes on."),
    value(Kind::Dropper, "length", LENGTH, length::dropper, "From its knot to the fly's eye."),
    value(Kind::Dropper, "room", LENGTH, gap::room, "Along the line from its knot to the next fly below."),
    value(Kind::Dropper, "changes", NONE, length::changes, "How many more flies can be tied on before the tag is too short."),
    value(Kind::Gap, "length", LENGTH, gap::length, "Along the line between the places of two flies."),
    value(Kind::Gap, "hung", LENGTH, gap::hung, "From eye to eye when the rig hangs straight down."),
    value(Kind::Fly, "mass", MASS, fly::mass, "Its mass: as weighed, or else an estimate out of hook, bead, wire and dressing."),
    value(Kind::Fly, "bead", LENGTH, fly::bead, "The diameter of its bead."),
    value(Kind::Fly, "floats", MASS, fly::floats, "The mass that it carries afloat before it sinks."),
    value(Kind::Fly, "line", LENGTH, section::diameter_at_fly, "The diameter of the line that it is tied to: its tag's own, or that of the piece above."),
    value(Kind::Fly, "x-size", NONE, section::x_at_fly, "The line that it is tied to as an X size: 6 for 0.127 mm."),
    value(Kind::Fly, "strength", FORCE, strength::of_fly, "The strength at the knot that ties it on."),
    value(Kind::Fly, "hook-size", NONE, fly::hook_size, "Its hook's size as a number: 14 for `#14`."),
    words(Kind::Fly, "knot", fly::knot, "The knot that ties it on."),
    words(Kind::Fly, "hook", fly::hook, "Its hook's size."),
    value(Kind::Shot, "mass", MASS, fly::shot_mass, "Its mass."),
    words(Kind::Shot, "material", fly::shot_material, "What it is made of."),
    value(Kind::Rod, "weight", NONE, |evaluation, _| length::rod_weight(evaluation), "The line weight that it is built for, as a number."),
    value(Kind::Rod, "length", LENGTH, |evaluation, _| length::rod(evaluation), "The rod's length."),
    value(Kind::Water, "depth", LENGTH, |evaluation, _| length::depth(evaluation, Thing::Rig), "Its depth."),
    value(Kind::Water, "speed", Dimension::SPEED, |evaluation, _| length::speed(evaluation), "Its speed as it is given, of the surface or the mean."),
    value(Kind::Water, "temperature", Dimension::TEMPERATURE, |evaluation, _| length::temperature(evaluation), "Its temperature."),
];

static BY_NAME: LazyLock<FxHashMap<(Kind, &str), &'static Measure>> =
    LazyLock::new(|| MEASURES.iter().map(|measure| ((measure.of, measure.name), measure)).collect());

/// The measure of a kind of thing with a name.
pub fn of(kind: Kind, name: &str) -> Option<&'static Measure> {
    BY_NAME.get(&(kind, name)).copied()
}

/// The measure of rigs with a name.
pub fn of_rig(name: &str) -> Option<&'static Measure> {
    of(Kind::Rig, name)
}

/// Every measure of a kind of thing.
pub fn all_of(kind: Kind) -> impl Iterator<Item = &'static Measure> {
    MEASURES.iter().filter(move |measure| measure.of == kind)
}
