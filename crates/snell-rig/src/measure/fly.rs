//! Measures of flies: what they weigh, out of what they are made of.
//!
//! A mass out of parts is an estimate: hooks of one size differ by a third
//! from pattern to pattern. A weighed mass stands before it.

use super::water::Made;
use super::{Thing, Told};
use crate::blocks::{Bead, Dressing, Read, Size, Wire};
use crate::evaluation::Evaluation;
use crate::keywords::Take;
use crate::project::BlockId;
use crate::rig::{FlyOn, OnLineKind};
use crate::value::{Assumed, Lack, Outcome, Value, all};
use snell_syntax::BlockKind;
use snell_units::Dimension;
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

/// The dressing taken where a fly says none.
const USUAL_DRESSING: &str = "dressed";

pub(super) fn on<'e, 'p>(evaluation: &'e Evaluation<'_, 'p>, thing: Thing) -> &'e FlyOn<'p> {
    &evaluation.rig.layout.flies[thing.index()]
}

pub(super) fn count(evaluation: &Evaluation<'_, '_>, _: Thing) -> Outcome {
    if evaluation.rig.holes {
        return Err(Lack::Faulty);
    }
    Ok(Value::count(evaluation.rig.layout.flies.len()))
}

pub(super) fn method(evaluation: &Evaluation<'_, '_>, _: Thing, told: &mut Told<'_>) {
    if let Some(method) = &evaluation.rig.settings.method {
        told(&method.value);
    }
}

pub(super) fn weight(evaluation: &Evaluation<'_, '_>, _: Thing) -> Outcome {
    if evaluation.rig.holes {
        return Err(Lack::Faulty);
    }
    let flies = 0..evaluation.rig.layout.flies.len();
    let masses = all(flies.map(|index| mass(evaluation, Thing::Fly(index))))?;
    Ok(sum(masses))
}

fn sum(masses: Vec<Value>) -> Value {
    masses
        .iter()
        .fold(Value::plain(0.0, Dimension::MASS), |sum, mass| sum.plus(mass))
}

pub(super) fn hook(evaluation: &Evaluation<'_, '_>, thing: Thing, told: &mut Told<'_>) {
    if let Some(size) = &on(evaluation, thing).fly.hook {
        told(&format!("#{}", size.written));
    }
}

pub(super) fn hook_size(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Outcome {
    match on(evaluation, thing)
        .fly
        .hook
        .as_ref()
        .and_then(|size| size.whole)
    {
        Some(size) => Ok(Value::count(size as usize)),
        None => Err(lacks(evaluation, thing, "the hook")),
    }
}

pub(super) fn knot(evaluation: &Evaluation<'_, '_>, thing: Thing, told: &mut Told<'_>) {
    if let Some(id) = evaluation.fly_knot(thing.index()) {
        told(evaluation.world.name(id));
    }
}

pub(super) fn shot_mass(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Outcome {
    match evaluation.rig.layout.on_line[thing.index()].given.get(Take::Mass) {
        Some(fit) => evaluation.value(fit),
        None => Err(Lack::without("a shot", None)),
    }
}

pub(super) fn shot_material(evaluation: &Evaluation<'_, '_>, thing: Thing, told: &mut Told<'_>) {
    let material = evaluation.rig.layout.on_line[thing.index()]
        .given
        .get(Take::Name(BlockKind::Material));
    if let Some(id) =
        material.and_then(|fit| crate::blocks::named(evaluation.world, fit, BlockKind::Material))
    {
        told(evaluation.world.name(id));
    }
}

pub(super) fn bead(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Outcome {
    match &on(evaluation, thing).fly.bead {
        Some(bead) => bead.size.clone(),
        None => Err(Lack::without(
            format!("a bead of {}", on(evaluation, thing).name),
            None,
        )),
    }
}

pub(super) fn floats(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Outcome {
    match &on(evaluation, thing).fly.floats {
        Some(floats) => floats.clone(),
        None => Err(Lack::without(
            format!("a lift of {}", on(evaluation, thing).name),
            None,
        )),
    }
}

/// What hangs in the water: the flies that do not float, and the shots.
pub(super) fn sunk_mass(evaluation: &Evaluation<'_, '_>, _: Thing) -> Outcome {
    if evaluation.rig.broken {
        return Err(Lack::Faulty);
    }
    let layout = &evaluation.rig.layout;
    let sinking = (0..layout.flies.len()).filter(|index| !evaluation.rig.rides_afloat(*index));
    let flies = sinking.map(|index| mass(evaluation, Thing::Fly(index)));
    let shots = layout
        .on_line
        .iter()
        .enumerate()
        .filter(|(_, item)| item.kind == OnLineKind::Shot);
    let shots = shots.map(|(index, _)| shot_mass(evaluation, Thing::Shot(index)));
    Ok(sum(all(flies.chain(shots))?))
}

/// The density of water, in kg/m3, to within what a float's shape is worth. Source: Kell 1975, at 10 C, rounded.
const WATER: f64 = 1000.0;

/// The lift of the uppermost float: a ball's volume times what it is lighter than water.
pub(super) fn float_lift(evaluation: &Evaluation<'_, '_>, _: Thing) -> Outcome {
    if evaluation.rig.broken {
        return Err(Lack::Faulty);
    }
    let float = evaluation
        .rig
        .layout
        .on_line
        .iter()
        .find(|item| item.kind == OnLineKind::Float);
    let Some(float) = float else {
        return super::length::without(evaluation, "a float");
    };
    let place = Some(float.given.line.whole());
    let material = float.given.get(Take::Name(BlockKind::Material));
    let material = material.and_then(|fit| crate::blocks::named(evaluation.world, fit, BlockKind::Material));
    let density = match material.map(|id| evaluation.world.read(id)) {
        Some(Read::Material(material)) => material.density.clone(),
        _ => Err(Lack::need("the material of the float", place)),
    };
    let size = match float.given.get(Take::Diameter) {
        Some(fit) => evaluation.value(fit),
        None => Err(Lack::need("the size of the float", place)),
    };
    let parts = all([size, density])?;
    let si = (WATER - parts[1].si()) * PI / 6.0 * parts[0].si().powi(3);
    let mut lift = parts[0].clone().with(si, Dimension::MASS);
    lift.system = None;
    Ok(lift)
}

pub(super) fn lacks(evaluation: &Evaluation<'_, '_>, thing: Thing, what: &str) -> Lack {
    let fly = on(evaluation, thing);
    let place = match fly.block {
        Some(id) => evaluation.world.project.block(id).name_place(),
        None => fly.part.given.line.whole(),
    };
    Lack::need(format!("{what} of {}", fly.name), Some(place))
}

pub(super) fn mass(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Outcome {
    let fly = &on(evaluation, thing).fly;
    if let Some(weighed) = &fly.mass {
        return weighed.clone();
    }
    let hook = hook_mass(fly.hook.as_ref()).ok_or_else(|| match &fly.hook {
        Some(size) => lacks(
            evaluation,
            thing,
            &format!("the mass of a hook #{}, and so that", size.written),
        ),
        None => lacks(evaluation, thing, "the hook or the mass"),
    });
    let hook = hook.map(|si| Value::plain(si, Dimension::MASS));
    let weights = weights(evaluation, thing).into_iter().map(|(mass, _)| mass);
    let known = all(std::iter::once(hook).chain(weights))?;
    let adds = dressing(evaluation, thing)?.adds.clone()?;
    Ok(sum(known).plus(&adds))
}

/// The bead and the wire, each by its mass and what it is made of.
fn weights(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Vec<(Outcome, Outcome)> {
    let fly = &on(evaluation, thing).fly;
    let bead = fly.bead.as_ref().map(|bead| {
        let density = density(evaluation, thing, bead.material);
        (bead_mass(bead, density.clone()), density)
    });
    let wire = fly.wire.as_ref().map(|wire| {
        let density = density(evaluation, thing, wire.material);
        (wire_mass(evaluation, thing, wire, density.clone()), density)
    });
    bead.into_iter().chain(wire).collect()
}

/// All that a fly is made of, as far as its parts tell.
pub(super) fn parts(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Result<Vec<Made>, Lack> {
    let fly = &on(evaluation, thing).fly;
    let mut parts = Vec::new();
    for (mass, density) in weights(evaluation, thing) {
        let both = all([mass, density])?;
        parts.push(Made::of(both[0].si(), both[1].si()));
    }
    parts.extend(hook_mass(fly.hook.as_ref()).map(Made::steel));
    parts.push(Made::dressing(dressing(evaluation, thing)?.adds.clone()?.si()));
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

fn density(evaluation: &Evaluation<'_, '_>, thing: Thing, material: Option<BlockId>) -> Outcome {
    match material.map(|id| evaluation.world.read(id)) {
        Some(Read::Material(material)) => material.density.clone(),
        _ => Err(lacks(evaluation, thing, "the material of bead or wire")),
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
fn wire_mass(evaluation: &Evaluation<'_, '_>, thing: Thing, wire: &Wire, density: Outcome) -> Outcome {
    let or_lack = |part: &Option<Outcome>, what| {
        part.clone()
            .unwrap_or_else(|| Err(lacks(evaluation, thing, what)))
    };
    let parts = all([
        or_lack(&wire.diameter, "the thickness of the wire"),
        or_lack(&wire.turns, "the turns of wire"),
        density,
    ])?;
    let diameter = parts[0].si();
    let length = parts[1].si() * PI * (SHANK + diameter);
    evaluation.assume(|| Assumed {
        what: format!("the shank of {} under its wire", on(evaluation, thing).name),
        value: "0.7 mm".to_owned(),
        why: "usual with its thread, from memory".to_owned(),
    });
    let si = parts[2].si() * length * PI / 4.0 * diameter * diameter;
    Ok(parts[0].clone().joined(&parts[1]).with(si, Dimension::MASS))
}

/// How a fly is dressed, or how flies usually are.
pub(super) fn dressing<'e>(evaluation: &'e Evaluation<'_, '_>, thing: Thing) -> Result<&'e Dressing, Lack> {
    let fly = &on(evaluation, thing).fly;
    let usual = || {
        let id = evaluation.world.shipped(BlockKind::Dressing, USUAL_DRESSING)?;
        evaluation.assume(|| Assumed {
            what: format!("how {} is dressed", on(evaluation, thing).name),
            value: USUAL_DRESSING.to_owned(),
            why: "usual for a nymph".to_owned(),
        });
        Some(id)
    };
    let id = fly.dressing.or_else(usual);
    match id.map(|id| evaluation.world.read(id)) {
        Some(Read::Dressing(dressing)) => Ok(dressing),
        _ => Err(lacks(evaluation, thing, "the dressing")),
    }
}

/// What a shot is made of, by its density.
pub(super) fn shot_density(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Outcome {
    let given = &evaluation.rig.layout.on_line[thing.index()].given;
    let material = given.get(Take::Name(BlockKind::Material));
    let material = material.and_then(|fit| crate::blocks::named(evaluation.world, fit, BlockKind::Material));
    match material.map(|id| evaluation.world.read(id)) {
        Some(Read::Material(material)) => material.density.clone(),
        _ => Err(Lack::need("the material of the shot", Some(given.line.whole()))),
    }
}

/// The mass of all lead on the rig.
pub(super) fn lead(evaluation: &Evaluation<'_, '_>, _: Thing) -> Outcome {
    if evaluation.rig.broken {
        return Err(Lack::Faulty);
    }
    let is_lead = |material: &Option<BlockId>| material.is_some_and(|id| of_lead(evaluation, id));
    let mut masses = Vec::new();
    for (index, on) in evaluation.rig.layout.flies.iter().enumerate() {
        let thing = Thing::Fly(index);
        if let Some(bead) = on.fly.bead.as_ref().filter(|bead| is_lead(&bead.material)) {
            masses.push(bead_mass(bead, density(evaluation, thing, bead.material)));
        }
        if let Some(wire) = on.fly.wire.as_ref().filter(|wire| is_lead(&wire.material)) {
            masses.push(wire_mass(
                evaluation,
                thing,
                wire,
                density(evaluation, thing, wire.material),
            ));
        }
    }
    for item in evaluation
        .rig
        .layout
        .on_line
        .iter()
        .filter(|item| item.kind == OnLineKind::Shot)
    {
        let material = item.given.get(Take::Name(BlockKind::Material));
        let material =
            material.and_then(|fit| crate::blocks::named(evaluation.world, fit, BlockKind::Material));
        if let (true, Some(fit)) = (is_lead(&material), item.given.get(Take::Mass)) {
            masses.push(evaluation.value(fit));
        }
    }
    Ok(sum(all(masses)?))
}

/// Whether a material is lead, or made from it.
fn of_lead(evaluation: &Evaluation<'_, '_>, id: BlockId) -> bool {
    evaluation.world.names_along(id).any(|name| name == "lead")
}
