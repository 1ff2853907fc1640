//! Measures of one piece of line.

use crate::blocks::{LineSize, Size};
use crate::evaluation::{Evaluation, Told, ends, ends_of};
use crate::keywords::SectionRole;
use crate::lack::{Lack, Outcome, all};
use crate::missing::{Missing, Unsaid};
use crate::rig::{FlyAt, Section, Stuff};
use crate::thing::{FlyId, SectionId, Thing};
use crate::value::Value;
use snell_text::Place;
use snell_units::{Dimension, Quantity, System};
use std::f64::consts::PI;

fn section<'e, 'p>(evaluation: &'e Evaluation<'_, 'p>, id: SectionId) -> Section<'e, 'p> {
    evaluation.rig.chain.section(id)
}

fn lacks(evaluation: &Evaluation<'_, '_>, id: SectionId, what: Unsaid) -> Lack {
    let place = section(evaluation, id).part.place();
    Missing::new(what).of_thing(Thing::Section(id)).at(place).into()
}

pub(super) fn length(evaluation: &Evaluation<'_, '_>, id: SectionId) -> Outcome {
    evaluation.section_length(id)
}

/// The diameter of the line that a fly is tied to: its tag's own where that is said, or the lower end of the
/// piece above.
pub(super) fn diameter_at_fly(evaluation: &Evaluation<'_, '_>, id: FlyId) -> Outcome {
    let chain = &evaluation.rig.chain;
    let fly = chain.fly(id);
    if let FlyAt::Dropper(tag) = fly.at
        && let Some(stuff) = chain.dropper(tag).stuff
    {
        let (_, lower) = ends_of(stuff, Thing::Dropper(tag), fly.part.place())?;
        return Ok(lower);
    }
    let above = fly.place.above().ok_or(Lack::Faulty)?;
    ends(evaluation, above).map(|(_, lower)| lower)
}

pub(super) fn x_at_fly(evaluation: &Evaluation<'_, '_>, id: FlyId) -> Outcome {
    diameter_at_fly(evaluation, id).map(as_x)
}

pub(super) fn diameter(evaluation: &Evaluation<'_, '_>, id: SectionId) -> Outcome {
    let (upper, lower) = ends(evaluation, id)?;
    if upper == lower {
        return Ok(upper);
    }
    let (a, b) = (upper.si(), lower.si());
    let mut middle = upper.at((a + b) / 2.0);
    middle.ends = Some((a.min(b), a.max(b)));
    Ok(middle)
}

pub(super) fn x(evaluation: &Evaluation<'_, '_>, id: SectionId) -> Outcome {
    ends(evaluation, id).map(|(_, lower)| as_x(lower))
}

/// The X scale carried on beyond its ends: (0.011 in - d) / 0.001 in.
fn as_x(diameter: Value) -> Value {
    let x = 11.0 - diameter.si() / 0.0254e-3;
    diameter.with(x, Dimension::NONE)
}

/// The mean area along the piece.
pub(super) fn area(evaluation: &Evaluation<'_, '_>, id: SectionId) -> Outcome {
    ends(evaluation, id).map(mean_area)
}

/// The mean area along a stuff.
pub(super) fn area_of(stuff: &Stuff<'_>, of: Thing, place: Place) -> Outcome {
    ends_of(stuff, of, place).map(mean_area)
}

/// Of a cone, pi/12 (a^2 + a b + b^2) for end diameters a and b.
fn mean_area((upper, lower): (Value, Value)) -> Value {
    let (a, b) = (upper.si(), lower.si());
    upper.with(PI / 12.0 * (a * a + a * b + b * b), Dimension::AREA)
}

pub(super) fn mass(evaluation: &Evaluation<'_, '_>, id: SectionId) -> Outcome {
    let section = section(evaluation, id);
    if let (Some(LineSize::FlyLine(weight)), None) = (&section.stuff.size, &section.stuff.measured) {
        let length = length(evaluation, id)?;
        let by_length = fly_line(weight).ok_or_else(|| lacks(evaluation, id, Unsaid::MassByLength))?;
        let si = by_length * length.si();
        return Ok(in_grams(length, si));
    }
    let material = section.stuff.material;
    let density = match material.and_then(|id| evaluation.world.read(id).material()) {
        Some(material) => material.density.clone(),
        None => Err(lacks(evaluation, id, Unsaid::Material)),
    };
    let parts = all([length(evaluation, id), area(evaluation, id), density])?;
    let si = parts.iter().map(Value::si).product();
    Ok(in_grams(parts[0].clone().joined(&parts[1]), si))
}

/// A mass out of a length: it is not told in the units of the length.
fn in_grams(length: Value, si: f64) -> Value {
    let mut mass = length.with(si, Dimension::MASS);
    mass.system = None;
    mass
}

/// Grains of the first 30 ft of a fly line, by its weight from #1 on.
/// Source: AFFTA fly line weight standard.
pub(crate) const FLY_LINES: [f64; 15] = [
    60.0, 80.0, 100.0, 120.0, 140.0, 160.0, 185.0, 210.0, 240.0, 280.0, 330.0, 380.0, 450.0, 500.0, 550.0,
];

/// Kilograms per metre of a fly line over its first 30 ft.
pub(super) fn fly_line(weight: &Size) -> Option<f64> {
    let index = weight.whole?.checked_sub(1)? as usize;
    let grains = snell_units::resolve("gr").ok()?.quantity(*FLY_LINES.get(index)?);
    let first = snell_units::resolve("ft").ok()?.quantity(30.0);
    Some(grains.si / first.si)
}

pub(super) fn leader_mass(evaluation: &Evaluation<'_, '_>) -> Outcome {
    let sections = evaluation.rig.chain.sections();
    let leader = sections.filter(|(_, section)| section.role != SectionRole::Line);
    let masses = all(leader.map(|(id, _)| mass(evaluation, id)))?;
    if evaluation.rig.broken {
        return Err(Lack::Faulty);
    }
    let mut sum = Value::plain(0.0, Dimension::MASS);
    for part in &masses {
        sum = sum.plus(part);
    }
    match masses.is_empty() {
        true => Err(Missing::new(Unsaid::LeaderToWeigh)
            .at(evaluation.rig.place())
            .into()),
        false => Ok(sum),
    }
}

/// What the label claims, as a force; a mass stands for its weight.
pub(super) fn rated(evaluation: &Evaluation<'_, '_>, id: SectionId) -> Outcome {
    match &section(evaluation, id).stuff.rated {
        Some(rated) => Ok(as_force(rated.clone()?)),
        None => Err(lacks(evaluation, id, Unsaid::RatedStrength)),
    }
}

/// A mass as its weight at standard gravity.
pub(crate) fn as_force(value: Value) -> Value {
    let Some(Quantity { si, dimension }) = value.quantity.as_force() else {
        return value;
    };
    let scale = |mass| {
        Quantity::new(mass, Dimension::MASS)
            .as_force()
            .map_or(mass, |force| force.si)
    };
    let ends = value.ends.filter(|_| value.dimension() == Dimension::MASS);
    let mut force = value.with(si, dimension);
    force.ends = ends.map(|(low, high)| (scale(low), scale(high)));
    force.system = force.system.or(Some(System::Metric));
    force
}

pub(super) fn role(evaluation: &Evaluation<'_, '_>, id: SectionId, told: &mut Told<'_>) {
    told(section(evaluation, id).role.word());
}

pub(super) fn material(evaluation: &Evaluation<'_, '_>, id: SectionId, told: &mut Told<'_>) {
    if let Some(id) = section(evaluation, id).stuff.material {
        evaluation.world.names_along(id).for_each(told);
    }
}

pub(super) fn colour(evaluation: &Evaluation<'_, '_>, id: SectionId, told: &mut Told<'_>) {
    section(evaluation, id)
        .stuff
        .colours
        .iter()
        .for_each(|colour| told(colour));
}
