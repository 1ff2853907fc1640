//! A fly or a shot as the water meets it.
//!
//! The dressing sets the speed of a sink far more than the bead does, and
//! nobody can tell its drag by eye: all of this is known to 25-40 % until a fly
//! is timed in a tub.

use super::stream::fluid;
use super::usual::{metres, said};
use crate::assumed::{Assumed, Taken, Usual};
use crate::evaluation::Evaluation;
use crate::fly_box::usual_bead;
use crate::lack::{Lack, Outcome};
use crate::measure::fly;
use crate::missing::{Missing, Of, Unsaid};
use crate::thing::{FlyId, JoinId, ShotId, Thing};
use crate::value::Value;
use snell_units::{Dimension, Quantity};
use std::f64::consts::PI;
use uom::si::f64::{Mass, Velocity, Volume};
use uom::si::mass::kilogram;
use uom::si::velocity::meter_per_second;
use uom::si::volume::cubic_meter;

/// The envelope of a dressed fly in diameters of its bead: as thick, and as long. Source: from memory.
const THICK: f64 = 1.1;
const LONG: f64 = 3.5;

/// Weight that a fly was found to have and that none of its parts tells, kg/m3: between brass and lead.
const UNTOLD: f64 = 10_000.0;

/// A fly with the value of its mass.
pub(super) fn dressed(evaluation: &Evaluation<'_, '_>, id: FlyId) -> Result<(snell_water::Fly, Value), Lack> {
    let on = fly::tied(evaluation, id);
    let mass = evaluation.measure_called("mass", Thing::Fly(id))?;
    let stout = stoutness(evaluation, id)?;
    let across = stout * (THICK * THICK * LONG).cbrt();
    let dressing = fly::dressing(evaluation, id)?;
    let roundness = dressing.roundness.clone()?.si();
    let volume = displaced(evaluation, id, mass.si())?;
    let built = snell_water::Fly::new(
        Mass::new::<kilogram>(mass.si()),
        Volume::new::<cubic_meter>(volume),
        metres(across),
        roundness,
    );
    let Some(timed) = on.fly.sinks.as_ref().map(said).transpose()?.flatten() else {
        let ball = Quantity::new((across * 1e4).round() / 1e4, Dimension::LENGTH);
        evaluation.assume(|| Assumed {
            what: Usual::Body,
            of: Of::Thing(Thing::Fly(id)),
            value: Taken::BallOf(ball),
        });
        return Ok((built, mass));
    };
    let still = fluid(evaluation)?;
    let speed = Velocity::new::<meter_per_second>(timed.si());
    evaluation.assume(|| Assumed {
        what: Usual::Drag,
        of: Of::Thing(Thing::Fly(id)),
        value: Taken::FittedTo(timed.clone()),
    });
    Ok((built.sinking_at(speed, &still), mass.joined(&timed)))
}

/// The diameter of its bead, or of the one that is usual on its hook.
fn stoutness(evaluation: &Evaluation<'_, '_>, id: FlyId) -> Result<f64, Lack> {
    let on = fly::tied(evaluation, id);
    if let Some(bead) = &on.fly.bead {
        return bead.size.clone().map(|size| size.si());
    }
    let size = on.fly.hook.as_ref().and_then(|hook| hook.whole);
    let size = size.ok_or_else(|| fly::lacks(evaluation, id, Unsaid::HookOrBead))?;
    usual_bead(size).ok_or(Lack::Faulty)
}

/// The water that it displaces, m3, when it is a mass in all.
fn displaced(evaluation: &Evaluation<'_, '_>, id: FlyId, mass: f64) -> Result<f64, Lack> {
    let on = fly::tied(evaluation, id);
    let parts = fly::parts(evaluation, id)?;
    let told: f64 = parts.iter().map(|part| part.mass).sum();
    let densities = parts.iter().map(|part| part.mass / part.density).sum::<f64>();
    match &on.fly.mass {
        Some(_) if mass >= told => Ok(densities + (mass - told) / UNTOLD),
        // Lighter than its parts are reckoned: all of them were reckoned too heavy alike.
        Some(_) => Ok(densities * mass / told),
        None => Ok(densities),
    }
}

/// A shot with the value of its mass.
pub(super) fn shot(evaluation: &Evaluation<'_, '_>, id: ShotId) -> Result<(snell_water::Fly, Value), Lack> {
    let mass = fly::shot_mass(evaluation, id)?;
    let density = fly::shot_density(evaluation, id)?.si();
    Ok((ball(mass.si(), density), mass))
}

/// The swivel of a join as a ball of steel, where it was weighed.
pub(super) fn swivel(
    evaluation: &Evaluation<'_, '_>,
    id: JoinId,
) -> Result<Option<(snell_water::Fly, Value)>, Lack> {
    let mass = fly::swivel_mass(evaluation, id).transpose()?;
    Ok(mass.map(|mass| (ball(mass.si(), fly::STEEL), mass)))
}

fn ball(mass: f64, density: f64) -> snell_water::Fly {
    let volume = mass / density;
    snell_water::Fly::new(
        Mass::new::<kilogram>(mass),
        Volume::new::<cubic_meter>(volume),
        metres((volume * 6.0 / PI).cbrt()),
        1.0,
    )
}

/// What a fly weighs under water.
pub(in crate::measure) fn wet_weight(evaluation: &Evaluation<'_, '_>, id: FlyId) -> Outcome {
    let (body, mass) = dressed(evaluation, id)?;
    let weight = body.wet_weight(&fluid(evaluation)?).value;
    Ok(mass.with(weight, Dimension::FORCE))
}

/// Its speed in still water.
pub(in crate::measure) fn sinks(evaluation: &Evaluation<'_, '_>, id: FlyId) -> Outcome {
    let without = |what| Err(Missing::new(what).of_thing(Thing::Fly(id)).into());
    if evaluation.rig.rides_afloat(id) {
        return without(Unsaid::Sink);
    }
    let (body, mass) = dressed(evaluation, id)?;
    match body.sinks(&fluid(evaluation)?) {
        Some(speed) => {
            let mut speed = mass.with(speed.value, Dimension::SPEED);
            speed.system = None;
            Ok(speed)
        }
        None => without(Unsaid::SinkOfLighter),
    }
}
