//! What speed and what height of the point make a drift steady.
//!
//! Two unknowns: the height of the point and the speed. From a guess that is near they
//! are found together. The line's top is not monotone in the point's height, so
//! what does not settle there, or lies on the bed, is left to brackets in one another.

use super::shape::{End, Forces, Passing, Step, Trace, Walk};
use super::straight::{self, Guess, Wanted};
use super::{Drift, Lead, NoDrift, SEGMENTS, Under};
use crate::Stream;
use crate::bracket::Bracket;
use crate::secant;
use crate::tackle::Tackle;
use std::cell::Cell;
use uom::si::f64::Length;
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::velocity::meter_per_second;

/// The point's height is found to within this, m.
const HEIGHT_TOLERANCE: f64 = 1e-8;
/// The speed is found to within this, m/s.
const SPEED_TOLERANCE: f64 = 1e-8;
/// The pull has to be what was asked for to within this share of the whole tension.
const PULL_TOLERANCE: f64 = 1e-3;
/// How far from the first guess the speed is looked for at first, as a share of the surface's,
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
/// Slopes that one answer may cost, so that none takes longer than about ten milliseconds.
const MOST_SLOPES: usize = 50_000;
/// The share of the depth that the point is taken to move by from the first speed to the second.
const LIKELY: f64 = 4.0;
/// No nearer than this is it looked for to where it was, m.
const NARROWEST: f64 = 1e-6;
/// How much farther it is looked for at each try.
const WIDER: f64 = 16.0;

pub(super) fn solve(
    tackle: &Tackle,
    stream: &Stream,
    under: Under,
    lead: Lead,
    segments: usize,
) -> Result<Drift, NoDrift> {
    let solver = Solver::new(tackle, stream, under, segments)?;
    let mut trace = Trace::default();
    let (speed, stand) = solver.under(lead, Some(&mut trace))?;
    if stand.on_bed {
        let just = Under::PointOffBed(Length::new::<meter>(0.0));
        let lifted = solve(tackle, stream, just, lead, segments)?;
        return Err(NoDrift::OnBed {
            lifts: lifted.submerged,
        });
    }
    Ok(Drift::read(stream, speed, stand.end, trace))
}

pub(super) fn load(
    tackle: &Tackle,
    stream: &Stream,
    under: Under,
    lead: Lead,
    segments: usize,
) -> Option<f64> {
    let solver = Solver::new(tackle, stream, under, segments).ok()?;
    let (_, stand) = solver.under(lead, None).ok()?;
    Some(stand.end.step.pull[1])
}

/// How the rig stands at one speed.
struct Stand {
    end: End,
    on_bed: bool,
}

struct Solver<'a> {
    tackle: &'a Tackle,
    stream: &'a Stream,
    wanted: Wanted,
    segments: usize,
    left: Cell<usize>,
    /// The point's height at the speed before, and how far it had moved: it is near that at the next.
    near: Cell<Option<(f64, f64)>>,
}

impl<'a> Solver<'a> {
    fn new(tackle: &'a Tackle, stream: &'a Stream, under: Under, segments: usize) -> Result<Self, NoDrift> {
        let depth = stream.profile.depth_si();
        if !(depth > 0.0 && depth.is_finite() && stream.profile.speed(depth).is_finite()) {
            return Err(NoDrift::NoWater);
        }
        if let Some(index) = tackle.floating(&stream.fluid) {
            return Err(NoDrift::Floats(index));
        }
        let wanted = match under {
            Under::Length(length) => Wanted::Length(length.get::<meter>()),
            Under::PointOffBed(height) => Wanted::Height(height.get::<meter>()),
        };
        match wanted {
            Wanted::Length(length) if !(length > 0.0 && length.is_finite()) => return Err(NoDrift::NoWater),
            Wanted::Height(height) if !(0.0..depth).contains(&height) => return Err(NoDrift::OverSurface),
            Wanted::Length(_) | Wanted::Height(_) => {}
        }
        Ok(Self {
            tackle,
            stream,
            wanted,
            segments,
            left: Cell::new(MOST_SLOPES * segments / SEGMENTS),
            near: Cell::new(None),
        })
    }

    /// The speed that a lead gives the rig, and how the rig stands then.
    fn under(&self, lead: Lead, trace: Option<&mut Trace>) -> Result<(f64, Stand), NoDrift> {
        let (speed, stand) = match lead {
            Lead::Speed(speed) if speed.is_finite() => {
                self.at_speed(speed.get::<meter_per_second>(), trace)?
            }
            Lead::Free => self.under_pull(0.0, trace)?,
            Lead::Pull(pull) if pull.is_finite() => self.under_pull(pull.get::<newton>(), trace)?,
            Lead::Speed(_) | Lead::Pull(_) => return Err(NoDrift::NoWater),
        };
        Ok((speed, self.checked(stand, lead)?))
    }

    fn at_speed(&self, speed: f64, trace: Option<&mut Trace>) -> Result<(f64, Stand), NoDrift> {
        let stand = self.stand(speed, trace).ok_or_else(|| self.none())?;
        Ok((speed, stand))
    }

    fn under_pull(&self, pull: f64, trace: Option<&mut Trace>) -> Result<(f64, Stand), NoDrift> {
        let guess = straight::guess(self.tackle, self.stream, &self.wanted, pull);
        let guess = guess.ok_or_else(|| self.none())?;
        if let Wanted::Length(length) = self.wanted
            && let Some([height, speed]) = self.off_bed(length, pull, guess)
        {
            let end = self.walk(speed).over(length, height, trace);
            return Ok((speed, Stand { end, on_bed: false }));
        }
        self.at_speed(self.speed_for(pull, guess.speed)?, trace)
    }

    /// The point's height and the speed of line of a length under a pull, found together from a guess. Most drifts
    /// are found so, in a tenth of the time; what is not is left to the brackets.
    fn off_bed(&self, length: f64, pull: f64, guess: Guess) -> Option<[f64; 2]> {
        let depth = self.stream.profile.depth_si();
        let off = |[height, speed]: [f64; 2]| {
            let top = self.walk(speed).over(length, height, None).step;
            [top.at[1] - depth, top.pull[0] - pull]
        };
        let farthest = [depth, self.usual_speed()].map(|whole| whole * FARTHEST_STEP);
        let start = [guess.height, guess.speed];
        let ([height, speed], [over, missing]) = secant::root(off, start, farthest, TOGETHER_TOLERANCE)?;
        let settled =
            over.abs() < SURFACE_TOLERANCE && self.is_met(missing) && (0.0..depth).contains(&height);
        // Where the point could as well lie on the bed it does.
        let lies = || self.walk(speed).over(length, 0.0, None).step.at[1] > depth;
        (settled && !lies()).then_some([height, speed])
    }

    /// The surface's speed, or a slow one where it is slower.
    fn usual_speed(&self) -> f64 {
        let surface = self.stream.profile.speed(self.stream.profile.depth_si());
        surface.abs().max(LEAST_SPEED)
    }

    /// The speed at which the line pulls with a force at the surface, looked for from a guess.
    fn speed_for(&self, pull: f64, usual: f64) -> Result<f64, NoDrift> {
        let over = |speed: f64| {
            let stand = self.stand(speed, None);
            // A line that never comes up is dragged flat by the water.
            stand.map_or(-f64::MAX, |stand| stand.end.step.pull[0] - pull)
        };
        let near = Bracket::about(over, usual, self.usual_speed() * FIRST_STEP);
        // Most rigs go slower than the surface and faster than half of it.
        let surface = self.stream.profile.speed(self.stream.profile.depth_si());
        near.or_else(|| Bracket::of(over, surface / 2.0, surface))
            .map(|bracket| bracket.root(SPEED_TOLERANCE))
            .ok_or_else(|| self.none())
    }

    /// Whether a pull is the one asked for, by what is missing.
    fn is_met(&self, missing: f64) -> bool {
        let fluid = &self.stream.fluid;
        let weight: f64 = self.tackle.flies().map(|fly| fly.weight(fluid)).sum();
        missing.abs() <= PULL_TOLERANCE * weight
    }

    /// Why there is no drift: the line lies flat, or the search was given up.
    fn none(&self) -> NoDrift {
        if self.left.get() > 0 {
            NoDrift::NeverUp
        } else {
            NoDrift::Unsettled
        }
    }

    /// How the rig stands at a speed; nothing where its line never comes up.
    fn stand(&self, speed: f64, trace: Option<&mut Trace>) -> Option<Stand> {
        let walk = self.walk(speed);
        match self.wanted {
            Wanted::Height(height) => {
                let end = walk.up(height, trace)?;
                Some(Stand { end, on_bed: false })
            }
            Wanted::Length(length) => self.with_length(&walk, length, trace),
        }
    }

    /// The walks of the rig at a speed.
    fn walk(&self, speed: f64) -> Walk<'_, Passing<'_>> {
        Walk {
            tackle: self.tackle,
            forces: Passing {
                stream: self.stream,
                speed,
            },
            depth: self.stream.profile.depth_si(),
            segments: self.segments,
            left: &self.left,
        }
    }

    fn with_length<F: Forces>(
        &self,
        walk: &Walk<'_, F>,
        length: f64,
        trace: Option<&mut Trace>,
    ) -> Option<Stand> {
        let over = |height: f64| walk.over(length, height, None).step.at[1] - walk.depth;
        if over(0.0) > 0.0 {
            let end = walk.up(0.0, trace)?;
            return Some(Stand { end, on_bed: true });
        }
        let height = self.bracket(over, walk.depth)?.root(HEIGHT_TOLERANCE);
        let moved = self
            .near
            .get()
            .map_or(walk.depth / LIKELY, |(before, _)| height - before);
        self.near.set(Some((height, moved.abs())));
        let end = walk.over(length, height, trace);
        Some(Stand { end, on_bed: false })
    }

    /// Two heights of the point with its own between them, as near as the speed before lets hope.
    fn bracket<F: Fn(f64) -> f64 + Copy>(&self, over: F, depth: f64) -> Option<Bracket<F>> {
        let (near, moved) = self.near.get().unwrap_or((depth / 2.0, depth));
        let mut apart = moved.clamp(NARROWEST, depth);
        while apart < depth {
            let (low, high) = ((near - apart).max(0.0), (near + apart).min(depth));
            if let Some(bracket) = Bracket::of(over, low, high) {
                return Some(bracket);
            }
            apart *= WIDER;
        }
        Bracket::of(over, 0.0, depth)
    }

    /// A stand whose numbers are numbers, and that was found before the slopes ran out.
    fn checked(&self, stand: Stand, lead: Lead) -> Result<Stand, NoDrift> {
        let Step { at, pull } = stand.end.step;
        let sound = [at[0], at[1], pull[0], pull[1], stand.end.length]
            .iter()
            .all(|value| value.is_finite());
        // Where the line stops coming up the pull jumps, and a search for a pull may end in the jump.
        let wanted = match lead {
            Lead::Free => 0.0,
            Lead::Pull(force) => force.get::<newton>(),
            Lead::Speed(_) => pull[0],
        };
        let met = stand.on_bed || (pull[0] - wanted).abs() <= PULL_TOLERANCE * pull[0].hypot(pull[1]);
        if sound && met && self.left.get() > 0 {
            Ok(stand)
        } else {
            Err(self.none())
        }
    }
}
