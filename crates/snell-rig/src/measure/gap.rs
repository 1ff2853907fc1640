//! Measures between flies.

use super::{length, water};
use crate::evaluation::Evaluation;
use crate::lack::{Lack, Outcome, all};
use crate::missing::Unsaid;
use crate::rig::FlyAt;
use crate::thing::{DropperId, FlyId, GapId};
use crate::value::Value;
use snell_units::Dimension;

/// Along the line between the places of two flies.
fn between(evaluation: &Evaluation<'_, '_>, upper: FlyId, lower: FlyId) -> Outcome {
    if evaluation.rig.holes {
        return Err(Lack::Faulty);
    }
    let chain = &evaluation.rig.chain;
    length::along(evaluation, chain.fly(upper).place, chain.fly(lower).place)
}

pub(super) fn length(evaluation: &Evaluation<'_, '_>, id: GapId) -> Outcome {
    between(evaluation, id.upper(), id.lower())
}

/// A tag hangs down: the upper one shortens the gap, the lower one adds to it.
pub(super) fn hang_apart(evaluation: &Evaluation<'_, '_>, id: GapId) -> Outcome {
    let parts = all([
        length(evaluation, id),
        tag(evaluation, id.upper()),
        tag(evaluation, id.lower()),
    ])?;
    let si = parts[0].si() - parts[1].si() + parts[2].si();
    Ok(parts[0]
        .clone()
        .joined(&parts[1])
        .joined(&parts[2])
        .with(si, Dimension::LENGTH))
}

/// How far a fly's eye hangs below its place on the line.
fn tag(evaluation: &Evaluation<'_, '_>, id: FlyId) -> Outcome {
    match evaluation.rig.chain.fly(id).at {
        FlyAt::Dropper(tag) => evaluation.dropper_length(tag),
        FlyAt::Inline | FlyAt::Point => Ok(Value::plain(0.0, Dimension::LENGTH)),
    }
}

/// The line between a dropper's knot and the next fly below it.
pub(super) fn room(evaluation: &Evaluation<'_, '_>, id: DropperId) -> Outcome {
    let chain = &evaluation.rig.chain;
    match chain.gap_below(chain.dropper(id).fly) {
        Some(gap) => length(evaluation, gap),
        None => length::without(evaluation, Unsaid::FlyBelow),
    }
}

pub(super) fn spread(evaluation: &Evaluation<'_, '_>) -> Outcome {
    let mut flies = evaluation.rig.chain.flies().map(|(id, _)| id);
    match (flies.next(), flies.next_back()) {
        (Some(first), Some(last)) => between(evaluation, first, last),
        (_, None) | (None, _) => length::without(evaluation, Unsaid::TwoFlies),
    }
}

pub(super) fn float_to_point(evaluation: &Evaluation<'_, '_>) -> Outcome {
    let chain = &evaluation.rig.chain;
    match chain.floats().next() {
        Some(_) if evaluation.rig.holes => Err(Lack::Faulty),
        Some(float) => length::float_to_point(evaluation, float),
        None => length::without(evaluation, Unsaid::Float),
    }
}

/// From the surface down to a fly if the line under water went straight down: what hangs below the surface,
/// less what lies between the point and the fly, and its tag.
pub(super) fn hangs(evaluation: &Evaluation<'_, '_>, id: FlyId) -> Outcome {
    let under = water::drifting(evaluation)?;
    let chain = &evaluation.rig.chain;
    let above = length::along(evaluation, chain.fly(id).place, chain.end())?;
    let tag = tag(evaluation, id)?;
    let deep = under.drift.submerged.value - above.si() + tag.si();
    if deep <= 0.0 {
        return length::without(evaluation, Unsaid::FlyUnderWater);
    }
    Ok(above.joined(&tag).with(deep, Dimension::LENGTH))
}
