//! The steady drifts of a rig: all of them, and the one that it stays in.

use super::walk;
use crate::drift::solve::{Found, Solver};
use crate::drift::state::Drift;
use crate::drift::state::Lead;
use crate::drift::state::NUDGE;
use crate::drift::state::NoDrift;
use crate::drift::state::SEGMENTS;
use crate::drift::state::Standing;
use crate::drift::state::State;
use crate::drift::state::Under;
use crate::drift::states::{Stands, all};
use crate::drift::straight::Wanted;
use crate::stream::Stream;
use crate::tackle::Tackle;
use uom::si::f64::{Force, Length, Velocity};
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::velocity::meter_per_second;

/// What pulls a rig that goes free is less than this share of what its line bears.
const FREE: f64 = 1e-3;

/// All steady states of a length of line, from the bed up; stable and unstable ones take turns.
///
/// # Errors
/// Where there is none; see [`NoDrift`]. A point on the bed is a state here.
pub fn states(tackle: &Tackle, stream: &Stream, length: Length, lead: &Lead) -> Result<Vec<State>, NoDrift> {
    let solver = Solver::new(tackle, stream, Under::Length(length), lead, SEGMENTS)?;
    // A free rig that cannot lie on the bed has one state: no other was found in any that was looked at.
    let only = matches!(lead, Lead::Free).then(|| off_bed(&solver, length.get::<meter>()));
    if let Some(found) = only.flatten() {
        return told(tackle, stream, &solver, lead, Stands::Stable, &found).map(|state| vec![state]);
    }
    let found = all(&solver, length.get::<meter>());
    let all = found.iter();
    let told: Result<Vec<State>, NoDrift> = all
        .map(|(stands, found)| told(tackle, stream, &solver, lead, *stands, found))
        .collect();
    let told = told?;
    if told.is_empty() {
        Err(solver.none())
    } else {
        Ok(told)
    }
}

/// The one state of a rig that goes free, where it is a drift that is known; nothing where it may have others.
pub(crate) fn only(tackle: &Tackle, stream: &Stream, drift: &Drift) -> Option<State> {
    // Led drifts are pulled.
    if drift.pull.abs() > drift.load.abs() * FREE {
        return None;
    }
    let under = Under::Length(drift.submerged);
    let solver = Solver::new(tackle, stream, under, &Lead::Free, SEGMENTS).ok()?;
    let found = Found {
        height: drift.rides.first()?.off_bed.get::<meter>(),
        borne: 0.0,
        speed: drift.speed.get::<meter_per_second>(),
        length: drift.submerged.get::<meter>(),
    };
    stays_off_bed(&solver, &found).then(|| State {
        standing: Standing::Stable,
        drift: drift.clone(),
    })
}

pub(super) fn told(
    tackle: &Tackle,
    stream: &Stream,
    solver: &Solver<'_>,
    lead: &Lead,
    stands: Stands,
    found: &Found,
) -> Result<State, NoDrift> {
    let standing = match stands {
        Stands::Stable => Standing::Stable,
        Stands::Unstable => Standing::Unstable,
        Stands::OnBed { lies } => Standing::OnBed {
            bears: Force::new::<newton>(found.borne),
            lifts: lifts(tackle, stream, solver, lead)?,
            lies: Length::new::<meter>(lies),
        },
    };
    let drift = solver.read(found)?;
    Ok(State { standing, drift })
}

/// The longest line that holds the point just off the bed.
pub(super) fn lifts(
    tackle: &Tackle,
    stream: &Stream,
    solver: &Solver<'_>,
    lead: &Lead,
) -> Result<Length, NoDrift> {
    let just = Under::PointOffBed(Length::new::<meter>(solver.lowest()));
    drift(tackle, stream, just, *lead).map(|drift| drift.submerged)
}

/// The steady drift of a rig: that of the lowest state that it stays in.
///
/// Source of the equations: a cable in a stream (Pode 1951, David Taylor Model Basin report 687) with
/// the coefficients of [`crate::drag`].
///
/// # Errors
/// Where there is none, or where the point lies on the bed; see [`NoDrift`].
pub fn drift(tackle: &Tackle, stream: &Stream, under: Under, lead: Lead) -> Result<Drift, NoDrift> {
    drift_in(tackle, stream, under, lead, SEGMENTS)
}

/// [`drift`] with the line cut into another number of segments.
pub(crate) fn drift_in(
    tackle: &Tackle,
    stream: &Stream,
    under: Under,
    lead: Lead,
    segments: usize,
) -> Result<Drift, NoDrift> {
    let solver = Solver::new(tackle, stream, under, &lead, segments)?;
    let length = match solver.wanted {
        Wanted::Height(height) => {
            let near = solver.guess().ok_or_else(|| solver.none())?.speed;
            return at_height(&solver, height, near);
        }
        Wanted::Length(length) => length,
    };
    if let Some(found) = off_bed(&solver, length) {
        return solver.read(&found);
    }
    for (stands, found) in &all(&solver, length) {
        match stands {
            Stands::OnBed { .. } => {
                return Err(NoDrift::OnBed {
                    lifts: lifts(tackle, stream, &solver, &lead)?,
                });
            }
            Stands::Stable => return solver.read(found),
            Stands::Unstable => {}
        }
    }
    Err(solver.none())
}

/// The drift that holds the point at a height, looked for from a speed that is near.
///
/// # Errors
/// As for [`drift`].
pub(crate) fn drift_from(
    tackle: &Tackle,
    stream: &Stream,
    off_bed: Length,
    lead: &Lead,
    near: Velocity,
) -> Result<Drift, NoDrift> {
    let solver = Solver::new(tackle, stream, Under::PointOffBed(off_bed), lead, SEGMENTS)?;
    at_height(&solver, off_bed.get::<meter>(), near.get::<meter_per_second>())
}

fn at_height(solver: &Solver<'_>, height: f64, near: f64) -> Result<Drift, NoDrift> {
    // Without it the speed is looked for by a bracket, which takes longer and finds the same.
    let _ = solver.feel_up(height, near);
    let (speed, _) = solver.up(height, 0.0, near).ok_or_else(|| solver.none())?;
    let mut trace = walk::Trace::default();
    let end = solver.walk(speed, 0.0).up(height, Some(&mut trace));
    solver.told(speed, end.ok_or_else(|| solver.none())?, trace)
}

/// A stable state found from the guess, of a rig that cannot as well lie on the bed.
pub(super) fn off_bed(solver: &Solver<'_>, length: f64) -> Option<Found> {
    if solver.top.given().is_some() {
        return None;
    }
    let found = solver.together(length, solver.guess()?)?;
    stays_off_bed(solver, &found).then_some(found)
}

/// Whether a state is stable and the rig cannot as well lie on the bed.
fn stays_off_bed(solver: &Solver<'_>, found: &Found) -> bool {
    let top = |height: f64| {
        let walk = solver.walk(found.speed, 0.0);
        walk.over(found.length, height, None).step.at[1]
    };
    top(found.height + NUDGE) > solver.depth && top(solver.lowest()) <= solver.depth
}
