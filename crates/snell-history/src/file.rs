//! One file as it was read: its rigs, its outings, and whether all of it was
//! to be read.

use super::said::Said;
use crate::stood::Seen;
use snell_analysis::{Document, Kept, Notebook, Query, outings, rigs};
use snell_finding::{Finding, Level};
use snell_rig::Source;
use snell_rig::blocks::{Came, Catch, line_key};
use snell_rig::day::Day;
use snell_rig::project::BlockRef;
use snell_text::{Place, TextId};
use snell_view::compare::{Card, Figure, card_of};
use snell_view::{Estimates, Written};
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
    /// The file that the rig stands in.
    pub rig_file: String,
    /// The files that the outing's file uses.
    pub uses: Vec<String>,
    /// Its lines as they are written, but for the one that names the rig.
    pub lines: Vec<String>,
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

/// Fish caught or lost.
#[derive(Clone, Debug, PartialEq)]
pub struct Caught {
    /// How many.
    pub count: u32,
    /// What became of them.
    pub came: Came,
    /// On what, as written: a fly's name, or a place and its number.
    pub on: Option<(String, Option<u16>)>,
    /// What is said of them.
    pub said: Said,
}

/// The text that a notebook was opened for.
const OWN: TextId = TextId(0);

impl FileRead {
    /// The first file of a notebook; those that it uses count for it alone.
    pub fn of(notebook: &Notebook) -> Self {
        notebook.ask(|query| {
            let own = |block: &BlockRef<'_>| block.source.file.text == OWN;
            let outings = outings(query.world).into_iter().filter(own);
            let rigs = rigs(query.world).into_iter().filter(own);
            let ill = |finding: &Finding| finding.level == Level::Fault && finding.place().text == OWN;
            Self {
                cards: rigs.filter_map(|block| card(query, block)).collect(),
                outings: outings.filter_map(|block| outed(query, block)).collect(),
                sound: !notebook.reading().iter().any(ill),
            }
        })
    }
}

/// A rig as a state has it: its file is opened anew, as it was when the rig was seen in it.
pub fn bare(notebook: &Notebook, rig: &Seen) -> Option<Arc<Card>> {
    notebook.ask(|query| card(query, block_of(query, rig)?))
}

/// A figure of a rig with what it lies between, in the same way.
pub fn drawn(notebook: &Notebook, rig: &Seen, figure: &Figure) -> Option<Written> {
    notebook.ask(|query| {
        let block = block_of(query, rig)?;
        figure.drawn(&*card(query, block)?, query.world, block)
    })
}

/// A rig with what all its estimates lie between, in the same way.
pub fn whole(notebook: &Notebook, rig: &Seen) -> Option<Card> {
    notebook.ask(|query| card_of(notebook, query.world, block_of(query, rig)?, Estimates::Between))
}

fn block_of<'n>(query: &Query<'_, 'n>, rig: &Seen) -> Option<BlockRef<'n>> {
    let stands = |block: &BlockRef<'_>| {
        let document = query.notebook.document(block.source.file.text);
        block.source.file.text == OWN
            && snell_rig::rig::name(*block) == rig.called.name
            && document.is_some_and(|document| line_of(document, *block) == rig.called.line)
    };
    rigs(query.world).into_iter().find(stands)
}

fn line_of(document: &Document, block: BlockRef<'_>) -> u32 {
    let start = block.name_place().span.start;
    document.index().line_column(&document.text, start).line
}

/// A rig as it came out, or that of an outing as it was fished. What one step of a history changes in a file seldom
/// touches more than one of its rigs, so it is kept.
#[derive(Clone)]
struct KeptCard(Option<Arc<Card>>);

impl Kept for KeptCard {
    fn each_place(&mut self, _: &mut dyn FnMut(&mut Place)) {}
}

fn card<'n>(query: &Query<'_, 'n>, block: BlockRef<'n>) -> Option<Arc<Card>> {
    let notebook = query.notebook;
    let card = query.kept(block.id, |world| {
        KeptCard(card_of(notebook, world, block, Estimates::Bare).map(Arc::new))
    });
    let card = card.0?;
    let document = notebook.document(block.source.file.text)?;
    let line = line_of(document, block);
    let is_here = document.path.to_str() == Some(&card.shown.file);
    if is_here && card.shown.line == line {
        return Some(card);
    }
    let mut moved = Card::clone(&card);
    (moved.shown.file, moved.shown.line) = (document.path.display().to_string(), line);
    Some(Arc::new(moved))
}

fn outed<'n>(query: &Query<'_, 'n>, block: BlockRef<'n>) -> Option<Outed> {
    let world = query.world;
    let outing = world.read(block.id).outing()?;
    let rig = world.project.block(outing.rig?);
    let file = |source: &Source| {
        let document = query.notebook.document(source.file.text);
        document.map_or_else(String::new, |document| document.path.display().to_string())
    };
    let uses = block.source.uses.iter();
    let water = outing.water.as_ref().map(|(id, written)| {
        let title = id.and_then(|id| world.project.block(id).title());
        title.map_or_else(|| written.clone(), str::to_owned)
    });
    Some(Outed {
        name: snell_rig::rig::name(block),
        title: block.title().map(str::to_owned),
        day: outing.day?,
        rig: snell_rig::rig::name(rig),
        rig_file: file(rig.source),
        uses: uses.map(|(used, _)| file(world.project.source(*used))).collect(),
        lines: block
            .lines()
            .filter(|line| line_key(*line).0 != "rig")
            .map(|line| line.as_written().to_owned())
            .collect(),
        water,
        caught: outing.catches.iter().filter_map(caught).collect(),
        notes: outing.notes.iter().map(|note| (*note).to_owned()).collect(),
        fished: card(query, block)?,
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
        came: catch.came,
        on: catch.on.map(|(word, number)| (word.folded.to_string(), number)),
        said: catch.said.map(Said::of).unwrap_or_default(),
    })
}
