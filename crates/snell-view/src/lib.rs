//! Rigs as they are shown: plain data with SI values beside written ones.
//!
//! The table, JSON and every other form are made from these; how a form looks
//! is for those who print.

mod card;
mod cautions;
pub mod compare;
mod copied;
mod cut;
mod drawn;
pub mod drift;
pub mod fit;
pub mod lore;
mod names;
mod need;
mod places;
pub mod plan;
mod put;
mod report;
mod rounding;
mod rows;
mod said;
mod shower;
mod shown;
pub mod vary;
mod verdict;
mod written;

pub use crate::shown::Place;
pub use crate::shown::Row;
pub use card::{
    About, Asked, MOST_LINES, Remark, ShownAnswer, ShownCard, ShownCell, ShownFished, ShownFly, Wading, Why,
    card_of, cards, waters_of,
};
pub use cautions::{WaterShown, cautions};
pub use copied::text_of;
pub use cut::cuts_of;
pub use cut::{Allowance, CutPiece, CutRig, CutSpool, Cuts, Taking, Untakable, cut};
pub use drawn::{Drawn, draw, drawn_of, scene_of};
pub use drift::drift_of;
pub use drift::{
    HangsOn, Instead, ShownDrift, ShownMoment, ShownRide, ShownSink, Steady, draw_in_water, drifts,
};
pub use names::{file_of, names};
pub use need::{Need, ShownAssumed, needs_of, told_needs};
pub use places::Places;
pub use report::{Report, VERSION as REPORT_VERSION};
pub use rounding::in_unit;
pub use said::SaidPart;
use shower::Shower;
pub use shower::written;
pub use shown::{Measures, RIGS_VERSION, ShownPart, ShownRig, ShownRigs, ShownUnknown};
pub use verdict::shown::{
    ShownBreak, ShownCast, ShownCastBy, ShownFishes, ShownLeft, ShownParting, ShownReason, ShownVerdict,
};
pub use verdict::{fishes, in_short};
pub use written::{Estimates, Range, Units, Written};

use indexmap::IndexMap;
use snell_analysis::Notebook;
use snell_analysis::rigs;
use snell_finding::Limit;
use snell_rig::faults::Faults;
use snell_rig::measure::Thing;
use snell_rig::project::BlockRef;
use snell_rig::{Evaluation, World};
use snell_rules::Books;

/// Every rig of a notebook that `wanted` picks by its name and file; of very many, with less of their estimates.
pub fn show(notebook: &Notebook, units: Units, wanted: impl Fn(&str, &str) -> bool) -> Vec<ShownRig> {
    let world = World::new(notebook.project());
    let books = Books::new(&world);
    let mut picked = rigs(&world);
    picked.retain(|block| wanted(&snell_rig::rig::name(*block), &file_of(notebook, *block)));
    let manner = (units, estimates_of(picked.len()));
    let shown = picked
        .into_iter()
        .map(|block| one(notebook, &books, block, manner));
    shown.flatten().collect()
}

/// How the estimates of so many rigs at once are told.
pub fn estimates_of(rigs: usize) -> Estimates {
    match rigs > Limit::DrawnRigs.count() {
        true => Estimates::Bare,
        false => Estimates::Between,
    }
}

fn one<'p>(
    notebook: &Notebook,
    books: &Books<'_, 'p>,
    block: BlockRef<'p>,
    (units, estimates): (Units, Estimates),
) -> Option<ShownRig> {
    let world = books.world();
    let mut rig = snell_rig::read(world, block, &Faults::default());
    rig.settings.takes_usual = true;
    let evaluation = Evaluation::new(world, &rig);
    let verdict = match estimates {
        Estimates::Between => Some(verdict::verdict(books, &evaluation, units)),
        // It hangs on what they lie between.
        Estimates::Bare => None,
    };
    let shown = of(notebook, &evaluation, units, estimates)?;
    Some(ShownRig { verdict, ..shown })
}

/// An evaluated rig as it is shown.
pub fn of(
    notebook: &Notebook,
    evaluation: &Evaluation<'_, '_>,
    units: Units,
    estimates: Estimates,
) -> Option<ShownRig> {
    let mut shower = Shower::new(evaluation, units, estimates);
    let chain = &evaluation.rig.chain;
    let measures = shower.measures(Thing::Rig, "");
    let sections = shower.parts(chain.sections().map(|(id, _)| Thing::Section(id)));
    let joins = shower.parts(chain.joins().map(Thing::Join));
    let droppers = shower.parts(chain.droppers().map(Thing::Dropper));
    let gaps = shower.parts(chain.gaps().map(Thing::Gap));
    let flies = shower.parts(chain.flies().map(|(id, _)| Thing::Fly(id)));
    let rows = rows::rows(&shower);
    let unknown = shower.unknown;
    let place = evaluation.rig.place();
    let document = notebook.document(place.text)?;
    Some(ShownRig {
        name: evaluation.rig.name.clone(),
        title: evaluation.rig.title().map(str::to_owned),
        file: document.path.display().to_string(),
        line: document
            .index()
            .line_column(&document.text, place.span.start)
            .line,
        from: evaluation.rig.base.map(str::to_owned),
        notes: evaluation
            .rig
            .settings
            .notes
            .iter()
            .map(|note| (*note).to_owned())
            .collect(),
        settings: settings_of(notebook, evaluation),
        verdict: None,
        measures,
        parts: said::parts(evaluation),
        sections,
        joins,
        droppers,
        gaps,
        flies,
        assumed: ShownAssumed::all(evaluation),
        unknown,
        rows,
    })
}

/// The answer of the verdict on one rig, at most three lines: whether it fishes, where it parts, what is left.
pub fn answer_of(world: &World<'_>, block: BlockRef<'_>, units: Units) -> Vec<String> {
    let block = world.project.block(block.id);
    with_usual(world, block, |evaluation| {
        verdict::verdict(&Books::new(world), evaluation, units).answer
    })
}

/// Evaluates a rig, asks of it, and lets it go. What it leaves unsaid of its water is taken as usual, as the verdict takes
/// it.
pub fn with_usual<'p, T>(
    world: &World<'p>,
    block: BlockRef<'p>,
    ask: impl FnOnce(&Evaluation<'_, 'p>) -> T,
) -> T {
    let mut rig = snell_rig::read(world, block, &Faults::default());
    rig.settings.takes_usual = true;
    ask(&Evaluation::new(world, &rig))
}

/// What a rig says of its method, rod and water, in the words of its lines.
pub fn settings_of(notebook: &Notebook, evaluation: &Evaluation<'_, '_>) -> IndexMap<&'static str, String> {
    let world = evaluation.world;
    let settings = &evaluation.rig.settings;
    let mut shown = IndexMap::new();
    if let Some(method) = &settings.method {
        shown.insert("method", method.value.word().to_owned());
    }
    let named = |block: Option<snell_rig::BlockId>, place: snell_text::Place, key: &str| match block {
        Some(id) => {
            let block = world.project.block(id);
            block.title().map_or_else(
                || world.name(id).to_owned(),
                |title| format!("{}, {title}", world.name(id)),
            )
        }
        None => {
            let written = notebook
                .document(place.text)
                .map_or("", |document| place.span.of(&document.text));
            written[key.len().min(written.len())..].trim().to_owned()
        }
    };
    if let Some(rod) = &settings.rod {
        shown.insert("rod", named(rod.block, rod.place, "rod"));
    }
    if let Some(water) = &settings.water {
        shown.insert("water", named(water.block, water.place, "water"));
    }
    shown
}
