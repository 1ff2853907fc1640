//! Which block a name means, seen from the file in which it is written.

use crate::project::{BlockId, BlockRef, FileId, LineRef, Project};
use rustc_hash::FxHashMap;
use snell_finding::{Code, Finding, Fix, Level};
use snell_syntax::{BlockKind, Word};
use snell_text::Place;
use std::sync::Arc;

type ByName = FxHashMap<(BlockKind, Arc<str>), BlockId>;

/// The blocks of every file of a project by kind and name.
#[derive(Debug)]
pub struct Names<'p> {
    /// The project.
    pub project: &'p Project,
    files: Vec<ByName>,
    shipped: ByName,
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

impl<'p> Names<'p> {
    /// Collects the names of a project; a name twice in one file is a fault, and the first stands.
    pub fn collect(project: &'p Project) -> (Self, Vec<Finding>) {
        let mut names = Self {
            project,
            files: Vec::new(),
            shipped: ByName::default(),
        };
        let mut findings = Vec::new();
        for file in project.files() {
            let mut own = ByName::default();
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
                names.files.push(ByName::default());
            } else {
                names.files.push(own);
            }
        }
        (names, findings)
    }

    /// What `name` means in `file`: its own blocks, then those of the files it uses, then the shipped ones.
    pub fn find(&self, file: FileId, kind: BlockKind, name: &Arc<str>) -> Found {
        let key = (space(kind), name.clone());
        match self.files[file.0 as usize].get(&key) {
            Some(block) => Found::Block(*block),
            None => self.find_outside(file, &key),
        }
    }

    /// The next block out that has the name of `block` itself.
    pub fn find_next_out(&self, block: BlockRef<'_>) -> Found {
        let Some(head) = block.head() else {
            return Found::Missing;
        };
        let key = (space(head.kind), head.name.folded.clone());
        self.find_outside(block.id.file, &key)
    }

    fn find_outside(&self, file: FileId, key: &(BlockKind, Arc<str>)) -> Found {
        let uses = &self.project.source(file).uses;
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

    /// Every name of a kind that a file sees, sorted.
    pub fn visible(&self, file: FileId, kind: BlockKind) -> Vec<String> {
        let uses = self.project.source(file).uses.iter();
        let tables = std::iter::once(&self.files[file.0 as usize])
            .chain(uses.map(|(used, _)| &self.files[used.0 as usize]))
            .chain(std::iter::once(&self.shipped));
        let mut names: Vec<String> = tables
            .flat_map(|names| names.keys())
            .filter(|(of, _)| *of == space(kind))
            .map(|(_, name)| name.to_string())
            .collect();
        names.sort_unstable();
        names.dedup();
        names
    }

    /// The shipped block of a kind and name, if there is one.
    pub fn shipped(&self, kind: BlockKind, name: &str) -> Option<BlockId> {
        self.shipped.get(&(space(kind), Arc::from(name))).copied()
    }

    /// A block's name as it is compared.
    pub fn name(&self, id: BlockId) -> &'p str {
        self.project.block(id).head().map_or("", |head| &head.name.folded)
    }

    /// Two used files define the same name.
    pub fn ambiguous(
        &self,
        line: LineRef<'_>,
        place: Place,
        kind: BlockKind,
        word: &Word,
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
    pub fn unknown(&self, line: LineRef<'_>, kind: BlockKind, word: &Word) -> Finding {
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
    pub(crate) fn replaced(&self) -> Vec<Finding> {
        let own = self.project.files().filter(|file| !self.project.ships(*file));
        let mut findings = Vec::new();
        for block in own.flat_map(|file| self.project.blocks(file)) {
            let Some(head) = block.head() else { continue };
            let adjusts = head
                .base
                .as_ref()
                .is_some_and(|base| base.folded == head.name.folded);
            let Some(shipped) = self.shipped(head.kind, &head.name.folded) else {
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
                let finding = Finding::new(Code::ShippedReplaced, Level::Advice, block.name_place(), message);
                findings.push(finding.help(format!(
                    "to adjust the shipped one, write `{word} {name} from {name}`"
                )));
            }
        }
        findings
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
