//! All blocks of a project by name, read once: the ground that rigs stand on.

use crate::blocks::{self, Read};
use crate::names::{Found, Names};
use crate::project::{BlockId, BlockRef, FileId, LineRef, Project};
use crate::shelf;
use crate::value::Faults;
use snell_finding::{Code, Finding, Fix};
use snell_syntax::BlockKind;
use snell_text::Place;
use std::sync::Arc;

/// A project with its names looked up and its blocks read.
#[derive(Debug)]
pub struct World<'p> {
    /// The project.
    pub project: &'p Project,
    names: Names,
    /// The blocks of the files on the shelf, which are read once a process.
    shelf: &'p [Vec<Read<'p>>],
    /// The blocks of each file behind those.
    read: Vec<Vec<Read<'p>>>,
}

impl<'p> World<'p> {
    /// Reads every block but rigs; the findings are those of names and of these blocks.
    pub fn new(project: &'p Project) -> (Self, Vec<Finding>) {
        Self::behind(shelf::read(), project)
    }

    /// The shelf itself, block by block.
    pub(crate) fn of_shelf(project: &'p Project) -> Vec<Vec<Read<'p>>> {
        Self::behind(&[], project).0.read
    }

    fn behind(shelf: &'p [Vec<Read<'p>>], project: &'p Project) -> (Self, Vec<Finding>) {
        let (names, mut findings) = Names::collect(project);
        let mut world = Self {
            project,
            names,
            shelf,
            read: Vec::new(),
        };
        let faults = Faults::default();
        let read = project.files().skip(shelf.len()).map(|file| {
            let blocks = project.blocks(file);
            blocks.map(|block| blocks::read(&world, block, &faults)).collect()
        });
        world.read = read.collect();
        findings.extend(faults.into_inner());
        findings.extend(world.replaced());
        (world, findings)
    }

    /// What a name means in a file.
    pub fn find(&self, file: FileId, kind: BlockKind, name: &Arc<str>) -> Found {
        self.names.find(self.project, file, kind, name)
    }

    /// What a block's own name means, seen from outside its file.
    pub fn find_next_out(&self, block: BlockRef<'_>) -> Found {
        self.names.find_next_out(self.project, block)
    }

    /// A shipped block.
    pub fn shipped(&self, kind: BlockKind, name: &str) -> Option<BlockId> {
        self.names.shipped(kind, &Arc::from(name))
    }

    /// Every name of a kind that a file sees, sorted.
    pub fn visible(&self, file: FileId, kind: BlockKind) -> Vec<String> {
        let mut names: Vec<String> = self
            .names
            .visible(self.project, file, kind)
            .map(str::to_owned)
            .collect();
        names.sort_unstable();
        names.dedup();
        names
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
        self.project.block(id).head().map_or("", |head| &head.name.folded)
    }

    /// A block's name, and those of the blocks that it is made from: a material made from `fluoro` is one.
    pub fn names_along(&self, id: BlockId) -> impl Iterator<Item = &'p str> {
        let block = self.project.block(id);
        let made = block.head().is_some_and(|head| head.base.is_some());
        let bases = if made {
            blocks::chain(self, block).unwrap_or_default()
        } else {
            Vec::new()
        };
        let own = self.name(id);
        let names = bases
            .into_iter()
            .filter_map(|base| Some(&*base.head()?.name.folded));
        std::iter::once(own).chain(names.filter(move |name| *name != own))
    }

    /// Two used files define the same name.
    pub fn ambiguous(
        &self,
        line: LineRef<'_>,
        place: Place,
        kind: BlockKind,
        word: &snell_syntax::Word,
        first: BlockId,
        second: BlockId,
    ) -> Box<Finding> {
        let uses = &line.source.uses;
        let used = uses
            .iter()
            .rev()
            .find(|(file, _)| [first.file, second.file].contains(file));
        let at = used.map(|(_, index)| {
            let used = &line.source.file.uses[*index];
            used.line.place(line.text_id(), used.path.span)
        });
        let written = line.spelled(word);
        let message = format!("two used files define the {} `{written}`", kind.word());
        Box::new(
            Finding::fault(Code::NameAmbiguous, at.unwrap_or(place), message)
                .here("this file is used")
                .label(place, "wanted here")
                .label(self.project.block(first).name_place(), "one")
                .label(self.project.block(second).name_place(), "the other")
                .help("use one of the two files, or define the block in this file"),
        )
    }

    /// No block has the name.
    pub fn unknown(&self, line: LineRef<'_>, kind: BlockKind, word: &snell_syntax::Word) -> Finding {
        let place = line.place(word.span);
        let written = line.spelled(word);
        let message = format!("there is no {} `{written}` in sight", kind.word());
        let finding = Finding::fault(Code::NameUnknown, place, message);
        let known = self.visible(line.file, kind);
        let others = known
            .iter()
            .map(String::as_str)
            .filter(|known| *known != &*word.folded);
        match snell_units::nearest(&word.folded, others) {
            Some(near) => finding.here(format!("did you mean `{near}`?")).fix(Fix::offered(
                format!("write `{near}`"),
                place,
                near,
            )),
            None => finding.help(format!(
                "define it in this file, or `use` the file that does: `{} {written}`",
                kind.word()
            )),
        }
    }

    /// Own blocks that stand before shipped ones without being made from them.
    fn replaced(&self) -> Vec<Finding> {
        let own = self.project.files().filter(|file| !self.project.ships(*file));
        let mut findings = Vec::new();
        for block in own.flat_map(|file| self.project.blocks(file)) {
            let Some(head) = block.head() else { continue };
            let adjusts = head
                .base
                .as_ref()
                .is_some_and(|base| base.folded == head.name.folded);
            let Some(shipped) = self.names.shipped(head.kind, &head.name.folded) else {
                continue;
            };
            if !adjusts
                && self
                    .project
                    .block(shipped)
                    .head()
                    .is_some_and(|other| other.kind == head.kind)
            {
                let (word, name) = (head.kind.word(), &head.name.folded);
                let message =
                    format!("this {word} `{name}` takes the place of the one that ships with snell");
                let finding = Finding::new(
                    Code::ShippedReplaced,
                    snell_finding::Level::Advice,
                    block.name_place(),
                    message,
                );
                findings.push(finding.help(format!(
                    "to adjust the shipped one, write `{word} {name} from {name}`"
                )));
            }
        }
        findings
    }
}
