//! The files of one evaluation: their texts, their trees, and which uses which.
//!
//! Where a file comes from and how a `use` path was resolved is the caller's
//! business; here a file is a number. A block's places count from its own start,
//! so that a block is the same however much text stands above it.

use crate::content::{ContentId, File, Placed, line_end};
pub use crate::ids::{BlockId, FileId};
use crate::opened::{Opened, space};
use crate::sight::{Sight, Sights};
use rustc_hash::FxHashMap;
use snell_syntax::{Block, BlockKind, Head, Line, Text, TokenKind, Word};
use snell_text::{Place, Span, TextId};
use std::sync::{Arc, OnceLock};

/// One file as it was read.
#[derive(Debug)]
pub struct Source {
    /// The name that a rig without a head gets: the file's own, without its ending.
    pub name: String,
    /// The text that the tree's spans lie in.
    pub text: Arc<str>,
    /// What was read of it.
    pub file: File,
    /// The files that it uses, each with the `use` line's place in `file.uses`.
    pub uses: Vec<(FileId, usize)>,
    opened: OnceLock<Opened>,
}

impl Source {
    /// A file that uses no other.
    pub fn new(name: impl Into<String>, text: Arc<str>, file: File) -> Self {
        Self {
            name: name.into(),
            text,
            file,
            uses: Vec::new(),
            opened: OnceLock::new(),
        }
    }

    /// The blocks that it defines, by name.
    pub(crate) fn opened(&self) -> &Opened {
        self.opened.get_or_init(|| Opened::of(&self.file.blocks))
    }
}

/// Files that ship, and their blocks by name.
#[derive(Debug, Default)]
pub struct Shelf {
    pub(crate) sources: Vec<Arc<Source>>,
    pub(crate) names: [FxHashMap<Arc<str>, BlockId>; BlockKind::ALL.len()],
}

impl Shelf {
    pub(crate) fn find(&self, kind: BlockKind, name: &str) -> Option<BlockId> {
        self.names[space(kind) as usize].get(name).copied()
    }

    pub(crate) fn names(&self, kind: BlockKind) -> impl Iterator<Item = &Arc<str>> {
        self.names[space(kind) as usize].keys()
    }
}

/// All files of one evaluation. The shipped ones come first.
#[derive(Debug, Clone)]
pub struct Project {
    shelf: &'static Shelf,
    own: Vec<Arc<Source>>,
    pub(crate) sights: Sights,
    surroundings: OnceLock<ContentId>,
}

impl Project {
    /// A project whose shipped files are those of a shelf.
    pub fn on(shelf: &'static Shelf) -> Self {
        Self {
            shelf,
            own: Vec::new(),
            sights: Sights::default(),
            surroundings: OnceLock::new(),
        }
    }

    /// Adds a file. Its `uses` may name files that are added later.
    pub fn add(&mut self, source: impl Into<Arc<Source>>) -> FileId {
        self.sights = Sights::default();
        self.surroundings = OnceLock::new();
        let id = self.next();
        self.own.push(source.into());
        id
    }

    /// Number the next file added will get.
    pub fn next(&self) -> FileId {
        FileId((self.shelf.sources.len() + self.own.len()) as u32)
    }

    /// A file.
    pub fn source(&self, file: FileId) -> &Source {
        let index = file.0 as usize;
        match self.shelf.sources.get(index) {
            Some(source) => source,
            None => &self.own[index - self.shelf.sources.len()],
        }
    }

    /// Every file, shipped ones first.
    pub fn files(&self) -> impl Iterator<Item = FileId> + use<> {
        (0..self.next().0).map(FileId)
    }

    /// Every file that does not ship.
    pub fn own_files(&self) -> impl Iterator<Item = FileId> + use<> {
        (self.shelf.sources.len() as u32..self.next().0).map(FileId)
    }

    /// Every block of the files that do not ship.
    pub fn own_blocks(&self) -> impl Iterator<Item = BlockRef<'_>> {
        self.own_files().flat_map(|file| self.blocks(file))
    }

    /// Whether a file is one of those that ship.
    pub fn ships(&self, file: FileId) -> bool {
        (file.0 as usize) < self.shelf.sources.len()
    }

    /// What ships.
    pub(crate) fn shelf(&self) -> &'static Shelf {
        self.shelf
    }

    /// A block, read or not, with where it starts.
    pub fn placed(&self, id: BlockId) -> &Placed {
        &self.source(id.file).file.blocks[id.index as usize]
    }

    /// A block.
    pub fn block(&self, id: BlockId) -> BlockRef<'_> {
        let source = self.source(id.file);
        let placed = &source.file.blocks[id.index as usize];
        BlockRef {
            id,
            source,
            start: placed.start,
            block: placed.block.tree(),
        }
    }

    /// Every block of a file in order.
    pub fn blocks(&self, file: FileId) -> impl Iterator<Item = BlockRef<'_>> {
        let count = self.source(file).file.blocks.len() as u32;
        (0..count).map(move |index| self.block(BlockId { file, index }))
    }

    /// The last block that starts at a place or before it, in the files of a text.
    pub fn block_above(&self, place: Place) -> Option<BlockId> {
        let own = self
            .own_files()
            .filter(|file| self.source(*file).file.text == place.text);
        let last = |file: FileId| {
            let blocks = &self.source(file).file.blocks;
            let index = blocks
                .partition_point(|block| block.start <= place.span.start)
                .checked_sub(1)?;
            let index = index as u32;
            Some(BlockId { file, index })
        };
        own.filter_map(last).max_by_key(|id| self.placed(*id).start)
    }

    /// Tells projects apart by all in them that is no rig and no outing. What was looked up of other blocks has the same
    /// answers in two projects that are alike in it.
    pub fn surroundings(&self) -> ContentId {
        *self.surroundings.get_or_init(|| {
            let told = self.own.iter().map(|source| {
                let blocks = source.file.blocks.iter().filter_map(|placed| {
                    let (kind, name) = placed.block.opens.as_ref()?;
                    (!is_of_rigs(*kind)).then_some((*kind, name, placed.block.content))
                });
                let uses: Vec<FileId> = source.uses.iter().map(|(file, _)| *file).collect();
                (uses, blocks.collect::<Vec<_>>())
            });
            ContentId::of(&told.collect::<Vec<_>>())
        })
    }

    /// All names of a kind that a file sees, made once.
    pub(crate) fn sight(&self, file: FileId, kind: BlockKind) -> Arc<Sight> {
        self.sights.get(file, space(kind), || {
            let used = self.source(file).uses.iter().map(|(used, _)| *used);
            let seen = std::iter::once(file)
                .chain(used)
                .filter(|file| !self.ships(*file));
            let own = seen.flat_map(|file| self.source(file).opened().names(kind));
            Sight::of(own.chain(self.shelf.names(kind)).cloned())
        })
    }
}

/// Whether blocks of a kind are most of what a notebook holds, and what people change most.
pub(crate) fn is_of_rigs(kind: BlockKind) -> bool {
    matches!(kind, BlockKind::Rig | BlockKind::Outing)
}

/// A block with the file that it stands in.
#[derive(Clone, Copy, Debug)]
pub struct BlockRef<'p> {
    /// Which one.
    pub id: BlockId,
    /// Its file.
    pub source: &'p Source,
    /// Where it starts in its text.
    pub start: u32,
    /// Its tree, with places that count from its start.
    pub block: &'p Block,
}

impl<'p> BlockRef<'p> {
    /// Its head; `None` for lines before any block.
    pub fn head(self) -> Option<&'p Head> {
        self.block.head.as_ref()?.form.head()
    }

    /// Its kind; lines before any block make a rig.
    pub fn kind(self) -> BlockKind {
        self.head().map_or(BlockKind::Rig, |head| head.kind)
    }

    fn line(self, line: &'p Line) -> LineRef<'p> {
        LineRef {
            file: self.id.file,
            source: self.source,
            start: self.start,
            line,
        }
    }

    /// The lines of its body.
    pub fn lines(self) -> impl Iterator<Item = LineRef<'p>> {
        self.block.body.iter().map(move |line| self.line(line))
    }

    /// The head line, where there is one.
    pub fn head_line(self) -> Option<LineRef<'p>> {
        Some(self.line(self.block.head.as_ref()?))
    }

    /// Where its name stands; of a block without head, its first line.
    pub fn name_place(self) -> Place {
        match (self.head_line(), self.head()) {
            (Some(line), Some(head)) => line.place(head.name.span),
            _ => {
                let first = self.lines().next();
                first.map_or(Place::new(self.source.file.text, Span::empty(0)), LineRef::whole)
            }
        }
    }

    /// Where its last line ends in its text, with what stands behind its words.
    pub fn end(self) -> u32 {
        let last = self.lines().last().or_else(|| self.head_line());
        let end = last.map_or(self.start, |line| line.whole().span.end);
        line_end(&self.source.text, end)
    }

    /// Its title for people.
    pub fn title(self) -> Option<&'p str> {
        let title = self.head()?.title?;
        self.head_line().map(|line| line.text(title))
    }
}

/// A line with the file that it stands in: names in it are looked up from there.
#[derive(Clone, Copy, Debug)]
pub struct LineRef<'p> {
    /// Its file.
    pub file: FileId,
    /// Its file's text and tree.
    pub source: &'p Source,
    /// Where its block starts in the text.
    pub start: u32,
    /// Its tree.
    pub line: &'p Line,
}

impl<'p> LineRef<'p> {
    /// The text that it stands in.
    pub fn text_id(self) -> TextId {
        self.source.file.text
    }

    /// Where it starts in the text.
    pub fn offset(self) -> u32 {
        self.start + self.line.offset
    }

    /// The place of a span of it; an empty one where its author left these words out.
    pub fn place(self, span: Span) -> Place {
        Place::new(self.text_id(), self.line.written(span).shifted(self.offset()))
    }

    /// The place of the whole line.
    pub fn whole(self) -> Place {
        Place::new(self.text_id(), self.line.span.shifted(self.offset()))
    }

    /// What a span of its tree says: as it is written, or of a line in its author's own way as the strict line has it.
    pub fn written(self, span: Span) -> &'p str {
        match &self.line.reading {
            Some(reading) => span.of(&reading.strict),
            None => span.shifted(self.offset()).of(&self.source.text),
        }
    }

    /// The whole line as its author wrote it, without its comment.
    pub fn as_written(self) -> &'p str {
        self.line.span.shifted(self.offset()).of(&self.source.text)
    }

    /// What it says behind its key, its words at most one space apart.
    pub fn behind_key(self) -> String {
        let mut said = String::new();
        let words = self
            .line
            .said_tokens()
            .iter()
            .skip_while(|token| token.kind == TokenKind::Space);
        for token in words.skip(1) {
            if token.kind == TokenKind::Space {
                said.push(' ');
            } else if !matches!(token.kind, TokenKind::Comment | TokenKind::Stop) {
                said.push_str(self.written(token.span));
            }
        }
        said.trim().to_owned()
    }

    /// A word as its writer spelled it.
    pub fn spelled(self, word: &Word) -> &'p str {
        self.written(word.span)
    }

    /// What stands between a text's quotes.
    pub fn text(self, text: Text) -> &'p str {
        self.written(text.inner)
    }
}
