//! Measures between flies.

use super::{Thing, length};
use crate::evaluation::Evaluation;
use crate::rig::{FlyAt, OnLineKind};
use crate::value::{Lack, Outcome, Value, all};
use snell_units::Dimension;

/// Along the line between the places of two flies.
fn between(evaluation: &Evaluation<'_, '_>, upper: usize, lower: usize) -> Outcome {
    if evaluation.rig.holes {
        return Err(Lack::Faulty);
    }
    let flies = &evaluation.rig.layout.flies;
    length::along(evaluation, flies[upper].above..flies[lower].above)
}

pub(super) fn length(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Outcome {
    between(evaluation, thing.index(), thing.index() + 1)
}

/// A tag hangs down: the upper one shortens the gap, the lower one adds to it.
pub(super) fn hung(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Outcome {
    let upper = thing.index();
    let parts = all([
        between(evaluation, upper, upper + 1),
        tag(evaluation, upper),
        tag(evaluation, upper + 1),
    ])?;
    let si = parts[0].si() - parts[1].si() + parts[2].si();
    Ok(parts[0]
        .clone()
        .joined(&parts[1])
        .joined(&parts[2])
        .with(si, Dimension::LENGTH))
}

/// How far a fly's eye hangs below its place on the line.
fn tag(evaluation: &Evaluation<'_, '_>, fly: usize) -> Outcome {
    match evaluation.rig.layout.flies[fly].at {
        FlyAt::Dropper(index) => evaluation.dropper_length(index),
        FlyAt::Inline | FlyAt::Point => Ok(Value::plain(0.0, Dimension::LENGTH)),
    }
}

/// The line between a dropper's knot and the next fly below it.
pub(super) fn room(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Outcome {
    let layout = &evaluation.rig.layout;
    let fly = layout.droppers[thing.index()].fly;
    match layout.flies.len() {
        count if fly + 1 < count => between(evaluation, fly, fly + 1),
        _ => length::without(evaluation, "a fly below the dropper"),
    }
}

pub(super) fn spread(evaluation: &Evaluation<'_, '_>, _: Thing) -> Outcome {
    match evaluation.rig.layout.flies.len() {
        0 | 1 => length::without(evaluation, "two flies"),
        count => between(evaluation, 0, count - 1),
    }
}

pub(super) fn float_to_point(evaluation: &Evaluation<'_, '_>, _: Thing) -> Outcome {
    let layout = &evaluation.rig.layout;
    let float = layout.on_line.iter().find(|item| item.kind == OnLineKind::Float);
    match (float, layout.sections.len()) {
        (Some(_), _) if evaluation.rig.holes => Err(Lack::Faulty),
        (Some(float), end) => length::along(evaluation, float.above..end),
        (None, _) => length::without(evaluation, "a float"),
    }
}

/// From the surface down to a fly if the line under water went straight down: what hangs below the surface,
/// less what lies between the point and the fly, and its tag.
pub(super) fn hang(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Outcome {
    let under = super::drifting(evaluation)?;
    let layout = &evaluation.rig.layout;
    let above = length::along(
        evaluation,
        layout.flies[thing.index()].above..layout.sections.len(),
    )?;
    let tag = tag(evaluation, thing.index())?;
    let deep = under.drift.submerged.value - above.si() + tag.si();
    if deep <= 0.0 {
        return length::without(evaluation, "that fly under water");
    }
    Ok(above.joined(&tag).with(deep, Dimension::LENGTH))
}
