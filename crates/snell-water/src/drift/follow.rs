//! The state of a rig that is a little different from one whose state is known.
//!
//! It is looked for from there, which takes a tenth of going through all heights.

use super::solve::{Found, Solver};
use super::states::{self, Stands};
use super::straight::Guess;
use crate::drift::state::Lead;
use crate::drift::state::NUDGE;
use crate::drift::state::SEGMENTS;
use crate::drift::state::{State, Under};
use crate::stream::Stream;
use crate::tackle::Tackle;
use uom::si::f64::Length;
use uom::si::length::meter;
use uom::si::velocity::meter_per_second;

/// A state in shares of the water's depth and of the surface's speed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Followed {
    height: f64,
    speed: f64,
    on_bed: bool,
}

/// How far from where it is expected a state is still taken for the same, as a share of the depth.
const SAME: f64 = 0.25;

impl Followed {
    pub fn of(state: &State, stream: &Stream) -> Self {
        let depth = stream.profile.depth_si();
        let surface = stream.profile.speed(depth);
        let off_bed = state.drift.rides[0].off_bed.get::<meter>();
        let speed = state.drift.speed.get::<meter_per_second>();
        Self {
            height: off_bed / depth,
            speed: if surface == 0.0 { 0.0 } else { speed / surface },
            on_bed: state.is_on_bed(),
        }
    }
}

/// The state of a rig that is nearest to one that is known.
pub(crate) fn follow(
    tackle: &Tackle,
    stream: &Stream,
    length: Length,
    lead: &Lead,
    known: &Followed,
) -> Option<State> {
    let solver = Solver::new(tackle, stream, Under::Length(length), lead, SEGMENTS).ok()?;
    let length = length.get::<meter>();
    let surface = stream.profile.speed(solver.depth);
    let guess = Guess {
        height: known.height * solver.depth,
        speed: known.speed * surface,
    };
    let found = if known.on_bed {
        lies(&solver, length, guess.speed)
    } else {
        rides(&solver, length, guess).map(|found| (Stands::Stable, found))
    };
    let (stands, found) = found.or_else(|| nearest(&solver, length, &guess))?;
    super::steady::told(tackle, stream, &solver, lead, stands, &found).ok()
}

fn rides(solver: &Solver<'_>, length: f64, guess: Guess) -> Option<Found> {
    let found = solver.together(length, guess)?;
    let near = (found.height - guess.height).abs() < SAME * solver.depth;
    let pushed = solver
        .walk(found.speed, 0.0)
        .over(length, found.height + NUDGE, None);
    (near && pushed.step.at[1] > solver.depth).then_some(found)
}

/// On the bed, where it is too much line for anything else.
fn lies(solver: &Solver<'_>, length: f64, speed: f64) -> Option<(Stands, Found)> {
    let (speed, end) = solver.over(length, solver.lowest(), 0.0, speed)?;
    if end.step.at[1] > solver.depth {
        states::on_bed(solver, length, speed)
    } else {
        None
    }
}

fn nearest(solver: &Solver<'_>, length: f64, guess: &Guess) -> Option<(Stands, Found)> {
    let all = states::all(solver, length).into_iter();
    let stays = all.filter(|(stands, _)| !matches!(stands, Stands::Unstable));
    stays.min_by(|(_, a), (_, b)| {
        let off = |found: &Found| (found.height - guess.height).abs();
        off(a).total_cmp(&off(b))
    })
}
