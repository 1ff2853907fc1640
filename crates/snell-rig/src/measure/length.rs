//! Lengths along the rig, and the depth they are held against.

use super::water::stream::surface_of_stated;
use super::water::usual;
use crate::assumed::Usual;
use crate::blocks::Water;
use crate::evaluation::Evaluation;
use crate::keywords::SectionRole;
use crate::lack::{Lack, Outcome, all};
use crate::missing::{Missing, Unsaid};
use crate::rig::Section;
use crate::thing::{DropperId, FloatId, SectionId};
use crate::value::{Cause, Value};
use snell_units::{Dimension, System};

/// A tag shorter than this is to be tied anew. Source: common practice, no source.
const SHORTEST_TAG: f64 = 0.06;
/// The line that tying on another fly costs a tag. Source: common practice, no source (2-4 cm; the
/// cautious end).
const COST_OF_A_CHANGE: f64 = 0.04;

/// The finished lengths of the pieces from one place on the line down to another, summed; each keeps its own
/// part as a cause.
pub(super) fn along(evaluation: &Evaluation<'_, '_>, from: SectionId, to: SectionId) -> Outcome {
    let pieces = from.down_to(to);
    let lengths = all(pieces.clone().map(|id| evaluation.section_length(id)))?;
    let parts = pieces.zip(&lengths).filter_map(|(id, length)| {
        let fit = evaluation.rig.chain.section(id).part.length()?;
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

/// How far a float sits over the point.
pub(super) fn float_to_point(evaluation: &Evaluation<'_, '_>, id: FloatId) -> Outcome {
    let chain = &evaluation.rig.chain;
    let float = chain.float(id);
    match float.seat {
        None => along(evaluation, float.place, chain.end()),
        Some(_) => evaluation.float_above_point(id),
    }
}

/// What stands where the rig says nothing; it may be that it could not be read.
pub(super) fn without(evaluation: &Evaluation<'_, '_>, what: Unsaid) -> Outcome {
    if evaluation.rig.broken {
        return Err(Lack::Faulty);
    }
    Err(Missing::new(what).at(evaluation.rig.place()).into())
}

/// The sum of all pieces that `wanted` picks; unknown where it picks none.
fn picked(
    evaluation: &Evaluation<'_, '_>,
    what: Unsaid,
    wanted: impl Fn(SectionId, Section<'_, '_>) -> bool,
) -> Outcome {
    let sections = evaluation.rig.chain.sections();
    let picked: Vec<SectionId> = sections
        .filter(|(id, section)| wanted(*id, *section))
        .map(|(id, _)| id)
        .collect();
    let Some((first, last)) = picked.first().zip(picked.last()) else {
        return without(evaluation, what);
    };
    if evaluation.rig.holes {
        return Err(Lack::Faulty);
    }
    if picked.len() == first.down_to(last.below()).len() {
        return along(evaluation, *first, last.below());
    }
    let parts = all(picked.iter().map(|id| along(evaluation, *id, id.below())))?;
    let mut sum = Value::plain(0.0, Dimension::LENGTH);
    for part in &parts {
        sum = sum.plus(part);
    }
    Ok(sum)
}

pub(super) fn total(evaluation: &Evaluation<'_, '_>) -> Outcome {
    picked(evaluation, Unsaid::Leader, |_, section| {
        section.role != SectionRole::Line
    })
}

pub(super) fn to_point(evaluation: &Evaluation<'_, '_>, id: SectionId) -> Outcome {
    if evaluation.rig.holes {
        return Err(Lack::Faulty);
    }
    along(evaluation, id.below(), evaluation.rig.chain.end())
}

pub(super) fn sighter(evaluation: &Evaluation<'_, '_>) -> Outcome {
    picked(evaluation, Unsaid::Sighter, |_, section| {
        section.role == SectionRole::Sighter
    })
}

pub(super) fn tippet(evaluation: &Evaluation<'_, '_>) -> Outcome {
    match first_of_tippet(evaluation) {
        Some(first) => picked(evaluation, Unsaid::Tippet, |id, _| id >= first),
        None => without(evaluation, Unsaid::Tippet),
    }
}

/// The first section below the sighter, or the first piece of tippet where there is no sighter.
fn first_of_tippet(evaluation: &Evaluation<'_, '_>) -> Option<SectionId> {
    let sections = || evaluation.rig.chain.sections();
    let sighter = sections().rfind(|(_, section)| section.role == SectionRole::Sighter);
    let first_tippet = || sections().find(|(_, section)| section.role == SectionRole::Tippet);
    sighter
        .map(|(last, _)| last.below())
        .or_else(|| first_tippet().map(|(first, _)| first))
}

/// The first section that may hang in the water: that of the tippet, or the leader's first.
pub fn under_sighter(evaluation: &Evaluation<'_, '_>) -> SectionId {
    let chain = &evaluation.rig.chain;
    let leader = || {
        let mut sections = chain.sections();
        sections.find_map(|(id, section)| (section.role != SectionRole::Line).then_some(id))
    };
    first_of_tippet(evaluation)
        .or_else(leader)
        .unwrap_or_else(|| chain.end())
}

/// Something that the rig's water says.
fn of_water(evaluation: &Evaluation<'_, '_>, said: impl Fn(&Water) -> &Outcome) -> Outcome {
    match &evaluation.rig.settings.water {
        Some(water) => said(&water.value).clone(),
        None => without(evaluation, Unsaid::Water),
    }
}

pub(super) fn depth(evaluation: &Evaluation<'_, '_>) -> Outcome {
    of_water(evaluation, |water| &water.depth)
}

pub(super) fn speed(evaluation: &Evaluation<'_, '_>) -> Outcome {
    of_water(evaluation, |water| &water.speed.0)
}

/// How long a run is taken to be where nothing says it, in metres: 4 m, or 13 ft.
/// Source: our own choice, a short one; with it a straight cast comes out near the trade's bead table.
pub const fn usual_run(system: System) -> f64 {
    match system {
        System::Metric => 4.0,
        System::Imperial => 13.0 * 0.3048,
    }
}

/// The run that a water says; a short one where it says none and the rig is looked at by itself.
pub(super) fn run(evaluation: &Evaluation<'_, '_>) -> Outcome {
    let settings = &evaluation.rig.settings;
    match of_water(evaluation, |water| &water.run) {
        Err(Lack::Unknown(_)) if settings.takes_usual && settings.water.is_some() => Ok(usual(
            evaluation,
            Usual::Run,
            usual_run(evaluation.system()),
            Dimension::LENGTH,
        )),
        said => said,
    }
}

pub(super) fn temperature(evaluation: &Evaluation<'_, '_>) -> Outcome {
    of_water(evaluation, |water| &water.temperature)
}

/// The greatest depth times the greatest surface speed.
pub(super) fn wading(evaluation: &Evaluation<'_, '_>) -> Outcome {
    let Some(water) = &evaluation.rig.settings.water else {
        return without(evaluation, Unsaid::Water);
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
        None => without(evaluation, Unsaid::Rod),
    }
}

pub(super) fn rod_weight(evaluation: &Evaluation<'_, '_>) -> Outcome {
    let Some(rod) = &evaluation.rig.settings.rod else {
        return without(evaluation, Unsaid::Rod);
    };
    match rod.value.weight.as_ref().and_then(|weight| weight.whole) {
        Some(weight) => Ok(Value::count(weight as usize)),
        None => without(evaluation, Unsaid::RodWeight),
    }
}

pub(super) fn tippet_ratio(evaluation: &Evaluation<'_, '_>) -> Outcome {
    let parts = all([tippet(evaluation), depth(evaluation)])?;
    let ratio = parts[0].si() / parts[1].si();
    if !ratio.is_finite() {
        return without(evaluation, Unsaid::SomeDepth);
    }
    Ok(parts[0].clone().joined(&parts[1]).with(ratio, Dimension::NONE))
}

pub(super) fn dropper(evaluation: &Evaluation<'_, '_>, id: DropperId) -> Outcome {
    evaluation.dropper_length(id)
}

pub(super) fn changes(evaluation: &Evaluation<'_, '_>, id: DropperId) -> Outcome {
    let length = evaluation.dropper_length(id)?;
    // A hair of tolerance, so that 10 cm is not short by the last bit of a double.
    let spare = (length.si() - SHORTEST_TAG) / COST_OF_A_CHANGE + 1e-9;
    Ok(length.with(spare.floor().max(0.0), Dimension::NONE))
}
