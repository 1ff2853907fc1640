//! Measures of where two sections meet.

use super::{Thing, Told, section};
use crate::evaluation::{Evaluation, JoinKind};
use crate::value::{Lack, Outcome, Value};
use snell_units::Dimension;

/// How two sections are joined. A dropper at the end of a broken rig has no section below it, and so no join.
pub(super) fn kind_of(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Option<JoinKind> {
    let index = thing.index();
    if index < evaluation.rig.layout.joins.len() {
        evaluation.join_kind(index)
    } else {
        None
    }
}

/// The diameters that meet: the lower end of the piece above, the upper end of the piece below.
fn meeting(evaluation: &Evaluation<'_, '_>, index: usize) -> Result<(Value, Value), Lack> {
    if index >= evaluation.rig.layout.joins.len() {
        return Err(Lack::Faulty);
    }
    let (_, above) = section::ends(evaluation, Thing::Section(index))?;
    let (below, _) = section::ends(evaluation, Thing::Section(index + 1))?;
    Ok((above, below))
}

pub(super) fn step(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Outcome {
    let (above, below) = meeting(evaluation, thing.index())?;
    let si = above.si() - below.si();
    Ok(above.joined(&below).with(si, Dimension::LENGTH))
}

/// The thicker diameter over the thinner; at least 1.
pub(super) fn ratio(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Outcome {
    ratio_of(evaluation, thing.index())
}

pub(crate) fn ratio_of(evaluation: &Evaluation<'_, '_>, index: usize) -> Outcome {
    let (above, below) = meeting(evaluation, index)?;
    let (a, b) = (above.si(), below.si());
    let ratio = a.max(b) / a.min(b);
    if !ratio.is_finite() {
        return Err(Lack::Faulty);
    }
    Ok(above.joined(&below).with(ratio, Dimension::NONE))
}

pub(super) fn ring_size(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Outcome {
    let join = evaluation.rig.layout.joins.get(thing.index());
    match join.and_then(|join| join.ring) {
        Some(size) => evaluation.value(size),
        None => Err(Lack::without("a ring", Some(evaluation.rig.place()))),
    }
}

pub(super) fn ring_number(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Outcome {
    ring_size(evaluation, thing)?;
    let joins = &evaluation.rig.layout.joins[..=thing.index()];
    Ok(Value::count(joins.iter().filter(|join| join.ring.is_some()).count()))
}

pub(super) fn knot(evaluation: &Evaluation<'_, '_>, thing: Thing, told: &mut Told<'_>) {
    match kind_of(evaluation, thing) {
        Some(JoinKind::Knot(id) | JoinKind::Ring(id)) => told(evaluation.world.name(id)),
        Some(JoinKind::Through) | None => {}
    }
}

pub(super) fn kind(evaluation: &Evaluation<'_, '_>, thing: Thing, told: &mut Told<'_>) {
    match kind_of(evaluation, thing) {
        Some(JoinKind::Through) => told("through"),
        Some(JoinKind::Ring(_)) => told("ring"),
        Some(JoinKind::Knot(id)) => {
            told("knot");
            told(evaluation.world.name(id));
        }
        None => {}
    }
}
