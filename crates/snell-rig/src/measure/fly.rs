//! Measures of flies: what they weigh, out of what they are made of.
//!
//! A mass out of parts is an estimate: hooks of one size differ by a third
//! from pattern to pattern. A weighed mass stands before it.

use super::length;
use super::tied::{self, lacks};
use crate::blocks::{Fly, Size};
use crate::evaluation::{Evaluation, Told};
use crate::lack::{Lack, Outcome, all};
use crate::missing::{Missing, Of, Unsaid};
use crate::project::BlockId;
use crate::thing::{FlyId, JoinId, ShotId, Thing};
use crate::value::Value;
use snell_units::Dimension;
use std::f64::consts::PI;

/// Steel, kg/m3. Source: metals handbooks.
pub(super) const STEEL: f64 = 7850.0;

fn fly<'e, 'p>(evaluation: &'e Evaluation<'_, 'p>, id: FlyId) -> &'e Fly<'p> {
    &tied::tied(evaluation, id).fly
}

/// What a fly need not have.
fn without(id: FlyId, what: Unsaid) -> Outcome {
    Err(Missing::new(what).of_thing(Thing::Fly(id)).into())
}

pub(super) fn count(evaluation: &Evaluation<'_, '_>) -> Outcome {
    if evaluation.rig.holes {
        return Err(Lack::Faulty);
    }
    Ok(Value::count(evaluation.rig.chain.flies().len()))
}

pub(super) fn method(evaluation: &Evaluation<'_, '_>, told: &mut Told<'_>) {
    if let Some(method) = &evaluation.rig.settings.method {
        told(method.value.word());
    }
}

pub(super) fn weight(evaluation: &Evaluation<'_, '_>) -> Outcome {
    if evaluation.rig.holes {
        return Err(Lack::Faulty);
    }
    let flies = evaluation.rig.chain.flies();
    let masses = all(flies.map(|(id, _)| mass(evaluation, id)))?;
    Ok(sum(masses))
}

fn sum(masses: Vec<Value>) -> Value {
    masses
        .iter()
        .fold(Value::plain(0.0, Dimension::MASS), |sum, mass| sum.plus(mass))
}

pub(super) fn hook(evaluation: &Evaluation<'_, '_>, id: FlyId, told: &mut Told<'_>) {
    if let Some(size) = &fly(evaluation, id).hook {
        told(&format!("#{}", size.written));
    }
}

pub(super) fn hook_size(evaluation: &Evaluation<'_, '_>, id: FlyId) -> Outcome {
    let hook = fly(evaluation, id).hook.as_ref();
    match hook.and_then(|size| size.whole) {
        Some(size) => Ok(Value::count(size as usize)),
        None => Err(lacks(evaluation, id, Unsaid::Hook)),
    }
}

/// How long its hook is from the eye to the bend, by its size.
pub(super) fn hook_length(evaluation: &Evaluation<'_, '_>, id: FlyId) -> Outcome {
    let hook = fly(evaluation, id).hook.as_ref();
    match hook.and_then(Size::hook) {
        Some(hook) => Ok(Value::plain(hook.shank().value, Dimension::LENGTH)),
        None => Err(lacks(evaluation, id, Unsaid::Hook)),
    }
}

pub(super) fn knot(evaluation: &Evaluation<'_, '_>, id: FlyId, told: &mut Told<'_>) {
    if let Some(id) = evaluation.fly_knot(id) {
        told(evaluation.world.name(id));
    }
}

pub(super) fn shot_mass(evaluation: &Evaluation<'_, '_>, id: ShotId) -> Outcome {
    match evaluation.rig.chain.shot(id).mass {
        Some(fit) => evaluation.value(fit),
        None => Err(Missing::new(Unsaid::Shot).into()),
    }
}

/// The mass of the swivel at a join, where one is there and was weighed.
pub(super) fn swivel_mass(evaluation: &Evaluation<'_, '_>, id: JoinId) -> Option<Outcome> {
    let mass = evaluation.rig.chain.join(id).swivel?.mass?;
    Some(evaluation.value(mass))
}

pub(super) fn shot_material(evaluation: &Evaluation<'_, '_>, id: ShotId, told: &mut Told<'_>) {
    if let Some(id) = evaluation.rig.chain.shot(id).material {
        told(evaluation.world.name(id));
    }
}

pub(super) fn bead(evaluation: &Evaluation<'_, '_>, id: FlyId) -> Outcome {
    match &fly(evaluation, id).bead {
        Some(bead) => bead.size.clone(),
        None => without(id, Unsaid::Bead),
    }
}

pub(super) fn floats(evaluation: &Evaluation<'_, '_>, id: FlyId) -> Outcome {
    match &fly(evaluation, id).floats {
        Some(floats) => floats.clone(),
        None => without(id, Unsaid::Lift),
    }
}

/// What hangs in the water: the flies that do not float, and the shots.
pub(super) fn sunk_mass(evaluation: &Evaluation<'_, '_>) -> Outcome {
    if evaluation.rig.broken {
        return Err(Lack::Faulty);
    }
    let chain = &evaluation.rig.chain;
    let sinking = chain.flies().filter(|(id, _)| !evaluation.rig.rides_afloat(*id));
    let flies = sinking.map(|(id, _)| mass(evaluation, id));
    let shots = chain.shots().map(|id| shot_mass(evaluation, id));
    let swivels = chain.joins().filter_map(|id| swivel_mass(evaluation, id));
    Ok(sum(all(flies.chain(shots).chain(swivels))?))
}

/// The density of water, in kg/m3, to within what a float's shape is worth. Source: Kell 1975, at 10 C, rounded.
const WATER: f64 = 1000.0;

/// The lift of the uppermost float: a ball's volume times what it is lighter than water.
pub(super) fn float_lift(evaluation: &Evaluation<'_, '_>) -> Outcome {
    if evaluation.rig.broken {
        return Err(Lack::Faulty);
    }
    let chain = &evaluation.rig.chain;
    let Some(float) = chain.floats().next().map(|id| chain.float(id)) else {
        return length::without(evaluation, Unsaid::Float);
    };
    let lacks = |what| Err(Missing::new(what).of(Of::Float).at(float.part.place()).into());
    let density = match float.material.and_then(|id| evaluation.world.read(id).material()) {
        Some(material) => material.density.clone(),
        None => lacks(Unsaid::Material),
    };
    let size = match float.size {
        Some(fit) => evaluation.value(fit),
        None => lacks(Unsaid::Size),
    };
    let parts = all([size, density])?;
    let si = (WATER - parts[1].si()) * PI / 6.0 * parts[0].si().powi(3);
    let mut lift = parts[0].clone().with(si, Dimension::MASS);
    lift.system = None;
    Ok(lift)
}

pub(super) fn mass(evaluation: &Evaluation<'_, '_>, id: FlyId) -> Outcome {
    if let Some(weighed) = &fly(evaluation, id).mass {
        return weighed.clone();
    }
    let made = tied::made(evaluation, id)?;
    let si = tied::built(evaluation, id, &made.parts)?.mass().value;
    Ok(made.from.with(si, Dimension::MASS))
}

/// What a fly that was weighed would weigh by its parts.
pub(super) fn parts_mass(evaluation: &Evaluation<'_, '_>, id: FlyId) -> Outcome {
    let own = fly(evaluation, id);
    // What weights a fly without bead and wire is not told.
    if own.mass.is_none() || !own.is_weighted() {
        return without(id, Unsaid::Weighed);
    }
    let made = tied::made(evaluation, id)?;
    let unweighed = snell_water::fly::Parts {
        weighed: None,
        ..made.parts
    };
    let si = tied::built(evaluation, id, &unweighed)?.mass().value;
    Ok(made.from.with(si, Dimension::MASS))
}

/// What a shot is made of, by its density.
pub(super) fn shot_density(evaluation: &Evaluation<'_, '_>, id: ShotId) -> Outcome {
    let shot = evaluation.rig.chain.shot(id);
    match shot.material.and_then(|id| evaluation.world.read(id).material()) {
        Some(material) => material.density.clone(),
        None => Err(Missing::new(Unsaid::Material)
            .of_thing(Thing::Shot(id))
            .at(shot.part.place())
            .into()),
    }
}

/// The mass of all lead on the rig.
pub(super) fn lead(evaluation: &Evaluation<'_, '_>) -> Outcome {
    if evaluation.rig.broken {
        return Err(Lack::Faulty);
    }
    let is_lead = |material: &Option<BlockId>| material.is_some_and(|id| of_lead(evaluation, id));
    let mut masses = Vec::new();
    let chain = &evaluation.rig.chain;
    for (id, on) in chain.flies() {
        let fly = &on.tied.fly;
        if let Some(bead) = fly.bead.as_ref().filter(|bead| is_lead(&bead.material)) {
            masses.push(tied::bead_mass(evaluation, id, bead));
        }
        if let Some(wire) = fly.wire.as_ref().filter(|wire| is_lead(&wire.material)) {
            masses.push(tied::wire_mass(evaluation, id, wire));
        }
    }
    for id in chain.shots().filter(|id| is_lead(&chain.shot(*id).material)) {
        masses.push(shot_mass(evaluation, id));
    }
    Ok(sum(all(masses)?))
}

/// Whether a material is lead, or made from it.
fn of_lead(evaluation: &Evaluation<'_, '_>, id: BlockId) -> bool {
    evaluation.world.names_along(id).any(|name| name == "lead")
}
