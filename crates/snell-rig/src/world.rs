//! All blocks of a project by name, read once: the ground that rigs stand on.

use crate::blocks::{self, Read, lineage};
use crate::faults::Faults;
use crate::names::{Found, Names};
use crate::project::{BlockId, FileId, Project};
use snell_finding::Finding;
use snell_syntax::BlockKind;
use std::sync::{Arc, LazyLock};

/// A project with its names looked up and its blocks read.
#[derive(Debug)]
pub struct World<'p> {
    /// The project.
    pub project: &'p Project,
    /// Its blocks by name.
    pub names: Names<'p>,
    /// The blocks of the files on the shelf, which are read once a process.
    shelf: &'p [Vec<Read<'p>>],
    /// The blocks of each file behind those.
    read: Vec<Vec<Read<'p>>>,
}

/// The blocks of the shipped files, each as it reads in every project: they see nothing but each other.
fn shelf() -> &'static [Vec<Read<'static>>] {
    static PROJECT: LazyLock<Project> = LazyLock::new(Project::default);
    static READ: LazyLock<Vec<Vec<Read<'static>>>> = LazyLock::new(|| World::behind(&[], &PROJECT).0.read);
    &READ
}

impl<'p> World<'p> {
    /// Reads every block but rigs; the findings are those of names and of these blocks.
    pub fn new(project: &'p Project) -> (Self, Vec<Finding>) {
        Self::behind(shelf(), project)
    }

    fn behind(shelf: &'p [Vec<Read<'p>>], project: &'p Project) -> (Self, Vec<Finding>) {
        let (names, mut findings) = Names::collect(project);
        let faults = Faults::default();
        let read = project.files().skip(shelf.len()).map(|file| {
            let blocks = project.blocks(file);
            blocks.map(|block| blocks::read(&names, block, &faults)).collect()
        });
        let read = read.collect();
        findings.extend(faults.into_inner());
        findings.extend(names.replaced());
        let world = Self {
            project,
            names,
            shelf,
            read,
        };
        (world, findings)
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
    pub fn visible(&self, file: FileId, kind: BlockKind) -> Vec<String> {
        self.names.visible(file, kind)
    }

    /// A block as it was read.
    pub fn read(&self, id: BlockId) -> &Read<'p> {
        let (file, block) = (id.file.0 as usize, id.index as usize);
        match self.shelf.get(file) {
            Some(blocks) => &blocks[block],
            None => &self.read[file - self.shelf.len()][block],
        }
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
}
