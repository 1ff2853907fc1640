//! A rig's drift and its sink as they are shown: the water that was taken, the
//! steady state, and the depths of the flies over time.
//!
//! Another depth, speed or temperature than the rig's may be asked for; it is
//! read as the language reads it.

mod in_water;
pub mod instead;
mod picture;
mod shown;
mod teller;

pub use in_water::draw_in_water;
pub use instead::Instead;
pub use shown::{HangsOn, ShownDrift, ShownMoment, ShownRide, ShownSink, Steady};
use teller::Teller;

use crate::names::file_of;
use crate::need::{ShownAssumed, told_needs};
use crate::verdict::verdict;
use crate::written::Units;
use snell_analysis::Notebook;
use snell_analysis::rigs;
use snell_rig::blocks::Water;
use snell_rig::faults::Faults;
use snell_rig::keywords::Cast;
use snell_rig::measure::{self};
use snell_rig::project::BlockRef;
use snell_rig::{Evaluation, World};
use snell_rules::Books;

/// The sink is shown until the point is at this share of its depth.
const SHOWN_TO: f64 = 0.97;

/// The drifts of all rigs that `wanted` picks by name and file.
///
/// # Errors
/// What was wrong with what stands in [`Instead`].
pub fn drifts(
    notebook: &Notebook,
    units: Units,
    instead: &Instead,
    wanted: impl Fn(&str, &str) -> bool,
) -> Result<Vec<ShownDrift>, String> {
    let (project, text) = instead::beside(notebook, instead);
    let world = World::new(&project);
    if let Some(wrong) = instead::wrong(&world, text) {
        return Err(wrong);
    }
    let water = instead::other_water(&world, text);
    let own = rigs(&world)
        .into_iter()
        .filter(|block| block.source.file.text != text);
    let picked = own.filter(|block| wanted(&snell_rig::rig::name(*block), &file_of(notebook, *block)));
    let books = Books::new(&world);
    Ok(picked
        .map(|block| {
            one(
                notebook,
                (&world, Some(&books)),
                block,
                units,
                water,
                instead.cast,
            )
        })
        .collect())
}

/// The drift of one rig as it is written, without a verdict.
pub fn drift_of<'p>(notebook: &Notebook, world: &World<'p>, block: BlockRef<'p>, units: Units) -> ShownDrift {
    one(notebook, (world, None), block, units, None, None)
}

fn one<'p>(
    notebook: &Notebook,
    (world, books): (&World<'p>, Option<&Books<'_, 'p>>),
    block: BlockRef<'p>,
    units: Units,
    water: Option<&Water>,
    cast: Option<Cast>,
) -> ShownDrift {
    let faults = Faults::default();
    let mut rig = snell_rig::read(world, block, &faults);
    instead::instead_of(&mut rig, water, cast);
    rig.settings.takes_usual |= books.is_some();
    let evaluation = Evaluation::new(world, &rig);
    let teller = Teller {
        evaluation: &evaluation,
        units,
    };
    let solved = measure::drifting(&evaluation);
    let (steady, sink, needs) = match &solved {
        Ok(state) => {
            let sunk = measure::sinking_of(state, SHOWN_TO);
            (
                Some(teller.steady(state)),
                Some(teller.sink(state, &sunk)),
                Vec::new(),
            )
        }
        Err(lack) => (None, None, told_needs(&evaluation, lack)),
    };
    let inputs = teller.inputs(solved.as_deref().ok());
    // What the verdict takes for where the rig parts is not of the drift.
    let assumed = ShownAssumed::all(&evaluation);
    ShownDrift {
        name: rig.name.clone(),
        title: rig.title().map(str::to_owned),
        file: file_of(notebook, block),
        answer: books.map_or_else(Vec::new, |books| answer(books, &evaluation, units)),
        inputs,
        steady,
        sink,
        assumed,
        needs,
        system: units.shown(evaluation.system()),
    }
}

/// Whether the rig fishes there, and what is dangerous; where it parts is not of the water.
fn answer<'p>(books: &Books<'_, 'p>, evaluation: &Evaluation<'_, 'p>, units: Units) -> Vec<String> {
    let shown = verdict(books, evaluation, units);
    let fishes = shown
        .fishes
        .is_some()
        .then(|| shown.answer.first().cloned())
        .flatten();
    [fishes, shown.dangerous()].into_iter().flatten().collect()
}
