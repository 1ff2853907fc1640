//! One rig evaluated for an editor, and its values in words: both systems of
//! units, estimates called so.

use super::walk;
use snell_rig::faults::Faults;
use snell_rig::measure::{self, Get, Kind, Measure, Thing};
use snell_rig::project::{BlockRef, LineRef};
use snell_rig::rig::{FlyAt, PartId, Rig};
use snell_rig::value::Value;
use snell_rig::{Evaluation, Project, World};
use snell_syntax::BlockKind;
use snell_units::System;
use snell_view::Units;

/// Whether a block is a rig: one by its head, or lines before any block.
pub fn is_rig(block: BlockRef<'_>) -> bool {
    block.head().is_none_or(|head| head.kind == BlockKind::Rig)
}

/// Evaluates a rig, asks of it, and lets it go.
pub fn with_rig<'p, T>(
    world: &World<'p>,
    block: BlockRef<'p>,
    ask: impl FnOnce(&Evaluation<'_, 'p>) -> T,
) -> T {
    let rig: Rig<'_> = snell_rig::read(world, block, &Faults::default());
    ask(&Evaluation::new(world, &rig))
}

/// A measure of a thing in words; nothing where it cannot be told.
pub fn told(
    evaluation: &Evaluation<'_, '_>,
    measure: &'static Measure,
    thing: Thing,
    units: Units,
) -> Option<String> {
    match measure.get {
        Get::Words(_) => {
            let words = measure.words(evaluation, thing);
            (!words.is_empty()).then(|| words.join(", "))
        }
        Get::Value(_) => {
            let value = evaluation.measure(measure, thing).ok()?;
            Some(valued(evaluation, measure, thing, &value, units))
        }
    }
}

/// A measure's value in words; an estimate no finer than what it may be off by.
fn valued(
    evaluation: &Evaluation<'_, '_>,
    measure: &'static Measure,
    thing: Thing,
    value: &Value,
    units: Units,
) -> String {
    let told = snell_view::written(evaluation, measure, thing, value, units);
    let about = if told.estimate { "about " } else { "" };
    if told.between.is_none() || units != Units::Both {
        return format!("{about}{}", told.told());
    }
    let estimate = |units| snell_view::written(evaluation, measure, thing, value, units).told();
    let (metric, imperial) = (estimate(Units::Metric), estimate(Units::Imperial));
    match told.system {
        System::Metric => format!("{about}{}", both(&metric, &imperial)),
        System::Imperial => format!("{about}{}", both(&imperial, &metric)),
    }
}

/// The author's words with those of the other system behind, where they differ.
fn both(own: &str, other: &str) -> String {
    if own == other {
        return own.to_owned();
    }
    format!("{own}, {other}")
}

/// A measure by its name, where the table has it and the rig can tell it.
pub fn named(
    evaluation: &Evaluation<'_, '_>,
    kind: Kind,
    name: &str,
    thing: Thing,
    units: Units,
) -> Option<String> {
    told(evaluation, measure::of(kind, name)?, thing, units)
}

/// Every measure of a thing that can be told, by name.
pub fn all(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Vec<(&'static str, String)> {
    measure::all_of(thing.kind())
        .filter_map(|measure| Some((measure.name, told(evaluation, measure, thing, Units::Both)?)))
        .collect()
}

/// The things that a line of the rig writes or changes: a section, a tag with its fly, a fly, a shot.
pub fn things_of(evaluation: &Evaluation<'_, '_>, line: LineRef<'_>) -> Vec<Thing> {
    let is = |given: &snell_rig::fit::Given<'_>| {
        let same = |other: LineRef<'_>| other.whole() == line.whole();
        same(given.line) || given.fits.iter().any(|fit| same(fit.line))
    };
    let chain = &evaluation.rig.chain;
    let mut things = Vec::new();
    for (id, _) in chain.parts().filter(|(_, part)| is(&part.given)) {
        match id {
            PartId::Section(id) => things.push(Thing::Section(id)),
            PartId::Dropper(id) => {
                things.extend([Thing::Dropper(id), Thing::Fly(chain.dropper(id).fly)]);
            }
            PartId::Inline(id) | PartId::Point(id) => things.push(Thing::Fly(id)),
            PartId::Shot(id) => things.push(Thing::Shot(id)),
            PartId::Knot(_) | PartId::Ring(_) | PartId::Swivel(_) | PartId::Float(_) => {}
        }
    }
    things
}

/// What people call a thing of the rig.
pub fn name_of(evaluation: &Evaluation<'_, '_>, thing: Thing) -> String {
    let rig = evaluation.rig;
    match thing {
        Thing::Fly(id) if rig.chain.fly(id).at == FlyAt::Point => {
            format!("{} on the point", rig.chain.fly_name(id))
        }
        Thing::Shot(_) | Thing::Rod | Thing::Water => thing.kind().word().to_owned(),
        Thing::Rig
        | Thing::Section(_)
        | Thing::Join(_)
        | Thing::Dropper(_)
        | Thing::Gap(_)
        | Thing::Fly(_) => rig.name_of(thing),
    }
}

/// The rigs of the asked text, in order.
pub fn rigs(project: &Project) -> impl Iterator<Item = BlockRef<'_>> {
    walk::blocks_of(project, walk::ASKED).filter(|block| is_rig(*block))
}
