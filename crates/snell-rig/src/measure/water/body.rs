//! A fly or a shot as the water meets it.
//!
//! Nobody can tell the drag of a dressing by eye: a sink out of parts is known
//! to a factor of 1.22 until the fly, or others that are dressed like it, were
//! timed in a tub.

use super::stream::fluid;
use super::timings;
use super::usual::said;
use crate::assumed::{Assumed, Taken, Usual};
use crate::evaluation::Evaluation;
use crate::lack::{Lack, Outcome};
use crate::measure::{fly, tied};
use crate::missing::{Missing, Of, Unsaid};
use crate::project::BlockId;
use crate::thing::{FlyId, JoinId, ShotId, Thing};
use crate::value::Value;
use snell_units::Dimension;
use snell_water::fly::{NoFly, Parts, Timed};
use uom::si::f64::{Mass, MassDensity, Velocity};
use uom::si::mass::kilogram;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::velocity::meter_per_second;

/// To within what factor the drag of a shot is known. Source: by judgement; the law of a sphere is within 6 % of what was
/// measured (Clift and Gauvin 1971), and a pinched shot is no perfect ball.
const BALL_DRAG_KNOWN_TO: f64 = 1.1;

/// A fly with the value of its mass.
pub(super) fn dressed(evaluation: &Evaluation<'_, '_>, id: FlyId) -> Result<(snell_water::Fly, Value), Lack> {
    let made = tied::made(evaluation, id)?;
    let untimed = tied::built(evaluation, id, &made.parts)?;
    let mass = made.from.with(untimed.mass().value, Dimension::MASS);
    let sinks = &tied::tied(evaluation, id).fly.sinks;
    let Some(timed) = sinks.as_ref().map(said).transpose()?.flatten() else {
        return Ok((like_timed_ones(evaluation, id, untimed, made.dressing)?, mass));
    };
    let parts = Parts {
        timed: Some(Timed {
            speed: Velocity::new::<meter_per_second>(timed.si()),
            water: fluid(evaluation)?,
        }),
        ..made.parts
    };
    match snell_water::Fly::tied(&parts) {
        Ok(fly) => {
            evaluation.assume(|| Assumed {
                what: Usual::Drag,
                of: Of::Thing(Thing::Fly(id)),
                value: Taken::FittedTo(timed.clone()),
            });
            Ok((fly, mass.joined(&timed)))
        }
        // A fly that floats by its parts cannot have fallen as it was timed.
        Err(NoFly::NoFall | NoFly::Nothing | NoFly::NoSize | NoFly::NoMass) => Ok((untimed, mass)),
    }
}

/// An untimed fly as the timed ones of its dressing have it, where there are enough of them.
fn like_timed_ones(
    evaluation: &Evaluation<'_, '_>,
    id: FlyId,
    fly: snell_water::Fly,
    dressing: BlockId,
) -> Result<snell_water::Fly, Lack> {
    let Some(found) = timings::of_dressing(evaluation, dressing)? else {
        return Ok(fly);
    };
    evaluation.assume(|| Assumed {
        what: Usual::DragOfDressing {
            flies: found.timings.len(),
            known_to: found.known_to,
        },
        of: Of::Thing(Thing::Fly(id)),
        value: Taken::Times(found.scale),
    });
    Ok(found.applied(fly))
}

/// A shot as a ball of what it is made of.
pub(super) fn shot(evaluation: &Evaluation<'_, '_>, id: ShotId) -> Result<snell_water::Fly, Lack> {
    let mass = fly::shot_mass(evaluation, id)?;
    let density = fly::shot_density(evaluation, id)?.si();
    ball(evaluation, mass.si(), density, Thing::Shot(id))
}

/// The swivel of a join as a ball of steel, where it was weighed.
pub(super) fn swivel(evaluation: &Evaluation<'_, '_>, id: JoinId) -> Result<Option<snell_water::Fly>, Lack> {
    let Some(mass) = fly::swivel_mass(evaluation, id).transpose()? else {
        return Ok(None);
    };
    ball(evaluation, mass.si(), fly::STEEL, Thing::Join(id)).map(Some)
}

fn ball(
    evaluation: &Evaluation<'_, '_>,
    mass: f64,
    density: f64,
    of: Thing,
) -> Result<snell_water::Fly, Lack> {
    let mass = Mass::new::<kilogram>(mass);
    let density = MassDensity::new::<kilogram_per_cubic_meter>(density);
    let ball = snell_water::Fly::shot(mass, density).map(|ball| ball.known_to(BALL_DRAG_KNOWN_TO));
    ball.map_err(|_| {
        let missing = Missing::new(Unsaid::Size).of_thing(of);
        missing.at(evaluation.rig.place()).into()
    })
}

/// What a fly weighs under water.
pub(in crate::measure) fn wet_weight(evaluation: &Evaluation<'_, '_>, id: FlyId) -> Outcome {
    let (body, mass) = dressed(evaluation, id)?;
    let weight = body.wet_weight(&fluid(evaluation)?).value;
    Ok(mass.with(weight, Dimension::FORCE))
}

/// The speed in still water that a fly that was timed would have by its parts.
pub(in crate::measure) fn parts_sink(evaluation: &Evaluation<'_, '_>, id: FlyId) -> Outcome {
    let without = |what| Err(Missing::new(what).of_thing(Thing::Fly(id)).into());
    if tied::tied(evaluation, id).fly.sinks.is_none() {
        return without(Unsaid::Timed);
    }
    let made = tied::made(evaluation, id)?;
    let untimed = tied::built(evaluation, id, &made.parts)?;
    match untimed.sinks(&fluid(evaluation)?) {
        Some(speed) => Ok(made.from.with(speed.value, Dimension::SPEED)),
        None => without(Unsaid::SinkOfLighter),
    }
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
