//! A rig's line, flies and shots as they hang in the water.
//!
//! They hang from the rod's line; or from a float or a dry fly, where the rig
//! has one, and then what lies above it is not under water.

use super::body::body;
use super::metres;
use crate::blocks::Read;
use crate::evaluation::Evaluation;
use crate::measure::{Thing, length, section};
use crate::rig::{FlyAt, OnLineKind, Stuff};
use crate::value::{Assumed, Lack, Value};
use snell_syntax::BlockKind;
use snell_water::{Hung, Strand, Tackle};
use std::f64::consts::PI;
use uom::si::f64::MassDensity;
use uom::si::mass_density::kilogram_per_cubic_meter;

/// What line is taken to be made of where nothing is said. It hardly weighs in water either way.
const USUAL_LINE: &str = "nylon";

/// A tackle, and which part of the rig each of its flies is.
#[derive(Debug, Clone)]
pub(super) struct Rigged {
    pub tackle: Tackle,
    /// The point first, and the others from it upward.
    pub things: Vec<Thing>,
    /// What it weighs, with where that was said.
    pub mass: Value,
}

/// How many sections lie above the float or the lowest fly that floats, where the rig hangs from one.
pub fn carried_by(evaluation: &Evaluation<'_, '_>) -> Option<usize> {
    let layout = &evaluation.rig.layout;
    let float = layout.on_line.iter().rfind(|item| item.kind == OnLineKind::Float);
    let dry = (0..layout.flies.len()).rfind(|fly| afloat(evaluation, *fly));
    float
        .map(|item| item.above)
        .max(dry.map(|fly| layout.flies[fly].above))
}

/// Whether a fly rides on the surface; told as assumed where it does not say so itself.
fn afloat(evaluation: &Evaluation<'_, '_>, fly: usize) -> bool {
    let rides = evaluation.rig.rides_afloat(fly);
    let on = &evaluation.rig.layout.flies[fly];
    if rides && on.fly.floats.is_none() {
        evaluation.assume(|| Assumed {
            what: format!("how {} rides", on.name),
            value: "afloat".to_owned(),
            why: "its method has it there, and nothing weights it".to_owned(),
        });
    }
    rides
}

/// The rig below its float, or all of it, from the point up; the line goes on as its uppermost piece.
pub(super) fn rigged(evaluation: &Evaluation<'_, '_>, first: usize) -> Result<Rigged, Lack> {
    let layout = &evaluation.rig.layout;
    let last = layout.sections.len();
    let point = layout.flies.iter().position(|fly| fly.at == FlyAt::Point);
    let point = point.filter(|index| !afloat(evaluation, *index));
    let Some(point) = point else {
        return Err(no_point(evaluation));
    };
    let strands = (first..last).rev().map(|index| strand(evaluation, index));
    let strands: Vec<Strand> = strands.collect::<Result<_, _>>()?;
    let (fly, mut mass) = body(evaluation, Thing::Fly(point))?;
    let mut hangs = Vec::new();
    let sinking = |index: &usize| !afloat(evaluation, *index) && *index != point;
    for index in (0..layout.flies.len()).filter(sinking) {
        let thing = Thing::Fly(index);
        if layout.flies[index].above >= first {
            let hung = hung(
                evaluation,
                thing,
                layout.flies[index].above,
                tag(evaluation, index)?,
            )?;
            mass = mass.plus(&hung.1);
            hangs.push((thing, hung.0));
        }
    }
    for (index, item) in layout.on_line.iter().enumerate() {
        if item.kind == OnLineKind::Shot && item.above >= first {
            let thing = Thing::Shot(index);
            let hung = hung(evaluation, thing, item.above, None)?;
            mass = mass.plus(&hung.1);
            hangs.push((thing, hung.0));
        }
    }
    hangs.sort_by(|(_, a), (_, b)| a.above_point.value.total_cmp(&b.above_point.value));
    let things = std::iter::once(Thing::Fly(point)).chain(hangs.iter().map(|(thing, _)| *thing));
    let things = things.collect();
    let hung = hangs.into_iter().map(|(_, hung)| hung).collect();
    let tackle = Tackle::new(fly, strands, hung)
        .map_err(|none| Lack::need(none.to_string(), Some(evaluation.rig.place())))?;
    Ok(Rigged { tackle, things, mass })
}

fn no_point(evaluation: &Evaluation<'_, '_>) -> Lack {
    if evaluation.rig.broken {
        return Lack::Faulty;
    }
    Lack::without("a point fly that sinks", Some(evaluation.rig.place()))
}

fn hung(
    evaluation: &Evaluation<'_, '_>,
    thing: Thing,
    above: usize,
    tag: Option<Strand>,
) -> Result<(Hung, Value), Lack> {
    let (fly, mass) = body(evaluation, thing)?;
    let last = evaluation.rig.layout.sections.len();
    let above_point = metres(length::along(evaluation, above..last)?.si());
    Ok((
        Hung {
            fly,
            above_point,
            tag,
        },
        mass,
    ))
}

/// The tag that a fly hangs from, of its own stuff or of the piece above.
fn tag(evaluation: &Evaluation<'_, '_>, fly: usize) -> Result<Option<Strand>, Lack> {
    let layout = &evaluation.rig.layout;
    let FlyAt::Dropper(index) = layout.flies[fly].at else {
        return Ok(None);
    };
    let length = evaluation.dropper_length(index)?.si();
    let diameter = section::diameter_at_fly(evaluation, Thing::Fly(fly))?.si();
    let above = layout.flies[fly].above.checked_sub(1);
    let own = layout.droppers[index].stuff.as_ref();
    let stuff = own.or_else(|| above.map(|above| &layout.sections[above].stuff));
    let density = stuff.map_or(Err(Lack::Faulty), |stuff| {
        density(evaluation, stuff, || layout.dropper_name(index))
    })?;
    Ok((length > 0.0).then(|| Strand::new(metres(length), metres(diameter), density)))
}

/// A section as level line: of a tapered one, the middle.
pub(super) fn strand(evaluation: &Evaluation<'_, '_>, index: usize) -> Result<Strand, Lack> {
    let length = evaluation.section_length(index)?.si();
    open_strand(evaluation, index, length)
}

/// The same of another length, for a line that does not say its own.
pub(super) fn open_strand(
    evaluation: &Evaluation<'_, '_>,
    index: usize,
    length: f64,
) -> Result<Strand, Lack> {
    let area = section::area(evaluation, Thing::Section(index))?.si();
    let layout = &evaluation.rig.layout;
    let stuff = &layout.sections[index].stuff;
    let density = density(evaluation, stuff, || layout.section_name(index))?;
    Ok(Strand::new(
        metres(length),
        metres((area * 4.0 / PI).sqrt()),
        density,
    ))
}

fn density(
    evaluation: &Evaluation<'_, '_>,
    stuff: &Stuff<'_>,
    name: impl Fn() -> String,
) -> Result<MassDensity, Lack> {
    let usual = || {
        let id = evaluation.world.shipped(BlockKind::Material, USUAL_LINE)?;
        evaluation.assume(|| Assumed {
            what: format!("what the {} is made of", name()),
            value: USUAL_LINE.to_owned(),
            why: "for its weight, which hardly counts in water".to_owned(),
        });
        Some(id)
    };
    let id = stuff.material.or_else(usual).ok_or(Lack::Faulty)?;
    match evaluation.world.read(id) {
        Read::Material(material) => {
            let density = material.density.clone()?.si();
            Ok(MassDensity::new::<kilogram_per_cubic_meter>(density))
        }
        _ => Err(Lack::Faulty),
    }
}
