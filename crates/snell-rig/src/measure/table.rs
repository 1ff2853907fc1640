//! The table itself: a row for each measure, in the order in which they are
//! shown. It is long because it is one table.

use super::{bearing, fly, gap, join, length, section, strength, water};
use crate::evaluation::{Draws, Error, Evaluation, Get, Measure, Measures, OfThing, WordsOf};
use crate::rig::Rig;
use crate::thing::Kind;
use crate::world::World;
use snell_units::Dimension;
use std::sync::LazyLock;

const LENGTH: Dimension = Dimension::LENGTH;
const MASS: Dimension = Dimension::MASS;
const FORCE: Dimension = Dimension::FORCE;
const NONE: Dimension = Dimension::NONE;

macro_rules! measures {
    ($($kind:ident by $of:ident {
        $($name:literal $how:ident($($error:tt)*), $get:path,
            $about:literal;)*
    })*) => {
        /// Every measure.
        pub static MEASURES: &[Measure] = &[$($(
            measures!(@row $kind $of $name $how($($error)*), $get, $about)
        ),*),*];
    };
    (@row $kind:ident $of:ident $name:literal words(), $get:path, $about:literal) => {
        Measure {
            of: Kind::$kind,
            name: $name,
            dimension: Dimension::NONE,
            about: $about,
            error: Error::None,
            get: Get::Words(WordsOf::$of($get)),
        }
    };
    (@row $kind:ident $of:ident $name:literal value($dimension:expr), $get:path, $about:literal) => {
        measures!(@row $kind $of $name estimate($dimension, Error::None), $get, $about)
    };
    (
        @row $kind:ident $of:ident $name:literal drawn($dimension:expr, $drawn:expr), $get:path, $about:literal
    ) => {
        measures!(
            @row $kind $of $name estimate($dimension, Error::Drawn(Draws::$of($drawn))), $get, $about
        )
    };
    (
        @row $kind:ident $of:ident $name:literal estimate($dimension:expr, $error:expr), $get:path,
        $about:literal
    ) => {
        Measure {
            of: Kind::$kind,
            name: $name,
            dimension: $dimension,
            about: $about,
            error: $error,
            get: Get::Value(OfThing::$of($get)),
        }
    };
}

measures! {
    Rig by Rig {
        "total" value(LENGTH), length::total,
            "The leader: from the lower end of the line to the point's eye. Tags and the line itself do not count.";
        "tippet" value(LENGTH), length::tippet,
            "From the lower end of the sighter to the point; without a sighter, from the first tippet piece.";
        "sighter" value(LENGTH), length::sighter,
            "All sighter pieces together.";
        "tippet-ratio" value(NONE), length::tippet_ratio,
            "The tippet over the water's depth.";
        "depth" value(LENGTH), length::depth,
            "The water's depth; of a spread, its middle.";
        "wading" value(Dimension::SPEED_BY_DEPTH), length::wading,
            "The greatest depth times the greatest surface speed: how hard the water pushes somebody who stands in it. Where only the mean speed is said, the surface speed is worked out from it and the bed; over a bed that is not said the mean is taken as 0.86 of it.";
        "flies" value(NONE), fly::count,
            "How many flies there are.";
        "weight" estimate(MASS, Error::Unweighed), fly::weight,
            "The mass of all flies together, an estimate unless they were weighed.";
        "lead" value(MASS), fly::lead,
            "The mass of lead on the rig: beads, wire and shot.";
        "sunk-mass" value(MASS), fly::sunk_mass,
            "The mass of the flies that do not float, of the shots, and of the swivels that were weighed. Weighed in air; in water it is a little less.";
        "float-lift" value(MASS), fly::float_lift,
            "The mass that the float carries before it goes under, reckoned as a ball.";
        "leader-mass" value(MASS), section::leader_mass,
            "The mass of the leader's pieces, without the line and the flies.";
        "weakest" estimate(FORCE, Error::Unsaid), strength::weakest,
            "The strength of the leader's weakest place, wet and knotted: an estimate, for no knot has one strength.";
        "breaks-above" estimate(LENGTH, Error::Unsaid), strength::breaks_above,
            "How far above the point the rig breaks first, where a place above the last run is clearly the weakest; nothing where it breaks in the last run, on a tag or at the fly. An estimate.";
        "gives" estimate(LENGTH, Error::Share(0.2)), bearing::gives,
            "How far rod and leader give, the reel held, before the weakest place breaks: the rod bends ever less the harder it is pulled. An estimate, to within 20 %.";
        "run-borne" estimate(Dimension::SPEED, Error::Share(0.3)), bearing::run_borne,
            "The speed of a sudden run of a 1 kg fish that the weakest place just bears with the reel held, rod and leader giving: an estimate, to within 30 %.";
        "reach" value(LENGTH), water::reach,
            "From the rod tip to where the leader meets the water, as the rig states it.";
        "drag" value(FORCE), bearing::drag,
            "The pull at which the reel gives line, as the rig states it.";
        "drag-share" value(NONE), bearing::drag_share,
            "The reel's drag over the strength of the leader's weakest place: an estimate, for no knot has one strength.";
        "tippet-needed" drawn(LENGTH, water::needed_drawn), water::tippet_needed,
            "The line under water that puts the point at its height off the bed in the drift.";
        "sighter-out" drawn(LENGTH, water::out_drawn), water::sighter_out,
            "How much of the tippet stays out of the water, and so how high the sighter's end is held; less than nothing where the tippet is too short.";
        "sink-time" drawn(Dimension::TIME, water::sink_time_drawn), water::sink_time,
            "From landing until the point is at nine tenths of its depth in the drift.";
        "sink-run" drawn(LENGTH, water::sink_run_drawn), water::sink_run,
            "How far the rig goes down the stream in its sink time.";
        "sag" estimate(LENGTH, Error::Share(0.15)), water::sag,
            "The greatest drop of the line in the air below a straight line, as it hangs in the drift.";
        "sag-pull" estimate(FORCE, Error::Share(0.05)), water::sag_pull,
            "The pull along the water that lifts the line in the air to a sag of 10 cm.";
        "draws-in" estimate(Dimension::SPEED, Error::Share(0.15)), water::draws_in,
            "How fast that pull draws the flies in, to the angler's side, were the water at rest that way: an upper bound.";
        "greatest-wind" estimate(Dimension::SPEED, Error::Share(0.1)), water::greatest_wind,
            "The greatest wind, blowing the way that the rig states, in which the point still rides at three quarters of the depth that it has without one.";
        "beyond-tip" drawn(LENGTH, water::beyond_tip_drawn), water::beyond_tip,
            "The line out beyond the rod's tip: the reach, and what is under water.";
        "mass-beyond-tip" estimate(MASS, Error::Share(0.15)), water::mass_beyond_tip,
            "What hangs out beyond the rod's tip: line, flies and shots.";
        "fly-spread" value(LENGTH), gap::spread,
            "Along the line from the first fly to the last.";
        "float-to-point" value(LENGTH), gap::float_to_point,
            "Along the line from the float to the point.";
        "method" words(), fly::method,
            "The method that the rig is for.";
    }
    Section by Section {
        "length" value(LENGTH), section::length,
            "Its finished length between knots.";
        "to-point" value(LENGTH), length::to_point,
            "From its lower end along the line to the point.";
        "diameter" value(LENGTH), section::diameter,
            "Its diameter: as measured, or else by its label; of a tapered piece, the middle of its ends.";
        "x-size" value(NONE), section::x,
            "Its diameter as an X size: 6 for 0.127 mm. Less than nothing above 0X.";
        "area" value(Dimension::AREA), section::area,
            "The area of its cross-section; of a tapered piece, the mean along it.";
        "mass" value(MASS), section::mass,
            "Its mass, out of length, area and material; of a fly line, by its weight.";
        "rated" value(FORCE), section::rated,
            "The strength that its label claims.";
        "strength" value(FORCE), strength::of_section,
            "Its strength wet and without a knot: as tested, or 85 % of its label times its material's wet factor.";
        "stress" value(Dimension::STRESS), strength::stress,
            "The strength that its label claims over its area: what the claim asks of the material.";
        "stretch" value(NONE), strength::stretch,
            "How far it stretches before it breaks, as a share of its length.";
        "off-label" value(LENGTH), strength::off_label,
            "What its size by the label and its measured diameter differ by.";
        "role" words(), section::role,
            "Its role: line, butt, taper, sighter or tippet.";
        "material" words(), section::material,
            "What it is made of.";
        "colour" words(), section::colour,
            "Its colours as written.";
    }
    Join by Join {
        "step" value(LENGTH), join::step,
            "How much thinner the piece below is; less than nothing where it is thicker.";
        "ratio" value(NONE), join::ratio,
            "The thicker of the two diameters over the thinner.";
        "knot-ratio" value(NONE), strength::knot_step,
            "The largest ratio of diameters that its knot joins well.";
        "strength" value(FORCE), strength::of_join,
            "The weaker side's strength times its knot's share.";
        "ring-size" value(LENGTH), join::ring_size,
            "The outer size of its ring.";
        "ring-number" value(NONE), join::ring_number,
            "Which of the rig's rings it is, counted from the rod.";
        "knot" words(), join::knot,
            "Its knot's name.";
        "kind" words(), join::kind,
            "The knot's name, `ring`, `swivel`, or `through` where one piece of line goes on.";
    }
    Dropper by Dropper {
        "length" value(LENGTH), length::dropper,
            "From its knot to the fly's eye.";
        "room" value(LENGTH), gap::room,
            "Along the line from its knot to the next fly below.";
        "changes" value(NONE), length::changes,
            "How many more flies can be tied on before the tag is too short.";
    }
    Gap by Gap {
        "length" value(LENGTH), gap::length,
            "Along the line between the places of two flies.";
        "hang-apart" value(LENGTH), gap::hang_apart,
            "From eye to eye when the rig hangs straight down.";
    }
    Fly by Fly {
        "mass" estimate(MASS, Error::Unweighed), fly::mass,
            "Its mass: as weighed, or else an estimate out of hook, bead, wire and dressing.";
        "parts-mass" estimate(MASS, Error::Unsaid), fly::parts_mass,
            "Of a fly that was weighed and shows its bead or its wire: what it would weigh by hook, bead, wire and dressing.";
        "parts-sink" estimate(Dimension::SPEED, Error::Unsaid), water::parts_sink,
            "Of a fly that was timed: its speed in still water by its weight and its dressing.";
        "bead" value(LENGTH), fly::bead,
            "The diameter of its bead.";
        "floats" value(MASS), fly::floats,
            "The mass that it carries afloat before it sinks.";
        "line" value(LENGTH), section::diameter_at_fly,
            "The diameter of the line that it is tied to: its tag's own, or that of the piece above.";
        "x-size" value(NONE), section::x_at_fly,
            "The line that it is tied to as an X size: 6 for 0.127 mm.";
        "strength" value(FORCE), strength::of_fly,
            "The strength at the knot that ties it on.";
        "hook-size" value(NONE), fly::hook_size,
            "Its hook's size as a number: 14 for `#14`.";
        "hook-length" estimate(LENGTH, Error::Share(0.15)), fly::hook_length,
            "Its hook from the eye to the bend, by its size: an estimate, for hooks of one size differ by 15 %.";
        "wet-weight" drawn(FORCE, water::wet_weight_drawn), water::wet_weight,
            "What it weighs under water.";
        "sinks" drawn(Dimension::SPEED, water::sinks_drawn), water::sinks,
            "Its speed in still water: as timed, or out of its weight and its dressing, which nobody can tell by eye.";
        "hangs" value(LENGTH), gap::hangs,
            "How deep it would hang if the line under water went straight down.";
        "rides" drawn(LENGTH, water::rides_drawn), water::rides,
            "Its depth in the drift.";
        "off-bed" drawn(LENGTH, water::off_bed_drawn), water::off_bed,
            "How high over the bed it goes in the drift.";
        "in-air" value(LENGTH), water::in_air,
            "How far over the water it hangs, its tag straight down; nothing where it is under water.";
        "drags" drawn(Dimension::SPEED, water::drags_drawn), water::drags,
            "How fast it is dragged through the water beside it in the drift.";
        "knot" words(), fly::knot,
            "The knot that ties it on.";
        "hook" words(), fly::hook,
            "Its hook's size.";
    }
    Shot by Shot {
        "mass" value(MASS), fly::shot_mass,
            "Its mass.";
        "material" words(), fly::shot_material,
            "What it is made of.";
    }
    Rod by Rig {
        "weight" value(NONE), length::rod_weight,
            "The line weight that it is built for, as a number.";
        "length" value(LENGTH), length::rod,
            "The rod's length.";
    }
    Water by Rig {
        "depth" value(LENGTH), length::depth,
            "Its depth.";
        "speed" value(Dimension::SPEED), length::speed,
            "Its speed as it is given, of the surface or the mean.";
        "temperature" value(Dimension::TEMPERATURE), length::temperature,
            "Its temperature.";
        "run" value(LENGTH), length::run,
            "How far a rig drifts in it before it has to be lifted.";
    }
}

/// What measures were called before: of which kind of thing, so, and now so. The old names are read until the next
/// edition of the language, and a check offers the new.
static FORMER: &[(Kind, &str, &str)] = &[
    (Kind::Rig, "sighter-clear", "sighter-out"),
    (Kind::Rig, "creep", "draws-in"),
    (Kind::Rig, "cushion", "run-borne"),
    (Kind::Gap, "hung", "hang-apart"),
    (Kind::Fly, "hang", "hangs"),
    (Kind::Fly, "lag", "drags"),
];

static TABLE: LazyLock<Measures> = LazyLock::new(|| Measures::new(MEASURES, FORMER));

/// The measure of a kind of thing with a name, or that had it before.
pub fn of(kind: Kind, name: &str) -> Option<&'static Measure> {
    TABLE.of(kind, name).or_else(|| TABLE.formerly(kind, name))
}

/// What was called so before, of any kind of thing.
pub fn formerly(name: &str) -> impl Iterator<Item = &'static Measure> {
    FORMER
        .iter()
        .filter(move |(_, old, _)| *old == name)
        .filter_map(|(kind, _, new)| of(*kind, new))
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
