//! What blocks say, told apart by their content, so that projects share those
//! that are the same. A block's places count from its own start: it is the same
//! however much text stands above it.

use snell_finding::Finding;
use snell_syntax::{Block, BlockKind, Reader, Rest, UseLine};
use snell_text::{Span, TextId};
use std::hash::{BuildHasher, Hash, Hasher, RandomState};
use std::mem::discriminant;
use std::sync::{Arc, LazyLock, Mutex, OnceLock, PoisonError};

/// What a block says and how it was read, told apart from every other by 128 bits.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct ContentId([u64; 2]);

impl ContentId {
    pub(crate) fn of(what: &impl Hash) -> Self {
        static KEYS: LazyLock<[RandomState; 2]> = LazyLock::new(Default::default);
        Self([KEYS[0].hash_one(what), KEYS[1].hash_one(what)])
    }
}

/// A block that projects share. Those that ship are read when they are first looked at.
#[derive(Debug)]
pub struct SharedBlock {
    /// What it says.
    pub content: ContentId,
    /// Its kind and its name as it is compared; none without a head.
    pub opens: Option<(BlockKind, Arc<str>)>,
    tree: OnceLock<Block>,
    unread: Option<Unread>,
}

/// The lines of a page that ships, not read yet.
#[derive(Debug)]
struct Unread {
    page: &'static str,
    lines: Vec<Span>,
}

impl SharedBlock {
    /// A block of a text that was read, and where it starts there.
    pub fn new(text: &str, mut tree: Block) -> (u32, Self) {
        let start = line_start(text, tree.offset);
        tree.offset -= start;
        for line in tree.head.iter_mut().chain(&mut tree.body) {
            line.offset -= start;
        }
        let head = tree.head.as_ref().and_then(|line| line.form.head());
        let opens = head.map(|head| (head.kind, head.name.folded.clone()));
        let content = ContentId::of(&Written {
            text,
            start,
            tree: &tree,
        });
        let block = Self {
            content,
            opens,
            tree: tree.into(),
            unread: None,
        };
        (start, block)
    }

    /// A block that ships, by the lines of its page; its places count from the page's start.
    pub(crate) fn shipped(page: &'static str, opens: (BlockKind, Arc<str>), lines: Vec<Span>) -> Self {
        Self {
            content: ContentId::of(&opens),
            opens: Some(opens),
            tree: OnceLock::new(),
            unread: Some(Unread { page, lines }),
        }
    }

    /// How many lines are in its body.
    pub fn lines(&self) -> usize {
        self.tree().body.len()
    }

    pub(crate) fn tree(&self) -> &Block {
        self.tree.get_or_init(|| {
            self.unread
                .as_ref()
                .and_then(Unread::read)
                .unwrap_or_else(nothing)
        })
    }
}

/// A block in which nothing stands.
fn nothing() -> Block {
    Block {
        offset: 0,
        head: None,
        body: Vec::new(),
        broken: true,
    }
}

impl Unread {
    /// The one block that stands in the lines.
    fn read(&self) -> Option<Block> {
        // One reader for all: many lines of what ships are alike.
        static READER: LazyLock<Mutex<Reader>> = LazyLock::new(Mutex::default);
        let mut reader = READER.lock().unwrap_or_else(PoisonError::into_inner);
        let file = reader.read(self.page, TextId::default(), std::slice::from_ref(&self.lines));
        file.blocks.into_iter().next()
    }
}

/// A block as it is told apart from others: its lines, and how each was read. The same line may be read otherwise
/// where a text has lost its indent.
struct Written<'t> {
    text: &'t str,
    start: u32,
    tree: &'t Block,
}

impl Hash for Written<'_> {
    fn hash<H: Hasher>(&self, state: &mut H) {
        let mut end = self.start + self.tree.offset;
        for line in self.tree.head.iter().chain(&self.tree.body) {
            end = end.max(self.start + line.offset + line.span.end);
            (line.offset, discriminant(&*line.form)).hash(state);
        }
        (self.tree.broken, self.tree.head.is_some()).hash(state);
        Span::new(self.start, line_end(self.text, end))
            .of(self.text)
            .hash(state);
    }
}

fn line_start(text: &str, at: u32) -> u32 {
    let before = &text.as_bytes()[..at as usize];
    before
        .iter()
        .rposition(|byte| matches!(byte, b'\n' | b'\r'))
        .map_or(0, |end| end as u32 + 1)
}

pub(crate) fn line_end(text: &str, at: u32) -> u32 {
    let bytes = text.as_bytes();
    let length = bytes[at as usize..]
        .iter()
        .position(|byte| matches!(byte, b'\n' | b'\r'));
    length.map_or(bytes.len() as u32, |length| at + length as u32)
}

/// A block where it stands in a text.
#[derive(Clone, Debug)]
pub struct Placed {
    /// Where it starts in the text.
    pub start: u32,
    /// The block; its places count from there.
    pub block: Arc<SharedBlock>,
}

/// What was read of one file.
#[derive(Debug, Default)]
pub struct File {
    /// The text that its places lie in.
    pub text: TextId,
    /// `use` lines.
    pub uses: Vec<UseLine>,
    /// Its blocks in order.
    pub blocks: Vec<Placed>,
    /// Its comments and broken lines.
    pub rest: Vec<Rest>,
    /// Faults of reading.
    pub findings: Vec<Finding>,
}

impl File {
    /// What was read of a text.
    pub fn new(text: &str, read: snell_syntax::File) -> Self {
        let placed = |tree| {
            let (start, block) = SharedBlock::new(text, tree);
            Placed {
                start,
                block: Arc::new(block),
            }
        };
        Self {
            text: read.text,
            uses: read.uses,
            blocks: read.blocks.into_iter().map(placed).collect(),
            rest: read.rest,
            findings: read.findings,
        }
    }
}
