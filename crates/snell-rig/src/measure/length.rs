//! Lengths along the rig, and the depth they are held against.

use super::Thing;
use super::water::surface_of_stated;
use crate::evaluation::Evaluation;
use crate::rig::Section;
use crate::value::{Cause, Lack, Outcome, Value, all};
use snell_units::Dimension;
use std::ops::Range;

/// A tag shorter than this is to be tied anew. Source: common practice, no source.
const SHORTEST_TAG: f64 = 0.06;
/// The line that tying on another fly costs a tag. Source: common practice, no source (2-4 cm; the
/// cautious end).
const COST_OF_A_CHANGE: f64 = 0.04;

/// The finished lengths of some sections, summed; each keeps its own part as a cause.
pub(super) fn along(evaluation: &Evaluation<'_, '_>, range: Range<usize>) -> Outcome {
    let lengths = all(range.clone().map(|index| evaluation.section_length(index)))?;
    let parts = range.zip(&lengths).filter_map(|(index, length)| {
        let fit = evaluation.rig.layout.sections[index].part.length()?;
        Some(Cause {
            place: fit.place(),
            part: length.quantity,
            ends: None,
            unit: length.unit,
            system: length.system,
        })
    });
    let mut sum = Value::plain(lengths.iter().map(Value::si).sum(), Dimension::LENGTH);
    sum.causes = parts.collect();
    sum.system = lengths.iter().find_map(|length| length.system);
    Ok(sum)
}

/// What the rig leaves unsaid.
fn lacks(evaluation: &Evaluation<'_, '_>, what: &str) -> Outcome {
    if evaluation.rig.broken {
        return Err(Lack::Faulty);
    }
    Err(Lack::need(what, Some(evaluation.rig.place())))
}

/// What a rig of this kind need not have.
pub(super) fn without(evaluation: &Evaluation<'_, '_>, what: &str) -> Outcome {
    if evaluation.rig.broken {
        return Err(Lack::Faulty);
    }
    Err(Lack::without(what, Some(evaluation.rig.place())))
}

/// The sum of all sections that `wanted` picks; unknown where it picks none.
fn picked(
    evaluation: &Evaluation<'_, '_>,
    what: &str,
    wanted: impl Fn(usize, &Section<'_>) -> bool,
) -> Outcome {
    let sections = &evaluation.rig.layout.sections;
    let picked: Vec<usize> = (0..sections.len())
        .filter(|index| wanted(*index, &sections[*index]))
        .collect();
    let Some((first, last)) = picked.first().zip(picked.last()) else {
        return without(evaluation, what);
    };
    if evaluation.rig.holes {
        return Err(Lack::Faulty);
    }
    if picked.len() == last - first + 1 {
        return along(evaluation, *first..last + 1);
    }
    let parts = all(picked.iter().map(|index| along(evaluation, *index..index + 1)))?;
    let mut sum = Value::plain(0.0, Dimension::LENGTH);
    for part in &parts {
        sum = sum.plus(part);
    }
    Ok(sum)
}

pub(super) fn total(evaluation: &Evaluation<'_, '_>, _: Thing) -> Outcome {
    picked(evaluation, "a piece of leader", |_, section| {
        section.role != "line"
    })
}

pub(super) fn to_point(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Outcome {
    if evaluation.rig.holes {
        return Err(Lack::Faulty);
    }
    along(
        evaluation,
        thing.index() + 1..evaluation.rig.layout.sections.len(),
    )
}

pub(super) fn sighter(evaluation: &Evaluation<'_, '_>, _: Thing) -> Outcome {
    picked(evaluation, "a sighter", |_, section| section.role == "sighter")
}

pub(super) fn tippet(evaluation: &Evaluation<'_, '_>, _: Thing) -> Outcome {
    match first_of_tippet(evaluation) {
        Some(first) => picked(evaluation, "a tippet", |index, _| index >= first),
        None => without(evaluation, "a tippet"),
    }
}

/// The first section below the sighter, or the first piece of tippet where there is no sighter.
fn first_of_tippet(evaluation: &Evaluation<'_, '_>) -> Option<usize> {
    let sections = &evaluation.rig.layout.sections;
    let sighter = sections.iter().rposition(|section| section.role == "sighter");
    let first_tippet = || sections.iter().position(|section| section.role == "tippet");
    sighter.map(|last| last + 1).or_else(first_tippet)
}

/// The first section that may hang in the water: that of the tippet, or the leader's first.
pub fn under_sighter(evaluation: &Evaluation<'_, '_>) -> usize {
    let sections = &evaluation.rig.layout.sections;
    let leader = || sections.iter().position(|section| section.role != "line");
    first_of_tippet(evaluation)
        .or_else(leader)
        .unwrap_or(sections.len())
}

pub(super) fn depth(evaluation: &Evaluation<'_, '_>, _: Thing) -> Outcome {
    match &evaluation.rig.settings.water {
        Some(water) => water.value.depth.clone(),
        None => lacks(evaluation, "a water"),
    }
}

pub(super) fn speed(evaluation: &Evaluation<'_, '_>) -> Outcome {
    match &evaluation.rig.settings.water {
        Some(water) => water.value.speed.0.clone(),
        None => lacks(evaluation, "a water"),
    }
}

pub(super) fn run(evaluation: &Evaluation<'_, '_>) -> Outcome {
    match &evaluation.rig.settings.water {
        Some(water) => water.value.run.clone(),
        None => lacks(evaluation, "a water"),
    }
}

pub(super) fn temperature(evaluation: &Evaluation<'_, '_>) -> Outcome {
    match &evaluation.rig.settings.water {
        Some(water) => water.value.temperature.clone(),
        None => lacks(evaluation, "a water"),
    }
}

/// The greatest depth times the greatest surface speed.
pub(super) fn wading(evaluation: &Evaluation<'_, '_>, _: Thing) -> Outcome {
    let Some(water) = &evaluation.rig.settings.water else {
        return lacks(evaluation, "a water");
    };
    let water = &water.value;
    let parts = all([water.depth.clone(), water.speed.0.clone()])?;
    let depth = parts[0].high();
    let surface = parts[1].high() * surface_of_stated(evaluation, water, depth);
    Ok(parts[0]
        .clone()
        .joined(&parts[1])
        .with(depth * surface, Dimension::SPEED_BY_DEPTH))
}

pub(super) fn rod(evaluation: &Evaluation<'_, '_>) -> Outcome {
    match &evaluation.rig.settings.rod {
        Some(rod) => rod.value.length.clone(),
        None => lacks(evaluation, "a rod"),
    }
}

pub(super) fn rod_weight(evaluation: &Evaluation<'_, '_>) -> Outcome {
    let Some(rod) = &evaluation.rig.settings.rod else {
        return lacks(evaluation, "a rod");
    };
    match rod.value.weight.as_ref().and_then(|weight| weight.whole) {
        Some(weight) => Ok(Value::count(weight as usize)),
        None => lacks(evaluation, "the rod's line weight"),
    }
}

pub(super) fn tippet_ratio(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Outcome {
    let parts = all([tippet(evaluation, thing), depth(evaluation, thing)])?;
    let ratio = parts[0].si() / parts[1].si();
    if !ratio.is_finite() {
        return lacks(evaluation, "a depth of more than nothing");
    }
    Ok(parts[0].clone().joined(&parts[1]).with(ratio, Dimension::NONE))
}

pub(super) fn dropper(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Outcome {
    evaluation.dropper_length(thing.index())
}

pub(super) fn changes(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Outcome {
    let length = evaluation.dropper_length(thing.index())?;
    // A hair of tolerance, so that 10 cm is not short by the last bit of a double.
    let spare = (length.si() - SHORTEST_TAG) / COST_OF_A_CHANGE + 1e-9;
    Ok(length.with(spare.floor().max(0.0), Dimension::NONE))
}
