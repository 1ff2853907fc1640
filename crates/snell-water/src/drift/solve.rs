//! What speed and what height of the point make a drift steady.
//!
//! Two unknowns, the height of the point and the speed. From a guess that is near they are found together. The line's top
//! is not monotone in the point's height, so for all that there is the heights are gone through ([`super::states`]).

use super::straight::{self, Guess, Wanted};
use super::top::Top;
use super::walk::{End, Passing, Trace, Walk};
use crate::bracket::Bracket;
use crate::drift::state::SEGMENTS;
use crate::drift::state::{Drift, Lead, NoDrift, Under};
use crate::fly::Body;
use crate::secant;
use crate::stream::Stream;
use crate::tackle::Tackle;
use std::cell::Cell;
use uom::si::length::meter;

/// The speed is found to within this, m/s.
const SPEED_TOLERANCE: f64 = 1e-8;
/// In a look over all heights it is found to within this share of the surface's.
const ROUGHLY: f64 = 1e-4;
/// How far from a guess the speed is looked for at first, as a share of the surface's,
const FIRST_STEP: f64 = 0.02;
/// or of this, m/s, where the water is slower.
const LEAST_SPEED: f64 = 0.1;
/// How far height and speed are moved at once at most when both are looked for, as a share of the depth and of
/// the surface's speed.
const FARTHEST_STEP: f64 = 0.25;
/// The line's top is then this near to the surface, m.
const SURFACE_TOLERANCE: f64 = 1e-5;
/// Then both are found to within this, m and m/s.
const TOGETHER_TOLERANCE: f64 = 1e-6;
/// Slopes that one answer may cost, so that none takes longer than about twenty milliseconds.
const MOST_SLOPES: usize = 200_000;
/// Turns of the secant that looks for a speed near the one before.
const NEAR_TURNS: usize = 6;
/// A step of it that is longer than this share of the surface's speed is not believed.
const NEAR_STEP: f64 = 0.2;

/// A state: the point's height, what the bed bears of it and the speed of the whole rig.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Found {
    pub height: f64,
    pub borne: f64,
    pub speed: f64,
    /// Line that is off the bed.
    pub length: f64,
}

/// A rig in a water, ready to be looked for.
pub(super) struct Solver<'a> {
    pub tackle: &'a Tackle,
    pub stream: &'a Stream,
    pub bodies: Vec<Body>,
    pub wanted: Wanted,
    pub top: Top<'a>,
    pub depth: f64,
    segments: usize,
    left: Cell<usize>,
    /// How much what is missing last grew with the speed.
    grows: Cell<Option<f64>>,
}

impl<'a> Solver<'a> {
    pub fn new(
        tackle: &'a Tackle,
        stream: &'a Stream,
        under: Under,
        lead: &Lead,
        segments: usize,
    ) -> Result<Self, NoDrift> {
        let depth = stream.profile.depth_si();
        if !(depth > 0.0 && depth.is_finite() && stream.profile.speed(depth).is_finite()) {
            return Err(NoDrift::NoWater);
        }
        let bodies = tackle.bodies(&stream.fluid);
        if let Some(index) = bodies.iter().position(|body| body.weight <= 0.0) {
            return Err(NoDrift::Floats(index));
        }
        let (wanted, submerged) = match under {
            Under::Length(length) => {
                let length = length.get::<meter>();
                if !(length > 0.0 && length.is_finite()) {
                    return Err(NoDrift::NoWater);
                }
                (Wanted::Length(length), Some(length))
            }
            Under::PointOffBed(height) => {
                let height = height.get::<meter>();
                if !(0.0..depth).contains(&height) {
                    return Err(NoDrift::OverSurface);
                }
                (Wanted::Height(height), None)
            }
        };
        let top = Top::of(lead, tackle, stream, submerged).ok_or(NoDrift::NoWater)?;
        Ok(Self {
            tackle,
            stream,
            bodies,
            wanted,
            top,
            depth,
            segments,
            left: Cell::new(MOST_SLOPES * segments / SEGMENTS),
            grows: Cell::new(None),
        })
    }

    /// The height of the point's middle when it lies on the bed.
    pub fn lowest(&self) -> f64 {
        self.bodies[0].radius()
    }

    /// The surface's speed, or a slow one where it is slower.
    pub fn usual_speed(&self) -> f64 {
        self.stream.profile.speed(self.depth).abs().max(LEAST_SPEED)
    }

    /// A first guess of height and speed.
    pub fn guess(&self) -> Option<Guess> {
        straight::guess(
            self.tackle,
            self.stream,
            &self.bodies,
            &self.wanted,
            self.top.about(),
        )
    }

    /// Why there is no drift: the line lies flat, or the search was given up.
    pub fn none(&self) -> NoDrift {
        if self.left.get() > 0 {
            NoDrift::NeverUp
        } else {
            NoDrift::Unsettled
        }
    }

    /// The walks of the rig at a speed.
    pub fn walk(&self, speed: f64, borne: f64) -> Walk<'_, Passing<'_>> {
        Walk {
            tackle: self.tackle,
            forces: Passing {
                stream: self.stream,
                bodies: &self.bodies,
                speed,
            },
            depth: self.depth,
            segments: self.segments,
            left: &self.left,
            borne,
        }
    }

    /// Where a line of a length ends that starts at a height, and the speed that its top asks for; looked for from a
    /// speed. Nothing where there is no such speed.
    pub fn over(&self, length: f64, height: f64, borne: f64, near: f64) -> Option<(f64, End)> {
        self.at_speed(near, SPEED_TOLERANCE, |speed| {
            Some(self.walk(speed, borne).over(length, height, None))
        })
    }

    /// The same no nearer than a look over all heights needs, with half the segments.
    pub fn roughly_over(&self, length: f64, height: f64, near: f64) -> Option<(f64, End)> {
        self.at_speed(near, self.usual_speed() * ROUGHLY, |speed| {
            let walk = self.walk(speed, 0.0);
            let segments = walk.segments.div_ceil(2);
            Some(Walk { segments, ..walk }.over(length, height, None))
        })
    }

    /// The line that it takes from a height up to the surface.
    pub fn up(&self, height: f64, borne: f64, near: f64) -> Option<(f64, End)> {
        self.at_speed(near, SPEED_TOLERANCE, |speed| {
            self.walk(speed, borne).up(height, None)
        })
    }

    fn at_speed(&self, near: f64, tolerance: f64, end: impl Fn(f64) -> Option<End>) -> Option<(f64, End)> {
        if let Some(speed) = self.top.given() {
            return end(speed).map(|end| (speed, end));
        }
        if let Some(found) = self.near(near, tolerance, &end) {
            return Some(found);
        }
        let over = |speed: f64| {
            // A line that never comes up is dragged flat by the water.
            let missing = end(speed).and_then(|end| self.top.missing(&end, speed));
            missing.unwrap_or(-f64::MAX)
        };
        let surface = self.stream.profile.speed(self.depth);
        let bracket = Bracket::about(over, near, self.usual_speed() * FIRST_STEP);
        // Most rigs go slower than the surface and faster than half of it.
        let bracket = bracket.or_else(|| Bracket::of(over, surface / 2.0, surface));
        let speed = bracket?.root(tolerance);
        end(speed).map(|end| (speed, end))
    }

    /// From a speed that is near: what is missing grows nearly evenly, and as it did before.
    fn near(&self, near: f64, tolerance: f64, end: impl Fn(f64) -> Option<End>) -> Option<(f64, End)> {
        let mut grows = self.grows.get()?;
        let mut speed = near;
        let mut at = end(speed)?;
        let mut missing = self.top.missing(&at, speed)?;
        for _ in 0..NEAR_TURNS {
            let step = -missing / grows;
            if step.is_nan() || step.abs() > self.usual_speed() * NEAR_STEP {
                return None;
            }
            if step.abs() <= tolerance {
                self.grows.set(Some(grows));
                return Some((speed, at));
            }
            speed += step;
            at = end(speed)?;
            let left = self.top.missing(&at, speed)?;
            let slope = (left - missing) / step;
            if slope > 0.0 {
                grows = slope;
            }
            missing = left;
        }
        None
    }

    /// Tells how much what is missing grows with the speed, for the searches that follow: of a line of a length.
    pub fn feel(&self, length: f64, height: f64, speed: f64) -> Option<()> {
        self.felt(speed, |speed| {
            Some(self.walk(speed, 0.0).over(length, height, None))
        })
    }

    /// The same of a line up to the surface.
    pub fn feel_up(&self, height: f64, speed: f64) -> Option<()> {
        self.felt(speed, |speed| self.walk(speed, 0.0).up(height, None))
    }

    fn felt(&self, speed: f64, end: impl Fn(f64) -> Option<End>) -> Option<()> {
        if self.top.given().is_some() {
            return Some(());
        }
        let by = self.usual_speed() * FIRST_STEP / 4.0;
        let missing = |speed: f64| self.top.missing(&end(speed)?, speed);
        let slope = (missing(speed + by)? - missing(speed)?) / by;
        self.grows.set((slope > 0.0).then_some(slope));
        Some(())
    }

    /// The point's height and the speed of line of a length, found together from a guess. Most drifts are found so, in
    /// a tenth of the time.
    pub fn together(&self, length: f64, start: Guess) -> Option<Found> {
        let off = |[height, speed]: [f64; 2]| {
            let end = self.walk(speed, 0.0).over(length, height, None);
            let missing = match self.top.given() {
                Some(given) => speed - given,
                None => self.top.missing(&end, speed).unwrap_or(f64::NAN),
            };
            [end.step.at[1] - self.depth, missing]
        };
        let farthest = [self.depth, self.usual_speed()].map(|whole| whole * FARTHEST_STEP);
        let start = [start.height, start.speed];
        let ([height, speed], [over, missing]) = secant::root(off, start, farthest, TOGETHER_TOLERANCE)?;
        let end = self.walk(speed, 0.0).over(length, height, None);
        let met =
            over.abs() < SURFACE_TOLERANCE && (self.top.given().is_some() || self.top.is_met(missing, &end));
        let found = Found {
            height,
            borne: 0.0,
            speed,
            length,
        };
        (met && height > self.lowest() && height < self.depth).then_some(found)
    }

    /// A state as it is told, where its numbers are numbers and its top is met.
    pub fn read(&self, found: &Found) -> Result<Drift, NoDrift> {
        let mut trace = Trace::default();
        let end = self
            .walk(found.speed, found.borne)
            .over(found.length, found.height, Some(&mut trace));
        self.told(found.speed, end, trace)
    }

    pub fn told(&self, speed: f64, end: End, trace: Trace) -> Result<Drift, NoDrift> {
        let step = end.step;
        let numbers = [
            step.at[0],
            step.at[1],
            step.pull[0],
            step.pull[1],
            end.length,
            speed,
        ];
        let sound = numbers.iter().all(|number| number.is_finite());
        // Where the line stops coming up the pull jumps, and a search for a pull may end in the jump.
        let missing = self.top.missing(&end, speed);
        let met = missing.is_some_and(|missing| self.top.is_met(missing, &end));
        if sound && met && self.left.get() > 0 {
            Ok(Drift::read(self.stream, speed, end, trace))
        } else {
            Err(self.none())
        }
    }
}
