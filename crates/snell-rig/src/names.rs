//! Which block a name means, seen from the file in which it is written.

use crate::project::{BlockId, BlockRef, FileId, Project};
use rustc_hash::FxHashMap;
use snell_finding::{Code, Finding};
use snell_syntax::BlockKind;
use std::sync::Arc;

/// The blocks of every file by kind and name.
#[derive(Debug, Default)]
pub struct Names {
    files: Vec<FxHashMap<(BlockKind, Arc<str>), BlockId>>,
    shipped: FxHashMap<(BlockKind, Arc<str>), BlockId>,
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
fn space(kind: BlockKind) -> BlockKind {
    if kind == BlockKind::Rulebook {
        BlockKind::Rule
    } else {
        kind
    }
}

impl Names {
    /// Collects the names of a project; a name twice in one file is a fault, and the first stands.
    pub fn collect(project: &Project) -> (Self, Vec<Finding>) {
        let mut names = Self::default();
        let mut findings = Vec::new();
        for file in project.files() {
            let mut own: FxHashMap<_, BlockId> = FxHashMap::default();
            for block in project.blocks(file) {
                let Some(head) = block.head() else { continue };
                let key = (space(head.kind), head.name.folded.clone());
                if let Some(first) = own.get(&key) {
                    findings.push(twice(block, project.block(*first)));
                } else {
                    own.insert(key, block.id);
                }
            }
            if project.ships(file) {
                names.shipped.extend(own);
                names.files.push(FxHashMap::default());
            } else {
                names.files.push(own);
            }
        }
        (names, findings)
    }

    /// What `name` means in `file`: its own blocks, then those of the files it uses, then the shipped ones.
    pub fn find(&self, project: &Project, file: FileId, kind: BlockKind, name: &Arc<str>) -> Found {
        let key = (space(kind), name.clone());
        match self.files[file.0 as usize].get(&key) {
            Some(block) => Found::Block(*block),
            None => self.find_outside(project, file, &key),
        }
    }

    /// The next block out that has the name of `block` itself.
    pub fn find_next_out(&self, project: &Project, block: BlockRef<'_>) -> Found {
        let Some(head) = block.head() else {
            return Found::Missing;
        };
        let key = (space(head.kind), head.name.folded.clone());
        self.find_outside(project, block.id.file, &key)
    }

    fn find_outside(&self, project: &Project, file: FileId, key: &(BlockKind, Arc<str>)) -> Found {
        let uses = &project.source(file).uses;
        let mut used = uses
            .iter()
            .filter_map(|(used, _)| self.files[used.0 as usize].get(key));
        match (used.next(), self.shipped.get(key)) {
            (Some(first), _) => match used.find(|other| *other != first) {
                Some(second) => Found::Ambiguous(*first, *second),
                None => Found::Block(*first),
            },
            (None, Some(shipped)) => Found::Block(*shipped),
            (None, None) => Found::Missing,
        }
    }

    /// Every name of a kind that `file` sees, nearest first.
    pub fn visible<'n>(
        &'n self,
        project: &'n Project,
        file: FileId,
        kind: BlockKind,
    ) -> impl Iterator<Item = &'n str> {
        let own = std::iter::once(&self.files[file.0 as usize]);
        let used = project
            .source(file)
            .uses
            .iter()
            .map(|(used, _)| &self.files[used.0 as usize]);
        own.chain(used)
            .chain(std::iter::once(&self.shipped))
            .flat_map(|names| names.keys())
            .filter(move |(space_of, _)| *space_of == space(kind))
            .map(|(_, name)| &**name)
    }

    /// The shipped block of a kind and name, if there is one.
    pub fn shipped(&self, kind: BlockKind, name: &Arc<str>) -> Option<BlockId> {
        self.shipped.get(&(space(kind), name.clone())).copied()
    }
}

fn twice(block: BlockRef<'_>, first: BlockRef<'_>) -> Finding {
    let word = block.head().map_or("", |head| head.kind.word());
    let name = block.head().map_or("", |head| &*head.name.folded);
    Finding::fault(
        Code::NameTwice,
        block.name_place(),
        format!("this file has two of the {word} `{name}`"),
    )
    .here("the second")
    .label(first.name_place(), "the first, which stands")
    .help(format!(
        "give one of them another name, or make it `{word} NEW-NAME from {name}`"
    ))
}
