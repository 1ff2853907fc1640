//! Rigs fitted to a water, as they are shown: what stands against each as it
//! is, the ways to make it right, and what each of them brings.
//!
//! How ways are found is for the rules; how they are laid out, for those who
//! print.

mod addition;
mod bring;
mod lines;
mod water;
mod words;

pub use addition::{Added, Addition, Unwritable};
pub use water::ToWater;

use crate::drift::instead;
use crate::{ShownAssumed, Units, file_of};
use bring::Teller;
use serde::Serialize;
use snell_analysis::Notebook;
use snell_analysis::rigs;
use snell_finding::Level;
use snell_rig::World;
use snell_rig::faults::Faults;
use snell_rig::project::BlockRef;
use snell_rules::Books;
use snell_rules::fit::{Bank, Fitted, Way};

/// A rig fitted to a water.
#[derive(Clone, Debug, Serialize)]
pub struct ShownFit {
    /// The rig's name.
    pub name: String,
    /// Its title for people.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub title: Option<String>,
    /// The file that it stands in.
    pub file: String,
    /// The water in words.
    pub water: String,
    /// What the fit came to.
    pub outcome: Outcome,
    /// The rig in that water with nothing changed.
    pub as_it_is: ShownState,
    /// What is found of it there that a way removes, and that weighs more than advice.
    pub against: Vec<ShownFinding>,
    /// The ways, the best first.
    pub ways: Vec<ShownWay>,
    /// What is found above advice and that no change removes.
    pub stays: Vec<ShownFinding>,
    /// What was taken because the rig leaves it unsaid.
    pub assumed: Vec<ShownAssumed>,
    /// What the rig claims to come to, as it would have to be said in this water with nothing changed.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub restated: Vec<String>,
    /// What is missing where nothing can be told.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub needs: Vec<String>,
    /// Whether the rig says how it is fished; if not, only the rules for every rig were asked.
    pub has_method: bool,
}

/// What a fit came to.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Outcome {
    /// The rig is right as it is, or nothing that a change could remove stands against it.
    Right,
    /// Every way makes it right.
    Ways,
    /// No set of up to three changes makes it right; the ways come nearest.
    Nearest,
    /// The same, and not every set was tried.
    BrokenOff,
    /// Nothing can be told of it.
    Untold,
}

/// Something found.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ShownFinding {
    /// The rule, or `expect` for a claim of the rig's own.
    pub rule: String,
    /// How much it weighs, by its word.
    pub level: &'static str,
    /// What is said.
    pub message: String,
}

/// How a rig fares in the water.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct ShownState {
    /// How high off the bed the point rides; nothing where there is no drift.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub off_bed: Option<crate::Written>,
    /// When the point is down.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub sink_time: Option<crate::Written>,
    /// What is missing where there is no drift.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub needs: Vec<String>,
    /// Line that has to be under water, and that which can be, where it does not reach.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub short: Option<(String, String)>,
}

/// One way to make a rig right.
#[derive(Clone, Debug, Serialize)]
pub struct ShownWay {
    /// The changes, each as one says it at the bank.
    pub changes: Vec<String>,
    /// The rig with them made.
    pub state: ShownState,
    /// What is found of it above advice and that another way, or none, removes.
    pub leaves: Vec<ShownFinding>,
    /// What is advised against with the changes made, and is not without.
    pub advice: Vec<ShownFinding>,
    /// What the rig claims to come to, as it has to be said now.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub restated: Vec<String>,
    /// The rig as the language writes it, to be put beside the one that it is made from.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub addition: Option<Addition>,
}

/// What a fit is told while it goes on: how much work is done, and how much is done at the most.
pub type Told<'t> = &'t mut dyn FnMut(usize, usize);

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

/// The work on one rig after another.
struct Fitting<'a, 'w, 'p> {
    notebook: &'a Notebook,
    books: &'a Books<'w, 'p>,
    units: Units,
    to: &'a ToWater,
    /// What a rig that is written is to be called.
    name: Option<&'a str>,
    /// Where what was asked for was read.
    text: snell_text::TextId,
}

impl<'p> Fitting<'_, '_, 'p> {
    fn one(&self, block: BlockRef<'p>, told: Told<'_>) -> Result<ShownFit, String> {
        let world = self.books.world();
        let rig = snell_rig::rig::read(world, block, &Faults::default());
        let asked = self.to.of_rig(self.notebook, world, &rig, self.text)?;
        let mut shown = ShownFit {
            name: rig.name.clone(),
            title: rig.title().map(str::to_owned),
            file: file_of(self.notebook, block),
            water: words::water(world, &asked, self.units, &rig),
            outcome: Outcome::Untold,
            as_it_is: ShownState::default(),
            against: Vec::new(),
            ways: Vec::new(),
            stays: Vec::new(),
            assumed: Vec::new(),
            restated: Vec::new(),
            needs: Vec::new(),
            has_method: rig.settings.method.is_some(),
        };
        if rig.broken {
            shown.needs.push(crate::Need::Mended.to_string());
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
        shown.outcome = outcome;
        shown.as_it_is = teller.state(&[]);
        shown.assumed = teller.assumed();
        match outcome {
            Outcome::Right => shown.restated = teller.restated(&[]),
            Outcome::Untold => shown.needs = std::mem::take(&mut shown.as_it_is.needs),
            _ => {}
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
        changes: way
            .changes
            .iter()
            .map(|change| words::change(teller, *change))
            .collect(),
        state: teller.state(&way.changes),
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
