//! A chain on its way down, in steps as long as it lets.

use super::chain::{Chain, Motion};
use super::step::Stepper;
use crate::sink::way::Moment;
use crate::sink::way::Way;
use crate::stream::Stream;
use crate::tackle::Tackle;
use uom::si::f64::{Length, Time};
use uom::si::length::meter;
use uom::si::time::second;

/// Steps in the time in which the line would go by at the fastest speed about, while the line comes straight: twice as
/// many move a time by half a hundredth.
const STEPS: f64 = 350.0;
/// It is straight after so many of these times, and steps may be so much longer from then on.
const STRAIGHT: f64 = 1.5;
const THEN: f64 = 2.5;
/// What has not come down after so many of them creeps: its way hardly hangs on how long a step is.
const CREEPS: f64 = 5.0;
const CREEPING: f64 = 10.0;
/// The first step is so much shorter, and each one so much longer than the one before.
const FIRST: f64 = 0.05;
const LONGER: f64 = 1.25;
/// Steps of one fall, so that none takes longer than a tenth of a second.
const MOST_STEPS: usize = 30_000;

/// A rig that sinks.
pub(super) struct Fall<'a> {
    chain: Chain<'a>,
    before: Vec<Motion>,
    now: Vec<Motion>,
    /// Since it landed, s.
    pub time: f64,
    /// How long the last step was, the next one and the longest.
    last: f64,
    next: f64,
    longest: f64,
    /// The time in which the line would go by at the fastest speed about, s.
    pub usual: f64,
    left: usize,
    stepper: Stepper,
}

impl<'a> Fall<'a> {
    pub fn new(tackle: &Tackle, stream: &'a Stream, way: Way, segments: usize) -> Self {
        let (chain, lands) = Chain::new(tackle, stream, way, segments);
        let usual = way.length / chain.fastest();
        Self {
            before: lands.clone(),
            now: lands,
            time: 0.0,
            last: 0.0,
            next: usual / STEPS * FIRST,
            longest: usual / STEPS,
            usual,
            left: if usual > 0.0 && usual.is_finite() {
                MOST_STEPS
            } else {
                0
            },
            chain,
            stepper: Stepper::default(),
        }
    }

    /// Goes on by one step, if there is one left.
    pub fn goes_on(&mut self) -> bool {
        if self.left == 0 {
            return false;
        }
        self.left -= 1;
        std::mem::swap(&mut self.before, &mut self.now);
        self.now.clear();
        self.now.extend_from_slice(&self.before);
        self.stepper.step(&self.chain, &mut self.now, self.next);
        self.last = self.next;
        self.time += self.last;
        let longest = self.longest
            * match self.time / self.usual {
                age if age > CREEPS => CREEPING,
                age if age > STRAIGHT => THEN,
                _ => 1.0,
            };
        self.next = (self.next * LONGER).min(longest);
        if self.now[0].at[1].is_finite() {
            return true;
        }
        self.left = 0;
        false
    }

    pub fn point_depth(&self) -> f64 {
        self.chain.depth - self.now[0].at[1]
    }

    /// When in the last step the point passed a depth.
    pub fn passed(&self, depth: f64) -> Option<f64> {
        let deep = |part: f64| self.chain.depth - self.between(0, part)[1] - depth;
        let bracket = crate::bracket::Bracket::of(deep, 0.0, 1.0)?;
        Some(self.time - self.last * (1.0 - bracket.root(1e-6)))
    }

    /// Where a node was at a part of the last step: a cubic by places and velocities at its ends.
    fn between(&self, node: usize, part: f64) -> [f64; 2] {
        let (from, to) = (&self.before[node], &self.now[node]);
        let left = 1.0 - part;
        [0, 1].map(|axis| {
            let (a, b) = (from.at[axis], to.at[axis]);
            let (u, v) = (from.velocity[axis] * self.last, to.velocity[axis] * self.last);
            left * left * (a * (1.0 + 2.0 * part) + u * part)
                + part * part * (b * (1.0 + 2.0 * left) - v * left)
        })
    }

    /// The flies at a time within the last step.
    pub fn moment_at(&self, time: f64) -> Moment {
        let part = if self.last > 0.0 {
            1.0 - (self.time - time) / self.last
        } else {
            1.0
        };
        let place = |node: usize| self.between(node, part.clamp(0.0, 1.0));
        let places = self.chain.flies.iter().map(|(_, node)| place(*node));
        let (depths, along) = places
            .map(|[along, height]| {
                let metres = Length::new::<meter>;
                (metres(self.chain.depth - height), metres(along))
            })
            .unzip();
        Moment {
            time: Time::new::<second>(time),
            entry: Length::new::<meter>(place(self.chain.top)[0]),
            depths,
            along,
        }
    }

    #[cfg(test)]
    pub fn energy(&self) -> f64 {
        let nodes = self.chain.nodes.iter().zip(&self.now);
        let of_nodes = nodes.map(|(node, motion)| {
            let [x, z] = motion.velocity;
            0.5 * node.mass * (x * x + z * z) + node.weight * motion.at[1]
        });
        let of_springs = self.chain.segments.iter().map(|segment| {
            let (low, high) = (self.now[segment.low].at, self.now[segment.high].at);
            let apart = [high[0] - low[0], high[1] - low[1]];
            let stretch = (crate::plane::size(apart) - segment.length).max(0.0);
            0.5 * segment.stiffness * stretch * stretch
        });
        of_nodes.sum::<f64>() + of_springs.sum::<f64>()
    }

    #[cfg(test)]
    pub fn steps(&self) -> usize {
        MOST_STEPS - self.left
    }

    /// The same in steps so many times as long as usual.
    pub fn in_steps(mut self, long: f64) -> Self {
        self.longest *= long;
        self.next *= long;
        self
    }
}
