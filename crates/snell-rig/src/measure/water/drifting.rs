//! The rig in its steady drift.
//!
//! The angler holds the sighter's end just above the water. If the tippet is
//! long enough the point rides at its height off the bed and what is left of
//! the tippet stays in the air; if it is not, the flies ride as it allows.

use super::tackle::{Rigged, carried_by, rigged};
use super::usual::{metres, usual};
use crate::assumed::Usual;
use crate::evaluation::{Evaluation, State};
use crate::lack::{Lack, Outcome};
use crate::measure::length;
use crate::missing::{Missing, Unsaid};
use crate::thing::{FlyId, Thing};
use crate::value::Value;
use snell_units::{Dimension, Quantity};
use snell_water::drift::{Drift, Lead, NoDrift, Ride, Under, drift};
use snell_water::{Hung, Stream, Tackle};
use std::rc::Rc;
use uom::si::f64::Velocity;
use uom::si::velocity::meter_per_second;

/// How high off the bed the point is to ride. Source: common practice, no source.
const OFF_BED: f64 = 0.10;
/// In shallow water it is no more than this share of the depth. Source: from memory.
const OFF_BED_SHARE: f64 = 0.25;

/// A drift's depths in a real stream are off by this much whatever the flies do.
/// Source: the middle of the 5-10 cm that the model's parts come to, from memory.
const OFF: f64 = 0.075;
/// What the drag of a fly may be multiplied or divided by: its speed of sinking is known to a third.
/// Source: from memory, the middle of 25-40 %.
const DRAG_OFF: f64 = 1.78;
/// The same for one that was timed, whose speed is known to a tenth. Source: from memory.
const TIMED_DRAG_OFF: f64 = 1.2;

/// A rig in its drift, with what it was solved from.
#[derive(Debug, Clone)]
pub struct Drifting {
    /// What hangs in the water.
    pub tackle: Tackle,
    /// The water.
    pub stream: Stream,
    /// What leads it.
    pub lead: Lead,
    /// The drift.
    pub drift: Drift,
    /// Which part of the rig each of the drift's rides is, the point first.
    pub things: Vec<Thing>,
    /// Line that can be under water: the tippet, or what hangs below the float or the dry fly.
    pub line: Value,
    /// Line that has to be under water; nothing where it hangs from a float or a dry fly.
    pub needed: Option<f64>,
    /// The flies and shots together, in the air.
    pub mass: Value,
    /// Where all of this was said.
    from: Value,
}

/// The rig's drift, solved once.
///
/// # Errors
/// What is unsaid, or why there is no such drift.
pub fn drifting(evaluation: &Evaluation<'_, '_>) -> Result<Rc<Drifting>, Lack> {
    evaluation.state()
}

impl State for Drifting {
    const NAME: &'static str = "the drift";

    fn solve(evaluation: &Evaluation<'_, '_>) -> Result<Self, Lack> {
        solve(evaluation)
    }
}

fn solve(evaluation: &Evaluation<'_, '_>) -> Result<Drifting, Lack> {
    if evaluation.rig.broken {
        return Err(Lack::Faulty);
    }
    let (stream, mut from) = super::stream::of_rig(evaluation)?;
    let carried = carried_by(evaluation);
    let first = carried.unwrap_or_else(|| length::under_sighter(evaluation));
    let line = length::along(evaluation, first, evaluation.rig.chain.end())?;
    let Rigged { tackle, things, mass } = rigged(evaluation, first)?;
    let lead = lead(evaluation, carried.map(|_| stream.profile.surface()))?;
    let under = Under::Length(metres(line.si()));
    let told = |none| lack(evaluation, &things, none);
    let (state, needed) = match carried {
        Some(_) => (drift(&tackle, &stream, under, lead).map_err(told)?, None),
        None => {
            let height = metres(off_bed_wanted(evaluation, stream.depth().value)?);
            let over = drift(&tackle, &stream, Under::PointOffBed(height), lead).map_err(told)?;
            let needed = over.submerged.value;
            match needed <= line.si() {
                true => (over, Some(needed)),
                false => (drift(&tackle, &stream, under, lead).map_err(told)?, Some(needed)),
            }
        }
    };
    from.system = line.system.or(from.system);
    Ok(Drifting {
        tackle,
        stream,
        lead,
        drift: state,
        things,
        line,
        needed,
        mass,
        from,
    })
}

/// What leads the rig: the speed that it says, its float's, or nothing.
fn lead(evaluation: &Evaluation<'_, '_>, float: Option<Velocity>) -> Result<Lead, Lack> {
    if let Some(fit) = evaluation.rig.settings.drift {
        let speed = evaluation.value(fit)?.si();
        return Ok(Lead::Speed(Velocity::new::<meter_per_second>(speed)));
    }
    Ok(float.map_or(Lead::Free, Lead::Speed))
}

fn off_bed_wanted(evaluation: &Evaluation<'_, '_>, depth: f64) -> Result<f64, Lack> {
    if let Some(fit) = evaluation.rig.settings.off_bed {
        return Ok(evaluation.value(fit)?.si());
    }
    let height = OFF_BED.min(depth * OFF_BED_SHARE);
    Ok(usual(evaluation, Usual::OffBed, height, Dimension::LENGTH).si())
}

fn lack(evaluation: &Evaluation<'_, '_>, things: &[Thing], none: NoDrift) -> Lack {
    let place = evaluation.rig.settings.water.as_ref().map(|water| water.place);
    let lack = |what| Missing::new(what).at(place.unwrap_or_else(|| evaluation.rig.place()));
    let lack = match none {
        NoDrift::Floats(index) => {
            let lack = lack(Unsaid::DriftOfLighter);
            things.get(index).map_or(lack, |thing| lack.of_thing(*thing))
        }
        NoDrift::OnBed { lifts } => lack(Unsaid::LessLine(Quantity::new(lifts.value, Dimension::LENGTH))),
        NoDrift::OverSurface => lack(Unsaid::DeeperWater),
        NoDrift::NeverUp => lack(Unsaid::FreerDrift),
        NoDrift::Unsettled => lack(Unsaid::PlainerRig),
        NoDrift::NoWater => lack(Unsaid::WaterAndLine),
    };
    lack.into()
}

impl Drifting {
    /// How a fly or a shot rides; nothing for what is not under water.
    pub fn ride(&self, thing: Thing) -> Option<&Ride> {
        let index = self.things.iter().position(|hung| *hung == thing)?;
        self.drift.rides.get(index)
    }

    /// The depths between which each of the rides lies with what is not known of drag and stream.
    pub fn depths_between(&self, evaluation: &Evaluation<'_, '_>) -> Vec<(f64, f64)> {
        let under = Under::Length(self.drift.submerged);
        let depth = self.stream.depth().value;
        let dragging = |more: bool| {
            let tackle = self.dragging(evaluation, more)?;
            drift(&tackle, &self.stream, under, self.lead).ok()
        };
        let (most, least) = (dragging(true), dragging(false));
        let off_by = |state: &Option<Drift>, index: usize, at: f64| match state {
            Some(state) => (state.rides[index].depth.value - at).abs(),
            // Over the limit of what drifts at all: it may be anywhere down to the bed.
            None => (depth - at).abs(),
        };
        let band = |(index, ride): (usize, &Ride)| {
            let at = ride.depth.value;
            let by_drag = off_by(&most, index, at).max(off_by(&least, index, at));
            let off = by_drag.hypot(OFF.min(depth / 4.0));
            ((at - off).max(0.0), (at + off).min(depth))
        };
        self.drift.rides.iter().enumerate().map(band).collect()
    }

    /// The same tackle with the drag of each fly as large, or as small, as it may be.
    fn dragging(&self, evaluation: &Evaluation<'_, '_>, more: bool) -> Option<Tackle> {
        let scaled = |fly: &snell_water::Fly, thing: &Thing| {
            let untimed = match thing {
                Thing::Fly(id) => evaluation.rig.chain.fly(*id).tied.fly.sinks.is_none(),
                Thing::Shot(_)
                | Thing::Rig
                | Thing::Section(_)
                | Thing::Join(_)
                | Thing::Dropper(_)
                | Thing::Gap(_)
                | Thing::Rod
                | Thing::Water => false,
            };
            let off = if untimed { DRAG_OFF } else { TIMED_DRAG_OFF };
            fly.dragging(if more { off } else { 1.0 / off })
        };
        let (first, others) = self.things.split_first()?;
        let hung = self.tackle.hung().iter().zip(others).map(|(hung, thing)| Hung {
            fly: scaled(&hung.fly, thing),
            ..*hung
        });
        let point = scaled(self.tackle.point(), first);
        Tackle::new(point, self.tackle.strands().to_vec(), hung.collect()).ok()
    }

    pub(super) fn value(&self, si: f64, dimension: Dimension) -> Value {
        self.from.clone().with(si, dimension)
    }
}

/// How one fly rides, in one figure.
fn of_fly(
    evaluation: &Evaluation<'_, '_>,
    id: FlyId,
    dimension: Dimension,
    figure: impl Fn(&Drifting, &Ride) -> f64,
) -> Outcome {
    let state = drifting(evaluation)?;
    match state.ride(Thing::Fly(id)) {
        Some(ride) => Ok(state.value(figure(&state, ride), dimension)),
        None => Err(Missing::new(Unsaid::Ride).of_thing(Thing::Fly(id)).into()),
    }
}

pub(in crate::measure) fn rides(evaluation: &Evaluation<'_, '_>, id: FlyId) -> Outcome {
    of_fly(evaluation, id, Dimension::LENGTH, |state, ride| {
        ride.depth.min(state.stream.depth()).value
    })
}

pub(in crate::measure) fn off_bed(evaluation: &Evaluation<'_, '_>, id: FlyId) -> Outcome {
    of_fly(evaluation, id, Dimension::LENGTH, |_, ride| {
        ride.off_bed.value.max(0.0)
    })
}

pub(in crate::measure) fn lag(evaluation: &Evaluation<'_, '_>, id: FlyId) -> Outcome {
    of_fly(evaluation, id, Dimension::SPEED, |state, ride| {
        ride.lag(state.drift.speed).value.abs()
    })
}

pub(in crate::measure) fn tippet_needed(evaluation: &Evaluation<'_, '_>) -> Outcome {
    let state = drifting(evaluation)?;
    match state.needed {
        Some(needed) => Ok(state.value(needed, Dimension::LENGTH)),
        None => length::without(evaluation, Unsaid::LedSighter),
    }
}

pub(in crate::measure) fn sighter_clear(evaluation: &Evaluation<'_, '_>) -> Outcome {
    let state = drifting(evaluation)?;
    match state.needed {
        Some(needed) => {
            let clear = state.line.si() - needed;
            Ok(state
                .line
                .clone()
                .joined(&state.from)
                .with(clear, Dimension::LENGTH))
        }
        None => length::without(evaluation, Unsaid::LedSighter),
    }
}
