//! A text cut into chunks: each block with all lines up to the next, and the
//! lines before the first.
//!
//! Within a chunk all places count from its start, so that it stays as it is
//! when the text before it changes. What a block means is not known here.

use super::super::walk::{each_expr, each_within};
use rustc_hash::FxHashSet;
use snell_finding::Finding;
use snell_syntax::{Block, BlockKind, ExprKind, File, Form, Line, Rest, Single, SingleKind, UseLine};
use snell_text::{Place, Span, TextId};
use std::sync::Arc;

/// A chunk's number, never given twice.
pub type ChunkId = u32;

/// A piece of a text with what was read of it.
#[derive(Debug)]
pub struct Chunk {
    /// Its number.
    pub id: ChunkId,
    /// Which of the files in the text it belongs to.
    pub file: usize,
    /// Its bytes in the text.
    pub span: Span,
    /// The block, its lines counted from the chunk's start; none for lines before any block.
    pub block: Option<Block>,
    /// Its `use` lines, counted from the chunk's start.
    pub uses: Vec<UseLine>,
    /// Its comments and broken lines, counted from the chunk's start.
    pub rest: Vec<Rest>,
    /// Faults of reading, their places counted from the chunk's start.
    pub findings: Vec<Finding>,
    /// Every word of the block that may be a name, its own and its base's among them.
    pub words: Vec<Arc<str>>,
    /// Whether a line of it is indented.
    pub indented: bool,
}

/// A block's kind, name and base.
pub struct Opening<'c> {
    /// Its kind.
    pub kind: BlockKind,
    /// Its name.
    pub name: &'c Arc<str>,
    /// The name of the block that it is made from.
    pub base: Option<&'c Arc<str>>,
}

impl Chunk {
    /// What opens its block.
    pub fn opening(&self) -> Option<Opening<'_>> {
        let line = self.block.as_ref()?.head.as_ref()?;
        match &*line.form {
            Form::Block(head) => Some(Opening {
                kind: head.kind,
                name: &head.name.folded,
                base: head.base.as_ref().map(|base| &base.folded),
            }),
            _ => None,
        }
    }

    /// Whether its block is a rig.
    pub fn is_rig(&self) -> bool {
        self.block.is_some()
            && self
                .opening()
                .is_none_or(|opening| opening.kind == BlockKind::Rig)
    }

    /// Whether its block is a rule or a rulebook.
    pub fn is_rule(&self) -> bool {
        let rule = |opening: Opening<'_>| matches!(opening.kind, BlockKind::Rule | BlockKind::Rulebook);
        self.opening().is_some_and(rule)
    }

    /// The block as it stands in the text.
    pub fn placed(&self) -> Option<Block> {
        let block = self.block.as_ref()?;
        Some(Block {
            offset: block.offset + self.span.start,
            head: block.head.as_ref().map(|line| self.line(line)),
            body: block.body.iter().map(|line| self.line(line)).collect(),
            broken: block.broken,
        })
    }

    /// The block without its lines, which gives its name and nothing else.
    pub fn stub(&self) -> Option<Block> {
        let block = self.block.as_ref()?;
        let head = block.head.as_ref()?;
        Some(Block {
            offset: block.offset + self.span.start,
            head: Some(self.line(head)),
            body: Vec::new(),
            broken: true,
        })
    }

    /// Its `use` lines as they stand in the text.
    pub fn placed_uses(&self) -> impl Iterator<Item = UseLine> {
        self.uses.iter().map(|used| UseLine {
            line: self.line(&used.line),
            path: used.path,
        })
    }

    /// Its comments and broken lines as they stand in the text.
    pub fn placed_rest(&self) -> impl Iterator<Item = Rest> {
        self.rest.iter().map(|line| Rest {
            offset: line.offset + self.span.start,
            tokens: Arc::clone(&line.tokens),
        })
    }

    /// A line as it stands in the text.
    fn line(&self, line: &Line) -> Line {
        Line {
            offset: line.offset + self.span.start,
            ..line.clone()
        }
    }
}

/// The chunks of one file of a text, numbered from `next` on. `passages` are its lines, as they were read.
pub fn cut(text: &str, number: usize, file: File, passages: &[Vec<Span>], next: &mut ChunkId) -> Vec<Chunk> {
    let mut chunks = Vec::with_capacity(file.blocks.len() + passages.len());
    let mut blocks = file.blocks.into_iter().peekable();
    for lines in passages {
        let (Some(first), Some(last)) = (lines.first(), lines.last()) else {
            continue;
        };
        let passage = Span::new(line_start(text, first.start), line_end(text, last.end));
        let mut from = passage.start;
        let mut open: Option<Block> = None;
        let mut push = |span: Span, block: Option<Block>| {
            if !span.is_empty() {
                chunks.push(Chunk {
                    id: *next,
                    file: number,
                    span,
                    words: block.as_ref().map(words).unwrap_or_default(),
                    block,
                    uses: Vec::new(),
                    rest: Vec::new(),
                    findings: Vec::new(),
                    indented: false,
                });
                *next += 1;
            }
        };
        while let Some(block) = blocks.next_if(|block| block.offset < passage.end) {
            let start = line_start(text, block.offset);
            // Lines before the first block that are of none belong to the block that they make.
            let of_first_line = block.body.first().is_some_and(|line| line.offset == block.offset);
            let own_start = block.head.is_some() || !of_first_line || open.is_some();
            if own_start {
                push(Span::new(from, start), open.take());
                from = start;
            }
            open = Some(block);
        }
        push(Span::new(from, passage.end), open);
    }
    for chunk in &mut chunks {
        if let Some(block) = &mut chunk.block {
            let start = chunk.span.start;
            block.offset -= start;
            let lines = block.head.iter_mut().chain(&mut block.body);
            lines.for_each(|line| line.offset -= start);
        }
    }
    for line in passages.iter().flatten() {
        if let Some(chunk) = holder(&mut chunks, line.start) {
            chunk.indented =
                chunk.indented || !snell_syntax::has_lost_indent(text, std::slice::from_ref(line));
        }
    }
    for mut used in file.uses {
        if let Some(chunk) = holder(&mut chunks, used.line.offset) {
            used.line.offset -= chunk.span.start;
            chunk.uses.push(used);
        }
    }
    for mut line in file.rest {
        if let Some(chunk) = holder(&mut chunks, line.offset) {
            line.offset -= chunk.span.start;
            chunk.rest.push(line);
        }
    }
    for mut finding in file.findings {
        if let Some(chunk) = holder(&mut chunks, finding.place().span.start) {
            let start = chunk.span.start;
            each_place(&mut finding, &mut |place| place.span = back(place.span, start));
            chunk.findings.push(finding);
        }
    }
    chunks
}

fn holder(chunks: &mut [Chunk], at: u32) -> Option<&mut Chunk> {
    let index = chunks
        .partition_point(|chunk| chunk.span.start <= at)
        .checked_sub(1)?;
    chunks.get_mut(index)
}

/// A span counted from a chunk's start.
pub fn back(span: Span, start: u32) -> Span {
    Span::new(span.start.saturating_sub(start), span.end.saturating_sub(start))
}

/// Each place of a finding and of its fixes.
pub fn each_place(finding: &mut Finding, change: &mut dyn FnMut(&mut Place)) {
    finding
        .labels
        .iter_mut()
        .for_each(|label| change(&mut label.place));
    for edit in finding.fixes.iter_mut().flat_map(|fix| &mut fix.edits) {
        change(&mut edit.place);
    }
}

fn line_start(text: &str, at: u32) -> u32 {
    let before = &text.as_bytes()[..at as usize];
    memchr::memrchr2(b'\n', b'\r', before).map_or(0, |end| end as u32 + 1)
}

/// The end of a line with its line end.
fn line_end(text: &str, at: u32) -> u32 {
    let bytes = text.as_bytes();
    let Some(length) = memchr::memchr2(b'\n', b'\r', &bytes[at as usize..]) else {
        return bytes.len() as u32;
    };
    let end = at as usize + length;
    let pair = bytes[end] == b'\r' && bytes.get(end + 1) == Some(&b'\n');
    end as u32 + if pair { 2 } else { 1 }
}

/// Every word of a block that may be a name: in its head, its values, also where a unit should be.
fn words(block: &Block) -> Vec<Arc<str>> {
    let mut found: FxHashSet<Arc<str>> = FxHashSet::default();
    for line in block.head.iter().chain(&block.body) {
        match &*line.form {
            Form::Block(head) => {
                found.insert(head.name.folded.clone());
                found.extend(head.base.as_ref().map(|base| base.folded.clone()));
            }
            Form::Change(change) => _ = found.insert(change.target.name.folded.clone()),
            Form::Bind(bind) => _ = found.insert(bind.name.folded.clone()),
            _ => {}
        }
        each_expr(&line.form, &mut |_, expr| {
            each_within(expr, &mut |inner| match &inner.kind {
                ExprKind::Path(words) => found.extend(words.iter().map(|word| word.folded.clone())),
                ExprKind::Call(word, _) => _ = found.insert(word.folded.clone()),
                ExprKind::Single(single) => unit(single, &mut found),
                ExprKind::Spread(low, high) => {
                    unit(low, &mut found);
                    unit(high, &mut found);
                }
                _ => {}
            });
        });
    }
    found.into_iter().collect()
}

fn unit(single: &Single, found: &mut FxHashSet<Arc<str>>) {
    if let SingleKind::Number(_, Some(unit)) = &single.kind
        && snell_units::resolve(&unit.plain).is_err()
    {
        found.insert(Arc::from(unit.plain.to_lowercase()));
    }
}

/// The places of a text's chunks are told as of a text of their own.
const CHUNKS: u32 = 1 << 30;

/// A text that has been cut into more, all its states taken together, is to be read anew: numbers run out.
pub const MOST_CHUNKS: ChunkId = CHUNKS - (1 << 20);

/// The text that stands for a chunk.
pub fn text_of(id: ChunkId) -> TextId {
    TextId(CHUNKS + id)
}

/// The chunk that a text stands for.
pub fn chunk_of(text: TextId) -> Option<ChunkId> {
    // Texts that ship are numbered from the top down.
    (CHUNKS..CHUNKS * 2).contains(&text.0).then(|| text.0 - CHUNKS)
}
