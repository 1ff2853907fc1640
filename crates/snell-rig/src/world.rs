//! The blocks that a rig stands on: names looked up, and blocks read when they
//! are first needed.

use crate::blocks::{self, Read, lineage};
use crate::faults::Faults;
use crate::names::{Found, Lookup, Names};
use crate::project::{BlockId, BlockRef, FileId, Project};
use crate::shelf;
use snell_finding::Finding;
use snell_syntax::BlockKind;
use std::sync::{Arc, LazyLock, OnceLock};

/// A project whose blocks are read by need.
#[derive(Debug)]
pub struct World<'p> {
    /// The project.
    pub project: &'p Project,
    /// Its blocks by name.
    pub names: Names<'p>,
    read: Arc<Files<'p>>,
}

/// The blocks of each file that does not ship, as far as they are read.
type Files<'p> = Vec<OnceLock<Box<[OnceLock<Known<'p>>]>>>;

/// A block as it was read, what is wrong with it, and what it was read by.
#[derive(Debug)]
struct Known<'p> {
    read: Read<'p>,
    findings: Vec<Finding>,
    by: Vec<Lookup>,
}

/// A block of the pages that ship, as it reads in every project: they see nothing but each other. What other pages
/// hold is read elsewhere.
fn shipped(id: BlockId) -> &'static Read<'static> {
    static PROJECT: LazyLock<Project> = LazyLock::new(Project::default);
    static READ: LazyLock<Vec<Vec<OnceLock<Read<'static>>>>> = LazyLock::new(|| {
        let sources = shelf::own().sources.iter();
        let empty = sources.map(|source| source.file.blocks.iter().map(|_| OnceLock::new()).collect());
        empty.collect()
    });
    let Some(blocks) = READ.get(id.file.0 as usize) else {
        return &Read::Elsewhere;
    };
    blocks[id.index as usize]
        .get_or_init(|| blocks::read(&Names::new(&PROJECT), PROJECT.block(id), &Faults::default()))
}

impl<'p> World<'p> {
    /// A world of which nothing is read yet.
    pub fn new(project: &'p Project) -> Self {
        let files = project.own_files().map(|_| OnceLock::new());
        Self {
            project,
            names: Names::new(project),
            read: Arc::new(files.collect()),
        }
    }

    /// The same world, which notes what is looked up in it from here on.
    #[must_use]
    pub fn noting(&self) -> Self {
        Self {
            project: self.project,
            names: self.names.noting(),
            read: self.read.clone(),
        }
    }

    /// What was looked up in a world that notes it.
    pub fn noted(self) -> Vec<Lookup> {
        self.names.noted()
    }

    /// Notes what an answer hangs on that was kept from before.
    pub fn note(&self, lookups: &[Lookup]) {
        self.names.note(lookups);
    }

    /// What a name means in a file.
    pub fn find(&self, file: FileId, kind: BlockKind, name: &Arc<str>) -> Found {
        self.names.find(file, kind, name)
    }

    /// A shipped block.
    pub fn shipped(&self, kind: BlockKind, name: &str) -> Option<BlockId> {
        self.names.shipped(kind, name)
    }

    /// Every name of a kind that a file sees, sorted.
    pub fn visible(&self, file: FileId, kind: BlockKind) -> Vec<Arc<str>> {
        self.names.visible(file, kind)
    }

    /// A block as it was read.
    pub fn read(&self, id: BlockId) -> &Read<'p> {
        if self.project.ships(id.file) {
            return shipped(id);
        }
        let known = self.known(id);
        self.note(&known.by);
        &known.read
    }

    /// What is wrong with the lines of a block that is no rig.
    pub fn findings(&self, id: BlockId) -> &[Finding] {
        if self.project.ships(id.file) {
            return &[];
        }
        let known = self.known(id);
        self.note(&known.by);
        &known.findings
    }

    fn known(&self, id: BlockId) -> &Known<'p> {
        let first = self.project.next().0 as usize - self.read.len();
        let blocks = self.read[id.file.0 as usize - first].get_or_init(|| {
            let count = self.project.source(id.file).file.blocks.len();
            (0..count).map(|_| OnceLock::new()).collect()
        });
        blocks[id.index as usize].get_or_init(|| {
            let (names, faults) = (self.names.noting(), Faults::default());
            let read = blocks::read(&names, self.project.block(id), &faults);
            Known {
                read,
                findings: faults.into_inner(),
                by: names.noted(),
            }
        })
    }

    /// A block's name as it is compared.
    pub fn name(&self, id: BlockId) -> &'p str {
        self.names.name(id)
    }

    /// A block's name, and those of the blocks that it is made from: a material made from `fluoro` is one.
    pub fn names_along(&self, id: BlockId) -> impl Iterator<Item = &'p str> {
        let block = self.project.block(id);
        let made = block.head().is_some_and(|head| head.base.is_some());
        let bases = if made {
            lineage(&self.names, block).unwrap_or_default()
        } else {
            Vec::new()
        };
        let own = self.name(id);
        let names = bases
            .into_iter()
            .filter_map(|base| Some(&*base.head()?.name.folded));
        std::iter::once(own).chain(names.filter(move |name| *name != own))
    }

    /// That a block has the name of one before it in its file.
    pub fn named_twice(&self, block: BlockRef<'_>) -> Option<Finding> {
        self.names.named_twice(block)
    }

    /// That a block stands before a shipped one without being made from it.
    pub fn replaces(&self, block: BlockRef<'_>) -> Option<Finding> {
        self.names.replaces(block)
    }
}
