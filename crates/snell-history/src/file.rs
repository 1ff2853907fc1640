//! One file as it was read: its rigs, its outings, and whether all of it was
//! to be read.

use super::Memory;
use snell_analysis::Notebook;
use snell_analysis::{outings, rigs};
use snell_finding::Level;
use snell_rig::World;
use snell_rig::blocks::{Catch, Outing, Read, line_key};
use snell_rig::day::Day;
use snell_rig::project::BlockRef;
use snell_text::TextId;
use snell_view::compare::Card;
use std::sync::Arc;

/// A file as it was read.
#[derive(Clone, Debug, Default)]
pub struct FileRead {
    /// Its rigs.
    pub cards: Vec<Arc<Card>>,
    /// Its outings.
    pub outings: Vec<Outed>,
    /// Whether all of it was to be read.
    pub sound: bool,
}

/// An outing as it was written.
#[derive(Clone, Debug)]
pub struct Outed {
    /// Its name.
    pub name: String,
    /// Its title for people.
    pub title: Option<String>,
    /// The day.
    pub day: Day,
    /// The rig's name.
    pub rig: String,
    /// The water, where the outing says so.
    pub water: Option<String>,
    /// What was caught.
    pub caught: Vec<Caught>,
    /// Notes for people.
    pub notes: Vec<String>,
    /// The rig as it was fished, by the book as it stands.
    pub fished: Arc<Card>,
    /// Whether it was changed at the bank.
    pub edited: bool,
}

/// Fish caught.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Caught {
    /// How many.
    pub count: u32,
    /// On what, as written: a fly's name, or a place and its number.
    pub on: Option<(String, Option<u16>)>,
}

/// The text that a notebook was opened for.
const OWN: TextId = TextId(0);

impl FileRead {
    /// The first file of a notebook; those that it uses count for it alone.
    pub fn of(notebook: &Notebook, memory: &mut Memory) -> Self {
        let (world, _) = World::new(notebook.project());
        let ground = memory.ground(&world);
        let own = |block: &BlockRef<'_>| block.source.file.text == OWN;
        let ill =
            |finding: &snell_finding::Finding| finding.level == Level::Fault && finding.place().text == OWN;
        Self {
            cards: rigs(&world)
                .into_iter()
                .filter(own)
                .filter_map(|block| memory.card(notebook, &world, ground, (block, None)))
                .collect(),
            outings: outings(&world)
                .into_iter()
                .filter(own)
                .filter_map(|block| match world.read(block.id) {
                    Read::Outing(outing) => {
                        let rig = world.project.block(outing.rig?);
                        let fished = memory.card(notebook, &world, ground, (block, Some(rig)))?;
                        outed(&world, block, outing, fished)
                    }
                    _ => None,
                })
                .collect(),
            sound: !notebook.reading().iter().any(ill),
        }
    }
}

fn outed(world: &World<'_>, block: BlockRef<'_>, outing: &Outing<'_>, fished: Arc<Card>) -> Option<Outed> {
    let rig = world.project.block(outing.rig?);
    let water = outing.water.as_ref().map(|(id, written)| {
        let title = id.and_then(|id| world.project.block(id).title());
        title.map_or_else(|| written.clone(), str::to_owned)
    });
    Some(Outed {
        name: snell_rig::rig::name(block),
        title: block.title().map(str::to_owned),
        day: outing.day?,
        rig: snell_rig::rig::name(rig),
        water,
        caught: outing.catches.iter().filter_map(caught).collect(),
        notes: outing.notes.iter().map(|note| (*note).to_owned()).collect(),
        fished,
        edited: block
            .lines()
            .any(|line| matches!(line_key(line).0, "change" | "add" | "remove")),
    })
}

fn caught(catch: &Catch<'_>) -> Option<Caught> {
    // It was found to be a whole number within bounds when it was read.
    let count = catch.count.as_ref().ok()?.si() as u32;
    Some(Caught {
        count,
        on: catch.on.map(|(word, number)| (word.folded.to_string(), number)),
    })
}
