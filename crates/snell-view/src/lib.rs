//! Rigs as they are shown: plain data with SI values beside written ones.
//!
//! The table, JSON and every other form are made from these; how a form looks
//! is for those who print.

mod card;
pub mod compare;
mod cut;
mod drawn;
pub mod drift;
pub mod fit;
mod rounding;
mod rows;
mod said;
mod written;

pub use card::{
    About, Asked, MOST_LINES, Remark, ShownAnswer, ShownCard, ShownCell, ShownFished, ShownFly, Wading, Why,
    cards,
};
pub use cut::cuts_of;
pub use cut::{Allowance, CutPiece, CutRig, CutSpool, Cuts, Taking, Untakable, cut};
pub use drawn::scene_of;
pub use drawn::{Drawn, draw};
pub use drift::drift_of;
pub use drift::{Instead, ShownDrift, ShownMoment, ShownRide, ShownSink, Steady, draw_in_water, drifts};
pub use rounding::{coarse, within};
pub use rows::{Place, Row};
pub use said::SaidPart;
pub use written::{Off, Units, Written};

use indexmap::IndexMap;
use schemars::JsonSchema;
use serde::{Serialize, Serializer};
use snell_analysis::Notebook;
use snell_analysis::rigs;
use snell_rig::evaluation::{AssumedWords, MissingWords};
use snell_rig::faults::Faults;
use snell_rig::lack::{Lack, Outcome};
use snell_rig::measure::{self, Get, Measure, Thing};
use snell_rig::project::BlockRef;
use snell_rig::value::Value;
use snell_rig::{Evaluation, World};
use std::fmt;

/// What keeps a measure from being told.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Need {
    /// Something that the rig leaves unsaid.
    Missing(MissingWords),
    /// A fault.
    Mended,
}

impl fmt::Display for Need {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Missing(words) => words.fmt(out),
            Self::Mended => out.write_str("a fault to be mended"),
        }
    }
}

impl Serialize for Need {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

/// What a lack needs.
pub fn needs_of(evaluation: &Evaluation<'_, '_>, lack: &Lack) -> Vec<Need> {
    match lack {
        Lack::Unknown(missing) => {
            let words = evaluation.words_of_all(missing).into_iter();
            words.map(Need::Missing).collect()
        }
        Lack::Faulty => vec![Need::Mended],
    }
}

/// What a lack needs, for people.
pub fn told_needs(evaluation: &Evaluation<'_, '_>, lack: &Lack) -> Vec<String> {
    let needs = needs_of(evaluation, lack).into_iter();
    needs.map(|need| need.to_string()).collect()
}

/// Measures by name.
pub type Measures = IndexMap<&'static str, Written>;

/// A rig as it is shown.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct ShownRig {
    /// Its name.
    pub name: String,
    /// Its title for people.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub title: Option<String>,
    /// The file that it stands in.
    pub file: String,
    /// Its line in that file, from 1.
    pub line: u32,
    /// The rig that it is made from.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub from: Option<String>,
    /// Notes for people.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub notes: Vec<String>,
    /// Its rod and water as they are written.
    pub settings: IndexMap<&'static str, String>,
    /// Its own measures.
    pub measures: Measures,
    /// Every part as its line says it, from the reel down.
    pub parts: Vec<SaidPart>,
    /// Pieces of line from the reel down.
    pub sections: Vec<ShownPart>,
    /// Where they meet.
    pub joins: Vec<ShownPart>,
    /// Tags.
    pub droppers: Vec<ShownPart>,
    /// Between flies.
    pub gaps: Vec<ShownPart>,
    /// Flies in order.
    pub flies: Vec<ShownPart>,
    /// What was taken because the rig leaves it unsaid.
    pub assumed: Vec<ShownAssumed>,
    /// What cannot be told.
    pub unknown: Vec<ShownUnknown>,
    /// The rig line by line, for a table.
    #[serde(skip)]
    pub rows: Vec<Row>,
}

/// A part of a rig with its measures.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct ShownPart {
    /// Its label or name.
    pub name: String,
    /// Its measures.
    pub measures: Measures,
}

/// Something assumed.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct ShownAssumed {
    /// What it is about.
    pub what: String,
    /// What was taken.
    pub value: String,
    /// Why.
    pub why: String,
    /// Of a knot, which: `butt to taper`, `of slate`.
    #[serde(skip)]
    pub knot: Option<String>,
}

/// A measure that cannot be told.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct ShownUnknown {
    /// The measure.
    pub measure: &'static str,
    /// The part that it is of; the whole rig where there is none.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub part: Option<String>,
    /// What is missing.
    #[schemars(with = "Vec<String>")]
    pub needs: Vec<Need>,
}

/// Every rig of a notebook that `wanted` picks by its name and file, and the findings of evaluating them.
pub fn show(notebook: &Notebook, units: Units, wanted: impl Fn(&str, &str) -> bool) -> Vec<ShownRig> {
    let world = World::new(notebook.project());
    let mut shown = Vec::new();
    for block in rigs(&world) {
        let file = file_of(notebook, block);
        if wanted(&snell_rig::rig::name(block), &file) {
            shown.extend(one(notebook, &world, block, units));
        }
    }
    shown
}

/// The name and file of every rig, in order.
pub fn names(notebook: &Notebook) -> Vec<(String, String)> {
    let world = World::new(notebook.project());
    rigs(&world)
        .into_iter()
        .map(|block| (snell_rig::rig::name(block), file_of(notebook, block)))
        .collect()
}

pub fn file_of(notebook: &Notebook, block: BlockRef<'_>) -> String {
    let document = notebook.document(block.source.file.text);
    document
        .map(|document| document.path.display().to_string())
        .unwrap_or_default()
}

fn one<'p>(notebook: &Notebook, world: &World<'p>, block: BlockRef<'p>, units: Units) -> Option<ShownRig> {
    let faults = Faults::default();
    let rig = snell_rig::rig::read(world, block, &faults);
    of(notebook, &Evaluation::new(world, &rig), units)
}

/// An evaluated rig as it is shown.
pub fn of(notebook: &Notebook, evaluation: &Evaluation<'_, '_>, units: Units) -> Option<ShownRig> {
    let world = evaluation.world;
    let mut shower = Shower {
        evaluation,
        units,
        unknown: Vec::new(),
    };
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
        settings: settings(notebook, world, evaluation),
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

impl ShownAssumed {
    /// Whether it is a knot that the rig leaves unsaid.
    pub fn is_of_a_knot(&self) -> bool {
        self.knot.is_some()
    }

    /// All that was assumed of a rig so far.
    pub fn all(evaluation: &Evaluation<'_, '_>) -> Vec<Self> {
        let assumed = evaluation.all_assumed().into_iter();
        assumed.map(Self::from).collect()
    }
}

impl From<AssumedWords> for ShownAssumed {
    fn from(words: AssumedWords) -> Self {
        Self {
            what: words.what,
            value: words.value,
            why: words.why.to_owned(),
            knot: words.knot,
        }
    }
}

/// Rod and water: their names, or what the rig's line says of them.
fn settings(
    notebook: &Notebook,
    world: &World<'_>,
    evaluation: &Evaluation<'_, '_>,
) -> IndexMap<&'static str, String> {
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

/// Shows the measures of one evaluation and keeps what cannot be told.
struct Shower<'e, 'w, 'p> {
    evaluation: &'e Evaluation<'w, 'p>,
    units: Units,
    unknown: Vec<ShownUnknown>,
}

impl Shower<'_, '_, '_> {
    fn parts(&mut self, things: impl Iterator<Item = Thing>) -> Vec<ShownPart> {
        let part = |thing| {
            let name = self.evaluation.rig.name_of(thing);
            let measures = self.measures(thing, &name);
            ShownPart { name, measures }
        };
        things.map(part).collect()
    }

    fn measures(&mut self, thing: Thing, of: &str) -> Measures {
        let mut shown = Measures::new();
        for measure in measure::all_of(thing.kind()) {
            if let Some(written) = self.measure(measure, thing, of) {
                shown.insert(measure.name, written);
            }
        }
        shown
    }

    fn measure(&mut self, measure: &'static Measure, thing: Thing, of: &str) -> Option<Written> {
        match measure.get {
            Get::Words(_) => {
                let words = measure.words(self.evaluation, thing);
                (!words.is_empty()).then(|| Written::words(&words))
            }
            Get::Value(_) => match self.evaluation.measure(measure, thing) {
                Ok(value) => Some(written(self.evaluation, measure, thing, &value, self.units)),
                Err(lack) => {
                    self.keep(measure, lack, of);
                    None
                }
            },
        }
    }

    /// Keeps what cannot be told; what a rig of this kind need not have is passed over.
    fn keep(&mut self, measure: &'static Measure, lack: Lack, of: &str) {
        if lack.is_of_other_kind() {
            return;
        }
        let needs = needs_of(self.evaluation, &lack);
        let part = (!of.is_empty()).then(|| of.to_owned());
        self.unknown.push(ShownUnknown {
            measure: measure.name,
            part,
            needs,
        });
    }

    fn written(&self, outcome: &Outcome) -> Option<Written> {
        outcome
            .as_ref()
            .ok()
            .map(|value| Written::of(value, self.units, self.evaluation))
    }
}

/// The value of a measure as its reader wants it, an estimate called so with what it may be off by.
pub fn written(
    evaluation: &Evaluation<'_, '_>,
    measure: &Measure,
    thing: Thing,
    value: &Value,
    units: Units,
) -> Written {
    let written = Written::of(value, units, evaluation);
    match measure.off(evaluation, thing, value) {
        Some(off) => written.within(off, value, units, evaluation),
        None if measure.is_estimate(evaluation, thing) => written.estimated(),
        None => written,
    }
}
