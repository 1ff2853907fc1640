//! Measures of where two sections meet.

use crate::evaluation::{Evaluation, JoinKind, Told, meeting, meeting_ratio};
use crate::keywords::PartKind;
use crate::lack::{Lack, Outcome};
use crate::missing::{Missing, Unsaid};
use crate::rig::Ring;
use crate::thing::JoinId;
use crate::value::Value;
use snell_units::Dimension;

pub(super) fn step(evaluation: &Evaluation<'_, '_>, id: JoinId) -> Outcome {
    let (above, below) = meeting(evaluation, id)?;
    let si = above.si() - below.si();
    Ok(above.joined(&below).with(si, Dimension::LENGTH))
}

pub(super) fn ratio(evaluation: &Evaluation<'_, '_>, id: JoinId) -> Outcome {
    meeting_ratio(evaluation, id)
}

pub(super) fn ring_size(evaluation: &Evaluation<'_, '_>, id: JoinId) -> Outcome {
    match ring(evaluation, id)?.size {
        Some(size) => evaluation.value(size),
        None => Err(Missing::new(Unsaid::Size).at(evaluation.rig.place()).into()),
    }
}

fn ring<'p>(evaluation: &Evaluation<'_, 'p>, id: JoinId) -> Result<Ring<'p>, Lack> {
    let ring = evaluation.rig.chain.join(id).ring;
    ring.ok_or_else(|| Missing::new(Unsaid::Ring).at(evaluation.rig.place()).into())
}

pub(super) fn ring_number(evaluation: &Evaluation<'_, '_>, id: JoinId) -> Outcome {
    ring(evaluation, id)?;
    let chain = &evaluation.rig.chain;
    let rings = chain.joins().filter(|join| chain.join(*join).ring.is_some());
    Ok(Value::count(rings.take_while(|ring| *ring <= id).count()))
}

pub(super) fn knot(evaluation: &Evaluation<'_, '_>, id: JoinId, told: &mut Told<'_>) {
    match evaluation.join_kind(id) {
        Some(JoinKind::Knot(id) | JoinKind::Ring(id) | JoinKind::Swivel(id)) => {
            told(evaluation.world.name(id));
        }
        Some(JoinKind::Through) | None => {}
    }
}

pub(super) fn kind(evaluation: &Evaluation<'_, '_>, id: JoinId, told: &mut Told<'_>) {
    match evaluation.join_kind(id) {
        Some(JoinKind::Through) => told("through"),
        Some(JoinKind::Ring(_)) => told(PartKind::Ring.word()),
        Some(JoinKind::Swivel(_)) => told(PartKind::Swivel.word()),
        Some(JoinKind::Knot(id)) => {
            told(PartKind::Knot.word());
            told(evaluation.world.name(id));
        }
        None => {}
    }
}
