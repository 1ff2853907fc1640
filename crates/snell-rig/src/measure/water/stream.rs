//! A rig's water as a stream: depth, speed from bed to surface, temperature.

use super::usual::{metres, said, usual};
use crate::assumed::Usual;
use crate::blocks::Water;
use crate::evaluation::Evaluation;
use crate::keywords::SpeedOf;
use crate::lack::{Lack, all};
use crate::missing::{Missing, Unsaid};
use crate::value::Value;
use snell_syntax::BlockKind;
use snell_units::Dimension;
use snell_water::spread::Uncertain;
use snell_water::{Fluid, Profile, Stream};
use uom::si::f64::{ThermodynamicTemperature, Velocity};
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::velocity::meter_per_second;

/// The water of a trout stream over most of the season, C. Source: from memory.
const USUAL_TEMPERATURE: f64 = 10.0;

/// The bed of a water that does not say: at the depths that are fished it gives about the standard
/// vertical velocity curve of the U.S. Geological Survey (Rantz and others 1982).
const USUAL_BED: &str = "gravel";

/// The water that a rig drifts in.
///
/// # Errors
/// What is unsaid.
pub fn stream(evaluation: &Evaluation<'_, '_>) -> Result<Stream, Lack> {
    of_rig(evaluation).map(|(stream, _)| stream)
}

/// The roughness of the bed of a rig's water, in metres.
///
/// # Errors
/// What is unsaid.
pub fn bed_grain(evaluation: &Evaluation<'_, '_>) -> Result<f64, Lack> {
    grain(evaluation, water(evaluation)?)
}

/// A rig's water, and where its depth and speed were said.
pub(super) fn of_rig(evaluation: &Evaluation<'_, '_>) -> Result<(Stream, Value), Lack> {
    let water = water(evaluation)?;
    let said = all([water.depth.clone(), water.speed.0.clone()])?;
    let (depth, speed) = (metres(said[0].si()), said[1].si());
    let speed = Velocity::new::<meter_per_second>(speed);
    let grain = metres(grain(evaluation, water)?);
    let profile = match water.speed.1 {
        SpeedOf::Surface => Profile::over_bed(depth, speed, grain),
        SpeedOf::Mean => Profile::over_bed_by_mean(depth, speed, grain),
    };
    let fluid = fluid(evaluation)?;
    Ok((Stream { profile, fluid }, said[0].clone().joined(&said[1])))
}

/// How well the water is known: a depth or a speed that is told as a range is known as its range.
pub(super) fn uncertain(evaluation: &Evaluation<'_, '_>) -> Result<Uncertain, Lack> {
    let water = water(evaluation)?;
    let (depth, speed) = (water.depth.clone()?, water.speed.0.clone()?);
    let known = Uncertain::default().over(metres(depth.si()), metres(grain(evaluation, water)?));
    let depth = depth.ends.map(|(low, high)| (metres(low), metres(high)));
    let metres_a_second = Velocity::new::<meter_per_second>;
    let speed = speed
        .ends
        .map(|(low, high)| (metres_a_second(low), metres_a_second(high)));
    Ok(known.with_ranges(depth, speed))
}

/// The water that is set.
fn water<'e>(evaluation: &'e Evaluation<'_, '_>) -> Result<&'e Water, Lack> {
    match &evaluation.rig.settings.water {
        Some(water) => Ok(&water.value),
        None if evaluation.rig.broken => Err(Lack::Faulty),
        None => Err(Missing::new(Unsaid::Water).at(evaluation.rig.place()).into()),
    }
}

/// Fresh water at the rig's temperature.
pub(super) fn fluid(evaluation: &Evaluation<'_, '_>) -> Result<Fluid, Lack> {
    let water = evaluation.rig.settings.water.as_ref();
    let stated = water.map_or(Ok(None), |water| said(&water.value.temperature))?;
    let temperature = stated.unwrap_or_else(|| {
        usual(
            evaluation,
            Usual::Temperature,
            USUAL_TEMPERATURE,
            Dimension::TEMPERATURE,
        )
    });
    Ok(Fluid::at(ThermodynamicTemperature::new::<degree_celsius>(
        temperature.si(),
    )))
}

/// The roughness of the bed, m.
fn grain(evaluation: &Evaluation<'_, '_>, water: &Water) -> Result<f64, Lack> {
    if let Some(grain) = stated_grain(evaluation, water) {
        return grain.map(|grain| grain.si());
    }
    let bed = evaluation.world.shipped(BlockKind::Bed, USUAL_BED);
    let Some(bed) = bed.and_then(|id| evaluation.world.read(id).bed()) else {
        return Err(Lack::Faulty);
    };
    let grain = bed.grain.clone()?.si();
    usual(evaluation, Usual::Grain, grain, Dimension::LENGTH);
    Ok(grain)
}

fn stated_grain(evaluation: &Evaluation<'_, '_>, water: &Water) -> Option<crate::lack::Outcome> {
    if let Some(grain) = &water.grain {
        return Some(grain.clone());
    }
    Some(evaluation.world.read(water.bed?).bed()?.grain.clone())
}

/// Mean speed over surface speed where the bed is not known. Source: the usual constant, as quoted by Mazi and others,
/// depth-averaged from surface speed (abstract); over coarse beds it is less.
const USUAL_MEAN: f64 = 0.86;

/// The surface speed over the stated speed at a depth: 1 where the surface speed is stated, more where the mean is.
pub(in crate::measure) fn surface_of_stated(
    evaluation: &Evaluation<'_, '_>,
    water: &Water,
    depth: f64,
) -> f64 {
    if water.speed.1 != SpeedOf::Mean {
        return 1.0;
    }
    let grain = stated_grain(evaluation, water)
        .and_then(Result::ok)
        .map_or(0.0, |grain| grain.high());
    // Shallower than its stones, a water has no such profile.
    if depth > grain && grain > 0.0 {
        1.0 / Profile::mean_to_surface(metres(depth), metres(grain)).value
    } else {
        1.0 / USUAL_MEAN
    }
}
