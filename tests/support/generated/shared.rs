//! What rigs share: rods, waters, flies and spools, a few at the start and
//! more as the season goes on.

use super::words::Suited;
use super::{Book, words};

/// After how many rigs another water, fly and spool comes.
const WATER_EVERY: usize = 9;
const FLY_EVERY: usize = 7;
const SPOOL_EVERY: usize = 23;

/// A rod of the book, and the tippet that suits it.
pub(super) struct Rod {
    pub(super) name: &'static str,
    length: &'static str,
    pub(super) weight: usize,
    pub(super) suited: &'static Suited,
}

/// The rods of the book.
pub(super) const RODS: &[&Rod] = &[
    &Rod {
        name: "ten-two",
        length: "10 ft",
        weight: 2,
        suited: &words::LIGHT,
    },
    &Rod {
        name: "long-three",
        length: "10 ft 6 in",
        weight: 3,
        suited: &words::MIDDLE,
    },
    &Rod {
        name: "nine-five",
        length: "9 ft",
        weight: 5,
        suited: &words::STOUT,
    },
];

/// Depth times speed that is far from taking a person's feet, in m2/s.
const WADABLE: f64 = 0.5;

/// Metres to the foot; exact, NIST SP 811, appendix B.8.
const FOOT: f64 = 0.3048;

impl Book {
    pub(super) fn open(&mut self) {
        self.line(format_args!("// Harrow dale, one season, made up by rule."));
        self.blank();
        for rod in RODS {
            self.line(format_args!("rod {}", rod.name));
            self.body("length", rod.length);
            self.body("weight", &format!("#{}", rod.weight));
            self.blank();
        }
        for _ in 0..3 {
            self.water();
            self.fly();
        }
        self.spool();
    }

    pub(super) fn shared(&mut self, rig: usize) {
        let due = |every: usize| rig % every == every - 1;
        if due(WATER_EVERY) {
            self.water();
        }
        if due(FLY_EVERY) {
            self.fly();
        }
        if due(SPOOL_EVERY) {
            self.spool();
        }
    }

    fn water(&mut self) {
        let place = self.chance.pick(words::PLACES);
        let name = format!("{place}-{}", self.waters.len() + 1);
        let (beck, time) = (self.chance.pick(words::WATERS), self.chance.pick(words::TIMES));
        let low = self.chance.within(3..9);
        let wide = self.chance.within(1..3);
        let (depth, middle, speed) = if self.chance.in_ten(5) {
            let (low, high) = (low as f64 / 2.0, (low + wide) as f64 / 2.0);
            let most = (WADABLE / (high * FOOT * FOOT) * 10.0).floor();
            let speed = (self.chance.within(8..31) as f64).min(most) / 10.0;
            let middle = (low + high) / 2.0 * FOOT;
            (format!("{low} ft to {high} ft"), middle, format!("{speed} ft/s"))
        } else {
            let (low, high) = (low * 15, (low + wide) * 15);
            let most = (WADABLE / high as f64 * 1e4).floor();
            let speed = (self.chance.within(20..95) as f64).min(most) / 100.0;
            let middle = (low + high) as f64 / 200.0;
            (format!("{low} cm to {high} cm"), middle, format!("{speed} m/s"))
        };
        self.line(format_args!("water {name} \"{beck}, {time}\""));
        self.body("depth", &depth);
        self.body("surface", &speed);
        let bed = self.chance.pick(words::BEDS);
        self.body("bed", bed);
        if self.chance.in_ten(3) {
            let degrees = self.chance.within(6..17);
            self.body("temperature", &format!("{degrees} C"));
        }
        self.blank();
        self.waters.push((name, middle));
    }

    fn fly(&mut self) {
        let kind = self.chance.pick(words::FLIES);
        let name = format!("{kind}-{}", self.flies.len() + 1);
        let heavy = self.chance.below(words::BEADS.len());
        let (bead, hooks) = words::BEADS[heavy];
        let hook = self.chance.pick(hooks);
        self.line(format_args!(
            "fly {name} \"{kind}, number {}\"",
            self.flies.len() + 1
        ));
        self.body("hook", hook);
        if heavy > 0 || self.chance.in_ten(5) {
            let slotted = if self.chance.in_ten(2) { ", slotted" } else { "" };
            self.body("bead", &format!("{bead} tungsten{slotted}"));
        } else {
            let turns = self.chance.within(5..14);
            self.body("wire", &format!("0.015 in tin, {turns} turns"));
        }
        let dressing = self.chance.pick(words::DRESSINGS);
        self.body("dressed", dressing);
        self.blank();
        self.flies.push((name, heavy));
    }

    fn spool(&mut self) {
        let x = self.chance.within(4..8);
        let name = format!("spool-{}", self.spools.len() + 1);
        // The formula of the X sizes, d = (0.011 - X/1000) in: common practice, no source.
        let inches = 0.011 - x as f64 / 1000.0;
        let left = self.chance.within(4..30);
        self.line(format_args!(
            "spool {name} \"{x}X, bought in {}\"",
            words::MONTHS[self.spools.len() % 7]
        ));
        self.body("size", &format!("{x}X"));
        self.body("material", "fluoro");
        self.body("measured", &format!("{:.3} mm", inches * 25.4));
        self.body("left", &format!("{left} m"));
        self.blank();
        self.spools.push((name, x));
    }
}
