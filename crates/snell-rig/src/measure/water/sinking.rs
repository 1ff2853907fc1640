//! How soon the rig is down, and how far it has gone by then.

use super::drifting::{Drifting, drifting};
use crate::evaluation::{Evaluation, State};
use crate::lack::{Lack, Outcome};
use crate::missing::{Missing, Unsaid};
use crate::value::Value;
use snell_units::Dimension;
use snell_water::sink::{Cast, Sink};
use std::rc::Rc;
use uom::si::f64::Time;
use uom::si::time::second;

/// A rig counts as down at this share of the depth at which its point rides. Source: our own choice; the
/// last tenth takes as long as all the others.
pub const DOWN: f64 = 0.9;
/// A sink is watched for no longer than this, s.
const LONGEST: f64 = 60.0;

/// A sink with what it was solved from.
#[derive(Debug, Clone)]
pub struct Sinking {
    /// How the flies landed.
    pub cast: Cast,
    /// The sink, at least until the rig is down.
    pub sink: Sink,
    /// When it was down, s; nothing where it did not get there.
    pub down: Option<f64>,
}

/// The rig's sink until it is down, solved once.
///
/// # Errors
/// As for its drift.
pub fn sinking(evaluation: &Evaluation<'_, '_>) -> Result<Rc<Sinking>, Lack> {
    evaluation.state()
}

impl State for Sinking {
    const NAME: &'static str = "the sink";

    fn solve(evaluation: &Evaluation<'_, '_>) -> Result<Self, Lack> {
        let state = drifting(evaluation)?;
        Ok(sinking_of(&state, DOWN))
    }
}

/// The sink of a rig to a share of its point's depth.
pub fn sinking_of(state: &Drifting, share: f64) -> Sinking {
    let longest = Time::new::<second>(LONGEST);
    let sink = state.rig.sink(&state.drift, share, longest);
    let point = state.drift.rides.first().map(|ride| ride.depth * DOWN);
    let down = point.and_then(|depth| sink.reaches(depth)).map(|time| time.value);
    Sinking {
        cast: state.rig.cast,
        sink,
        down,
    }
}

fn down(evaluation: &Evaluation<'_, '_>) -> Result<(Rc<Drifting>, f64), Lack> {
    let state = drifting(evaluation)?;
    let sunk = sinking(evaluation)?;
    let slow = || Missing::new(Unsaid::SinkInTime).at(evaluation.rig.place());
    let seconds = sunk.down.ok_or_else(slow)?;
    Ok((state, seconds))
}

pub(in crate::measure) fn sink_time(evaluation: &Evaluation<'_, '_>) -> Outcome {
    let (state, seconds) = down(evaluation)?;
    Ok(state.value(seconds, Dimension::TIME))
}

pub(in crate::measure) fn sink_run(evaluation: &Evaluation<'_, '_>) -> Outcome {
    let (state, seconds) = down(evaluation)?;
    let run: Value = state.value(seconds * state.drift.speed.value, Dimension::LENGTH);
    Ok(run)
}
