//! What may stand at a place: keywords, names, units that fit, rules, measures,
//! all out of the tables.
//!
//! A half-typed line can rarely be read, so the words before the cursor are
//! looked at, not a tree.

mod typed;

use super::told::is_rig;
use super::walk::{self, ASKED, extent};
use crate::document::{self, Document};
use crate::load::Notebook;
use rig::keywords::{self, ClauseRow, Named, OwnForm, Row, Slot, Take, TextNeed};
use rig::measure::{self, Kind};
use rig::project::{BlockRef, FileId};
use rig::{Found, World};
use std::collections::BTreeMap;
use syntax::{BlockKind, Joint};
use text::Span;
use typed::{Typed, in_comment_or_text};

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
    let before = Span::new(line.start, at).of(&document.text);
    if in_comment_or_text(before) {
        return Vec::new();
    }
    let (world, _) = World::new(notebook.project());
    let block = block_above(&world, at);
    let typed = Typed::of(before);
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
    let above = walk::blocks_of(world, ASKED).filter(|block| extent(*block).start < at);
    above.max_by_key(|block| extent(*block).start)
}

struct Offers<'a, 'p> {
    world: &'a World<'p>,
    file: Option<FileId>,
    block: Option<BlockRef<'p>>,
    place: Span,
    found: BTreeMap<(Sort, String), Completion>,
}

impl<'p> Offers<'_, 'p> {
    fn offer(&mut self, sort: Sort, word: &str, detail: impl Into<String>, about: impl Into<String>) {
        self.found
            .entry((sort, word.to_owned()))
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
        match key.as_str() {
            "expect" | "keep" | "when" | "unless" => self.claim(typed),
            "let" | "limit" if typed.words.len() >= 2 => self.values(typed),
            "let" | "limit" => {}
            "change" | "remove" => self.edit(typed, &key),
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
            "use",
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
        let Some(file) = self.file else { return };
        for name in self.world.visible(file, kind) {
            let folded = std::sync::Arc::from(name.as_str());
            let (detail, about) = match self.world.find(file, kind, &folded) {
                Found::Block(id) => {
                    let block = self.world.project.block(id);
                    let word = block.head().map_or(kind.word(), |head| head.kind.word());
                    (word, block.title().unwrap_or_default().to_owned())
                }
                _ => (kind.word(), String::new()),
            };
            self.offer(Sort::Block, &name, detail, about);
        }
    }

    /// Measures and neighbours behind a dot; else lets, labels and measures of the rig.
    fn values(&mut self, typed: &Typed<'_>) {
        if let Some(owner) = typed.owner {
            let kind = match owner {
                "rod" => Some(Kind::Rod),
                "water" => Some(Kind::Water),
                "point" => Some(Kind::Fly),
                part if keywords::SECTIONS.contains(&part) => Some(Kind::Section),
                other => Kind::of(other.rsplit('.').next().unwrap_or(other)),
            };
            for row in measure::all_of(kind.unwrap_or(Kind::Section)) {
                self.offer(Sort::Measure, row.name, row.of.word(), row.about);
            }
            return;
        }
        if self.number_before(typed) {
            for unit in units::UNITS {
                self.offer(Sort::Unit, unit.name, unit.dimension.name(), unit.about);
            }
        }
        self.locals();
        for row in measure::all_of(Kind::Rig) {
            self.offer(Sort::Measure, row.name, "measure", row.about);
        }
        for kind in Kind::EACH.into_iter().chain([Kind::Rod, Kind::Water]) {
            self.offer(Sort::Measure, kind.word(), "then a dot", "");
        }
    }

    fn number_before(&self, typed: &Typed<'_>) -> bool {
        typed
            .words
            .last()
            .is_some_and(|word| word.ends_with(|c: char| c.is_ascii_digit() || "½¼¾".contains(c)))
    }

    /// The rig's lets and labels, and those of its bases.
    fn locals(&mut self) {
        let Some(block) = self.block.filter(|block| is_rig(*block)) else {
            return;
        };
        let chain = rig::blocks::chain(self.world, block).unwrap_or_else(|_| vec![block]);
        for (line, word) in chain.into_iter().flat_map(super::names::locals) {
            let written = line.written(line.line.span);
            self.offer(Sort::Local, &word.folded, written, "");
        }
    }

    fn claim(&mut self, typed: &Typed<'_>) {
        let words: Vec<String> = (1..typed.words.len()).map(|index| typed.word(index)).collect();
        let asked = words.iter().any(|word| {
            CONDITIONS
                .iter()
                .any(|(condition, _)| condition.starts_with(word.as_str()))
        });
        if words.is_empty() || asked || typed.owner.is_some() {
            self.values(typed);
        }
        if asked
            && words
                .last()
                .is_some_and(|word| word == "is" || word == "not" || word == "or")
        {
            self.listed(keywords::METHODS);
            for section in keywords::SECTIONS {
                self.offer(Sort::Word, section, "role", "");
            }
        }
        if !words.is_empty() && !asked {
            for (condition, about) in CONDITIONS {
                self.offer(Sort::Keyword, condition, "condition", *about);
            }
        }
    }

    fn edit(&mut self, typed: &Typed<'_>, key: &str) {
        if typed.words.len() == 1 {
            self.locals();
            for row in keywords::rows(BlockKind::Rig)
                .iter()
                .filter(|row| keywords::is_part(row.key))
            {
                self.offer(Sort::Keyword, row.key, row.shape(), row.about);
            }
            return;
        }
        let to = typed
            .words
            .iter()
            .position(|word| word.eq_ignore_ascii_case("to"));
        match to {
            None if key == "change" => self.offer(Sort::Keyword, "to", "change TARGET to …", ""),
            Some(to) => {
                let target = self.part_of(&typed.word(1));
                if let Some(row) = keywords::row(BlockKind::Rig, &target) {
                    self.of_row(typed, row, to + 1);
                }
            }
            None => {}
        }
    }

    /// The key of the part that a label is given to.
    fn part_of(&self, target: &str) -> String {
        let chain = self
            .block
            .map(|block| rig::blocks::chain(self.world, block).unwrap_or_else(|_| vec![block]));
        let mut locals = chain
            .unwrap_or_default()
            .into_iter()
            .flat_map(super::names::locals);
        locals.find(|(_, word)| *word.folded == *target).map_or_else(
            || target.to_owned(),
            |(line, _)| rig::blocks::line_key(line).0.to_owned(),
        )
    }

    fn plain(&mut self, typed: &Typed<'_>, key: &str) {
        if let Some(row) = keywords::row(self.kind(), key) {
            self.of_row(typed, row, 1);
        }
    }

    /// What a row takes behind the words from `first` on.
    fn of_row(&mut self, typed: &Typed<'_>, row: &'static Row, first: usize) {
        let behind = typed.words.get(first..).unwrap_or_default();
        let joints: Vec<Joint> = behind.iter().filter_map(|word| Joint::of(word)).collect();
        let open = joints.last().and_then(|joint| row.clause(*joint));
        let slots = open.map_or(row.takes, |clause| clause.takes);
        let number = self.number_before(typed);
        for slot in slots {
            self.slot(*slot, number, typed);
        }
        if !number && behind.last().is_none_or(|word| Joint::of(word).is_none()) {
            for ClauseRow { joint, text, .. } in row.clauses.iter().filter(|row| !joints.contains(&row.joint))
            {
                let about = if *text == TextNeed::Needed {
                    "a reason in quotes follows"
                } else {
                    ""
                };
                self.offer(Sort::Keyword, joint.word(), row.shape(), about);
            }
        }
    }

    fn slot(&mut self, slot: Slot, number: bool, typed: &Typed<'_>) {
        if let Some(dimension) = slot.take.dimension().filter(|_| number) {
            for name in units::fitting(dimension) {
                let about = units::UNITS
                    .iter()
                    .find(|unit| unit.name == name)
                    .map_or("", |unit| unit.about);
                self.offer(Sort::Unit, name, dimension.name(), about);
            }
        }
        if number {
            if matches!(slot.take, Take::LineSize | Take::Diameter) {
                self.offer(Sort::Unit, "X", "size", "(0.011 - X/1000) in");
            }
            return;
        }
        match slot.take {
            Take::Name(kind) => self.names(kind),
            Take::Word(words) => self.listed(words),
            Take::Colour => {
                for colour in keywords::COLOURS {
                    self.offer(Sort::Word, colour, "colour", "");
                }
            }
            Take::PartLength if is_expression(typed) => self.values(typed),
            _ => {}
        }
    }

    fn listed(&mut self, words: &'static [Named]) {
        for named in words {
            self.offer(Sort::Word, named.word, "", named.about);
        }
    }
}

/// Whether a length is being reckoned: names are only offered once a letter of one, or a sign, is there.
fn is_expression(typed: &Typed<'_>) -> bool {
    typed.owner.is_some()
        || typed.half.starts_with(char::is_alphabetic)
        || typed
            .words
            .last()
            .is_some_and(|word| matches!(*word, "+" | "-" | "*" | "/" | "times" | "×"))
}

/// The conditions of claims, each with what it asks.
const CONDITIONS: &[(&str, &str)] = &[
    ("at least", "Not less than the value."),
    ("at most", "Not more than the value."),
    ("over", "More than the value."),
    ("under", "Less than the value."),
    ("about", "Within 2 % of the value."),
    (
        "between",
        "Between two values, both ends allowed: `between A and B`.",
    ),
    ("is", "Carries a word: `is WORD or WORD`."),
    ("is not", "Carries none of the words."),
];

#[cfg(test)]
mod tests;
