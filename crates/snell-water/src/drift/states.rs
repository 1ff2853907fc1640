//! All steady states of a length of line.
//!
//! The point's height is gone through from the bed to the surface; wherever the line's top passes the surface there
//! is a state. Where the top rises with the point, a point that is pushed up sinks back: the state is stable. Where it
//! falls the state is one that nothing stays in. They take turns.

use super::solve::{Found, Solver};
use super::straight::Guess;
use crate::bracket::Bracket;
use snell_units::in_order;

/// How a rig stands in a state.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Stands {
    Stable,
    Unstable,
    OnBed {
        /// Line that lies along the bed, m.
        lies: f64,
    },
}

/// Heights that are gone through between the bed and the surface.
const HEIGHTS: usize = 24;
/// Where the top comes this near to the surface and turns, in shares of the step, the turn is looked at.
const TURNS_NEAR: f64 = 1.0;
/// Looks at a turn.
const LOOKS: usize = 8;
/// No line reaches farther than this share of its length.
const LONGEST: f64 = 1.002;
/// How far beyond two looks a state is still looked for, in shares of their distance.
const BEYOND: f64 = 0.25;
/// The point's height is found to within this, m.
const TOLERANCE: f64 = 1e-8;
/// The share of the point's weight that the bed bears at most: more, and the line lies along it.
const BEARS: f64 = 0.999;

/// How far the line's top is over the surface when its point is at a height, and the speed then.
#[derive(Debug, Clone, Copy)]
struct Look {
    height: f64,
    over: f64,
    speed: f64,
}

/// All states from the bed up.
pub(super) fn all(solver: &Solver<'_>, length: f64) -> Vec<(Stands, Found)> {
    let looks = looks(solver, length);
    let mut states = Vec::new();
    let Some(first) = looks.first() else { return states };
    if first.over > 0.0 && first.height <= solver.lowest() {
        states.extend(on_bed(solver, length, first.speed));
    }
    for pair in looks.windows(2) {
        let [low, high] = pair else { continue };
        if low.over < 0.0 && high.over >= 0.0 {
            states.extend(between(solver, length, low, high).map(|found| (Stands::Stable, found)));
        } else if low.over > 0.0 && high.over <= 0.0 {
            states.extend(between(solver, length, low, high).map(|found| (Stands::Unstable, found)));
        }
    }
    without_ends(states)
}

/// Where two states end in one another a rough look may see them still: then both are found in one place, or the wrong way
/// round, and neither is there.
fn without_ends(mut states: Vec<(Stands, Found)>) -> Vec<(Stands, Found)> {
    while let Some(place) = states
        .windows(2)
        .position(|pair| pair[1].1.height - pair[0].1.height < APART)
    {
        states.drain(place..place + 2);
    }
    states
}

/// Two states are farther apart than this, m.
const APART: f64 = 1e-6;

fn looks(solver: &Solver<'_>, length: f64) -> Vec<Look> {
    // A line that is too short for the bed holds its point no lower than straight down; it may just do that.
    let low = solver.lowest().max(solver.depth - length * LONGEST);
    let guess = solver.guess();
    let mut speed = guess.map_or(solver.usual_speed(), |guess| guess.speed);
    let middle = (low + solver.depth) / 2.0;
    // Without it each height is looked for by a bracket, which takes longer and finds the same.
    let _ = solver.feel(length, middle, speed);
    let mut looks: Vec<Look> = Vec::with_capacity(HEIGHTS + 4);
    let mut before: Option<f64> = None;
    for turn in 0..=HEIGHTS {
        let height = low + (solver.depth - low) * turn as f64 / HEIGHTS as f64;
        let near = before.map_or(speed, |before| 2.0 * speed - before);
        // At the bed it has to be the same as where the bed's own state is looked for.
        let look = match turn {
            0 => solver.over(length, height, 0.0, near),
            _ => solver.roughly_over(length, height, near),
        };
        if let Some((found, end)) = look {
            before = looks.last().map(|look| look.speed);
            speed = found;
            looks.push(Look {
                height,
                over: end.step.at[1] - solver.depth,
                speed,
            });
        }
    }
    with_turns(solver, length, looks)
}

/// Two states that lie between two heights show as a turn of the top that comes near the surface: its end is looked
/// for, and stands among the looks from then on.
fn with_turns(solver: &Solver<'_>, length: f64, looks: Vec<Look>) -> Vec<Look> {
    let mut all = looks.clone();
    for three in looks.windows(3) {
        let [low, middle, high] = three else { continue };
        let side = middle.over.signum();
        let turns = [low, high]
            .iter()
            .all(|end| (end.over - middle.over) * side >= 0.0 && end.over * side > 0.0);
        let reach = (low.over - middle.over)
            .abs()
            .max((high.over - middle.over).abs());
        if !turns || middle.over.abs() > TURNS_NEAR * reach {
            continue;
        }
        if let Some(look) = turned(solver, length, [*low, *middle, *high]) {
            all.push(look);
        }
    }
    in_order(&mut all, |a, b| a.height.total_cmp(&b.height));
    all
}

/// A height at which the top is on the other side of the surface than at the three heights about it.
fn turned(solver: &Solver<'_>, length: f64, [mut low, mut middle, mut high]: [Look; 3]) -> Option<Look> {
    let side = middle.over.signum();
    for _ in 0..LOOKS {
        let height = nearest(&low, &middle, &high);
        let (speed, end) = solver.roughly_over(length, height, middle.speed)?;
        let look = Look {
            height,
            over: end.step.at[1] - solver.depth,
            speed,
        };
        if look.over * side < 0.0 {
            return Some(look);
        }
        let better = look.over * side < middle.over * side;
        let below = look.height < middle.height;
        match (better, below) {
            (true, true) => (high, middle) = (middle, look),
            (true, false) => (low, middle) = (middle, look),
            (false, true) => low = look,
            (false, false) => high = look,
        }
    }
    None
}

/// Where a parabola through three looks turns, but never nearer to one of them than a tenth of the way.
fn nearest(low: &Look, middle: &Look, high: &Look) -> f64 {
    let (left, right) = (middle.height - low.height, high.height - middle.height);
    let (by_left, by_right) = ((middle.over - low.over) / left, (high.over - middle.over) / right);
    let bend = (by_right - by_left) / (left + right);
    let turn = (low.height + middle.height) / 2.0 - by_left / (2.0 * bend);
    let turn = if turn.is_finite() { turn } else { middle.height };
    let turn = turn.clamp(low.height + left * 0.1, high.height - right * 0.1);
    let wider = if left > right { -0.1 * left } else { 0.1 * right };
    if (turn - middle.height).abs() < wider.abs() * 0.1 {
        middle.height + wider
    } else {
        turn
    }
}

/// The state between two heights at which the top is on either side of the surface.
fn between(solver: &Solver<'_>, length: f64, low: &Look, high: &Look) -> Option<Found> {
    let part = low.over / (low.over - high.over);
    let start = Guess {
        height: low.height + part * (high.height - low.height),
        speed: low.speed + part * (high.speed - low.speed),
    };
    // The looks are rough, so that a state may lie a little beyond one.
    let beyond = (high.height - low.height) * BEYOND;
    let beyond = ((low.height - beyond).max(solver.lowest()), high.height + beyond);
    let together = solver.together(length, start);
    let within = |(least, most): (f64, f64)| together.filter(|found| (least..=most).contains(&found.height));
    let looked = (low.height, high.height);
    within(looked)
        .or_else(|| bracketed(solver, length, looked, start.speed))
        .or_else(|| within(beyond))
        .or_else(|| bracketed(solver, length, beyond, start.speed))
}

fn bracketed(solver: &Solver<'_>, length: f64, (least, most): (f64, f64), near: f64) -> Option<Found> {
    let mut speed = near;
    let over = |height: f64| match solver.over(length, height, 0.0, speed) {
        Some((found, end)) => {
            speed = found;
            end.step.at[1] - solver.depth
        }
        None => f64::NAN,
    };
    let height = Bracket::of(over, least, most)?.root(TOLERANCE);
    let (speed, _) = solver.over(length, height, 0.0, speed)?;
    Some(Found {
        height,
        borne: 0.0,
        speed,
        length,
    })
}

/// The state on the bed, which bears what the line does not: all that it can, and the line lies along it.
pub(super) fn on_bed(solver: &Solver<'_>, length: f64, speed: f64) -> Option<(Stands, Found)> {
    let height = solver.lowest();
    let most = BEARS * solver.bodies[0].weight;
    let mut near = speed;
    let mut over = |borne: f64| match solver.over(length, height, borne, near) {
        Some((found, end)) => {
            near = found;
            end.step.at[1] - solver.depth
        }
        None => f64::NAN,
    };
    if over(most) > 0.0 {
        let (speed, end) = solver.up(height, most, near)?;
        let lies = (length - end.length).max(0.0);
        let found = Found {
            height,
            borne: most,
            speed,
            length: end.length,
        };
        return Some((Stands::OnBed { lies }, found));
    }
    // The bed bears less the more the line lifts: looked for as what the line lifts.
    let borne = most - Bracket::of(|lifted: f64| over(most - lifted), 0.0, most)?.root(most * 1e-7);
    let (speed, _) = solver.over(length, height, borne, near)?;
    Some((
        Stands::OnBed { lies: 0.0 },
        Found {
            height,
            borne,
            speed,
            length,
        },
    ))
}
