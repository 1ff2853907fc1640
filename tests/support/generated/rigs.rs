//! The rigs of a made-up notebook, each with the sums that its claims need.
//!
//! Lengths are whole inches or whole centimetres, so that a sum worked out
//! here is the sum that the rig has.

use super::shared::{RODS, Rod};
use super::words::Suited;
use super::{Book, FULL, words};
use std::ops::Range;

/// What later rigs must know of one that they are made from.
#[derive(Clone)]
pub(super) struct Made {
    pub(super) name: String,
    pub(super) kind: Kind,
    pub(super) unit: Unit,
    pub(super) suited: &'static Suited,
    /// All leader above `upper`, in its unit.
    pub(super) above: usize,
    pub(super) upper: usize,
    /// Nothing where the rig has one tippet piece.
    pub(super) lower: usize,
    /// The depth in metres, where the tippet is chosen by it.
    pub(super) depth: Option<f64>,
    /// Whether the tippet is claimed against the depth.
    pub(super) claimed: bool,
    /// How many times the depth the tippet is, where it was written so.
    pub(super) times: Option<f64>,
    /// The heaviest bead above the point, as its place among the beads.
    pub(super) heaviest: Option<usize>,
    /// How many rigs it descends from.
    pub(super) steps: usize,
}

#[derive(Clone, Copy, PartialEq)]
pub(super) enum Kind {
    TightLine,
    Dry,
    Team,
    Card,
}

/// Below this room a comment may make the notebook too long.
const WITH_A_COMMENT: isize = 13;

#[derive(Clone, Copy, PartialEq)]
pub(super) enum Unit {
    Inch,
    Centimetre,
}

impl Unit {
    /// A length as a person writes it; `wide` chooses the larger unit where it comes out even.
    pub(super) fn write(self, length: usize, wide: bool) -> String {
        match self {
            Self::Inch if wide && length >= 36 && length.is_multiple_of(12) => format!("{} ft", length / 12),
            Self::Inch if wide && length >= 48 => format!("{} ft {} in", length / 12, length % 12),
            Self::Inch => format!("{length} in"),
            Self::Centimetre if length >= 100 => format!("{} m", length as f64 / 100.0),
            Self::Centimetre => format!("{length} cm"),
        }
    }

    /// Metres to it; exact, NIST SP 811, appendix B.8.
    pub(super) fn metres(self) -> f64 {
        if self == Self::Inch { 0.0254 } else { 0.01 }
    }
}

impl Made {
    fn total(&self) -> usize {
        self.above + self.upper + self.lower
    }
}

impl Book {
    /// A rig that fits into so many lines: written in full, made from another, or short.
    pub(super) fn rig(&mut self, number: usize, room: isize) {
        let place = self.chance.pick(words::PLACES);
        let name = format!("{place}-rig-{}", number + 1);
        if room >= WITH_A_COMMENT && self.chance.in_ten(6) {
            let note = self.note();
            self.line(format_args!("// {note}"));
        }
        if room >= FULL as isize {
            match self.chance.below(5) {
                0..3 => self.tight_line(name),
                3 => self.tapered(name),
                _ => self.team(name),
            }
        } else if !self.made.is_empty() && self.chance.in_ten(8) {
            self.derived(name);
        } else {
            self.card(name);
        }
    }

    pub(super) fn head(&mut self, name: &str, from: Option<&str>) {
        let from = from.map(|base| format!(" from {base}")).unwrap_or_default();
        let (month, time) = (self.chance.pick(words::MONTHS), self.chance.pick(words::TIMES));
        self.line(format_args!("rig {name}{from} \"{month}, {time}\""));
    }

    pub(super) fn length(&mut self, unit: Unit, inches: Range<usize>) -> usize {
        let length = self.chance.within(inches);
        if unit == Unit::Inch {
            length
        } else {
            length * 5 / 2
        }
    }

    fn section(&mut self, key: &str, (unit, length): (Unit, usize), stuff: &str) {
        let wide = self.chance.in_ten(4);
        let length = unit.write(length, wide);
        self.body(key, &format!("{length:<10} of {stuff}"));
    }

    /// A named spool or the stuff itself.
    pub(super) fn stuff(&mut self, written: &[&str], x: usize) -> String {
        let fitting: Vec<&str> = self
            .spools
            .iter()
            .filter(|(_, its)| *its == x)
            .map(|(name, _)| &**name)
            .collect();
        if !fitting.is_empty() && self.chance.in_ten(3) {
            return self.chance.pick(&fitting).to_owned();
        }
        self.chance.pick(written).to_owned()
    }

    /// A named fly or its essentials, of the beads in `range`, and which bead it is.
    pub(super) fn tied(&mut self, range: Range<usize>) -> (String, usize) {
        let fitting: Vec<(String, usize)> = self
            .flies
            .iter()
            .filter(|(_, bead)| range.contains(bead))
            .cloned()
            .collect();
        if !fitting.is_empty() && self.chance.in_ten(7) {
            return fitting[self.chance.below(fitting.len())].clone();
        }
        let at = self.chance.within(range);
        let (bead, hooks) = words::BEADS[at];
        (format!("{} {bead} tungsten", self.chance.pick(hooks)), at)
    }

    /// A fly for the point: heavier than those above it, and no heavier than its line carries.
    pub(super) fn point(&mut self, suited: &Suited, above: Option<usize>) -> String {
        let least = above.map_or(1, |above| above + 1);
        self.tied(least..suited.heaviest + 1).0
    }

    fn settings(&mut self, method: &str, rods: &[&'static Rod]) -> (&'static Rod, f64) {
        self.body("method", method);
        let rod = rods[self.chance.below(rods.len())];
        self.body("rod", rod.name);
        let at = self.chance.below(self.waters.len());
        let (water, depth) = self.waters[at].clone();
        self.body("water", &water);
        if self.chance.in_ten(4) {
            let note = self.note();
            self.body("note", &format!("\"{note}\""));
        }
        (rod, depth)
    }

    fn tight_line(&mut self, name: String) {
        self.head(&name, None);
        let (rod, depth) = self.settings("tight-line", RODS);
        let suited = rod.suited;
        let unit = if self.chance.in_ten(6) {
            Unit::Inch
        } else {
            Unit::Centimetre
        };
        let lower = self.lower(unit, Some(depth));
        let mut upper = self.upper(unit, depth, lower);
        let mut times = None;
        let mut written = None;
        if self.chance.in_ten(2) {
            let often: f64 = [1.6, 1.7, 1.75, 1.8, 1.9][self.chance.below(5)];
            self.body("let", &format!("sunk = {often} times depth"));
            self.body("let", &format!("apart = {}", unit.write(lower, false)));
            upper = (often * depth / unit.metres()).round() as usize - lower;
            times = Some(often);
            written = Some(("sunk - apart", "apart"));
        }
        self.blank();
        self.body("line", "           of 0.55 mm");
        let mut above = self.held(unit);
        above += self.sighter(unit);
        let ring = self.chance.pick(&["1.5 mm", "2 mm"]);
        self.body("ring", ring);
        let stuff = self.stuff(suited.uppers, suited.upper_x);
        self.tippet(
            written.map(|(upper, _)| upper),
            (unit, upper),
            &format!("{stuff} as upper"),
        );
        let heaviest = self
            .chance
            .in_ten(7)
            .then(|| self.dropper(unit, 6..10, suited.heaviest));
        let stuff = self.stuff(suited.lowers, suited.upper_x + 1);
        self.tippet(
            written.map(|(_, lower)| lower),
            (unit, lower),
            &format!("{stuff} as lower"),
        );
        let fly = self.point(suited, heaviest);
        self.body("point", &fly);
        let claimed = self.chance.in_ten(6);
        self.finish(Made {
            name,
            kind: Kind::TightLine,
            unit,
            suited,
            above,
            upper,
            lower,
            depth: Some(depth),
            claimed,
            times,
            heaviest,
            steps: 0,
        });
    }

    /// The lowest run of tippet: from the least gap between flies, and twice the longest tag, up to what the depth
    /// leaves.
    pub(super) fn lower(&mut self, unit: Unit, depth: Option<f64>) -> usize {
        let most = depth.map_or(28, |depth| (depth * 0.95 / Unit::Inch.metres()) as usize);
        self.length(unit, 18..most.clamp(19, 28))
    }

    /// What the tippet still needs to be one and a half times the depth to twice.
    pub(super) fn upper(&mut self, unit: Unit, depth: f64, lower: usize) -> usize {
        let of_depth = |times: f64| (times * depth / unit.metres()) as usize;
        self.chance.within(of_depth(1.54)..of_depth(1.97)) - lower
    }

    /// A length worked out where it is written, or the length itself.
    fn tippet(&mut self, written: Option<&str>, length: (Unit, usize), stuff: &str) {
        match written {
            Some(written) => self.body("tippet", &format!("{written:<12} of {stuff}")),
            None => self.section("tippet", length, stuff),
        }
    }

    /// What is held above the sighter, in up to three pieces: those of fewer begin thinner.
    fn held(&mut self, unit: Unit) -> usize {
        let mut above = 0;
        let pieces = [words::BUTTS, words::TAPERS, words::LOW_TAPERS];
        let first = self.chance.below(pieces.len());
        for (at, stuff) in pieces.into_iter().enumerate().skip(first) {
            let (key, lengths) = if at == first {
                ("butt", 40..120)
            } else {
                ("taper", 14..36)
            };
            let length = self.length(unit, lengths);
            let stuff = self.chance.pick(stuff);
            self.section(key, (unit, length), stuff);
            above += length;
        }
        above
    }

    fn sighter(&mut self, unit: Unit) -> usize {
        let mut above = 0;
        let sighter = self.chance.pick(words::SIGHTERS);
        for at in 0..self.chance.within(1..3) {
            if at > 0 {
                let tags = if unit == Unit::Inch { "1 in" } else { "2 cm" };
                self.body("knot", &format!("blood with tags {tags}"));
            }
            let length = self.length(unit, 13..18);
            let stuff = format!("{sighter}, {}", self.chance.pick(words::COLOURS));
            self.section("sighter", (unit, length), &stuff);
            above += length;
        }
        above
    }

    /// A fly on a tag of so many inches, lighter than bead `under`; answers its bead.
    fn dropper(&mut self, unit: Unit, tag: Range<usize>, under: usize) -> usize {
        if self.chance.in_ten(5) {
            let knot = self.chance.pick(&["three-turn-surgeon", "double-uni", "blood"]);
            self.body("knot", knot);
        }
        let tag = self.length(unit, tag);
        let (fly, bead) = self.tied(0..under);
        self.body("dropper", &format!("{:<10} with {fly}", unit.write(tag, false)));
        bead
    }

    /// About 60 parts of butt, 20 of taper and 20 of tippet, each piece two thousandths thinner.
    fn tapered(&mut self, name: String) {
        self.head(&name, None);
        let (rod, _) = self.settings("dry", &RODS[1..]);
        self.blank();
        self.body("line", &format!("           of #{}", rod.weight));
        self.body("knot", "needle");
        let mut above = 0;
        for (key, lengths, thou) in [
            ("butt", 38..50, 18),
            ("butt", 24..32, 16),
            ("taper", 6..9, 14),
            ("taper", 6..9, 12),
            ("taper", 6..9, 10),
            ("taper", 6..9, 8),
        ] {
            let length = self.length(Unit::Inch, lengths);
            self.section(key, (Unit::Inch, length), &format!("{thou} thou nylon"));
            above += length;
        }
        let upper = self.a_fifth(above);
        let stuff = self.chance.pick(words::SOFT);
        self.section("tippet", (Unit::Inch, upper), &format!("{stuff} as upper"));
        let fly = self.dry_fly();
        self.body("point", &fly);
        let made = Made {
            name,
            kind: Kind::Dry,
            unit: Unit::Inch,
            suited: rod.suited,
            above,
            upper,
            lower: 0,
            depth: None,
            claimed: false,
            times: None,
            heaviest: None,
            steps: 0,
        };
        self.finish(made);
    }

    /// About a fifth of the leader, where all above it is so long.
    pub(super) fn a_fifth(&mut self, above: usize) -> usize {
        self.chance.within(above * 18 / 100..above * 31 / 100)
    }

    pub(super) fn dry_fly(&mut self) -> String {
        let hook = self.chance.pick(words::DRY_HOOKS);
        format!("{hook} 0.0{} g", self.chance.within(4..9))
    }

    fn team(&mut self, name: String) {
        self.head(&name, None);
        let (rod, _) = self.settings("team", RODS);
        self.blank();
        let unit = Unit::Centimetre;
        self.body("line", &format!("           of #{}", rod.weight));
        let mut above = 0;
        for (key, lengths, stuff) in [
            ("butt", 40..70, "0.33 mm nylon"),
            ("taper", 8..12, "0.26 mm nylon"),
        ] {
            let length = self.length(unit, lengths);
            self.section(key, (unit, length), stuff);
            above += length;
        }
        let (first, upper, lower) = (
            self.length(unit, 18..34),
            self.length(unit, 18..34),
            self.length(unit, 18..34),
        );
        let stuff = self.chance.pick(words::TOPS);
        self.section("tippet", (unit, first), &format!("{stuff} as top"));
        above += first;
        let one = self.dropper(unit, 4..7, 3);
        let stuff = self.chance.pick(words::SOFT);
        self.section("tippet", (unit, upper), &format!("{stuff} as upper"));
        let other = self.dropper(unit, 4..7, 3);
        let stuff = self.chance.pick(words::SOFT_LOW);
        self.section("tippet", (unit, lower), &format!("{stuff} as lower"));
        let heaviest = Some(one.max(other));
        let fly = self.point(&words::STOUT, heaviest);
        self.body("point", &fly);
        self.finish(Made {
            name,
            kind: Kind::Team,
            unit,
            suited: &words::STOUT,
            above,
            upper,
            lower,
            depth: None,
            claimed: false,
            times: None,
            heaviest,
            steps: 0,
        });
    }

    fn card(&mut self, name: String) {
        self.head(&name, None);
        let unit = if self.chance.in_ten(5) {
            Unit::Inch
        } else {
            Unit::Centimetre
        };
        let suited = self.chance.pick(RODS).suited;
        let (upper, lower) = (self.length(unit, 30..60), self.lower(unit, None));
        let stuff = self.chance.pick(suited.uppers);
        self.section("tippet", (unit, upper), &format!("{stuff} as upper"));
        let tag = self.length(unit, 6..10);
        let (fly, bead) = self.tied(0..suited.heaviest);
        self.body("dropper", &format!("{:<10} with {fly}", unit.write(tag, false)));
        let stuff = self.chance.pick(suited.lowers);
        self.section("tippet", (unit, lower), &format!("{stuff} as lower"));
        let fly = self.point(suited, Some(bead));
        self.body("point", &fly);
        self.finish(Made {
            name,
            kind: Kind::Card,
            unit,
            suited,
            above: 0,
            upper,
            lower,
            depth: None,
            claimed: false,
            times: None,
            heaviest: Some(bead),
            steps: 0,
        });
    }

    /// The claims of a rig, which hold, and the blank line behind it.
    pub(super) fn finish(&mut self, made: Made) {
        self.blank();
        let total = made.total();
        let written = made.unit.write(total, true);
        match self.chance.below(3) {
            // Worked out from the depth, it is not of whole inches.
            _ if made.times.is_some() => self.body(
                "expect",
                &format!(
                    "total between {} and {}",
                    made.unit.write(total - 3, true),
                    made.unit.write(total + 3, true)
                ),
            ),
            0 => self.body("expect", &format!("total about {written}")),
            1 => self.body(
                "expect",
                &format!("total at most {}", made.unit.write(total + 3, true)),
            ),
            _ => self.body(
                "expect",
                &format!("total between {} and {written}", made.unit.write(total - 3, true)),
            ),
        }
        if let Some(depth) = made.depth.filter(|_| made.claimed) {
            let tied = (made.upper + made.lower) as f64 * made.unit.metres() / depth;
            let ratio = made.times.map_or(tied, |times| times - 0.01);
            let (low, high) = ((ratio * 10.0).floor() / 10.0, (ratio * 10.0).ceil() / 10.0);
            self.body("expect", &format!("tippet-ratio between {low} and {high}"));
        }
        self.blank();
        if made.steps < 3 {
            self.made.push(made);
        }
    }
}
