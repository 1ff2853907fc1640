//! Measures of one piece of line.

use super::{Thing, Told};
use crate::blocks::{LineSize, Read, Size};
use crate::evaluation::Evaluation;
use crate::rig::{FlyAt, Section, Stuff};
use crate::value::{Lack, Outcome, Value, all};
use snell_text::Place;
use snell_units::{Dimension, Quantity, System};
use std::f64::consts::PI;

fn section<'e, 'p>(evaluation: &'e Evaluation<'_, 'p>, thing: Thing) -> &'e Section<'p> {
    &evaluation.rig.layout.sections[thing.index()]
}

fn lacks(evaluation: &Evaluation<'_, '_>, thing: Thing, what: &str) -> Lack {
    let name = evaluation.rig.layout.section_name(thing.index());
    Lack::need(format!("{what} of the {name}"), Some(place(evaluation, thing)))
}

fn place(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Place {
    section(evaluation, thing).part.given.line.whole()
}

pub(super) fn length(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Outcome {
    evaluation.section_length(thing.index())
}

/// The diameters of a section's upper and lower end.
pub(super) fn ends(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Result<(Value, Value), Lack> {
    ends_of(&section(evaluation, thing).stuff, || {
        lacks(evaluation, thing, "the diameter")
    })
}

/// The diameters of the upper and lower end of a piece of some stuff.
fn ends_of(stuff: &Stuff<'_>, lack: impl Fn() -> Lack) -> Result<(Value, Value), Lack> {
    if let Some(measured) = &stuff.measured {
        let measured = measured.clone()?;
        return Ok((measured.clone(), measured));
    }
    match &stuff.size {
        Some(LineSize::Level(diameter)) => {
            let diameter = diameter.clone()?;
            Ok((diameter.clone(), diameter))
        }
        Some(LineSize::Tapered(upper, lower)) => Ok((upper.clone()?, lower.clone()?)),
        Some(LineSize::FlyLine(_)) | None => Err(lack()),
    }
}

/// The diameter of the line that a fly is tied to: its tag's own where that is said, or the lower end of the
/// piece above.
pub(super) fn diameter_at_fly(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Outcome {
    let layout = &evaluation.rig.layout;
    let fly = &layout.flies[thing.index()];
    if let FlyAt::Dropper(index) = fly.at
        && let Some(stuff) = &layout.droppers[index].stuff
    {
        let lack = || {
            Lack::need(
                format!("the diameter of the {}", layout.dropper_name(index)),
                Some(fly.part.given.line.whole()),
            )
        };
        return ends_of(stuff, lack).map(|(_, lower)| lower);
    }
    match fly.above.checked_sub(1) {
        Some(above) => ends(evaluation, Thing::Section(above)).map(|(_, lower)| lower),
        None => Err(Lack::Faulty),
    }
}

pub(super) fn x_at_fly(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Outcome {
    diameter_at_fly(evaluation, thing).map(as_x)
}

pub(super) fn diameter(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Outcome {
    let (upper, lower) = ends(evaluation, thing)?;
    if upper == lower {
        return Ok(upper);
    }
    let (a, b) = (upper.si(), lower.si());
    let mut middle = upper.at((a + b) / 2.0);
    middle.ends = Some((a.min(b), a.max(b)));
    Ok(middle)
}

pub(super) fn x(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Outcome {
    ends(evaluation, thing).map(|(_, lower)| as_x(lower))
}

/// The X scale carried on beyond its ends: (0.011 in - d) / 0.001 in.
fn as_x(diameter: Value) -> Value {
    let x = 11.0 - diameter.si() / 0.0254e-3;
    diameter.with(x, Dimension::NONE)
}

/// The mean area along the piece: of a cone, pi/12 (a^2 + a b + b^2) for end diameters a and b.
pub(super) fn area(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Outcome {
    let (upper, lower) = ends(evaluation, thing)?;
    let (a, b) = (upper.si(), lower.si());
    Ok(upper.with(PI / 12.0 * (a * a + a * b + b * b), Dimension::AREA))
}

pub(super) fn mass(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Outcome {
    let section = section(evaluation, thing);
    if let (Some(LineSize::FlyLine(weight)), None) = (&section.stuff.size, &section.stuff.measured) {
        let length = length(evaluation, thing)?;
        let by_length = fly_line(weight).ok_or_else(|| lacks(evaluation, thing, "the mass by length"))?;
        let si = by_length * length.si();
        return Ok(in_grams(length, si));
    }
    let material = section.stuff.material.map(|id| evaluation.world.read(id));
    let density = match material {
        Some(Read::Material(material)) => material.density.clone(),
        _ => Err(lacks(evaluation, thing, "the material")),
    };
    let parts = all([length(evaluation, thing), area(evaluation, thing), density])?;
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

pub(super) fn leader_mass(evaluation: &Evaluation<'_, '_>, _: Thing) -> Outcome {
    let sections = &evaluation.rig.layout.sections;
    let leader = (0..sections.len()).filter(|index| sections[*index].role != "line");
    let masses = all(leader.map(|index| mass(evaluation, Thing::Section(index))))?;
    if evaluation.rig.broken {
        return Err(Lack::Faulty);
    }
    let mut sum = Value::plain(0.0, Dimension::MASS);
    for part in &masses {
        sum = sum.plus(part);
    }
    match masses.is_empty() {
        true => Err(Lack::need("a piece of leader", Some(evaluation.rig.place()))),
        false => Ok(sum),
    }
}

/// What the label claims, as a force; a mass stands for its weight.
pub(super) fn rated(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Outcome {
    match &section(evaluation, thing).stuff.rated {
        Some(rated) => Ok(as_force(rated.clone()?)),
        None => Err(lacks(evaluation, thing, "the rated strength")),
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

pub(super) fn role(evaluation: &Evaluation<'_, '_>, thing: Thing, told: &mut Told<'_>) {
    told(section(evaluation, thing).role);
}

pub(super) fn material(evaluation: &Evaluation<'_, '_>, thing: Thing, told: &mut Told<'_>) {
    if let Some(id) = section(evaluation, thing).stuff.material {
        evaluation.world.names_along(id).for_each(told);
    }
}

pub(super) fn colour(evaluation: &Evaluation<'_, '_>, thing: Thing, told: &mut Told<'_>) {
    section(evaluation, thing)
        .stuff
        .colours
        .iter()
        .for_each(|colour| told(colour));
}
