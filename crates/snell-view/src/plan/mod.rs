//! A day over several waters: what to start with, and what to change from water to water.

mod shown;

pub use shown::{ShownPlan, ShownStop};

use crate::fit::{ToWater, Told, at_bank};
use crate::names::file_of;
use crate::verdict::verdict;
use crate::written::Units;
use snell_analysis::{Notebook, rigs};
use snell_finding::Limit;
use snell_rig::World;
use snell_rig::faults::Faults;
use snell_rig::project::BlockRef;
use snell_rules::Books;
use snell_rules::fit::{Bank, Change, knots};
use snell_syntax::BlockKind;

/// More waters are no day.
const MOST_WATERS: usize = Limit::PlanWaters.count();

/// Plans the day of every rig that `wanted` picks by its name and file; without waters, over all of the rig's file in their
/// order.
///
/// # Errors
/// A water is not there, or there are too many or none.
pub fn plan(
    notebook: &Notebook,
    units: Units,
    waters: &[String],
    wanted: impl Fn(&str, &str) -> bool,
    told: Told<'_>,
) -> Result<Vec<ShownPlan>, String> {
    let world = World::new(notebook.project());
    let books = Books::new(&world);
    let mut plans = Vec::new();
    for block in rigs(&world) {
        let file = file_of(notebook, block);
        if wanted(&snell_rig::rig::name(block), &file) {
            let planning = Planning {
                notebook,
                units,
                books: &books,
            };
            plans.push(planning.one(block, file, waters, told)?);
        }
    }
    Ok(plans)
}

/// The work on one rig after another.
struct Planning<'a, 'w, 'p> {
    notebook: &'a Notebook,
    units: Units,
    books: &'a Books<'w, 'p>,
}

impl<'p> Planning<'_, '_, 'p> {
    fn one(
        &self,
        block: BlockRef<'p>,
        file: String,
        waters: &[String],
        told: Told<'_>,
    ) -> Result<ShownPlan, String> {
        let world = self.books.world();
        let rig = snell_rig::read(world, block, &Faults::default());
        let names = match waters {
            [] => self.of_file(block),
            named => named.to_vec(),
        };
        if names.is_empty() {
            return Err(format!("there is no water in `{file}`: name those of the day"));
        }
        if names.len() > MOST_WATERS {
            return Err(format!(
                "a day has room for {MOST_WATERS} waters, these are {}",
                names.len()
            ));
        }
        let mut banks = Vec::new();
        let mut abouts = Vec::new();
        for name in &names {
            let to = ToWater {
                name: Some(name.clone()),
                ..ToWater::default()
            };
            let asked = to.of_rig(self.notebook, world, &rig, block.source.file.text)?;
            abouts.push(at_bank::water(world, &asked, self.units, &rig));
            banks.push(Bank::new(self.books, block, asked.water));
        }
        let plan = snell_rules::fit::plan(&banks, told);
        let mut stops = Vec::new();
        let mut before: Vec<Change> = Vec::new();
        for (((name, about), bank), stop) in names.into_iter().zip(abouts).zip(&banks).zip(plan.stops) {
            let shown = ShownStop {
                water: name,
                about,
                changes: at_bank::changes_between(bank, self.units, &before, &stop.changes),
                knots: knots(bank, &before, &stop.changes),
                right: stop.right,
                verdict: bank.with(&stop.changes, |evaluation| {
                    verdict(self.books, evaluation, self.units)
                }),
            };
            stops.push(shown);
            before = stop.changes;
        }
        Ok(ShownPlan {
            name: rig.name.clone(),
            title: rig.title().map(str::to_owned),
            file,
            answer: answer(&rig.name, &stops, plan.knots),
            stops,
            knots: plan.knots,
        })
    }

    /// The waters of a rig's file, in their order.
    fn of_file(&self, block: BlockRef<'p>) -> Vec<String> {
        let world = self.books.world();
        let blocks = world.project.blocks(block.id.file);
        let waters = blocks.filter(|block| block.head().is_some_and(|head| head.kind == BlockKind::Water));
        waters.map(|water| world.name(water.id).to_owned()).collect()
    }
}

fn answer(name: &str, stops: &[ShownStop], knots: usize) -> Vec<String> {
    let waters = match stops.len() {
        1 => "one water".to_owned(),
        several => format!("{several} waters"),
    };
    let tied = match knots {
        0 => "no knot to tie".to_owned(),
        1 => "one knot to tie".to_owned(),
        several => format!("{several} knots to tie"),
    };
    let start = stops.first().map(|first| first.changes.join(", and "));
    let start = start.filter(|changes| !changes.is_empty());
    let wrong: Vec<&str> = stops
        .iter()
        .filter(|stop| {
            stop.verdict
                .fishes
                .as_ref()
                .is_some_and(|fishes| fishes.yes == Some(false))
        })
        .map(|stop| stop.water.as_str())
        .collect();
    let mut lines = vec![match start {
        Some(start) => format!("start {name} so: {start}"),
        None => format!("start with {name} as it is"),
    }];
    lines.push(format!("{tied} on the way through {waters}"));
    if !wrong.is_empty() {
        lines.push(format!("no change makes it fish in {}", wrong.join(", ")));
    }
    lines
}
