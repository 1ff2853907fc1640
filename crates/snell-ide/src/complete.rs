//! What may stand at a place: keywords, names, units that fit, rules, measures,
//! all out of the tables.
//!
//! The line is read as far as the cursor: of a half-typed line its tokens are
//! known, if not what it says.

mod rows;
mod stuff;
mod typed;
mod values;

use super::walk::{self, ASKED, extent};
use snell_analysis::Notebook;
use snell_analysis::document::{self, Document};
use snell_rig::World;
use snell_rig::blocks::Read;
use snell_rig::keywords::{self, OwnForm};
use snell_rig::project::{BlockRef, FileId};
use snell_syntax::{BlockKind, OwnKey};
use snell_text::Span;
use std::collections::BTreeMap;
use typed::Typed;

/// What kind of word is offered.
#[derive(Clone, Copy, PartialEq, Eq, Debug, PartialOrd, Ord)]
pub enum Sort {
    /// A word that opens a line or block, or joins.
    Keyword,
    /// A block's name.
    Block,
    /// A label or let of the rig.
    Local,
    /// A unit.
    Unit,
    /// A measure.
    Measure,
    /// A word of a table: a method, a colour.
    Word,
}

/// A word that may stand at the place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Completion {
    /// The word.
    pub word: String,
    /// What kind of word it is.
    pub sort: Sort,
    /// A few words beside it: a shape, a title.
    pub detail: String,
    /// What it means.
    pub about: String,
    /// The half-typed word that it takes the place of.
    pub place: Span,
}

/// What may stand at a byte of the asked text.
pub fn complete(notebook: &Notebook, at: u32) -> Vec<Completion> {
    let Some(document) = notebook.document(ASKED) else {
        return Vec::new();
    };
    let Some(line) = line_around(document, at) else {
        return Vec::new();
    };
    let Some(typed) = Typed::of(Span::new(line.start, at).of(&document.text)) else {
        return Vec::new();
    };
    let world = World::new(notebook.project());
    let block = block_above(&world, at);
    let mut offers = Offers {
        world: &world,
        file: block.map_or_else(|| first_file(&world), |block| Some(block.id.file)),
        block,
        place: Span::new(at - typed.half.len() as u32, at),
        found: BTreeMap::new(),
    };
    offers.at(&typed);
    offers.found.into_values().collect()
}

/// The line that the cursor is in; outside of a page's fences there is none.
fn line_around(document: &Document, at: u32) -> Option<Span> {
    if document.kind == document::Kind::Rig {
        let line = document.index().line_at(at);
        return Some(document.index().line(line)).filter(|line| line.start <= at);
    }
    let passages = document.passages();
    passages
        .iter()
        .flatten()
        .find(|line| walk::touches(**line, at))
        .copied()
}

fn first_file(world: &World<'_>) -> Option<FileId> {
    let project = world.project;
    let mut own = project.files().filter(|file| !project.ships(*file));
    own.find(|file| project.source(*file).file.text == ASKED)
}

/// The last block that begins before a byte.
fn block_above<'p>(world: &World<'p>, at: u32) -> Option<BlockRef<'p>> {
    let above = walk::blocks_of(world.project, ASKED).filter(|block| extent(*block).start < at);
    above.max_by_key(|block| extent(*block).start)
}

/// What is offered first.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Rank {
    /// Blocks of the author's own.
    Own,
    /// Sizes that the author's rigs are of.
    Size,
    /// What line is made of, where a piece of line is described.
    Line,
    /// All else.
    Usual,
}

struct Offers<'a, 'p> {
    world: &'a World<'p>,
    file: Option<FileId>,
    block: Option<BlockRef<'p>>,
    place: Span,
    found: BTreeMap<(Rank, Sort, String), Completion>,
}

impl<'p> Offers<'_, 'p> {
    fn offer(&mut self, sort: Sort, word: &str, detail: impl Into<String>, about: impl Into<String>) {
        self.offer_as(Rank::Usual, sort, word, detail, about);
    }

    fn offer_as(
        &mut self,
        rank: Rank,
        sort: Sort,
        word: &str,
        detail: impl Into<String>,
        about: impl Into<String>,
    ) {
        self.found
            .entry((rank, sort, word.to_owned()))
            .or_insert_with(|| Completion {
                word: word.to_owned(),
                sort,
                detail: detail.into(),
                about: about.into(),
                place: self.place,
            });
    }

    fn kind(&self) -> BlockKind {
        let head = self.block.and_then(BlockRef::head);
        head.map_or(BlockKind::Rig, |head| head.kind)
    }

    fn at(&mut self, typed: &Typed<'_>) {
        if typed.words.is_empty() {
            if typed.indented {
                self.keys();
            } else {
                self.openers();
            }
            return;
        }
        if !typed.indented && BlockKind::of(&typed.word(0)).is_some() {
            return self.head(typed);
        }
        let key = typed.word(0);
        match OwnKey::of(&key) {
            Some(OwnKey::Expect | OwnKey::Keep | OwnKey::When | OwnKey::Unless) => return self.claim(typed),
            Some(OwnKey::Let | OwnKey::Limit) if typed.words.len() >= 2 => return self.values(typed),
            Some(OwnKey::Let | OwnKey::Limit) => return,
            Some(OwnKey::Change) => return self.edit(typed, &key),
            Some(OwnKey::Use) | None => {}
        }
        match key.as_str() {
            "remove" => self.edit(typed, &key),
            "allow" | "with" | "without" | "set" if typed.words.len() == 1 => self.names(BlockKind::Rule),
            "with" | "without" => self.names(BlockKind::Rule),
            "level" if self.kind() == BlockKind::Rulebook && typed.words.len() == 1 => {
                self.names(BlockKind::Rule);
            }
            "mend" => self.values(typed),
            _ => self.plain(typed, &key),
        }
    }

    /// What opens a block, or names a file.
    fn openers(&mut self) {
        for kind in BlockKind::ALL {
            self.offer(
                Sort::Keyword,
                kind.word(),
                "block",
                format!("Opens a {}.", kind.word()),
            );
        }
        self.offer(
            Sort::Keyword,
            OwnKey::Use.word(),
            "use \"FILE.rig\"",
            "Brings in the blocks of another file.",
        );
    }

    /// What opens a line of the block.
    fn keys(&mut self) {
        let kind = self.kind();
        for row in keywords::rows(kind) {
            self.offer(Sort::Keyword, row.key, row.shape(), row.about);
        }
        let own = keywords::OWN_FORMS
            .iter()
            .filter(|form| form.within.contains(&kind));
        for OwnForm {
            key, shape, about, ..
        } in own
        {
            self.offer(Sort::Keyword, key, *shape, *about);
        }
    }

    /// `KIND NAME [from NAME]`
    fn head(&mut self, typed: &Typed<'_>) {
        let Some(kind) = BlockKind::of(&typed.word(0)) else {
            return;
        };
        match typed.words.len() {
            2 => self.offer(
                Sort::Keyword,
                "from",
                "from NAME",
                "Starts as a copy of another block.",
            ),
            3 if typed.word(2) == "from" => self.names(kind),
            _ => {}
        }
    }

    fn names(&mut self, kind: BlockKind) {
        self.names_where(kind, Rank::Usual, |_| true);
    }

    /// The names of blocks: the author's own first, then what ships as far as it is `wanted`.
    fn names_where(&mut self, kind: BlockKind, shipped: Rank, wanted: impl Fn(&Read<'_>) -> bool) {
        let Some(file) = self.file else { return };
        for name in self.world.visible(file, kind) {
            let (rank, detail, about) = match self.world.find(file, kind, &name).block() {
                Some(id) => {
                    let ships = self.world.project.ships(id.file);
                    if ships && !wanted(self.world.read(id)) {
                        continue;
                    }
                    let block = self.world.project.block(id);
                    let word = block.head().map_or(kind.word(), |head| head.kind.word());
                    let rank = if ships { shipped } else { Rank::Own };
                    (rank, word, block.title().unwrap_or_default().to_owned())
                }
                None => (Rank::Usual, kind.word(), String::new()),
            };
            self.offer_as(rank, Sort::Block, &name, detail, about);
        }
    }
}

#[cfg(test)]
mod tests;
