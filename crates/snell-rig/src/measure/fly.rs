//! Measures of flies: what they weigh, out of what they are made of.
//!
//! A mass out of parts is an estimate: hooks of one size differ by a third
//! from pattern to pattern. A weighed mass stands before it.

use super::length;
use crate::assumed::{Assumed, Taken, Usual};
use crate::blocks::{Bead, Dressing, Fly, Read, Size, Wire};
use crate::evaluation::{Evaluation, Told};
use crate::lack::{Lack, Outcome, all};
use crate::missing::{Missing, Of, Unsaid};
use crate::project::BlockId;
use crate::rig::Tied;
use crate::thing::{FlyId, JoinId, ShotId, Thing};
use crate::value::Value;
use snell_syntax::BlockKind;
use snell_units::{Dimension, Quantity};
use std::f64::consts::PI;

/// The mass of a hook by its size, in kilograms, to within 35 %.
/// Source: computed from geometry (wire and shape of usual patterns).
pub(crate) const HOOKS: [(u32, f64); 7] = [
    (8, 0.100e-3),
    (10, 0.075e-3),
    (12, 0.057e-3),
    (14, 0.050e-3),
    (16, 0.030e-3),
    (18, 0.020e-3),
    (20, 0.013e-3),
];

/// How much of a ball is left of a bead that is bored round. Source: Tungsten density experiment, 2010: 0.704 on 755
/// beads of 3.3 mm, weighed and put under water.
const ROUND: f64 = 0.70;
/// The same of a slotted bead. Source: from memory; brands differ, and a shop finds narrow slots as heavy as the next size.
const SLOTTED: f64 = 0.68;

/// The thickness of shank and thread that wire is wound on, in metres. Source: from memory.
const SHANK: f64 = 0.7e-3;

/// Steel, kg/m3. Source: metals handbooks.
pub(super) const STEEL: f64 = 7850.0;
/// Thread and wet fur, kg/m3. Source: from memory; it weighs next to nothing in water either way.
const DRESSING: f64 = 1300.0;

/// A part of a fly by its mass and what it is made of, kg and kg/m3.
pub(super) struct Made {
    pub(super) mass: f64,
    pub(super) density: f64,
}

/// The dressing taken where a fly says none.
const USUAL_DRESSING: &str = "dressed";

pub(super) fn tied<'e, 'p>(evaluation: &'e Evaluation<'_, 'p>, id: FlyId) -> &'e Tied<'p> {
    evaluation.rig.chain.fly(id).tied
}

fn fly<'e, 'p>(evaluation: &'e Evaluation<'_, 'p>, id: FlyId) -> &'e Fly<'p> {
    &tied(evaluation, id).fly
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
    let Some(float) = evaluation.rig.chain.floats().next() else {
        return length::without(evaluation, Unsaid::Float);
    };
    let lacks = |what| Err(Missing::new(what).of(Of::Float).at(float.part.place()).into());
    let density = match float.material.map(|id| evaluation.world.read(id)) {
        Some(Read::Material(material)) => material.density.clone(),
        _ => lacks(Unsaid::Material),
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

pub(super) fn lacks(evaluation: &Evaluation<'_, '_>, id: FlyId, what: Unsaid) -> Lack {
    let place = match tied(evaluation, id).block {
        Some(block) => evaluation.world.project.block(block).name_place(),
        None => evaluation.rig.chain.fly(id).part.place(),
    };
    Missing::new(what).of_thing(Thing::Fly(id)).at(place).into()
}

pub(super) fn mass(evaluation: &Evaluation<'_, '_>, id: FlyId) -> Outcome {
    let fly = fly(evaluation, id);
    if let Some(weighed) = &fly.mass {
        return weighed.clone();
    }
    let hook = hook_mass(fly.hook.as_ref()).ok_or_else(|| match &fly.hook {
        Some(_) => lacks(evaluation, id, Unsaid::HookMass),
        None => lacks(evaluation, id, Unsaid::HookOrMass),
    });
    let hook = hook.map(|si| Value::plain(si, Dimension::MASS));
    let weights = weights(evaluation, id).into_iter().map(|(mass, _)| mass);
    let known = all(std::iter::once(hook).chain(weights))?;
    let adds = dressing(evaluation, id)?.adds.clone()?;
    Ok(sum(known).plus(&adds))
}

/// The bead and the wire, each by its mass and what it is made of.
fn weights(evaluation: &Evaluation<'_, '_>, id: FlyId) -> Vec<(Outcome, Outcome)> {
    let fly = fly(evaluation, id);
    let bead = fly.bead.as_ref().map(|bead| {
        let density = density(evaluation, id, bead.material);
        (bead_mass(bead, density.clone()), density)
    });
    let wire = fly.wire.as_ref().map(|wire| {
        let density = density(evaluation, id, wire.material);
        (wire_mass(evaluation, id, wire, density.clone()), density)
    });
    bead.into_iter().chain(wire).collect()
}

/// All that a fly is made of, as far as its parts tell.
pub(super) fn parts(evaluation: &Evaluation<'_, '_>, id: FlyId) -> Result<Vec<Made>, Lack> {
    let fly = fly(evaluation, id);
    let mut parts = Vec::new();
    for (mass, density) in weights(evaluation, id) {
        let both = all([mass, density])?;
        parts.push(Made {
            mass: both[0].si(),
            density: both[1].si(),
        });
    }
    parts.extend(hook_mass(fly.hook.as_ref()).map(|mass| Made { mass, density: STEEL }));
    parts.push(Made {
        mass: dressing(evaluation, id)?.adds.clone()?.si(),
        density: DRESSING,
    });
    Ok(parts)
}

/// The mass of a hook, where its size stands in the table.
fn hook_mass(size: Option<&Size>) -> Option<f64> {
    let whole = size?.whole?;
    HOOKS
        .iter()
        .find(|(size, _)| *size == whole)
        .map(|(_, mass)| *mass)
}

fn density(evaluation: &Evaluation<'_, '_>, id: FlyId, material: Option<BlockId>) -> Outcome {
    match material.map(|id| evaluation.world.read(id)) {
        Some(Read::Material(material)) => material.density.clone(),
        _ => Err(lacks(evaluation, id, Unsaid::BeadOrWireMaterial)),
    }
}

/// Density times pi/6 d^3 times what the bore leaves.
fn bead_mass(bead: &Bead, density: Outcome) -> Outcome {
    let parts = all([bead.size.clone(), density])?;
    let left = if bead.slotted { SLOTTED } else { ROUND };
    let si = parts[1].si() * PI / 6.0 * parts[0].si().powi(3) * left;
    Ok(parts[0].clone().with(si, Dimension::MASS))
}

/// The mass of wire wound in close turns on the shank.
fn wire_mass(evaluation: &Evaluation<'_, '_>, id: FlyId, wire: &Wire, density: Outcome) -> Outcome {
    let or_lack =
        |part: &Option<Outcome>, what| part.clone().unwrap_or_else(|| Err(lacks(evaluation, id, what)));
    let parts = all([
        or_lack(&wire.diameter, Unsaid::WireThickness),
        or_lack(&wire.turns, Unsaid::WireTurns),
        density,
    ])?;
    let diameter = parts[0].si();
    let length = parts[1].si() * PI * (SHANK + diameter);
    evaluation.assume(|| Assumed {
        what: Usual::Shank,
        of: Of::Thing(Thing::Fly(id)),
        value: Taken::Figure(Quantity::new(SHANK, Dimension::LENGTH)),
    });
    let si = parts[2].si() * length * PI / 4.0 * diameter * diameter;
    Ok(parts[0].clone().joined(&parts[1]).with(si, Dimension::MASS))
}

/// How a fly is dressed, or how flies usually are.
pub(super) fn dressing<'e>(evaluation: &'e Evaluation<'_, '_>, id: FlyId) -> Result<&'e Dressing, Lack> {
    let fly = fly(evaluation, id);
    let usual = || {
        let usual = evaluation.world.shipped(BlockKind::Dressing, USUAL_DRESSING)?;
        evaluation.assume(|| Assumed {
            what: Usual::Dressing,
            of: Of::Thing(Thing::Fly(id)),
            value: Taken::Block(usual),
        });
        Some(usual)
    };
    let dressing = fly.dressing.or_else(usual);
    match dressing.map(|id| evaluation.world.read(id)) {
        Some(Read::Dressing(dressing)) => Ok(dressing),
        _ => Err(lacks(evaluation, id, Unsaid::Dressing)),
    }
}

/// What a shot is made of, by its density.
pub(super) fn shot_density(evaluation: &Evaluation<'_, '_>, id: ShotId) -> Outcome {
    let shot = evaluation.rig.chain.shot(id);
    match shot.material.map(|id| evaluation.world.read(id)) {
        Some(Read::Material(material)) => material.density.clone(),
        _ => Err(Missing::new(Unsaid::Material)
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
            masses.push(bead_mass(bead, density(evaluation, id, bead.material)));
        }
        if let Some(wire) = fly.wire.as_ref().filter(|wire| is_lead(&wire.material)) {
            let density = density(evaluation, id, wire.material);
            masses.push(wire_mass(evaluation, id, wire, density));
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
