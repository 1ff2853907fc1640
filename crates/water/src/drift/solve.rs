//! What speed and what height of the point make a drift steady.
//!
//! Two unknowns, each with a bracket: the height of the point for a given
//! speed, and the speed for a given pull. The line's top is not monotone in the
//! point's height, so nothing here follows a slope.

use super::shape::{End, Forces, Passing, Trace, Walk};
use super::{Drift, Lead, NoDrift, Under};
use crate::Stream;
use crate::bracket::Bracket;
use crate::tackle::Tackle;
use uom::si::f64::Length;
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::velocity::meter_per_second;

/// The point's height is found to within this, m.
const HEIGHT_TOLERANCE: f64 = 1e-8;
/// The speed is found to within this, m/s.
const SPEED_TOLERANCE: f64 = 1e-9;
/// How often the search for a speed is widened: by then it is far over any stream's.
const WIDENINGS: usize = 24;

pub(super) fn solve(
    tackle: &Tackle,
    stream: &Stream,
    under: Under,
    lead: Lead,
    segments: usize,
) -> Result<Drift, NoDrift> {
    let solver = Solver::new(tackle, stream, under, segments)?;
    let speed = solver.speed_under(lead)?;
    let mut trace = Trace::default();
    let stand = solver.stand(speed, Some(&mut trace)).ok_or(NoDrift::NeverUp)?;
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
    let stand = solver.stand(solver.speed_under(lead).ok()?, None)?;
    Some(stand.end.step.pull[1])
}

/// How the rig stands at one speed.
struct Stand {
    end: End,
    on_bed: bool,
}

enum Wanted {
    Length(f64),
    Height(f64),
}

struct Solver<'a> {
    tackle: &'a Tackle,
    stream: &'a Stream,
    wanted: Wanted,
    segments: usize,
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
            Wanted::Height(height) if height.is_nan() || height < 0.0 => return Err(NoDrift::NoNumber),
            Wanted::Height(height) if height >= depth => return Err(NoDrift::OverSurface),
            Wanted::Length(_) | Wanted::Height(_) => {}
        }
        Ok(Self {
            tackle,
            stream,
            wanted,
            segments,
        })
    }

    fn speed_under(&self, lead: Lead) -> Result<f64, NoDrift> {
        let wanted = match lead {
            Lead::Speed(speed) => speed.get::<meter_per_second>(),
            Lead::Free => 0.0,
            Lead::Pull(pull) => pull.get::<newton>(),
        };
        match lead {
            _ if !wanted.is_finite() => Err(NoDrift::NoNumber),
            Lead::Speed(_) => Ok(wanted),
            Lead::Free | Lead::Pull(_) => self.speed_for(wanted),
        }
    }

    /// The speed at which the line pulls with a force at the surface.
    fn speed_for(&self, pull: f64) -> Result<f64, NoDrift> {
        let surface = self.stream.profile.speed(self.stream.profile.depth_si());
        let over = |speed: f64| {
            let stand = self.stand(speed, None);
            // A line that never comes up is dragged flat, by the water or by what leads it.
            let flat = if speed > surface { f64::MAX } else { -f64::MAX };
            stand.map_or(flat, |stand| stand.end.step.pull[0] - pull)
        };
        let (mut low, mut high) = (0.0, surface);
        let mut wider = high.max(0.1);
        for _ in 0..WIDENINGS {
            if over(low) <= 0.0 {
                break;
            }
            low -= wider;
            wider *= 2.0;
        }
        for _ in 0..WIDENINGS {
            if over(high) >= 0.0 {
                break;
            }
            high += wider;
            wider *= 2.0;
        }
        Bracket::of(over, low, high)
            .map(|bracket| bracket.root(SPEED_TOLERANCE))
            .ok_or(NoDrift::NeverUp)
    }

    /// How the rig stands at a speed; nothing where its line never comes up.
    fn stand(&self, speed: f64, trace: Option<&mut Trace>) -> Option<Stand> {
        let walk = Walk {
            tackle: self.tackle,
            forces: Passing {
                stream: self.stream,
                speed,
            },
            depth: self.stream.profile.depth_si(),
            segments: self.segments,
        };
        match self.wanted {
            Wanted::Height(height) => {
                let end = walk.up(height, trace)?;
                Some(Stand { end, on_bed: false })
            }
            Wanted::Length(length) => Self::with_length(&walk, length, trace),
        }
    }

    fn with_length<F: Forces>(walk: &Walk<'_, F>, length: f64, trace: Option<&mut Trace>) -> Option<Stand> {
        let over = |height: f64| walk.over(length, height, None).step.at[1] - walk.depth;
        if over(0.0) > 0.0 {
            let end = walk.up(0.0, trace)?;
            return Some(Stand { end, on_bed: true });
        }
        let height = Bracket::of(over, 0.0, walk.depth)?.root(HEIGHT_TOLERANCE);
        let end = walk.over(length, height, trace);
        Some(Stand { end, on_bed: false })
    }
}
