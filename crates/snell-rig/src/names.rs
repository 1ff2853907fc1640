//! Which block a name means, seen from the file in which it is written.

use crate::project::{BlockId, BlockRef, ContentId, FileId, Placed, Project, is_of_rigs};
use rustc_hash::FxHashMap;
use snell_finding::Finding;
use snell_syntax::BlockKind;
use snell_units::Spellings;
use std::sync::{Arc, Mutex, PoisonError};

/// The blocks that a file defines, by kind and name.
#[derive(Debug, Default)]
pub(crate) struct Opened {
    by_kind: [FxHashMap<Arc<str>, u32>; BlockKind::ALL.len()],
    /// Blocks whose name another one before them has, each with that one.
    twice: Vec<(u32, u32)>,
}

impl Opened {
    /// Of some blocks; of two with one name the first stands.
    pub(crate) fn of(blocks: &[Placed]) -> Self {
        let mut opened = Self::default();
        for (index, placed) in blocks.iter().enumerate() {
            let Some((kind, name)) = &placed.block.opens else {
                continue;
            };
            let names = &mut opened.by_kind[space(*kind) as usize];
            match names.get(name) {
                Some(first) => opened.twice.push((index as u32, *first)),
                None => _ = names.insert(name.clone(), index as u32),
            }
        }
        opened
    }

    pub(crate) fn get(&self, kind: BlockKind, name: &str) -> Option<u32> {
        self.by_kind[space(kind) as usize].get(name).copied()
    }

    /// The names of a kind.
    pub(crate) fn names(&self, kind: BlockKind) -> impl Iterator<Item = &Arc<str>> {
        self.by_kind[space(kind) as usize].keys()
    }

    /// The block before this one that has its name.
    fn first(&self, index: u32) -> Option<u32> {
        let at = self
            .twice
            .binary_search_by_key(&index, |(second, _)| *second)
            .ok()?;
        Some(self.twice[at].1)
    }
}

/// What a name was found to mean.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Found {
    /// One block.
    Block(BlockId),
    /// Two used files both define it.
    Ambiguous(BlockId, BlockId),
    /// No block in sight.
    Missing,
}

/// Rules and rulebooks share one name space.
pub(crate) fn space(kind: BlockKind) -> BlockKind {
    match kind {
        BlockKind::Rulebook => BlockKind::Rule,
        other => other,
    }
}

/// Something that was looked up: what came of a block hangs on nothing but its own lines and the answers to
/// these.
#[derive(Clone, PartialEq, Eq, Hash, Debug)]
pub enum Lookup {
    /// What a name means in a file.
    Name(FileId, BlockKind, Arc<str>),
    /// What it means outside of that file.
    Outside(FileId, BlockKind, Arc<str>),
    /// Every name of a kind that a file sees.
    Names(FileId, BlockKind),
}

impl Lookup {
    /// Whether its answer may change with a rig or an outing.
    pub fn is_of_rigs(&self) -> bool {
        let (Self::Name(_, kind, _) | Self::Outside(_, kind, _) | Self::Names(_, kind)) = self;
        is_of_rigs(*kind)
    }
}

/// The answer to a [`Lookup`], equal where it says the same.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Answer {
    /// A block, and the file that names in it are looked up from.
    Block(FileId, ContentId),
    /// Two blocks.
    Ambiguous([(FileId, ContentId); 2]),
    /// Nothing.
    Missing,
    /// A set of names.
    Names(ContentId),
    /// There is no such file any more.
    NoFile,
}

impl Project {
    /// What `name` means in `file`: its own blocks, then those of the files it uses, then the shipped ones.
    pub fn find(&self, file: FileId, kind: BlockKind, name: &str) -> Found {
        match self.source(file).opened().get(kind, name) {
            Some(index) if !self.ships(file) => Found::Block(BlockId { file, index }),
            _ => self.find_outside(file, kind, name),
        }
    }

    /// The same, passing over the file itself.
    pub fn find_outside(&self, file: FileId, kind: BlockKind, name: &str) -> Found {
        let of = |file: FileId| {
            let index = self.source(file).opened().get(kind, name)?;
            Some(BlockId { file, index })
        };
        let uses = &self.source(file).uses;
        let mut used = uses.iter().filter_map(|(used, _)| of(*used));
        match (used.next(), self.shelf().find(kind, name)) {
            (Some(first), _) => match used.find(|other| *other != first) {
                Some(second) => Found::Ambiguous(first, second),
                None => Found::Block(first),
            },
            (None, Some(shipped)) => Found::Block(shipped),
            (None, None) => Found::Missing,
        }
    }

    /// Looks something up again; also the blocks that the answer speaks of.
    pub fn look_up(&self, lookup: &Lookup) -> (Answer, [Option<BlockId>; 2]) {
        let (Lookup::Name(file, ..) | Lookup::Outside(file, ..) | Lookup::Names(file, _)) = lookup;
        if *file >= self.next() {
            return (Answer::NoFile, [None; 2]);
        }
        let found = match lookup {
            Lookup::Name(file, kind, name) => self.find(*file, *kind, name),
            Lookup::Outside(file, kind, name) => self.find_outside(*file, *kind, name),
            Lookup::Names(file, kind) => return (Answer::Names(self.sight(*file, *kind).sum), [None; 2]),
        };
        let content = |id: BlockId| (id.file, self.placed(id).block.content);
        match found {
            Found::Block(id) => {
                let (file, content) = content(id);
                (Answer::Block(file, content), [Some(id), None])
            }
            Found::Ambiguous(one, other) => (
                Answer::Ambiguous([content(one), content(other)]),
                [Some(one), Some(other)],
            ),
            Found::Missing => (Answer::Missing, [None; 2]),
        }
    }

    /// That a block has the name of one before it in its file.
    pub(crate) fn named_twice(&self, block: BlockRef<'_>) -> Option<Finding> {
        let index = block.source.opened().first(block.id.index)?;
        let first = BlockId {
            file: block.id.file,
            index,
        };
        Some(twice(block, self.block(first)))
    }
}

/// Every name of a kind that a file sees.
#[derive(Debug)]
pub(crate) struct Sight {
    /// Sorted, each once.
    pub(crate) names: Vec<Arc<str>>,
    /// Tells sets of names apart.
    pub(crate) sum: ContentId,
    /// The same, to find the one that a misspelt word was meant to be.
    pub(crate) spellings: Spellings,
}

impl Sight {
    fn of(project: &Project, file: FileId, kind: BlockKind) -> Self {
        let used = project.source(file).uses.iter().map(|(used, _)| *used);
        let seen = std::iter::once(file)
            .chain(used)
            .filter(|file| !project.ships(*file));
        let own = seen.flat_map(|file| project.source(file).opened().names(kind));
        let shipped = project.shelf().names(kind);
        let mut names: Vec<Arc<str>> = own.chain(shipped).cloned().collect();
        names.sort_unstable();
        names.dedup();
        Self {
            spellings: names.iter().map(|name| &**name).collect(),
            sum: ContentId::of(&names),
            names,
        }
    }
}

/// The sights of a project, each made when it is first asked for.
#[derive(Debug, Default)]
pub(crate) struct Sights(Mutex<FxHashMap<(FileId, BlockKind), Arc<Sight>>>);

impl Clone for Sights {
    /// A project is cloned to be changed, and then its sights are others.
    fn clone(&self) -> Self {
        Self::default()
    }
}

impl Sights {
    pub(crate) fn of(&self, project: &Project, file: FileId, kind: BlockKind) -> Arc<Sight> {
        // A thread that panicked leaves whole sights behind.
        let mut known = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        let sight = known
            .entry((file, space(kind)))
            .or_insert_with(|| Arc::new(Sight::of(project, file, kind)));
        sight.clone()
    }
}

fn twice(block: BlockRef<'_>, first: BlockRef<'_>) -> Finding {
    let word = block.head().map_or("", |head| head.kind.word());
    let name = block.head().map_or("", |head| &*head.name.folded);
    Finding::fault(
        "name-twice",
        block.name_place(),
        format!("this file has two of the {word} `{name}`"),
    )
    .here("the second")
    .label(first.name_place(), "the first, which stands")
    .help(format!(
        "give one of them another name, or make it `{word} NEW-NAME from {name}`"
    ))
}
