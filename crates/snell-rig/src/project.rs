//! The files of one evaluation: their texts, their trees, and which uses which.
//!
//! Where a file comes from and how a `use` path was resolved is the caller's
//! business; here a file is a number.

use snell_syntax::{Block, Head, Line, Text, Word};
use snell_text::{Place, Span, TextId};
use std::sync::Arc;

/// A file of a [`Project`].
#[derive(Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Debug)]
pub struct FileId(pub u32);

/// A block of a [`Project`].
#[derive(Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Debug)]
pub struct BlockId {
    /// The file that it is written in.
    pub file: FileId,
    /// Its place in that file's order.
    pub index: u32,
}

/// One file as it was read.
#[derive(Debug)]
pub struct Source {
    /// The name that a rig without a head gets: the file's own, without its ending.
    pub name: String,
    /// The text that the tree's spans lie in.
    pub text: Arc<str>,
    /// What was read of it.
    pub file: snell_syntax::File,
    /// The files that it uses, each with the `use` line's place in `file.uses`.
    pub uses: Vec<(FileId, usize)>,
}

/// All files of one evaluation. The shipped ones come first.
#[derive(Debug, Clone)]
pub struct Project {
    sources: Vec<Arc<Source>>,
    shipped: u32,
}

impl Default for Project {
    fn default() -> Self {
        Self::with_shipped(&[])
    }
}

impl Project {
    /// A project with further shipped files behind those of the shelf.
    pub fn with_shipped(more: &[Arc<Source>]) -> Self {
        let mut sources = crate::shelf::sources();
        sources.extend_from_slice(more);
        let shipped = sources.len() as u32;
        Self { sources, shipped }
    }

    /// Adds a file that other projects have, too. The numbers of its `uses` must be right in this one.
    pub fn add_shared(&mut self, source: Arc<Source>) -> FileId {
        self.sources.push(source);
        FileId(self.sources.len() as u32 - 1)
    }

    /// A file, to be shared with other projects.
    pub fn shared(&self, file: FileId) -> Arc<Source> {
        self.sources[file.0 as usize].clone()
    }

    /// Adds a file. Its `uses` may name files that are added later.
    pub fn add(&mut self, source: Source) -> FileId {
        self.sources.push(Arc::new(source));
        FileId(self.sources.len() as u32 - 1)
    }

    /// Number the next file added will get.
    pub fn next(&self) -> FileId {
        FileId(self.sources.len() as u32)
    }

    /// A file.
    pub fn source(&self, file: FileId) -> &Source {
        &self.sources[file.0 as usize]
    }

    /// Every file, shipped ones first.
    pub fn files(&self) -> impl Iterator<Item = FileId> + use<> {
        (0..self.sources.len() as u32).map(FileId)
    }

    /// Whether a file is one of those that ship.
    pub fn ships(&self, file: FileId) -> bool {
        file.0 < self.shipped
    }

    /// A block.
    pub fn block(&self, id: BlockId) -> BlockRef<'_> {
        let source = self.source(id.file);
        BlockRef {
            id,
            source,
            block: &source.file.blocks[id.index as usize],
        }
    }

    /// Every block of a file in order.
    pub fn blocks(&self, file: FileId) -> impl Iterator<Item = BlockRef<'_>> {
        let count = self.source(file).file.blocks.len() as u32;
        (0..count).map(move |index| self.block(BlockId { file, index }))
    }
}

/// A block with the file that it stands in.
#[derive(Clone, Copy, Debug)]
pub struct BlockRef<'p> {
    /// Which one.
    pub id: BlockId,
    /// Its file.
    pub source: &'p Source,
    /// Its tree.
    pub block: &'p Block,
}

impl<'p> BlockRef<'p> {
    /// Its head; `None` for lines before any block.
    pub fn head(self) -> Option<&'p Head> {
        match self.block.head.as_ref().map(|line| &*line.form) {
            Some(snell_syntax::Form::Block(head)) => Some(head),
            _ => None,
        }
    }

    /// The lines of its body.
    pub fn lines(self) -> impl Iterator<Item = LineRef<'p>> {
        self.block.body.iter().map(move |line| LineRef {
            file: self.id.file,
            source: self.source,
            line,
        })
    }

    /// The head line, where there is one.
    pub fn head_line(self) -> Option<LineRef<'p>> {
        let line = self.block.head.as_ref()?;
        Some(LineRef {
            file: self.id.file,
            source: self.source,
            line,
        })
    }

    /// Where its name stands; of a block without head, its first line.
    pub fn name_place(self) -> Place {
        let text = self.source.file.text;
        match (&self.block.head, self.head()) {
            (Some(line), Some(head)) => line.place(text, head.name.span),
            _ => {
                let first = self.block.body.first();
                first.map_or(Place::new(text, Span::empty(0)), |line| {
                    line.place(text, line.span)
                })
            }
        }
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
    /// Its tree.
    pub line: &'p Line,
}

impl<'p> LineRef<'p> {
    /// The text that it stands in.
    pub fn text_id(self) -> TextId {
        self.source.file.text
    }

    /// The place of a span of it.
    pub fn place(self, span: Span) -> Place {
        self.line.place(self.text_id(), span)
    }

    /// The place of the whole line.
    pub fn whole(self) -> Place {
        self.place(self.line.span)
    }

    /// What is written at a span of it.
    pub fn written(self, span: Span) -> &'p str {
        span.shifted(self.line.offset).of(&self.source.text)
    }

    /// What it says behind its key, its words at most one space apart.
    pub fn behind_key(self) -> String {
        self.line.behind_key(&self.source.text)
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
