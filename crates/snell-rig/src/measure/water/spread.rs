//! The figures of a rig in its water over all draws.
//!
//! A hundred draws of what is not known well of flies, line and water, each
//! solved as the rig itself is. They cost more than what they are about, and
//! are made where somebody looks.

use super::body::dressed;
use super::drifting::{Drifting, drifting};
use super::sinking::DOWN;
use super::stream::fluid;
use crate::evaluation::{Evaluation, State};
use crate::lack::Lack;
use crate::thing::{FlyId, Thing};
use snell_water::drift::Ride;
use snell_water::spread::{Answer, Drawn, Riding, Spread, Uncertain};
use std::rc::Rc;

/// The draws of a rig's drift.
struct Drifts(Spread);

/// The draws of its drift with the line that each needs, where the line is what holds the point.
struct Lines(Spread);

/// The draws of its drift with their sinks.
struct Sinks(Spread);

impl State for Drifts {
    const NAME: &'static str = "the draws of the drift";

    fn solve(evaluation: &Evaluation<'_, '_>) -> Result<Self, Lack> {
        let state = drifting(evaluation)?;
        let shown = state.settled.shown();
        Ok(Self(Spread::of(&state.rig, shown, &state.uncertain)))
    }
}

impl State for Lines {
    const NAME: &'static str = "the draws of the line needed";

    fn solve(evaluation: &Evaluation<'_, '_>) -> Result<Self, Lack> {
        let (state, drifts): (_, Rc<Drifts>) = (drifting(evaluation)?, evaluation.state()?);
        let drawn = drifts.0.clone();
        Ok(Self(match state.wanted {
            Some(height) => drawn.with_needed(&state.rig, state.settled.shown(), &state.uncertain, height),
            None => drawn,
        }))
    }
}

impl State for Sinks {
    const NAME: &'static str = "the draws of the sink";

    fn solve(evaluation: &Evaluation<'_, '_>) -> Result<Self, Lack> {
        let (state, drifts): (_, Rc<Drifts>) = (drifting(evaluation)?, evaluation.state()?);
        let drawn = drifts.0.clone();
        Ok(Self(drawn.with_sinks(&state.rig, &state.uncertain, DOWN)))
    }
}

fn of_drift(
    evaluation: &Evaluation<'_, '_>,
    figure: impl Fn(&Drifting, &Answer) -> Option<f64>,
) -> Option<Drawn> {
    let drifts: Rc<Drifts> = evaluation.state().ok()?;
    of(evaluation, &drifts.0, figure)
}

fn of_line(
    evaluation: &Evaluation<'_, '_>,
    figure: impl Fn(&Drifting, &Answer) -> Option<f64>,
) -> Option<Drawn> {
    let lines: Rc<Lines> = evaluation.state().ok()?;
    of(evaluation, &lines.0, figure)
}

fn of(
    evaluation: &Evaluation<'_, '_>,
    drawn: &Spread,
    figure: impl Fn(&Drifting, &Answer) -> Option<f64>,
) -> Option<Drawn> {
    let state = drifting(evaluation).ok()?;
    Some(drawn.figure(|answer| figure(&state, answer)))
}

fn of_sink(evaluation: &Evaluation<'_, '_>, figure: impl Fn(&Answer, f64) -> f64) -> Option<Drawn> {
    let sinks: Rc<Sinks> = evaluation.state().ok()?;
    let seconds = |answer: &Answer| answer.sink.map(|seconds| figure(answer, seconds));
    Some(sinks.0.figure(seconds))
}

/// The depths between which each of a drift's rides lies. What drifts in less than half of the draws may be anywhere.
pub fn depths_between(evaluation: &Evaluation<'_, '_>, state: &Drifting) -> Vec<(f64, f64)> {
    let band = |(index, ride): (usize, &Ride)| {
        let depth = |_: &Drifting, answer: &Answer| answer.flies.get(index).map(|fly| fly.depth);
        let whole = (0.0, state.rig.stream.depth().value);
        of_drift(evaluation, depth)
            .and_then(|drawn| drawn.band())
            .map_or(whole, |band| {
                let at = ride.depth.value;
                (band.low.min(at), band.high.max(at))
            })
    };
    state.drift.rides.iter().enumerate().map(band).collect()
}

fn of_ride(evaluation: &Evaluation<'_, '_>, id: FlyId, figure: impl Fn(&Riding) -> f64) -> Option<Drawn> {
    of_drift(evaluation, |state, answer| {
        answer.flies.get(state.index(Thing::Fly(id))?).map(&figure)
    })
}

pub(in crate::measure) fn rides_drawn(evaluation: &Evaluation<'_, '_>, id: FlyId) -> Option<Drawn> {
    of_ride(evaluation, id, |fly| fly.depth)
}

pub(in crate::measure) fn off_bed_drawn(evaluation: &Evaluation<'_, '_>, id: FlyId) -> Option<Drawn> {
    of_ride(evaluation, id, |fly| fly.off_bed.max(0.0))
}

pub(in crate::measure) fn drags_drawn(evaluation: &Evaluation<'_, '_>, id: FlyId) -> Option<Drawn> {
    of_ride(evaluation, id, |fly| fly.lag.abs())
}

pub(in crate::measure) fn needed_drawn(evaluation: &Evaluation<'_, '_>) -> Option<Drawn> {
    of_line(evaluation, |_, answer| answer.needed)
}

pub(in crate::measure) fn out_drawn(evaluation: &Evaluation<'_, '_>) -> Option<Drawn> {
    of_line(evaluation, |state, answer| Some(state.line.si() - answer.needed?))
}

pub(in crate::measure) fn beyond_tip_drawn(evaluation: &Evaluation<'_, '_>) -> Option<Drawn> {
    let reach = super::overhead::reach(evaluation).ok()?.si();
    of_line(evaluation, |state, answer| {
        let under = answer
            .needed
            .map_or(state.rig.length.value, |needed| needed.min(state.line.si()));
        Some(reach + under)
    })
}

pub(in crate::measure) fn sink_time_drawn(evaluation: &Evaluation<'_, '_>) -> Option<Drawn> {
    of_sink(evaluation, |_, seconds| seconds)
}

pub(in crate::measure) fn sink_run_drawn(evaluation: &Evaluation<'_, '_>) -> Option<Drawn> {
    of_sink(evaluation, |answer, seconds| answer.speed * seconds)
}

fn of_fly(
    evaluation: &Evaluation<'_, '_>,
    id: FlyId,
    figure: impl Fn(&snell_water::Fly) -> Option<f64>,
) -> Option<Drawn> {
    let (fly, _) = dressed(evaluation, id).ok()?;
    Some(Drawn::of_fly(&fly, &Uncertain::default(), figure))
}

pub(in crate::measure) fn sinks_drawn(evaluation: &Evaluation<'_, '_>, id: FlyId) -> Option<Drawn> {
    let water = fluid(evaluation).ok()?;
    of_fly(evaluation, id, |fly| Some(fly.sinks(&water)?.value))
}

pub(in crate::measure) fn wet_weight_drawn(evaluation: &Evaluation<'_, '_>, id: FlyId) -> Option<Drawn> {
    let water = fluid(evaluation).ok()?;
    of_fly(evaluation, id, |fly| Some(fly.wet_weight(&water).value))
}
