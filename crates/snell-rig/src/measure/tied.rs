//! What a fly is tied from, in the terms of the water: hook, bead, wire and dressing, and what was weighed.
//!
//! All that is told of a fly's mass, sink and drag is told from here.

use crate::assumed::{Assumed, Taken, Usual};
use crate::blocks::{Bead, Dressing, Fly, Wire};
use crate::evaluation::Evaluation;
use crate::fly_box::usual_hook;
use crate::lack::{Lack, Outcome};
use crate::missing::{Missing, Of, Unsaid};
use crate::project::BlockId;
use crate::rig::Tied;
use crate::thing::{FlyId, Thing};
use crate::value::Value;
use snell_syntax::BlockKind;
use snell_units::Dimension;
use snell_water::fly::{Hook, NoFly, Parts};
use uom::si::f64::{Length, Mass, MassDensity};
use uom::si::length::meter;
use uom::si::mass::kilogram;
use uom::si::mass_density::kilogram_per_cubic_meter;

/// The dressing taken where a fly says none.
const USUAL_DRESSING: &str = "dressed";

pub(super) fn tied<'e, 'p>(evaluation: &'e Evaluation<'_, 'p>, id: FlyId) -> &'e Tied<'p> {
    evaluation.rig.chain.fly(id).tied
}

/// The parts of a fly, with where their sizes were said.
pub(super) struct Made {
    pub(super) parts: Parts,
    /// Nothing but its causes and its units counts.
    pub(super) from: Value,
}

/// What a fly is made of. One that was weighed and shows no hook is taken to have the one that its bead goes on.
pub(super) fn made(evaluation: &Evaluation<'_, '_>, id: FlyId) -> Result<Made, Lack> {
    let fly = &tied(evaluation, id).fly;
    let mut from = Value::plain(0.0, Dimension::MASS);
    let mut take = noting(&mut from);
    let weighed = fly.mass.clone().transpose()?.map(&mut take);
    let bead = match &fly.bead {
        Some(bead) => Some(bead_part(evaluation, id, bead, &mut take)?),
        None => None,
    };
    let wire = match &fly.wire {
        Some(wire) => Some(wire_part(evaluation, id, wire, &mut take)?),
        None => None,
    };
    let dressing = dressing_part(dressing(evaluation, id)?, &mut take)?;
    drop(take);
    let parts = Parts {
        hook: Some(hook(evaluation, id)?),
        bead,
        wire,
        dressing: Some(dressing),
        weighed: weighed.map(Mass::new::<kilogram>),
        timed: None,
    };
    Ok(Made { parts, from })
}

/// A fly of its parts, without what it was timed at.
pub(super) fn built(
    evaluation: &Evaluation<'_, '_>,
    id: FlyId,
    parts: &Parts,
) -> Result<snell_water::Fly, Lack> {
    snell_water::Fly::tied(parts).map_err(|none| no_fly(evaluation, id, none))
}

fn no_fly(evaluation: &Evaluation<'_, '_>, id: FlyId, none: NoFly) -> Lack {
    lacks(
        evaluation,
        id,
        match none {
            NoFly::Nothing => Unsaid::HookOrBead,
            NoFly::NoSize => Unsaid::Size,
            NoFly::NoMass => Unsaid::HookOrMass,
            NoFly::NoFall => Unsaid::SinkOfLighter,
        },
    )
}

fn hook(evaluation: &Evaluation<'_, '_>, id: FlyId) -> Result<Hook, Lack> {
    let fly = &tied(evaluation, id).fly;
    if let Some(size) = &fly.hook {
        let hook = size.hook();
        return hook.ok_or_else(|| lacks(evaluation, id, Unsaid::HookMass));
    }
    if fly.mass.is_none() {
        return Err(lacks(evaluation, id, Unsaid::HookOrMass));
    }
    let Some(bead) = &fly.bead else {
        return Err(lacks(evaluation, id, Unsaid::HookOrBead));
    };
    let usual = usual_hook(bead.size.clone()?.si());
    evaluation.assume(|| Assumed {
        what: Usual::Hook,
        of: Of::Thing(Thing::Fly(id)),
        value: Taken::Hook(usual),
    });
    Ok(Hook::of_size(f64::from(usual)))
}

/// The mass of a bead by itself; what the whole fly was found to weigh changes nothing about it.
pub(super) fn bead_mass(evaluation: &Evaluation<'_, '_>, id: FlyId, bead: &Bead) -> Outcome {
    let mut from = Value::plain(0.0, Dimension::MASS);
    let bead = bead_part(evaluation, id, bead, &mut noting(&mut from))?;
    let alone = Parts {
        bead: Some(bead),
        ..Parts::default()
    };
    let si = built(evaluation, id, &alone)?.mass().value;
    Ok(from.with(si, Dimension::MASS))
}

/// The mass of the wire on a fly's hook.
pub(super) fn wire_mass(evaluation: &Evaluation<'_, '_>, id: FlyId, wire: &Wire) -> Outcome {
    let mut from = Value::plain(0.0, Dimension::MASS);
    let wire = wire_part(evaluation, id, wire, &mut noting(&mut from))?;
    let wound = Parts {
        hook: Some(hook(evaluation, id)?),
        wire: Some(wire),
        ..Parts::default()
    };
    let si = built(evaluation, id, &wound)?.anatomy().wound.value;
    Ok(from.with(si, Dimension::MASS))
}

/// Gives the figure of each value that it is handed, and keeps where that came from.
fn noting(from: &mut Value) -> impl FnMut(Value) -> f64 + '_ {
    |value| {
        *from = from.clone().joined(&value);
        value.si()
    }
}

fn bead_part(
    evaluation: &Evaluation<'_, '_>,
    id: FlyId,
    bead: &Bead,
    take: &mut impl FnMut(Value) -> f64,
) -> Result<snell_water::fly::Bead, Lack> {
    let across = take(bead.size.clone()?);
    Ok(snell_water::fly::Bead {
        diameter: Length::new::<meter>(across),
        density: density(evaluation, id, bead.material)?,
        fill: if bead.slotted {
            snell_water::fly::Bead::SLOTTED
        } else {
            snell_water::fly::Bead::BORED
        },
    })
}

/// Wire wound in close turns on the shank.
fn wire_part(
    evaluation: &Evaluation<'_, '_>,
    id: FlyId,
    wire: &Wire,
    take: &mut impl FnMut(Value) -> f64,
) -> Result<snell_water::fly::Wire, Lack> {
    let or_lack =
        |part: &Option<Outcome>, what| part.clone().unwrap_or_else(|| Err(lacks(evaluation, id, what)));
    let across = take(or_lack(&wire.diameter, Unsaid::WireThickness)?);
    let turns = take(or_lack(&wire.turns, Unsaid::WireTurns)?);
    Ok(snell_water::fly::Wire {
        diameter: Length::new::<meter>(across),
        density: density(evaluation, id, wire.material)?,
        turns,
    })
}

fn dressing_part(
    dressing: &Dressing,
    take: &mut impl FnMut(Value) -> f64,
) -> Result<snell_water::fly::Dressing, Lack> {
    Ok(snell_water::fly::Dressing {
        bulk: take(dressing.bulk.clone()?),
        solid: take(dressing.solid.clone()?),
        fibres: take(dressing.fibres.clone()?),
    })
}

fn density(
    evaluation: &Evaluation<'_, '_>,
    id: FlyId,
    material: Option<BlockId>,
) -> Result<MassDensity, Lack> {
    let material = material.and_then(|id| evaluation.world.read(id).material());
    let material = material.ok_or_else(|| lacks(evaluation, id, Unsaid::BeadOrWireMaterial))?;
    let density = material.density.clone()?.si();
    Ok(MassDensity::new::<kilogram_per_cubic_meter>(density))
}

/// How a fly is dressed, or how flies usually are.
fn dressing<'e>(evaluation: &'e Evaluation<'_, '_>, id: FlyId) -> Result<&'e Dressing, Lack> {
    let fly: &Fly<'_> = &tied(evaluation, id).fly;
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
    let dressing = dressing.and_then(|id| evaluation.world.read(id).dressing());
    dressing.ok_or_else(|| lacks(evaluation, id, Unsaid::Dressing))
}

pub(super) fn lacks(evaluation: &Evaluation<'_, '_>, id: FlyId, what: Unsaid) -> Lack {
    let place = match tied(evaluation, id).block {
        Some(block) => evaluation.world.project.block(block).name_place(),
        None => evaluation.rig.chain.fly(id).part.place(),
    };
    Missing::new(what).of_thing(Thing::Fly(id)).at(place).into()
}
