//! A rig evaluated, as the plain data that comparing needs.

use super::align::same_label;
use super::pieces::{Piece, pieces};
use crate::need::Need;
use crate::shown::ShownRig;
use crate::written::{Estimates, Units};
use serde::Serialize;
use snell_analysis::Notebook;
use snell_analysis::rigs;
use snell_finding::{Code, Finding, Level};
use snell_rig::blocks::{is_edit, line_key, lineage, merged};
use snell_rig::faults::Faults;
use snell_rig::keywords::PartKind;
use snell_rig::project::{BlockRef, LineRef};
use snell_rig::rig::Rig;
use snell_rig::{Evaluation, World};

/// A rig as it came out.
#[derive(Clone, Debug)]
pub struct Card {
    /// As it is shown.
    pub shown: ShownRig,
    /// Its line from the reel to the point.
    pub pieces: Vec<Piece>,
    /// What it says but for its parts.
    pub says: Vec<Saying>,
    /// Whether all of it could be read and worked out.
    pub sound: bool,
}

/// A line of a rig that writes no part.
#[derive(Clone, Debug, Serialize)]
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
    /// The number of the fly at a place, such as `point` or `dropper 2`, or of that of a name.
    pub(super) fn fly(&self, name: &str) -> Option<usize> {
        let mut tied = self.pieces.iter().filter(|piece| piece.is_tied());
        let at = tied.position(|piece| same_label(&piece.name, name));
        let flies = &self.shown.flies;
        at.filter(|at| *at < flies.len())
            .or_else(|| flies.iter().position(|fly| same_label(&fly.name, name)))
    }
}

/// Every rig that `wanted` picks by its name and file.
pub fn cards(notebook: &Notebook, wanted: impl Fn(&str, &str) -> bool) -> Vec<Card> {
    let world = World::new(notebook.project());
    let mut cards = Vec::new();
    for block in rigs(&world) {
        let document = notebook.document(block.source.file.text);
        let file = document.map(|document| document.path.display().to_string());
        if wanted(&snell_rig::rig::name(block), &file.unwrap_or_default()) {
            cards.extend(card_of(notebook, &world, block, Estimates::Between));
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
    let shown = crate::shown_with(notebook, &evaluation, Units::Author, estimates)?;
    let pieces = pieces(&evaluation);
    let says = says(world, block, &shown);
    // A claim that does not hold is a finding, but the rig is read all the same.
    let ill = |finding: &Finding| finding.level == Level::Fault && finding.code != Code::Expect;
    let hidden = shown
        .unknown
        .iter()
        .any(|unknown| unknown.needs.contains(&Need::Mended));
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

/// The lines that stand, those of its bases too, but for parts and edits.
fn says<'p>(world: &World<'p>, block: BlockRef<'p>, shown: &ShownRig) -> Vec<Saying> {
    let bases = lineage(&world.names, block).unwrap_or_else(|_| vec![block]);
    let lines = merged(&bases, &Faults::default());
    let mut says: Vec<Saying> = lines.into_iter().filter_map(|line| saying(line, shown)).collect();
    says.extend(shown.from.as_ref().map(|base| Saying {
        key: "from".to_owned(),
        text: base.clone(),
    }));
    says
}

fn saying(line: LineRef<'_>, shown: &ShownRig) -> Option<Saying> {
    let key = line_key(line).0;
    if PartKind::of(key).is_some() || is_edit(line) {
        return None;
    }
    let plain = line.behind_key();
    // A block that is named goes by its title, which people know it by.
    let titled = shown
        .settings
        .get(key)
        .and_then(|text| text.strip_prefix(&format!("{plain}, ")));
    let text = titled.map_or(plain.clone(), str::to_owned);
    Some(Saying {
        key: key.to_owned(),
        text,
    })
}
