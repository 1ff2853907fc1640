//! Catenaries of several weights, joined.
//!
//! It knows plain numbers: `a = H/w`, `p = V/H`, `dx = a (asinh p2 - asinh p1)`,
//! `dz = a (sqrt(1+p2^2) - sqrt(1+p1^2))`. Never a cosh, which overflows where
//! the line is nearly straight.

use crate::bracket::{self, Bracket};
use crate::math::{asinh, sinh};
use crate::plane::size;

/// A length of line of one weight.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Span {
    pub length: f64,
    /// In air, N/m.
    pub weight: f64,
}

/// An arc of one weight, from its lower end in the walk to its upper.
#[derive(Debug, Clone, Copy)]
struct Arc {
    weight: f64,
    /// Rise over run at the end nearer the entry and at the end nearer the tip.
    slopes: [f64; 2],
}

/// A line that leaves the water under a pull and ends at the tip.
#[derive(Debug, Clone)]
pub(super) struct Catenary {
    pub pull: f64,
    reach: f64,
    tip: f64,
    /// From the entry to the tip.
    arcs: Vec<Arc>,
}

/// Where a sinh is so large that no line comes near it.
const STEEPEST: f64 = 600.0;
/// Points that an arc is drawn with.
const DRAWN: usize = 12;

impl Catenary {
    /// The one that spans a reach and a height under a pull.
    pub fn through(spans: &[Span], from: From, reach: f64, tip: f64, pull: f64) -> Option<Self> {
        if !(pull > 0.0 && pull.is_finite()) {
            return None;
        }
        let start = |slope: f64| Self {
            pull,
            reach,
            tip,
            arcs: arcs(spans, from, reach, pull, slope),
        };
        let over = |slope: f64| start(slope).rise() - tip;
        let middle = tip / reach;
        let high = middle + bracket::upward(|more| over(middle + more), 1.0);
        let low = middle - bracket::upward(|less| -over(middle - less), 1.0);
        let slope = Bracket::of(over, low, high)?.root(1e-13 * (1.0 + high.abs()));
        Some(start(slope))
    }

    fn rise(&self) -> f64 {
        self.arcs.iter().map(|arc| arc.rise(self.pull)).sum()
    }

    pub fn length(&self) -> f64 {
        self.arcs.iter().map(|arc| arc.length(self.pull)).sum()
    }

    pub fn at_entry(&self) -> f64 {
        self.arcs.first().map_or(0.0, |arc| arc.slopes[0] * self.pull)
    }

    pub fn at_tip(&self) -> f64 {
        self.arcs.last().map_or(0.0, |arc| arc.slopes[1] * self.pull)
    }

    /// The greatest drop below the chord, which lies where the line is as steep as the chord.
    pub fn sag(&self) -> f64 {
        let chord = self.tip / self.reach;
        let (mut along, mut over) = (0.0, 0.0);
        let mut deepest: f64 = 0.0;
        for arc in &self.arcs {
            let steepest = chord.clamp(arc.slopes[0], arc.slopes[1].max(arc.slopes[0]));
            let part = Arc {
                slopes: [arc.slopes[0], steepest],
                ..*arc
            };
            let below = chord * (along + part.run(self.pull)) - (over + part.rise(self.pull));
            deepest = deepest.max(below);
            along += arc.run(self.pull);
            over += arc.rise(self.pull);
        }
        deepest
    }

    /// From the entry to the tip: along the water, and over it.
    pub fn points(&self) -> impl Iterator<Item = (f64, f64)> {
        let mut points = vec![(0.0, 0.0)];
        let (mut along, mut over) = (0.0, 0.0);
        for arc in &self.arcs {
            for turn in 1..=DRAWN {
                let share = turn as f64 / DRAWN as f64;
                let to = arc.slopes[0] + share * (arc.slopes[1] - arc.slopes[0]);
                let part = Arc {
                    slopes: [arc.slopes[0], to],
                    ..*arc
                };
                points.push((along + part.run(self.pull), over + part.rise(self.pull)));
            }
            along += arc.run(self.pull);
            over += arc.rise(self.pull);
        }
        points.into_iter()
    }
}

impl Arc {
    fn run(&self, pull: f64) -> f64 {
        pull / self.weight * (asinh(self.slopes[1]) - asinh(self.slopes[0]))
    }

    fn rise(&self, pull: f64) -> f64 {
        pull / self.weight * (size([1.0, self.slopes[1]]) - size([1.0, self.slopes[0]]))
    }

    fn length(&self, pull: f64) -> f64 {
        pull / self.weight * (self.slopes[1] - self.slopes[0])
    }
}

/// The arcs that a line of some spans makes over a reach, when it starts with a slope.
fn arcs(spans: &[Span], from: From, reach: f64, pull: f64, slope: f64) -> Vec<Arc> {
    // From the tip down the line grows flatter; the walk is the same with the slope's sign turned.
    let sign = match from {
        From::Entry => 1.0,
        From::Tip => -1.0,
    };
    let mut arcs = Vec::with_capacity(spans.len());
    let (mut at, mut left) = (slope * sign, reach);
    let last = spans.len() - 1;
    for (index, span) in spans.iter().enumerate() {
        let end = at + span.length * span.weight / pull;
        let whole = Arc {
            weight: span.weight,
            slopes: [at, end],
        };
        let run = whole.run(pull);
        if index == last || run >= left {
            let turn = (asinh(at) + left * span.weight / pull).clamp(-STEEPEST, STEEPEST);
            arcs.push(Arc {
                slopes: [at, sinh(turn)],
                ..whole
            });
            break;
        }
        arcs.push(whole);
        (at, left) = (end, left - run);
    }
    if from == From::Tip {
        arcs.reverse();
        for arc in &mut arcs {
            arc.slopes = [-arc.slopes[1], -arc.slopes[0]];
        }
    }
    arcs
}

/// Which end of the line in the air its strands are counted from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum From {
    /// From the rod's tip down.
    Tip,
    /// From where it enters the water up.
    Entry,
}
