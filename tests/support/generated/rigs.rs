//! The rigs of a made-up notebook, each with the sums that its claims need.
//!
//! Lengths are whole inches or whole centimetres, so that a sum worked out
//! here is the sum that the rig has.

use super::shared::RODS;
use super::{Book, FULL, words};

/// What later rigs must know of one that they are made from.
#[derive(Clone)]
pub(super) struct Made {
    name: String,
    unit: Unit,
    /// All leader above `upper`, in its unit.
    above: usize,
    upper: usize,
    /// Nothing where the rig has one tippet piece.
    lower: usize,
    /// The depth in metres, where the tippet is claimed against it.
    depth: Option<f64>,
    /// Whether it has a dropper that may go.
    dropper: bool,
    /// How many rigs it descends from.
    steps: usize,
}

/// Below this room a comment may make the notebook too long.
const WITH_A_COMMENT: isize = 13;

#[derive(Clone, Copy, PartialEq)]
enum Unit {
    Inch,
    Centimetre,
}

impl Unit {
    /// A length as a person writes it; `wide` chooses the larger unit where it comes out even.
    fn write(self, length: usize, wide: bool) -> String {
        match self {
            Self::Inch if wide && length >= 36 && length.is_multiple_of(12) => format!("{} ft", length / 12),
            Self::Inch if wide && length >= 48 => format!("{} ft {} in", length / 12, length % 12),
            Self::Inch => format!("{length} in"),
            Self::Centimetre if length >= 100 => format!("{} m", length as f64 / 100.0),
            Self::Centimetre => format!("{length} cm"),
        }
    }

    /// Metres to it; exact, NIST SP 811, appendix B.8.
    fn metres(self) -> f64 {
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

    fn head(&mut self, name: &str, from: Option<&str>) {
        let from = from.map(|base| format!(" from {base}")).unwrap_or_default();
        let (month, time) = (self.chance.pick(words::MONTHS), self.chance.pick(words::TIMES));
        self.line(format_args!("rig {name}{from} \"{month}, {time}\""));
    }

    fn length(&mut self, unit: Unit, inches: std::ops::Range<usize>) -> usize {
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
    fn stuff(&mut self, written: &[&str], fits: fn(usize) -> bool) -> String {
        let fitting: Vec<&str> = self
            .spools
            .iter()
            .filter(|(_, x)| fits(*x))
            .map(|(name, _)| &**name)
            .collect();
        if !fitting.is_empty() && self.chance.in_ten(3) {
            return self.chance.pick(&fitting).to_owned();
        }
        self.chance.pick(written).to_owned()
    }

    /// A named fly or its essentials.
    fn tied(&mut self) -> String {
        if self.chance.in_ten(7) {
            let at = self.chance.below(self.flies.len());
            return self.flies[at].clone();
        }
        format!(
            "{} {} tungsten",
            self.chance.pick(words::HOOKS),
            self.chance.pick(words::BEADS)
        )
    }

    fn settings(&mut self, method: &str) -> f64 {
        self.body("method", method);
        let rod = self.chance.pick(RODS);
        self.body("rod", rod);
        let at = self.chance.below(self.waters.len());
        let (water, depth) = self.waters[at].clone();
        self.body("water", &water);
        if self.chance.in_ten(4) {
            let note = self.note();
            self.body("note", &format!("\"{note}\""));
        }
        self.blank();
        depth
    }

    fn tight_line(&mut self, name: String) {
        self.head(&name, None);
        let depth = self.settings("tight-line");
        let unit = if self.chance.in_ten(6) {
            Unit::Inch
        } else {
            Unit::Centimetre
        };
        self.body("line", "           of 0.55 mm");
        let mut above = 0;
        let pieces = [
            ("butt", 40..120, words::BUTTS),
            ("taper", 16..40, words::TAPERS),
            ("taper", 14..30, words::LOW_TAPERS),
        ];
        for (key, lengths, stuff) in pieces.into_iter().take(self.chance.within(1..4)) {
            let length = self.length(unit, lengths);
            let stuff = self.chance.pick(stuff);
            self.section(key, (unit, length), stuff);
            above += length;
        }
        let colours = self.chance.within(1..3);
        let sighter = self.chance.pick(words::SIGHTERS);
        for at in 0..colours {
            if at > 0 {
                self.body(
                    "knot",
                    if unit == Unit::Inch {
                        "blood with tags 1 in"
                    } else {
                        "blood with tags 2 cm"
                    },
                );
            }
            let length = self.length(unit, 10..19);
            let stuff = format!("{sighter}, {}", self.chance.pick(words::COLOURS));
            self.section("sighter", (unit, length), &stuff);
            above += length;
        }
        let ring = self.chance.pick(&["1.5 mm", "2 mm"]);
        self.body("ring", ring);
        let (upper, lower) = (self.length(unit, 24..60), self.length(unit, 17..28));
        let stuff = self.stuff(words::UPPERS, |x| x < 6);
        self.section("tippet", (unit, upper), &format!("{stuff} as upper"));
        let dropper = self.chance.in_ten(7);
        if dropper {
            self.dropper(unit);
        }
        let stuff = self.stuff(words::LOWERS, |x| x >= 6);
        self.section("tippet", (unit, lower), &format!("{stuff} as lower"));
        let fly = self.tied();
        self.body("point", &fly);
        let depth = self.chance.in_ten(6).then_some(depth);
        self.finish(Made {
            name,
            unit,
            above,
            upper,
            lower,
            depth,
            dropper,
            steps: 0,
        });
    }

    fn dropper(&mut self, unit: Unit) {
        if self.chance.in_ten(5) {
            let knot = self.chance.pick(&["three-turn-surgeon", "double-uni", "blood"]);
            self.body("knot", knot);
        }
        let tag = self.length(unit, 5..10);
        let fly = self.tied();
        self.body("dropper", &format!("{:<10} with {fly}", unit.write(tag, false)));
    }

    fn tapered(&mut self, name: String) {
        self.head(&name, None);
        self.settings("dry");
        self.body("line", "           of #5");
        self.body("knot", "needle");
        let mut above = 0;
        for (key, lengths, thou) in [
            ("butt", 30..50, 18),
            ("butt", 18..30, 16),
            ("taper", 6..10, 13),
            ("taper", 6..10, 10),
        ] {
            let length = self.length(Unit::Inch, lengths);
            self.section(key, (Unit::Inch, length), &format!("{thou} thou nylon"));
            above += length;
        }
        let upper = self.length(Unit::Inch, 20..40);
        let stuff = self.chance.pick(words::SOFT);
        self.section("tippet", (Unit::Inch, upper), &format!("{stuff} as upper"));
        let hook = self.chance.pick(words::HOOKS);
        let mass = self.chance.within(4..9);
        self.body("point", &format!("{hook} 0.0{mass} g"));
        let made = Made {
            name,
            unit: Unit::Inch,
            above,
            upper,
            lower: 0,
            depth: None,
            dropper: false,
            steps: 0,
        };
        self.finish(made);
    }

    fn team(&mut self, name: String) {
        self.head(&name, None);
        self.settings("team");
        let unit = Unit::Centimetre;
        self.body("line", "           of #3");
        let mut above = self.length(unit, 40..70);
        self.section("butt", (unit, above), "0.33 mm nylon");
        let (first, upper, lower) = (
            self.length(unit, 18..30),
            self.length(unit, 18..30),
            self.length(unit, 18..30),
        );
        let stuff = self.chance.pick(words::TOPS);
        self.section("tippet", (unit, first), &format!("{stuff} as top"));
        above += first;
        self.dropper(unit);
        let stuff = self.chance.pick(words::SOFT);
        self.section("tippet", (unit, upper), &format!("{stuff} as upper"));
        self.dropper(unit);
        let stuff = self.chance.pick(words::SOFT_LOW);
        self.section("tippet", (unit, lower), &format!("{stuff} as lower"));
        let fly = self.tied();
        self.body("point", &fly);
        self.finish(Made {
            name,
            unit,
            above,
            upper,
            lower,
            depth: None,
            dropper: false,
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
        let (upper, lower) = (self.length(unit, 30..60), self.length(unit, 17..28));
        let stuff = self.chance.pick(words::UPPERS);
        self.section("tippet", (unit, upper), &format!("{stuff} as upper"));
        let tag = self.length(unit, 5..10);
        let fly = self.tied();
        self.body("dropper", &format!("{:<10} with {fly}", unit.write(tag, false)));
        let stuff = self.chance.pick(words::LOWERS);
        self.section("tippet", (unit, lower), &format!("{stuff} as lower"));
        let fly = self.tied();
        self.body("point", &fly);
        self.finish(Made {
            name,
            unit,
            above: 0,
            upper,
            lower,
            depth: None,
            dropper: true,
            steps: 0,
        });
    }

    fn derived(&mut self, name: String) {
        let from = self.made.len().saturating_sub(40);
        let at = self.chance.within(from..self.made.len());
        let base = self.made[at].clone();
        let mut made = Made {
            name,
            steps: base.steps + 1,
            ..base.clone()
        };
        self.head(&made.name.clone(), Some(&base.name));
        if base.dropper && self.chance.in_ten(3) {
            self.body("remove", "dropper");
            made.dropper = false;
        }
        made.upper = self.length(base.unit, 20..70);
        let wide = self.chance.in_ten(4);
        let length = base.unit.write(made.upper, wide);
        self.body("change", &format!("upper to {length}"));
        if self.chance.in_ten(7) {
            let fly = self.tied();
            self.body("change", &format!("point to {fly}"));
        }
        if made.lower > 0 && self.chance.in_ten(4) {
            made.lower = self.length(base.unit, 17..30);
            let length = base.unit.write(made.lower, false);
            let stuff = self.chance.pick(words::LOWERS);
            self.body("change", &format!("lower to {length} of {stuff}"));
        }
        self.finish(made);
    }

    /// The claims of a rig, which hold, and the blank line behind it.
    fn finish(&mut self, made: Made) {
        self.blank();
        let total = made.total();
        let written = made.unit.write(total, true);
        match self.chance.below(3) {
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
        if let Some(depth) = made.depth {
            let ratio = (made.upper + made.lower) as f64 * made.unit.metres() / depth;
            let (low, high) = ((ratio * 10.0).floor() / 10.0, (ratio * 10.0).ceil() / 10.0);
            self.body("expect", &format!("tippet-ratio between {low} and {high}"));
        }
        self.blank();
        if made.steps < 3 {
            self.made.push(made);
        }
    }
}
