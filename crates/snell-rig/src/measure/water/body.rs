//! A fly or a shot as the water meets it.
//!
//! The dressing sets the speed of a sink far more than the bead does, and
//! nobody can tell its drag by eye: all of this is known to 25-40 % until a fly
//! is timed in a tub.

use super::stream::fluid;
use super::{metres, said};
use crate::evaluation::Evaluation;
use crate::fly_box::usual_bead;
use crate::measure::{Thing, fly, of};
use crate::value::{Assumed, Lack, Outcome, Value};
use snell_units::{Dimension, Quantity, System};
use std::f64::consts::PI;
use uom::si::f64::{Mass, Velocity, Volume};
use uom::si::mass::kilogram;
use uom::si::velocity::meter_per_second;
use uom::si::volume::cubic_meter;

/// The envelope of a dressed fly in diameters of its bead: as thick, and as long. Source: from memory.
const THICK: f64 = 1.1;
const LONG: f64 = 3.5;

/// Steel, kg/m3. Source: metals handbooks.
const STEEL: f64 = 7850.0;
/// Thread and wet fur, kg/m3. Source: from memory; it weighs next to nothing in water either way.
const DRESSING: f64 = 1300.0;
/// Weight that a fly was found to have and that none of its parts tells, kg/m3: between brass and lead.
const UNTOLD: f64 = 10_000.0;

/// A fly or a shot with the value of its mass.
pub(super) fn body(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Result<(snell_water::Fly, Value), Lack> {
    match thing {
        Thing::Fly(_) => dressed(evaluation, thing),
        _ => shot(evaluation, thing),
    }
}

fn dressed(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Result<(snell_water::Fly, Value), Lack> {
    let on = fly::on(evaluation, thing);
    let measure = of(thing.kind(), "mass").ok_or(Lack::Faulty)?;
    let mass = evaluation.measure(measure, thing)?;
    let stout = stoutness(evaluation, thing)?;
    let across = stout * (THICK * THICK * LONG).cbrt();
    let dressing = fly::dressing(evaluation, thing)?;
    let roundness = dressing.roundness.clone()?.si();
    let volume = displaced(evaluation, thing, mass.si())?;
    let built = snell_water::Fly::new(
        Mass::new::<kilogram>(mass.si()),
        Volume::new::<cubic_meter>(volume),
        metres(across),
        roundness,
    );
    let Some(timed) = on.fly.sinks.as_ref().map(said).transpose()?.flatten() else {
        evaluation.assume(|| Assumed {
            what: format!("what the water takes hold of on {}", on.name),
            value: format!("a ball of {}", length((across * 1e4).round() / 1e4)),
            why: "out of its bead or hook; time it in a tub to know".to_owned(),
        });
        return Ok((built, mass));
    };
    let still = fluid(evaluation)?;
    let speed = Velocity::new::<meter_per_second>(timed.si());
    evaluation.assume(|| Assumed {
        what: format!("the drag of {}", on.name),
        value: format!("fitted to {} in still water", timed.written()),
        why: "it was timed".to_owned(),
    });
    Ok((built.sinking_at(speed, &still), mass.joined(&timed)))
}

fn length(si: f64) -> String {
    snell_units::write(Quantity::new(si, Dimension::LENGTH), System::Metric)
}

/// The diameter of its bead, or of the one that is usual on its hook.
fn stoutness(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Result<f64, Lack> {
    let on = fly::on(evaluation, thing);
    if let Some(bead) = &on.fly.bead {
        return bead.size.clone().map(|size| size.si());
    }
    let size = on.fly.hook.as_ref().and_then(|hook| hook.whole);
    let size = size.ok_or_else(|| fly::lacks(evaluation, thing, "the hook or the bead"))?;
    usual_bead(size).ok_or(Lack::Faulty)
}

/// The water that it displaces, m3, when it is a mass in all.
fn displaced(evaluation: &Evaluation<'_, '_>, thing: Thing, mass: f64) -> Result<f64, Lack> {
    let on = fly::on(evaluation, thing);
    let parts = fly::parts(evaluation, thing)?;
    let told: f64 = parts.iter().map(|part| part.mass).sum();
    let densities = parts.iter().map(|part| part.mass / part.density).sum::<f64>();
    match &on.fly.mass {
        Some(_) if mass >= told => Ok(densities + (mass - told) / UNTOLD),
        // Lighter than its parts are reckoned: all of them were reckoned too heavy alike.
        Some(_) => Ok(densities * mass / told),
        None => Ok(densities),
    }
}

fn shot(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Result<(snell_water::Fly, Value), Lack> {
    let mass = fly::shot_mass(evaluation, thing)?;
    let density = fly::shot_density(evaluation, thing)?.si();
    let volume = mass.si() / density;
    let ball = snell_water::Fly::new(
        Mass::new::<kilogram>(mass.si()),
        Volume::new::<cubic_meter>(volume),
        metres((volume * 6.0 / PI).cbrt()),
        1.0,
    );
    Ok((ball, mass))
}

/// A part of a fly by its mass and what it is made of, kg and kg/m3.
pub(in crate::measure) struct Made {
    mass: f64,
    density: f64,
}

impl Made {
    pub(in crate::measure) fn of(mass: f64, density: f64) -> Self {
        Self { mass, density }
    }

    pub(in crate::measure) fn steel(mass: f64) -> Self {
        Self { mass, density: STEEL }
    }

    pub(in crate::measure) fn dressing(mass: f64) -> Self {
        Self {
            mass,
            density: DRESSING,
        }
    }
}

/// What a fly weighs under water.
pub(in crate::measure) fn wet_weight(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Outcome {
    let (body, mass) = body(evaluation, thing)?;
    let weight = body.wet_weight(&fluid(evaluation)?).value;
    Ok(mass.with(weight, Dimension::FORCE))
}

/// Its speed in still water.
pub(in crate::measure) fn sinks(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Outcome {
    if matches!(thing, Thing::Fly(index) if evaluation.rig.rides_afloat(index)) {
        return Err(Lack::without(
            format!("a sink of {}", fly::on(evaluation, thing).name),
            None,
        ));
    }
    let (body, mass) = body(evaluation, thing)?;
    match body.sinks(&fluid(evaluation)?) {
        Some(speed) => {
            let mut speed = mass.with(speed.value, Dimension::SPEED);
            speed.system = None;
            Ok(speed)
        }
        None => Err(Lack::without(
            format!(
                "a sink of {}, which is lighter than water",
                fly::on(evaluation, thing).name
            ),
            None,
        )),
    }
}
