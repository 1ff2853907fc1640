//! The rig in its steady drift.
//!
//! The angler holds the sighter's end just above the water. If the tippet is
//! long enough the point rides at its height off the bed and what is left of
//! the tippet stays in the air; if it is not, the flies ride as it allows.

use super::overhead;
use super::tackle::{Carrier, Rigged, Under, carried_by, rigged};
use super::usual::{metres, usual};
use crate::assumed::Usual;
use crate::evaluation::{Evaluation, State};
use crate::lack::{Lack, Outcome};
use crate::measure::length;
use crate::missing::{Missing, Unsaid};
use crate::thing::{FlyId, SectionId, Thing};
use crate::value::Value;
use snell_units::{Dimension, Quantity};
use snell_water::drift::{Drift, Lead, NoDrift, Ride};
use snell_water::leader::Reach;
use snell_water::spread::Uncertain;
use snell_water::windy::blown_aside;
use snell_water::{Rig, Settled, Strand, Stream};
use std::rc::Rc;
use uom::si::f64::{Length, Ratio, Velocity};
use uom::si::ratio::ratio;
use uom::si::velocity::meter_per_second;

/// How high off the bed the point is to ride. Source: common practice, no source.
const OFF_BED: f64 = 0.10;
/// In shallow water it is no more than this share of the depth. Source: from memory.
const OFF_BED_SHARE: f64 = 0.25;

/// Two heights nearer than this are those of one state, m: a hundred times what the solver is off.
const SAME: f64 = 1e-4;

/// A rig in its drift, with what it was solved from.
#[derive(Debug, Clone)]
pub struct Drifting {
    /// What hangs in the water, and how much of the line is in it.
    pub rig: Rig,
    /// All its steady states, and the one that its cast comes to.
    pub settled: Settled,
    /// How well the water is known.
    pub(super) uncertain: Uncertain,
    /// The height off the bed that the line is needed for; nothing where it hangs from a float or a dry fly.
    pub(super) wanted: Option<Length>,
    /// Why no length of line puts the point at that height.
    unmet: Option<NoDrift>,
    /// The drift that its cast comes to.
    pub drift: Drift,
    /// Which part of the rig each of the drift's rides is, the point first.
    pub things: Vec<Thing>,
    /// Line that can be under water: the tippet, or what hangs below the float or the dry fly.
    pub line: Value,
    /// Line that has to be under water; nothing where it hangs from a float or a dry fly.
    pub needed: Option<f64>,
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
    let under = match carried {
        Some(carrier) => Under::below(evaluation, carrier)?,
        None => Under::from(length::under_sighter(evaluation)),
    };
    let line = match carried {
        Some(Carrier::Float(float)) => length::float_to_point(evaluation, float)?,
        Some(Carrier::Fly(_)) | None => length::along(evaluation, under.first, evaluation.rig.chain.end())?,
    };
    let tip = match carried {
        Some(_) => None,
        None => tip_that_leads(evaluation, under.first)?,
    };
    let above = tip.as_ref().map_or_else(Vec::new, |(_, above)| above.clone());
    let Rigged { tackle, things } = rigged(evaluation, &under, above)?;
    let told = |none| lack(evaluation, &things, none);
    let mut whole = Rig {
        tackle,
        lead: lead(evaluation, carried, tip.map(|(reach, _)| reach), &stream)?,
        stream,
        length: metres(line.si()),
        cast: super::cast::cast(evaluation),
    };
    whole.lead = blown(&whole).map_err(told)?;
    let wanted = match carried {
        Some(_) => None,
        None => Some(metres(off_bed_wanted(evaluation, whole.stream.depth().value)?)),
    };
    let (led, unmet) = match wanted.map(|height| whole.with_point_at(height)) {
        None => (None, None),
        Some(Ok(led)) => (Some(led), None),
        // A leader that hangs far may hold the point up however much line there is.
        Some(Err(none)) if whole.lead.holds_up() => (None, Some(none)),
        Some(Err(none)) => return Err(told(none)),
    };
    let under = led
        .as_ref()
        .map_or(whole.length, |led| led.submerged.min(whole.length));
    let rig = whole.with_length(under);
    let settled = match &led {
        Some(led) => rig.settles_by(led),
        None => rig.settles(),
    };
    let settled = settled.map_err(told)?;
    let needed = led.as_ref().map(|led| led.submerged.value);
    let drift = drift_of(&settled, led);
    from.system = line.system.or(from.system);
    Ok(Drifting {
        drift,
        uncertain: super::stream::uncertain(evaluation)?,
        rig,
        wanted,
        unmet,
        settled,
        things,
        line,
        needed,
        from,
    })
}

/// The drift that the cast comes to. Where that is the one that was asked for by its height, the latter is good to more
/// digits.
fn drift_of(settled: &Settled, led: Option<Drift>) -> Drift {
    let shown = &settled.shown().drift;
    let height = |drift: &Drift| drift.rides.first().map_or(0.0, |point| point.off_bed.value);
    let same = |led: &Drift| led.submerged == shown.submerged && (height(led) - height(shown)).abs() < SAME;
    led.filter(same).unwrap_or_else(|| shown.clone())
}

/// Where the tip is that a leader hangs from, with the line above the tippet; nothing where that is not known, or where a
/// speed leads the rig.
fn tip_that_leads(
    evaluation: &Evaluation<'_, '_>,
    first: SectionId,
) -> Result<Option<(Reach, Vec<Strand>)>, Lack> {
    let settings = &evaluation.rig.settings;
    if settings.drift.is_some() || settings.reach.is_none() {
        return Ok(None);
    }
    let known = overhead::tip(evaluation).and_then(|tip| {
        let above = overhead::strands_above(evaluation, first, tip.straight)?;
        Ok((tip.reach, above))
    });
    match known {
        Ok(known) => Ok(Some(known)),
        Err(Lack::Unknown(_)) => Ok(None),
        Err(Lack::Faulty) => Err(Lack::Faulty),
    }
}

/// What leads a rig whose leader the wind may blow aside: then its whole pull, taken along the stream.
fn blown(whole: &Rig) -> Result<Lead, NoDrift> {
    match whole.lead {
        Lead::Reach(reach) if reach.wind.is_some_and(|wind| wind.is_across()) => {
            let (drift, _) = blown_aside(whole, &reach)?;
            Ok(Lead::Pull(drift.pull))
        }
        Lead::Reach(_) | Lead::Free | Lead::Pull(_) | Lead::Speed(_) | Lead::Share(_) | Lead::Float(_) => {
            Ok(whole.lead)
        }
    }
}

/// What leads the rig: the speed that it says, what it hangs from, the leader, or nothing.
fn lead(
    evaluation: &Evaluation<'_, '_>,
    carried: Option<Carrier>,
    tip: Option<Reach>,
    stream: &Stream,
) -> Result<Lead, Lack> {
    if let Some(fit) = evaluation.rig.settings.drift {
        let at = evaluation.value(fit)?;
        return Ok(if at.dimension() == Dimension::SPEED {
            Lead::Speed(Velocity::new::<meter_per_second>(at.si()))
        } else {
            Lead::Share(Ratio::new::<ratio>(at.si()))
        });
    }
    match carried {
        Some(carrier) => Ok(Lead::Float(super::float::carrier(
            evaluation,
            carrier,
            &stream.fluid,
        )?)),
        None => Ok(tip.map_or(Lead::Free, Lead::Reach)),
    }
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
        self.drift.rides.get(self.index(thing)?)
    }

    /// The place of a fly or a shot among the rides.
    pub(super) fn index(&self, thing: Thing) -> Option<usize> {
        self.things.iter().position(|hung| *hung == thing)
    }

    /// Whether the point lies on the bed.
    pub fn is_on_bed(&self) -> bool {
        self.settled.shown().is_on_bed()
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
        ride.depth.min(state.rig.stream.depth()).value
    })
}

pub(in crate::measure) fn off_bed(evaluation: &Evaluation<'_, '_>, id: FlyId) -> Outcome {
    of_fly(evaluation, id, Dimension::LENGTH, |_, ride| {
        ride.off_bed.value.max(0.0)
    })
}

/// How far over the water a fly hangs, its tag straight down; nothing for what is under water.
pub(in crate::measure) fn in_air(evaluation: &Evaluation<'_, '_>, id: FlyId) -> Outcome {
    let state = drifting(evaluation)?;
    let thing = Thing::Fly(id);
    let Some(index) = state.index(thing) else {
        return Err(Missing::new(Unsaid::Ride).of_thing(thing).into());
    };
    let over = match (state.ride(thing), index.checked_sub(1)) {
        (None, Some(index)) => {
            let hung = &state.rig.tackle.hung()[index];
            let tag = hung.tag.as_ref().map_or(metres(0.0), snell_water::Strand::length);
            (hung.above_point - state.drift.submerged - tag).value.max(0.0)
        }
        (Some(_), _) | (None, None) => 0.0,
    };
    Ok(state.value(over, Dimension::LENGTH))
}

pub(in crate::measure) fn drags(evaluation: &Evaluation<'_, '_>, id: FlyId) -> Outcome {
    of_fly(evaluation, id, Dimension::SPEED, |state, ride| {
        ride.lag(state.drift.speed).value.abs()
    })
}

pub(in crate::measure) fn tippet_needed(evaluation: &Evaluation<'_, '_>) -> Outcome {
    let (state, needed) = needed(evaluation)?;
    Ok(state.value(needed, Dimension::LENGTH))
}

/// The line that puts the point at its height off the bed.
fn needed(evaluation: &Evaluation<'_, '_>) -> Result<(Rc<Drifting>, f64), Lack> {
    let state = drifting(evaluation)?;
    match (state.needed, state.unmet) {
        (Some(needed), _) => Ok((state, needed)),
        (None, Some(unmet)) => Err(lack(evaluation, &state.things, unmet)),
        (None, None) => length::without(evaluation, Unsaid::LedSighter).and(Err(Lack::Faulty)),
    }
}

pub(in crate::measure) fn sighter_out(evaluation: &Evaluation<'_, '_>) -> Outcome {
    let (state, needed) = needed(evaluation)?;
    let clear = state.line.si() - needed;
    let line = state.line.clone().joined(&state.from);
    Ok(line.with(clear, Dimension::LENGTH))
}
