//! The float or the dry fly that a rig hangs from, as the water meets it.

use super::tackle::Carrier;
use super::usual::metres;
use crate::evaluation::Evaluation;
use crate::lack::Lack;
use crate::measure::tied;
use crate::missing::{Missing, Of, Unsaid};
use crate::thing::{FloatId, FlyId, Thing};
use snell_water::{Float, Fluid};
use uom::si::f64::{Mass, MassDensity};
use uom::si::mass::kilogram;
use uom::si::mass_density::kilogram_per_cubic_meter;

/// What carries a rig.
pub(super) fn carrier(
    evaluation: &Evaluation<'_, '_>,
    carrier: Carrier,
    fluid: &Fluid,
) -> Result<Float, Lack> {
    match carrier {
        Carrier::Fly(id) => dry_fly(evaluation, id, fluid),
        Carrier::Float(id) => ball(evaluation, id, fluid),
    }
}

fn ball(evaluation: &Evaluation<'_, '_>, id: FloatId, fluid: &Fluid) -> Result<Float, Lack> {
    let float = evaluation.rig.chain.float(id);
    let lacks = |what| Lack::from(Missing::new(what).of(Of::Float).at(float.part.place()));
    let across = match float.size {
        Some(fit) => evaluation.value(fit)?.si(),
        None => return Err(lacks(Unsaid::Size)),
    };
    let material = float.material.and_then(|id| evaluation.world.read(id).material());
    let density = material.ok_or_else(|| lacks(Unsaid::Material))?.density.clone()?;
    let density = MassDensity::new::<kilogram_per_cubic_meter>(density.si());
    Float::ball(metres(across), density, fluid).ok_or_else(|| lacks(Unsaid::Lift))
}

/// By the lift that it states; without one, by the surface's tension along its hook.
fn dry_fly(evaluation: &Evaluation<'_, '_>, id: FlyId, fluid: &Fluid) -> Result<Float, Lack> {
    let fly = &tied::tied(evaluation, id).fly;
    let hook = fly.hook.as_ref().and_then(crate::blocks::Size::hook);
    let float = match (&fly.floats, hook) {
        (Some(lift), hook) => {
            let mass = match &fly.mass {
                Some(weighed) => Mass::new::<kilogram>(weighed.clone()?.si()),
                None => hook.map_or(Mass::new::<kilogram>(0.0), |hook| hook.mass()),
            };
            Float::lifting(Mass::new::<kilogram>(lift.clone()?.si()), mass)
        }
        (None, Some(hook)) => Float::dry(&hook, fluid),
        (None, None) => return Err(tied::lacks(evaluation, id, Unsaid::Hook)),
    };
    float.ok_or_else(|| Missing::new(Unsaid::Lift).of_thing(Thing::Fly(id)).into())
}
