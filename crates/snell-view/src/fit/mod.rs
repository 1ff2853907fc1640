//! Rigs fitted to a water, as they are shown: what stands against each as it
//! is, the ways to make it right, and what each of them brings.
//!
//! How ways are found is for the rules; how they are laid out, for those who
//! print.

mod added;
mod addition;
mod answer;
pub(crate) mod at_bank;
mod bring;
mod fitting;
mod lines;
mod shown;
mod water;
mod words;

pub use added::{Added, Addition, Unwritable};
use fitting::Fitting;
pub(crate) use lines::target_of;
pub use shown::{Outcome, ShownFinding, ShownFit, ShownState, ShownWay, Told};
pub use water::ToWater;
use water::WrittenWater;

use crate::drift::instead;
use crate::names::file_of;
use crate::verdict::shown::ShownVerdict;
use crate::written::Units;
use bring::Teller;
use snell_analysis::Notebook;
use snell_analysis::rigs;
use snell_finding::Level;
use snell_rig::World;
use snell_rig::faults::Faults;
use snell_rig::project::BlockRef;
use snell_rules::Books;
use snell_rules::fit::{Bank, Fitted, Way};

/// Fits every rig that `wanted` picks by its name and file to a water.
///
/// # Errors
/// What was wrong with what is asked for.
pub fn fit(
    notebook: &Notebook,
    units: Units,
    to: &ToWater,
    name: Option<&str>,
    wanted: impl Fn(&str, &str) -> bool,
    told: Told<'_>,
) -> Result<Vec<ShownFit>, String> {
    let (project, text) = to.beside(notebook);
    let world = World::new(&project);
    if let Some(wrong) = instead::wrong(&world, text) {
        return Err(wrong);
    }
    let books = Books::new(&world);
    let mut fits = Vec::new();
    for block in rigs(&world) {
        let own = block.source.file.text != text;
        if own && wanted(&snell_rig::rig::name(block), &file_of(notebook, block)) {
            let fitting = Fitting {
                notebook,
                books: &books,
                units,
                to,
                name,
                text,
            };
            fits.push(fitting.one(block, told)?);
        }
    }
    Ok(fits)
}

impl<'p> Fitting<'_, '_, 'p> {
    fn one(&self, block: BlockRef<'p>, told: Told<'_>) -> Result<ShownFit, String> {
        let world = self.books.world();
        let rig = snell_rig::read(world, block, &Faults::default());
        let asked = self.to.of_rig(self.notebook, world, &rig, self.text)?;
        let mut shown = ShownFit {
            name: rig.name.clone(),
            title: rig.title().map(str::to_owned),
            file: file_of(self.notebook, block),
            water: words::water(world, &asked, self.units, &rig),
            answer: Vec::new(),
            outcome: Outcome::Untold,
            as_it_is: ShownState::default(),
            verdict: ShownVerdict::default(),
            against: Vec::new(),
            ways: Vec::new(),
            stays: Vec::new(),
            assumed: Vec::new(),
            restated: Vec::new(),
            needs: Vec::new(),
            has_method: rig.settings.method.is_some(),
            addition: None,
        };
        if rig.broken {
            shown.needs.push(crate::Need::Mended.to_string());
            shown.answer = answer::answer(&shown);
            return Ok(shown);
        }
        let bank = Bank::new(self.books, block, asked.water.clone());
        let teller = Teller {
            bank: &bank,
            units: self.units,
        };
        let fit = snell_rules::fit::fit(&bank, told);
        let (outcome, ways) = match fit.fitted {
            Fitted::Untold => (Outcome::Untold, Vec::new()),
            Fitted::Right => (Outcome::Right, Vec::new()),
            Fitted::Ways(ways) => (Outcome::Ways, ways),
            Fitted::Nearest {
                ways,
                broken_off: false,
            } => (Outcome::Nearest, ways),
            Fitted::Nearest {
                ways,
                broken_off: true,
            } => (Outcome::BrokenOff, ways),
        };
        shown.verdict = teller.verdict(&[]);
        let does_not_fish = shown
            .verdict
            .fishes
            .as_ref()
            .is_some_and(|fishes| fishes.yes == Some(false));
        let outcome = match outcome {
            // Nothing that is changed at the bank touches what stands against it.
            Outcome::Right if does_not_fish => Outcome::Nearest,
            outcome => outcome,
        };
        shown.outcome = outcome;
        shown.as_it_is = teller.state(&[]);
        shown.assumed = teller.assumed();
        match outcome {
            Outcome::Right => {
                shown.restated = teller.restated(&[]);
                let as_it_is = Way { changes: Vec::new() };
                let other = asked.written != WrittenWater::Own;
                let addition = || addition::addition(self, &asked, &bank, &as_it_is, &rig);
                shown.addition = other.then(addition).flatten();
            }
            Outcome::Untold => shown.needs = std::mem::take(&mut shown.as_it_is.needs),
            Outcome::Ways | Outcome::Nearest | Outcome::BrokenOff => {}
        }
        let found = teller.found(&[]);
        let left: Vec<Vec<ShownFinding>> = ways.iter().map(|way| teller.found(&way.changes)).collect();
        let is_left = |finding: &ShownFinding| {
            let in_all = || {
                left.iter()
                    .all(|left| left.iter().any(|other| other.rule == finding.rule))
            };
            fit.untouched.contains(&finding.rule)
                || matches!(outcome, Outcome::Right | Outcome::Ways) && in_all()
        };
        let heavy = found
            .iter()
            .filter(|finding| finding.level != Level::Advice.word());
        let (stays, against): (Vec<_>, Vec<_>) = heavy.cloned().partition(is_left);
        for (way, left) in ways.iter().zip(left) {
            let addition = addition::addition(self, &asked, &bank, way, &rig);
            shown
                .ways
                .push(way_shown(&teller, way, left, &found, &stays, addition));
        }
        shown.against = against;
        shown.stays = stays;
        shown.answer = answer::answer(&shown);
        Ok(shown)
    }
}

fn way_shown(
    teller: &Teller<'_, '_, '_, '_>,
    way: &Way,
    found: Vec<ShownFinding>,
    before: &[ShownFinding],
    stays: &[ShownFinding],
    addition: Option<Addition>,
) -> ShownWay {
    let (advice, heavy): (Vec<_>, Vec<_>) = found
        .into_iter()
        .partition(|finding| finding.level == Level::Advice.word());
    let known =
        |finding: &ShownFinding, all: &[ShownFinding]| all.iter().any(|other| other.rule == finding.rule);
    ShownWay {
        changes: at_bank::changes_between(teller.bank, teller.units, &[], &way.changes),
        state: teller.state(&way.changes),
        verdict: teller.verdict(&way.changes),
        leaves: heavy
            .into_iter()
            .filter(|finding| !known(finding, stays))
            .collect(),
        advice: advice
            .into_iter()
            .filter(|finding| !known(finding, before))
            .collect(),
        restated: teller.restated(&way.changes),
        addition,
    }
}
