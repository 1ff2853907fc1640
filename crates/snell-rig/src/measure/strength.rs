//! How strong a rig is from place to place, and where it breaks.
//!
//! All of it is an estimate: testers agree that no knot has one strength. It
//! knows nothing of how a rig gives under a fish.

use super::{Thing, join, length, section};
use crate::blocks::{Knot, Material, Read};
use crate::evaluation::{Evaluation, JoinKind};
use crate::project::BlockId;
use crate::rig::{FlyAt, Stuff};
use crate::value::{Assumed, Lack, Outcome, Value, all};
use snell_text::Place;
use snell_units::Dimension;

/// What an untested label is worth. Source: common practice, no source. Measured lines kept 80 % (12 lb fluorocarbon,
/// T. Rowland, five hook knots), 94 % (50 lb nylon, T. and J., Playing fast and loose, 2018) and 160 % (10 lb nylon, dry,
/// J. Merwin, Knot strength isn't all about line strength).
const UNTESTED: f64 = 0.85;

/// The strength of a piece of line wet and without a knot.
fn bare(evaluation: &Evaluation<'_, '_>, stuff: &Stuff<'_>, name: &str, place: Place) -> Outcome {
    if let Some(test) = &stuff.test {
        return Ok(section::as_force(test.clone()?));
    }
    let Some(rated) = &stuff.rated else {
        return Err(Lack::need(format!("the strength of the {name}"), Some(place)));
    };
    let rated = section::as_force(rated.clone()?);
    let wet = match material(evaluation, stuff) {
        Some(material) => material.wet.clone()?,
        None => return Err(Lack::need(format!("the material of the {name}"), Some(place))),
    };
    evaluation.assume(|| Assumed {
        what: "what an untested label is worth".to_owned(),
        value: "85 %".to_owned(),
        why: "common practice; test a spool wet to know".to_owned(),
    });
    let si = rated.si() * UNTESTED * wet.si();
    Ok(rated.with(si, Dimension::FORCE))
}

pub(super) fn material<'e>(evaluation: &'e Evaluation<'_, '_>, stuff: &Stuff<'_>) -> Option<&'e Material> {
    match evaluation.world.read(stuff.material?) {
        Read::Material(material) => Some(material),
        _ => None,
    }
}

fn knot<'e>(evaluation: &'e Evaluation<'_, '_>, id: BlockId) -> Option<&'e Knot> {
    match evaluation.world.read(id) {
        Read::Knot(knot) => Some(knot),
        _ => None,
    }
}

/// The strength of a section, a join or a fly, computed once.
fn strength(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Outcome {
    match super::of(thing.kind(), "strength") {
        Some(measure) => evaluation.measure(measure, thing),
        None => Err(Lack::Faulty),
    }
}

/// Wet and without a knot, of a section.
pub(super) fn of_section(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Outcome {
    let section = &evaluation.rig.layout.sections[thing.index()];
    let name = evaluation.rig.layout.section_name(thing.index());
    bare(evaluation, &section.stuff, &name, section.part.given.line.whole())
}

/// The weaker of the two sides, times the knot's share; where a line goes through, its own.
pub(super) fn of_join(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Outcome {
    let index = thing.index();
    if index >= evaluation.rig.layout.joins.len() {
        return Err(Lack::Faulty);
    }
    let above = strength(evaluation, Thing::Section(index));
    let below = strength(evaluation, Thing::Section(index + 1));
    let sides = all([above, below])?;
    let weaker = if sides[0].si() <= sides[1].si() { 0 } else { 1 };
    let weaker = sides[weaker].clone();
    match evaluation.join_kind(index) {
        Some(JoinKind::Through) => Ok(weaker),
        Some(JoinKind::Knot(id) | JoinKind::Ring(id)) => knotted(evaluation, weaker, id),
        None => Err(Lack::need("a knot", Some(evaluation.rig.place()))),
    }
}

fn knotted(evaluation: &Evaluation<'_, '_>, strength: Value, id: BlockId) -> Outcome {
    let share = match knot(evaluation, id) {
        Some(knot) => knot.strength.clone()?,
        None => return Err(Lack::Faulty),
    };
    let si = strength.si() * share.si();
    Ok(strength.with(si, Dimension::FORCE))
}

/// At the knot that ties the fly on.
pub(super) fn of_fly(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Outcome {
    let layout = &evaluation.rig.layout;
    let fly = &layout.flies[thing.index()];
    let above = fly.above.checked_sub(1).map(Thing::Section);
    let strength = match (fly.at, above) {
        (FlyAt::Dropper(index), _) if layout.droppers[index].stuff.is_some() => {
            let dropper = &layout.droppers[index];
            let stuff = dropper.stuff.clone().unwrap_or_default();
            bare(
                evaluation,
                &stuff,
                &layout.dropper_name(index),
                dropper.part.given.line.whole(),
            )?
        }
        (_, Some(section)) => strength(evaluation, section)?,
        (_, None) => return Err(Lack::need("a line above the fly", Some(evaluation.rig.place()))),
    };
    let id = evaluation.fly_knot(thing.index()).ok_or(Lack::Faulty)?;
    knotted(evaluation, strength, id)
}

/// Every place where the leader may break, from the first piece below the line.
pub fn places(evaluation: &Evaluation<'_, '_>) -> Vec<Thing> {
    let layout = &evaluation.rig.layout;
    let leader = |index: usize| layout.sections[index].role != "line";
    let joins = (0..layout.joins.len())
        .filter(|index| leader(*index))
        .map(Thing::Join);
    joins.chain((0..layout.flies.len()).map(Thing::Fly)).collect()
}

/// The weakest place of the leader and its strength; a tie goes to the place nearest the point.
pub fn weakest_place(evaluation: &Evaluation<'_, '_>) -> Result<(Thing, Value), Lack> {
    if evaluation.rig.broken {
        return Err(Lack::Faulty);
    }
    let places = places(evaluation);
    let strengths = all(places.iter().map(|place| strength(evaluation, *place)))?;
    let along = |thing: &Thing| match *thing {
        Thing::Fly(index) => evaluation.rig.layout.flies[index].above * 2,
        thing => thing.index() * 2 + 3,
    };
    let order = |(a, x): &(Thing, Value), (b, y): &(Thing, Value)| {
        x.si().total_cmp(&y.si()).then(along(b).cmp(&along(a)))
    };
    let weakest = places.into_iter().zip(strengths).min_by(order);
    weakest.ok_or_else(|| Lack::need("a knot", Some(evaluation.rig.place())))
}

pub(super) fn weakest(evaluation: &Evaluation<'_, '_>, _: Thing) -> Outcome {
    weakest_place(evaluation).map(|(_, strength)| strength)
}

/// Of two places that are as strong to within this share, no estimate tells which goes first.
/// Source: from memory, inside the ranges that testers publish for knots.
const ALIKE: f64 = 0.10;

/// The piece of line that gives way at a place, and the first piece below the break; nothing for a fly's own knot
/// on a tag or at the point. Of two sides that are as strong the lower counts.
fn gives_way(evaluation: &Evaluation<'_, '_>, place: Thing) -> Result<Option<(usize, usize)>, Lack> {
    let flies = &evaluation.rig.layout.flies;
    match place {
        Thing::Join(index) => {
            let above = strength(evaluation, Thing::Section(index))?;
            let below = strength(evaluation, Thing::Section(index + 1))?;
            let lower = below.si() <= above.si() * (1.0 + 1e-9);
            Ok(Some((index + usize::from(lower), index + 1)))
        }
        Thing::Fly(index) if flies[index].at == FlyAt::Inline => {
            Ok(Some((flies[index].above.saturating_sub(1), flies[index].above)))
        }
        _ => Ok(None),
    }
}

/// How far above the point the rig gives way, where a place above the last run is clearly weaker than all that
/// lies in it, on a tag or at the point.
pub(super) fn breaks_above(evaluation: &Evaluation<'_, '_>, _: Thing) -> Outcome {
    let (weakest, least) = weakest_place(evaluation)?;
    let last = evaluation.rig.layout.sections.len().saturating_sub(1);
    let high = |place| Ok(gives_way(evaluation, place)?.filter(|(piece, _)| *piece < last));
    let mut low = f64::INFINITY;
    for place in places(evaluation) {
        if high(place)?.is_none() {
            low = low.min(strength(evaluation, place)?.si());
        }
    }
    let length = match high(weakest)? {
        Some((_, below)) if least.si() < low * (1.0 - ALIKE) => {
            length::along(evaluation, below..last + 1)?.si()
        }
        _ => 0.0,
    };
    let mut above = least.with(length, Dimension::LENGTH);
    above.system = None;
    Ok(above)
}

/// How far a section stretches before it breaks, as a share of its length.
pub(super) fn stretch(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Outcome {
    let stuff = &evaluation.rig.layout.sections[thing.index()].stuff;
    match (&stuff.stretch, material(evaluation, stuff)) {
        (Some(stretch), _) => stretch.clone(),
        (None, Some(material)) => material.stretch.clone(),
        (None, None) => {
            let section = &evaluation.rig.layout.sections[thing.index()];
            let name = evaluation.rig.layout.section_name(thing.index());
            Err(Lack::need(
                format!("the material of the {name}"),
                Some(section.part.given.line.whole()),
            ))
        }
    }
}

/// The stress that a label claims: its strength over the area.
pub(super) fn stress(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Outcome {
    let parts = all([
        section::rated(evaluation, thing),
        section::area(evaluation, thing),
    ])?;
    let si = parts[0].si() / parts[1].si();
    let mut stress = parts[0].clone().joined(&parts[1]).with(si, Dimension::STRESS);
    stress.system = None;
    Ok(stress)
}

/// What the label's size and the measured diameter differ by.
pub(super) fn off_label(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Outcome {
    let section = &evaluation.rig.layout.sections[thing.index()];
    let place = section.part.given.line.whole();
    match (&section.stuff.size, &section.stuff.measured) {
        (Some(crate::blocks::LineSize::Level(label)), Some(measured)) => {
            let parts = all([label.clone(), measured.clone()])?;
            let si = (parts[0].si() - parts[1].si()).abs();
            Ok(parts[1].clone().joined(&parts[0]).with(si, Dimension::LENGTH))
        }
        _ => Err(Lack::without("a size and a measured diameter", Some(place))),
    }
}

/// The knot of a join or of a ring, by its block.
pub(super) fn knot_step(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Outcome {
    match join::kind_of(evaluation, thing) {
        Some(JoinKind::Knot(id)) => match knot(evaluation, id) {
            Some(knot) => knot.step.clone(),
            None => Err(Lack::Faulty),
        },
        _ => Err(Lack::without("a knot", None)),
    }
}
