//! One rig evaluated for an editor, and its values in words: both systems of
//! units, estimates called so.

use super::walk;
use snell_rig::measure::{self, Get, Kind, Measure, Thing};
use snell_rig::project::{BlockRef, LineRef};
use snell_rig::rig::{FlyAt, Rig};
use snell_rig::value::{Faults, Value};
use snell_rig::{Evaluation, Project, World};
use snell_syntax::BlockKind;
use snell_units::{Quantity, System};
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
    let rig: Rig<'_> = snell_rig::rig::read(world, block, &Faults::default());
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
    if told.off.is_none() {
        let about = if told.estimate { "about " } else { "" };
        return format!("{about}{}", told.text);
    }
    let quantity = Quantity::new(value.si(), value.dimension());
    let estimate = |units, system| {
        let off = snell_view::written(evaluation, measure, thing, value, units).off;
        let off = off.map(|off| off.text).unwrap_or_default();
        format!("{} ± {off}", snell_view::within(quantity, &off, system))
    };
    let metric = || estimate(Units::Metric, System::Metric);
    let imperial = || estimate(Units::Imperial, System::Imperial);
    match (units, told.system) {
        (Units::Metric, _) | (Units::Author, System::Metric) => format!("about {}", metric()),
        (Units::Imperial, _) | (Units::Author, System::Imperial) => format!("about {}", imperial()),
        (Units::Both, System::Metric) => format!("about {}", both(&metric(), &imperial())),
        (Units::Both, System::Imperial) => format!("about {}", both(&imperial(), &metric())),
    }
}

/// The author's words with those of the other system behind, where they differ.
fn both(own: &str, other: &str) -> String {
    if own == other {
        return own.to_owned();
    }
    format!("{own} ({other})")
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
    let layout = &evaluation.rig.layout;
    let is = |given: &snell_rig::fit::Given<'_>| {
        let same = |other: LineRef<'_>| other.whole() == line.whole();
        same(given.line) || given.fits.iter().any(|fit| same(fit.line))
    };
    let mut things = Vec::new();
    for (index, section) in layout.sections.iter().enumerate() {
        if is(&section.part.given) {
            things.push(Thing::Section(index));
        }
    }
    for (index, dropper) in layout.droppers.iter().enumerate() {
        if is(&dropper.part.given) {
            things.push(Thing::Dropper(index));
        }
    }
    for (index, fly) in layout.flies.iter().enumerate() {
        if is(&fly.part.given) {
            things.push(Thing::Fly(index));
        }
    }
    for (index, item) in layout.on_line.iter().enumerate() {
        if item.kind == snell_rig::rig::OnLineKind::Shot && is(&item.given) {
            things.push(Thing::Shot(index));
        }
    }
    things
}

/// What people call a thing of the rig.
pub fn name_of(evaluation: &Evaluation<'_, '_>, thing: Thing) -> String {
    let layout = &evaluation.rig.layout;
    match thing {
        Thing::Section(index) => layout.section_name(index),
        Thing::Join(index) => layout.join_name(index),
        Thing::Dropper(index) => layout.dropper_name(index),
        Thing::Gap(index) => layout.gap_name(index),
        Thing::Fly(index) => match layout.flies[index].at {
            FlyAt::Point => format!("{} on the point", layout.fly_name(index)),
            _ => layout.fly_name(index),
        },
        Thing::Shot(_) => "shot".to_owned(),
        Thing::Rod => "rod".to_owned(),
        Thing::Water => "water".to_owned(),
        Thing::Rig => evaluation.rig.name.clone(),
    }
}

/// The rigs of the asked text, in order.
pub fn rigs(project: &Project) -> impl Iterator<Item = BlockRef<'_>> {
    walk::blocks_of(project, walk::ASKED).filter(|block| is_rig(*block))
}
