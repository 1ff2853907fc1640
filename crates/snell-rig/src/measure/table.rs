//! The table itself: a row for each measure, in the order in which they are
//! shown. It is long because it is one table.

use super::{bearing, fly, gap, join, length, section, strength, water};
use crate::evaluation::{Error, Evaluation, Get, Measure, Measures, OfThing, WordsOf};
use crate::rig::Rig;
use crate::thing::Kind;
use crate::world::World;
use snell_units::Dimension;
use std::sync::LazyLock;

const fn value(
    of: Kind,
    name: &'static str,
    dimension: Dimension,
    get: OfThing,
    about: &'static str,
) -> Measure {
    estimate(of, name, dimension, Error::None, get, about)
}

/// A row of a quantity that is an estimate.
const fn estimate(
    of: Kind,
    name: &'static str,
    dimension: Dimension,
    error: Error,
    get: OfThing,
    about: &'static str,
) -> Measure {
    Measure {
        of,
        name,
        dimension,
        about,
        error,
        get: Get::Value(get),
    }
}

const fn words(of: Kind, name: &'static str, get: WordsOf, about: &'static str) -> Measure {
    Measure {
        of,
        name,
        dimension: Dimension::NONE,
        about,
        error: Error::None,
        get: Get::Words(get),
    }
}

/// What a depth in a real stream is off by, in metres. Source: the middle of the 5-10 cm that the parts of
/// the model come to, from memory.
const DEPTH_ERROR: f64 = 0.075;

const LENGTH: Dimension = Dimension::LENGTH;
const MASS: Dimension = Dimension::MASS;
const FORCE: Dimension = Dimension::FORCE;
const NONE: Dimension = Dimension::NONE;

/// Every measure.
pub static MEASURES: &[Measure] = &[
    value(
        Kind::Rig,
        "total",
        LENGTH,
        OfThing::Rig(length::total),
        "The leader: from the lower end of the line to the point's eye. Tags and the line itself do not count.",
    ),
    value(
        Kind::Rig,
        "tippet",
        LENGTH,
        OfThing::Rig(length::tippet),
        "From the lower end of the sighter to the point; without a sighter, from the first tippet piece.",
    ),
    value(
        Kind::Rig,
        "sighter",
        LENGTH,
        OfThing::Rig(length::sighter),
        "All sighter pieces together.",
    ),
    value(
        Kind::Rig,
        "tippet-ratio",
        NONE,
        OfThing::Rig(length::tippet_ratio),
        "The tippet over the water's depth.",
    ),
    value(
        Kind::Rig,
        "depth",
        LENGTH,
        OfThing::Rig(length::depth),
        "The water's depth; of a spread, its middle.",
    ),
    value(
        Kind::Rig,
        "wading",
        Dimension::SPEED_BY_DEPTH,
        OfThing::Rig(length::wading),
        "Depth times mean speed, each at its worse end: how hard the water pushes somebody who stands in it. Over a bed that is not said, the surface speed stands for the mean, which is the safer side.",
    ),
    value(
        Kind::Rig,
        "flies",
        NONE,
        OfThing::Rig(fly::count),
        "How many flies there are.",
    ),
    estimate(
        Kind::Rig,
        "weight",
        MASS,
        Error::Unweighed,
        OfThing::Rig(fly::weight),
        "The mass of all flies together, an estimate unless they were weighed.",
    ),
    value(
        Kind::Rig,
        "lead",
        MASS,
        OfThing::Rig(fly::lead),
        "The mass of lead on the rig: beads, wire and shot.",
    ),
    value(
        Kind::Rig,
        "sunk-mass",
        MASS,
        OfThing::Rig(fly::sunk_mass),
        "The mass of the flies that do not float, and of the shots. Weighed in air; in water it is a little less.",
    ),
    value(
        Kind::Rig,
        "float-lift",
        MASS,
        OfThing::Rig(fly::float_lift),
        "The mass that the float carries before it goes under, reckoned as a ball.",
    ),
    value(
        Kind::Rig,
        "leader-mass",
        MASS,
        OfThing::Rig(section::leader_mass),
        "The mass of the leader's pieces, without the line and the flies.",
    ),
    estimate(
        Kind::Rig,
        "weakest",
        FORCE,
        Error::Unsaid,
        OfThing::Rig(strength::weakest),
        "The strength of the leader's weakest place, wet and knotted: an estimate, for no knot has one strength.",
    ),
    estimate(
        Kind::Rig,
        "breaks-above",
        LENGTH,
        Error::Unsaid,
        OfThing::Rig(strength::breaks_above),
        "How far above the point the rig breaks first, where a place above the last run is clearly the weakest; nothing where it breaks in the last run, on a tag or at the fly. An estimate.",
    ),
    estimate(
        Kind::Rig,
        "cushion",
        Dimension::SPEED,
        Error::Share(0.3),
        OfThing::Rig(bearing::cushion),
        "The speed of a sudden run of a 1 kg fish that the weakest place just bears with the reel held, rod and leader being springs: an estimate, to within 30 %.",
    ),
    value(
        Kind::Rig,
        "drag",
        FORCE,
        OfThing::Rig(bearing::drag),
        "The pull at which the reel gives line, as the rig states it.",
    ),
    value(
        Kind::Rig,
        "drag-share",
        NONE,
        OfThing::Rig(bearing::drag_share),
        "The reel's drag over the strength of the leader's weakest place: an estimate, for no knot has one strength.",
    ),
    estimate(
        Kind::Rig,
        "tippet-needed",
        LENGTH,
        Error::Share(0.1),
        OfThing::Rig(water::tippet_needed),
        "The line under water that puts the point at its height off the bed in the drift.",
    ),
    estimate(
        Kind::Rig,
        "sighter-clear",
        LENGTH,
        Error::Length(DEPTH_ERROR),
        OfThing::Rig(water::sighter_clear),
        "How much of the tippet stays out of the water, and so how high the sighter's end is held; less than nothing where the tippet is too short.",
    ),
    estimate(
        Kind::Rig,
        "sink-time",
        Dimension::TIME,
        Error::Share(0.3),
        OfThing::Rig(water::sink_time),
        "From landing until the point is at nine tenths of its depth in the drift.",
    ),
    estimate(
        Kind::Rig,
        "sink-run",
        LENGTH,
        Error::Share(0.3),
        OfThing::Rig(water::sink_run),
        "How far the rig goes down the stream in its sink time.",
    ),
    estimate(
        Kind::Rig,
        "sag",
        LENGTH,
        Error::Share(0.15),
        OfThing::Rig(water::sag),
        "The greatest drop of the line in the air below a straight line, when nothing but its own weight leads the flies.",
    ),
    estimate(
        Kind::Rig,
        "sag-pull",
        FORCE,
        Error::Share(0.05),
        OfThing::Rig(water::sag_pull),
        "The pull along the water that lifts the line in the air to a sag of 10 cm.",
    ),
    estimate(
        Kind::Rig,
        "creep",
        Dimension::SPEED,
        Error::Share(0.15),
        OfThing::Rig(water::creep),
        "How fast that pull draws the flies to the angler's side, were the water at rest that way: an upper bound.",
    ),
    estimate(
        Kind::Rig,
        "beyond-tip",
        LENGTH,
        Error::Length(DEPTH_ERROR),
        OfThing::Rig(water::beyond_tip),
        "The line out beyond the rod's tip: the reach, and what is under water.",
    ),
    estimate(
        Kind::Rig,
        "mass-beyond-tip",
        MASS,
        Error::Share(0.15),
        OfThing::Rig(water::mass_beyond_tip),
        "What hangs out beyond the rod's tip: line, flies and shots.",
    ),
    value(
        Kind::Rig,
        "fly-spread",
        LENGTH,
        OfThing::Rig(gap::spread),
        "Along the line from the first fly to the last.",
    ),
    value(
        Kind::Rig,
        "float-to-point",
        LENGTH,
        OfThing::Rig(gap::float_to_point),
        "Along the line from the float to the point.",
    ),
    words(
        Kind::Rig,
        "method",
        WordsOf::Rig(fly::method),
        "The method that the rig is for.",
    ),
    value(
        Kind::Section,
        "length",
        LENGTH,
        OfThing::Section(section::length),
        "Its finished length between knots.",
    ),
    value(
        Kind::Section,
        "to-point",
        LENGTH,
        OfThing::Section(length::to_point),
        "From its lower end along the line to the point.",
    ),
    value(
        Kind::Section,
        "diameter",
        LENGTH,
        OfThing::Section(section::diameter),
        "Its diameter: as measured, or else by its label; of a tapered piece, the middle of its ends.",
    ),
    value(
        Kind::Section,
        "x-size",
        NONE,
        OfThing::Section(section::x),
        "Its diameter as an X size: 6 for 0.127 mm. Less than nothing above 0X.",
    ),
    value(
        Kind::Section,
        "area",
        Dimension::AREA,
        OfThing::Section(section::area),
        "The area of its cross-section; of a tapered piece, the mean along it.",
    ),
    value(
        Kind::Section,
        "mass",
        MASS,
        OfThing::Section(section::mass),
        "Its mass, out of length, area and material; of a fly line, by its weight.",
    ),
    value(
        Kind::Section,
        "rated",
        FORCE,
        OfThing::Section(section::rated),
        "The strength that its label claims.",
    ),
    value(
        Kind::Section,
        "strength",
        FORCE,
        OfThing::Section(strength::of_section),
        "Its strength wet and without a knot: as tested, or 85 % of its label times its material's wet factor.",
    ),
    value(
        Kind::Section,
        "stress",
        Dimension::STRESS,
        OfThing::Section(strength::stress),
        "The strength that its label claims over its area: what the claim asks of the material.",
    ),
    value(
        Kind::Section,
        "stretch",
        NONE,
        OfThing::Section(strength::stretch),
        "How far it stretches before it breaks, as a share of its length.",
    ),
    value(
        Kind::Section,
        "off-label",
        LENGTH,
        OfThing::Section(strength::off_label),
        "What its size by the label and its measured diameter differ by.",
    ),
    words(
        Kind::Section,
        "role",
        WordsOf::Section(section::role),
        "Its role: line, butt, taper, sighter or tippet.",
    ),
    words(
        Kind::Section,
        "material",
        WordsOf::Section(section::material),
        "What it is made of.",
    ),
    words(
        Kind::Section,
        "colour",
        WordsOf::Section(section::colour),
        "Its colours as written.",
    ),
    value(
        Kind::Join,
        "step",
        LENGTH,
        OfThing::Join(join::step),
        "How much thinner the piece below is; less than nothing where it is thicker.",
    ),
    value(
        Kind::Join,
        "ratio",
        NONE,
        OfThing::Join(join::ratio),
        "The thicker of the two diameters over the thinner.",
    ),
    value(
        Kind::Join,
        "knot-ratio",
        NONE,
        OfThing::Join(strength::knot_step),
        "The largest ratio of diameters that its knot joins well.",
    ),
    value(
        Kind::Join,
        "strength",
        FORCE,
        OfThing::Join(strength::of_join),
        "The weaker side's strength times its knot's share.",
    ),
    words(Kind::Join, "knot", WordsOf::Join(join::knot), "Its knot's name."),
    words(
        Kind::Join,
        "kind",
        WordsOf::Join(join::kind),
        "The knot's name, `ring`, or `through` where one piece of line goes on.",
    ),
    value(
        Kind::Dropper,
        "length",
        LENGTH,
        OfThing::Dropper(length::dropper),
        "From its knot to the fly's eye.",
    ),
    value(
        Kind::Dropper,
        "room",
        LENGTH,
        OfThing::Dropper(gap::room),
        "Along the line from its knot to the next fly below.",
    ),
    value(
        Kind::Dropper,
        "changes",
        NONE,
        OfThing::Dropper(length::changes),
        "How many more flies can be tied on before the tag is too short.",
    ),
    value(
        Kind::Gap,
        "length",
        LENGTH,
        OfThing::Gap(gap::length),
        "Along the line between the places of two flies.",
    ),
    value(
        Kind::Gap,
        "hung",
        LENGTH,
        OfThing::Gap(gap::hung),
        "From eye to eye when the rig hangs straight down.",
    ),
    estimate(
        Kind::Fly,
        "mass",
        MASS,
        Error::Unweighed,
        OfThing::Fly(fly::mass),
        "Its mass: as weighed, or else an estimate out of hook, bead, wire and dressing.",
    ),
    value(
        Kind::Fly,
        "bead",
        LENGTH,
        OfThing::Fly(fly::bead),
        "The diameter of its bead.",
    ),
    value(
        Kind::Fly,
        "floats",
        MASS,
        OfThing::Fly(fly::floats),
        "The mass that it carries afloat before it sinks.",
    ),
    value(
        Kind::Fly,
        "line",
        LENGTH,
        OfThing::Fly(section::diameter_at_fly),
        "The diameter of the line that it is tied to: its tag's own, or that of the piece above.",
    ),
    value(
        Kind::Fly,
        "x-size",
        NONE,
        OfThing::Fly(section::x_at_fly),
        "The line that it is tied to as an X size: 6 for 0.127 mm.",
    ),
    value(
        Kind::Fly,
        "strength",
        FORCE,
        OfThing::Fly(strength::of_fly),
        "The strength at the knot that ties it on.",
    ),
    value(
        Kind::Fly,
        "hook-size",
        NONE,
        OfThing::Fly(fly::hook_size),
        "Its hook's size as a number: 14 for `#14`.",
    ),
    estimate(
        Kind::Fly,
        "wet-weight",
        FORCE,
        Error::Fly {
            untimed: 0.15,
            timed: 0.15,
        },
        OfThing::Fly(water::wet_weight),
        "What it weighs under water.",
    ),
    estimate(
        Kind::Fly,
        "sinks",
        Dimension::SPEED,
        Error::Fly {
            untimed: 0.33,
            timed: 0.1,
        },
        OfThing::Fly(water::sinks),
        "Its speed in still water: as timed, or out of its weight and its dressing, which nobody can tell by eye.",
    ),
    value(
        Kind::Fly,
        "hang",
        LENGTH,
        OfThing::Fly(gap::hang),
        "How deep it would hang if the line under water went straight down.",
    ),
    estimate(
        Kind::Fly,
        "rides",
        LENGTH,
        Error::Length(DEPTH_ERROR),
        OfThing::Fly(water::rides),
        "Its depth in the drift.",
    ),
    estimate(
        Kind::Fly,
        "off-bed",
        LENGTH,
        Error::Length(DEPTH_ERROR),
        OfThing::Fly(water::off_bed),
        "How high over the bed it goes in the drift.",
    ),
    estimate(
        Kind::Fly,
        "lag",
        Dimension::SPEED,
        Error::Share(0.2),
        OfThing::Fly(water::lag),
        "Its speed against the water beside it in the drift.",
    ),
    words(
        Kind::Fly,
        "knot",
        WordsOf::Fly(fly::knot),
        "The knot that ties it on.",
    ),
    words(Kind::Fly, "hook", WordsOf::Fly(fly::hook), "Its hook's size."),
    value(
        Kind::Shot,
        "mass",
        MASS,
        OfThing::Shot(fly::shot_mass),
        "Its mass.",
    ),
    words(
        Kind::Shot,
        "material",
        WordsOf::Shot(fly::shot_material),
        "What it is made of.",
    ),
    value(
        Kind::Rod,
        "weight",
        NONE,
        OfThing::Rig(length::rod_weight),
        "The line weight that it is built for, as a number.",
    ),
    value(
        Kind::Rod,
        "length",
        LENGTH,
        OfThing::Rig(length::rod),
        "The rod's length.",
    ),
    value(
        Kind::Water,
        "depth",
        LENGTH,
        OfThing::Rig(length::depth),
        "Its depth.",
    ),
    value(
        Kind::Water,
        "speed",
        Dimension::SPEED,
        OfThing::Rig(length::speed),
        "Its speed as it is given, of the surface or the mean.",
    ),
    value(
        Kind::Water,
        "temperature",
        Dimension::TEMPERATURE,
        OfThing::Rig(length::temperature),
        "Its temperature.",
    ),
    value(
        Kind::Water,
        "run",
        LENGTH,
        OfThing::Rig(length::run),
        "How far a rig drifts in it before it has to be lifted.",
    ),
];

static TABLE: LazyLock<Measures> = LazyLock::new(|| Measures::new(MEASURES));

/// The measure of a kind of thing with a name.
pub fn of(kind: Kind, name: &str) -> Option<&'static Measure> {
    TABLE.of(kind, name)
}

/// The measure of rigs with a name.
pub fn of_rig(name: &str) -> Option<&'static Measure> {
    of(Kind::Rig, name)
}

/// Every measure of a kind of thing.
pub fn all_of(kind: Kind) -> impl Iterator<Item = &'static Measure> {
    TABLE.all_of(kind)
}

impl<'w, 'p> Evaluation<'w, 'p> {
    /// An evaluation in which nothing is known yet.
    pub fn new(world: &'w World<'p>, rig: &'w Rig<'p>) -> Self {
        Self::with(world, rig, &TABLE)
    }
}
