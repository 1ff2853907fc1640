//! A rig evaluated, as the plain data that comparing needs.

use super::align::same_label;
use super::fishes::Fishes;
use super::pieces::{Piece, pieces};
use crate::need::Need;
use crate::shower::Shower;
use crate::shown::{Measures, ShownPart, ShownUnknown};
use crate::written::{Estimates, Units};
use indexmap::IndexMap;
use schemars::JsonSchema;
use serde::Serialize;
use snell_analysis::Notebook;
use snell_analysis::rigs;
use snell_finding::{Code, Finding, Level};
use snell_rig::blocks::{is_edit, line_key, lineage, merged};
use snell_rig::faults::Faults;
use snell_rig::keywords::PartKind;
use snell_rig::measure::Thing;
use snell_rig::project::{BlockRef, LineRef};
use snell_rig::rig::Rig;
use snell_rig::{BlockId, Evaluation, World};
use snell_rules::Books;
use std::sync::Arc;

/// A rig as it came out.
#[derive(Clone, Debug)]
pub struct Card {
    /// Its name, its place and its figures.
    pub shown: Outline,
    /// Its line from the reel to the point; shared by the copies that say where the rig stands by now.
    pub pieces: Arc<[Piece]>,
    /// What it says but for its parts.
    pub says: Vec<Saying>,
    /// Whether all of it could be read and worked out.
    pub sound: bool,
    /// Whether it fishes in its water; nothing where that was not asked or cannot be told.
    pub fishes: Option<Fishes>,
    /// The block that it was read from, of its own notebook.
    pub(super) block: BlockId,
}

/// What is compared of a rig but for its lines.
#[derive(Clone, Debug)]
pub struct Outline {
    /// Its name.
    pub name: String,
    /// Its title for people.
    pub title: Option<String>,
    /// The file that it stands in.
    pub file: String,
    /// Its line in that file, from 1.
    pub line: u32,
    /// The rig that it is made from.
    pub from: Option<String>,
    /// Its own measures.
    pub measures: Measures,
    /// Between flies.
    pub gaps: Vec<ShownPart>,
    /// Flies in order.
    pub flies: Vec<ShownPart>,
}

/// A line of a rig that writes no part.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Saying {
    /// Its key.
    pub key: String,
    /// What stands behind the key.
    pub text: String,
}

impl PartialEq for Saying {
    fn eq(&self, other: &Self) -> bool {
        self.key == other.key && self.text.to_lowercase() == other.text.to_lowercase()
    }
}

impl Card {
    /// Whether both are copies of one reading, which may differ in where the rig stands and in nothing else.
    pub fn is_of_one_reading(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.pieces, &other.pieces)
    }

    /// The number of the fly at a place, such as `point` or `dropper 2`, or of that of a name.
    pub(super) fn fly(&self, name: &str) -> Option<usize> {
        let mut tied = self.pieces.iter().filter(|piece| piece.is_tied());
        let at = tied.position(|piece| same_label(&piece.name, name));
        let flies = &self.shown.flies;
        at.filter(|at| *at < flies.len())
            .or_else(|| flies.iter().position(|fly| same_label(&fly.name, name)))
    }
}

/// Every rig that `wanted` picks by its name and file, with bare estimates.
pub fn cards(notebook: &Notebook, wanted: impl Fn(&str, &str) -> bool) -> Vec<Card> {
    let world = World::new(notebook.project());
    let mut cards = Vec::new();
    for block in rigs(&world) {
        let document = notebook.document(block.source.file.text);
        let file = document.map(|document| document.path.display().to_string());
        if wanted(&snell_rig::rig::name(block), &file.unwrap_or_default()) {
            cards.extend(card_of(notebook, &world, block, Estimates::Bare));
        }
    }
    cards
}

/// The rig of one block; of an outing, as it was fished.
pub fn card_of<'p>(
    notebook: &Notebook,
    world: &World<'p>,
    block: BlockRef<'p>,
    estimates: Estimates,
) -> Option<Card> {
    let faults = Faults::default();
    let rig = snell_rig::read(world, block, &faults);
    let evaluation = Evaluation::new(world, &rig);
    evaluation.run();
    let document = notebook.document(rig.place().text)?;
    let chain = &rig.chain;
    let mut shower = Shower::new(&evaluation, Units::Author, estimates);
    let shown = Outline {
        name: rig.name.clone(),
        title: rig.title().map(str::to_owned),
        file: document.path.display().to_string(),
        line: document
            .index()
            .line_column(&document.text, rig.place().span.start)
            .line,
        from: rig.base.map(str::to_owned),
        measures: shower.measures(Thing::Rig, ""),
        gaps: shower.parts(chain.gaps().map(Thing::Gap)),
        flies: shower.parts(chain.flies().map(|(id, _)| Thing::Fly(id))),
    };
    shower.look(chain.sections().map(|(id, _)| Thing::Section(id)));
    shower.look(chain.joins().map(Thing::Join));
    shower.look(chain.droppers().map(Thing::Dropper));
    let mended = |unknown: &ShownUnknown| unknown.needs.contains(&Need::Mended);
    let hidden = shower.unknown.iter().any(mended);
    let pieces = pieces(&evaluation).into();
    let says = says(world, block, rig.base, &crate::settings_of(notebook, &evaluation));
    // A claim that does not hold is a finding, but the rig is read all the same.
    let ill = |finding: &Finding| finding.level == Level::Fault && finding.code != Code::Expect;
    let sound = !rig.broken
        && !stands_on_broken(world, &rig)
        && !hidden
        && !faults.into_inner().iter().any(ill)
        && !evaluation.into_findings().iter().any(ill);
    Some(Card {
        shown,
        pieces,
        says,
        sound,
        fishes: match estimates {
            Estimates::Between => Fishes::of(&Books::new(world), block),
            Estimates::Bare => None,
        },
        block: block.id,
    })
}

/// Whether a block that the rig names has lines that cannot be read.
fn stands_on_broken(world: &World<'_>, rig: &Rig<'_>) -> bool {
    let flies = rig.chain.flies().filter_map(|(_, fly)| fly.tied.block);
    let spools = rig
        .chain
        .sections()
        .filter_map(|(_, section)| section.stuff.spool);
    let rod = rig.settings.rod.iter().filter_map(|rod| rod.block);
    let water = rig.settings.water.iter().filter_map(|water| water.block);
    let mut blocks = flies.chain(spools).chain(rod).chain(water);
    blocks.any(|id| {
        let bases = lineage(&world.names, world.project.block(id));
        bases.map_or(true, |bases| bases.iter().any(|block| block.block.broken))
    })
}

/// Rod and water as people call them, by their keys.
type Settings = IndexMap<&'static str, String>;

/// The lines that stand, those of its bases too, but for parts and edits.
fn says<'p>(world: &World<'p>, block: BlockRef<'p>, from: Option<&str>, settings: &Settings) -> Vec<Saying> {
    let bases = lineage(&world.names, block).unwrap_or_else(|_| vec![block]);
    let lines = merged(&bases, &Faults::default());
    let mut says: Vec<Saying> = lines
        .into_iter()
        .filter_map(|line| saying(line, settings))
        .collect();
    says.extend(from.map(|base| Saying {
        key: "from".to_owned(),
        text: base.to_owned(),
    }));
    says
}

fn saying(line: LineRef<'_>, settings: &Settings) -> Option<Saying> {
    let key = line_key(line).0;
    if PartKind::of(key).is_some() || is_edit(line) {
        return None;
    }
    let plain = line.behind_key();
    // A block that is named goes by its title, which people know it by.
    let titled = settings
        .get(key)
        .and_then(|text| text.strip_prefix(&format!("{plain}, ")));
    let text = titled.map_or(plain.clone(), str::to_owned);
    Some(Saying {
        key: key.to_owned(),
        text,
    })
}
