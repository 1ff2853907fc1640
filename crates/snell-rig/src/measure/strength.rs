//! How strong a rig is from place to place, and where it breaks.
//!
//! All of it is an estimate: testers agree that no knot has one strength. It
//! knows nothing of how a rig gives under a fish.

use super::{length, section};
use crate::assumed::{Assumed, Taken, Usual};
use crate::blocks::{LineSize, Material};
use crate::evaluation::{Evaluation, JoinKind};
use crate::keywords::SectionRole;
use crate::lack::{Lack, Outcome, all};
use crate::missing::{Missing, Of, Unsaid};
use crate::project::BlockId;
use crate::rig::{FlyAt, Stuff};
use crate::thing::{FlyId, JoinId, SectionId, Thing};
use crate::value::Value;
use snell_text::Place;
use snell_units::{Dimension, Quantity};

/// What an untested label is worth. Source: common practice, no source. Measured lines kept 80 % (12 lb fluorocarbon,
/// T. Rowland, five hook knots), 94 % (50 lb nylon, T. and J., Playing fast and loose, 2018) and 160 % (10 lb nylon, dry,
/// J. Merwin, Knot strength isn't all about line strength).
const UNTESTED: f64 = 0.85;

/// The strength of a piece of line wet and without a knot.
fn bare(evaluation: &Evaluation<'_, '_>, stuff: &Stuff<'_>, of: Thing, place: Place) -> Outcome {
    let lacks = |what| Err(Missing::new(what).of_thing(of).at(place).into());
    if let Some(test) = &stuff.test {
        return Ok(section::as_force(test.clone()?));
    }
    let Some(rated) = &stuff.rated else {
        return match evaluation.rig.settings.takes_usual {
            true => of_material(evaluation, stuff, of, place),
            false => lacks(Unsaid::Strength),
        };
    };
    let rated = section::as_force(rated.clone()?);
    let wet = match material(evaluation, stuff) {
        Some(material) => material.wet.clone()?,
        None => return lacks(Unsaid::Material),
    };
    evaluation.assume(|| Assumed {
        what: Usual::Label,
        of: Of::Rig,
        value: Taken::Share(UNTESTED),
    });
    let si = rated.si() * UNTESTED * wet.si();
    Ok(rated.with(si, Dimension::FORCE))
}

/// What line of its thickness and material usually bears, wet and without a knot.
fn of_material(evaluation: &Evaluation<'_, '_>, stuff: &Stuff<'_>, of: Thing, place: Place) -> Outcome {
    let Some(material) = material(evaluation, stuff) else {
        return Err(Missing::new(Unsaid::Strength).of_thing(of).at(place).into());
    };
    let parts = all([
        section::area_of(stuff, of, place),
        material.strength.clone(),
        material.wet.clone(),
    ])?;
    evaluation.assume(|| Assumed {
        what: Usual::Strength,
        of: stuff.material.map_or(Of::Rig, Of::Block),
        value: Taken::Figure(Quantity::new(parts[1].si() * parts[2].si(), Dimension::STRESS)),
    });
    let si = parts.iter().map(Value::si).product();
    Ok(parts[0].clone().with(si, Dimension::FORCE))
}

pub(super) fn material<'e>(evaluation: &'e Evaluation<'_, '_>, stuff: &Stuff<'_>) -> Option<&'e Material> {
    evaluation.world.read(stuff.material?).material()
}

/// The strength of a section, a join or a fly, computed once.
fn strength(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Outcome {
    evaluation.measure_called("strength", thing)
}

/// Wet and without a knot, of a section.
pub(super) fn of_section(evaluation: &Evaluation<'_, '_>, id: SectionId) -> Outcome {
    let section = evaluation.rig.chain.section(id);
    bare(
        evaluation,
        section.stuff,
        Thing::Section(id),
        section.part.place(),
    )
}

/// The weaker of the two sides, times the knot's share; where a line goes through, its own.
pub(super) fn of_join(evaluation: &Evaluation<'_, '_>, id: JoinId) -> Outcome {
    let above = strength(evaluation, Thing::Section(id.upper()));
    let below = strength(evaluation, Thing::Section(id.lower()));
    let sides = all([above, below])?;
    let weaker = if sides[0].si() <= sides[1].si() { 0 } else { 1 };
    let weaker = sides[weaker].clone();
    match evaluation.join_kind(id) {
        Some(JoinKind::Through) => Ok(weaker),
        Some(JoinKind::Knot(knot) | JoinKind::Ring(knot) | JoinKind::Swivel(knot)) => {
            knotted(evaluation, weaker, knot)
        }
        None => Err(lacks(evaluation, Unsaid::Knot)),
    }
}

fn lacks(evaluation: &Evaluation<'_, '_>, what: Unsaid) -> Lack {
    Missing::new(what).at(evaluation.rig.place()).into()
}

fn knotted(evaluation: &Evaluation<'_, '_>, strength: Value, id: BlockId) -> Outcome {
    let share = match evaluation.world.read(id).knot() {
        Some(knot) => knot.strength.clone()?,
        None => return Err(Lack::Faulty),
    };
    let si = strength.si() * share.si();
    Ok(strength.with(si, Dimension::FORCE))
}

/// At the knot that ties the fly on.
pub(super) fn of_fly(evaluation: &Evaluation<'_, '_>, id: FlyId) -> Outcome {
    let chain = &evaluation.rig.chain;
    let fly = chain.fly(id);
    let own = match fly.at {
        FlyAt::Dropper(tag) => chain.dropper(tag).stuff.map(|stuff| (tag, stuff)),
        FlyAt::Inline | FlyAt::Point => None,
    };
    let strength = match (own, fly.place.above()) {
        (Some((tag, stuff)), _) => bare(evaluation, stuff, Thing::Dropper(tag), fly.part.place())?,
        (None, Some(section)) => strength(evaluation, Thing::Section(section))?,
        (None, None) => return Err(lacks(evaluation, Unsaid::LineAbove)),
    };
    let knot = evaluation.fly_knot(id).ok_or(Lack::Faulty)?;
    knotted(evaluation, strength, knot)
}

/// Every place where the leader may break, from the first piece below the line.
pub fn places(evaluation: &Evaluation<'_, '_>) -> Vec<Thing> {
    let chain = &evaluation.rig.chain;
    let of_leader = |id: &JoinId| chain.section(id.upper()).role != SectionRole::Line;
    let joins = chain.joins().filter(of_leader).map(Thing::Join);
    joins.chain(chain.flies().map(|(id, _)| Thing::Fly(id))).collect()
}

/// The weakest place of the leader and its strength; a tie goes to the place nearest the point.
pub fn weakest_place(evaluation: &Evaluation<'_, '_>) -> Result<(Thing, Value), Lack> {
    if evaluation.rig.broken {
        return Err(Lack::Faulty);
    }
    let places = places(evaluation);
    let strengths = all(places.iter().map(|place| strength(evaluation, *place)))?;
    let along = |thing: &Thing| match *thing {
        Thing::Fly(id) => evaluation.rig.chain.fly(id).place.number() * 2,
        Thing::Join(id) => id.number() * 2 + 3,
        Thing::Rig
        | Thing::Section(_)
        | Thing::Dropper(_)
        | Thing::Gap(_)
        | Thing::Shot(_)
        | Thing::Rod
        | Thing::Water => 0,
    };
    let order = |(a, x): &(Thing, Value), (b, y): &(Thing, Value)| {
        x.si().total_cmp(&y.si()).then(along(b).cmp(&along(a)))
    };
    let weakest = places.into_iter().zip(strengths).min_by(order);
    weakest.ok_or_else(|| lacks(evaluation, Unsaid::Knot))
}

pub(super) fn weakest(evaluation: &Evaluation<'_, '_>) -> Outcome {
    weakest_place(evaluation).map(|(_, strength)| strength)
}

/// Of two places that are as strong to within this share, no estimate tells which goes first.
/// Source: from memory, inside the ranges that testers publish for knots.
pub(super) const ALIKE: f64 = 0.10;

/// The piece of line that gives way at a place, and the first piece below the break; nothing for a fly's own knot
/// on a tag or at the point. Of two sides that are as strong the lower counts.
pub(super) fn gives_way(
    evaluation: &Evaluation<'_, '_>,
    place: Thing,
) -> Result<Option<(SectionId, SectionId)>, Lack> {
    match place {
        Thing::Join(id) => {
            let above = strength(evaluation, Thing::Section(id.upper()))?;
            let below = strength(evaluation, Thing::Section(id.lower()))?;
            let lower = below.si() <= above.si() * (1.0 + 1e-9);
            Ok(Some((if lower { id.lower() } else { id.upper() }, id.lower())))
        }
        Thing::Fly(id) => {
            let fly = evaluation.rig.chain.fly(id);
            let above = fly.place.above().filter(|_| fly.at == FlyAt::Inline);
            Ok(above.map(|above| (above, fly.place)))
        }
        Thing::Rig
        | Thing::Section(_)
        | Thing::Dropper(_)
        | Thing::Gap(_)
        | Thing::Shot(_)
        | Thing::Rod
        | Thing::Water => Ok(None),
    }
}

/// How far above the point the rig gives way, where a place above the last run is clearly weaker than all that
/// lies in it, on a tag or at the point.
pub(super) fn breaks_above(evaluation: &Evaluation<'_, '_>) -> Outcome {
    let (weakest, least) = weakest_place(evaluation)?;
    let end = evaluation.rig.chain.end();
    let high = |place| {
        let given = gives_way(evaluation, place)?;
        Ok::<_, Lack>(given.filter(|(piece, _)| piece.below() < end))
    };
    let mut low = f64::INFINITY;
    for place in places(evaluation) {
        if high(place)?.is_none() {
            low = low.min(strength(evaluation, place)?.si());
        }
    }
    let length = match high(weakest)? {
        Some((_, below)) if least.si() < low * (1.0 - ALIKE) => length::along(evaluation, below, end)?.si(),
        _ => 0.0,
    };
    let mut above = least.with(length, Dimension::LENGTH);
    above.system = None;
    Ok(above)
}

/// How far a section stretches before it breaks, as a share of its length.
pub(super) fn stretch(evaluation: &Evaluation<'_, '_>, id: SectionId) -> Outcome {
    let section = evaluation.rig.chain.section(id);
    match (&section.stuff.stretch, material(evaluation, section.stuff)) {
        (Some(stretch), _) => stretch.clone(),
        (None, Some(material)) => material.stretch.clone(),
        (None, None) => {
            let missing = Missing::new(Unsaid::Material).of_thing(Thing::Section(id));
            Err(missing.at(section.part.place()).into())
        }
    }
}

/// The stress that a label claims: its strength over the area.
pub(super) fn stress(evaluation: &Evaluation<'_, '_>, id: SectionId) -> Outcome {
    let parts = all([section::rated(evaluation, id), section::area(evaluation, id)])?;
    let si = parts[0].si() / parts[1].si();
    let mut stress = parts[0].clone().joined(&parts[1]).with(si, Dimension::STRESS);
    stress.system = None;
    Ok(stress)
}

/// What the label's size and the measured diameter differ by.
pub(super) fn off_label(evaluation: &Evaluation<'_, '_>, id: SectionId) -> Outcome {
    let section = evaluation.rig.chain.section(id);
    match (&section.stuff.size, &section.stuff.measured) {
        (Some(LineSize::Level(label)), Some(measured)) => {
            let parts = all([label.clone(), measured.clone()])?;
            let si = (parts[0].si() - parts[1].si()).abs();
            Ok(parts[1].clone().joined(&parts[0]).with(si, Dimension::LENGTH))
        }
        _ => Err(Missing::new(Unsaid::SizeAndMeasured)
            .at(section.part.place())
            .into()),
    }
}

/// The largest ratio of diameters that the knot of a join joins well.
pub(super) fn knot_step(evaluation: &Evaluation<'_, '_>, id: JoinId) -> Outcome {
    match evaluation.join_kind(id) {
        Some(JoinKind::Knot(id)) => match evaluation.world.read(id).knot() {
            Some(knot) => knot.step.clone(),
            None => Err(Lack::Faulty),
        },
        Some(JoinKind::Through | JoinKind::Ring(_) | JoinKind::Swivel(_)) | None => {
            Err(Missing::new(Unsaid::KnotBetween).into())
        }
    }
}
