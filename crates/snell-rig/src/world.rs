//! The blocks that a rig stands on: names looked up, and blocks read when they
//! are first needed.

use crate::blocks::{self, Read};
use crate::faults;
use crate::names::{Found, Lookup};
use crate::project::{BlockId, BlockRef, FileId, LineRef, Project};
use crate::shelf;
use crate::value::Faults;
use rustc_hash::FxHashSet;
use snell_finding::{Finding, Fix, Level};
use snell_syntax::{BlockKind, Word};
use snell_text::Place;
use std::sync::{Arc, Mutex, OnceLock, PoisonError};

/// A project whose blocks are read by need.
#[derive(Debug)]
pub struct World<'p> {
    /// The project.
    pub project: &'p Project,
    read: Arc<Files<'p>>,
    /// What was looked up, where somebody wants to know.
    looked_up: Option<Mutex<FxHashSet<Lookup>>>,
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

impl<'p> World<'p> {
    /// A world of which nothing is read yet.
    pub fn new(project: &'p Project) -> Self {
        let files = project.own_files().map(|_| OnceLock::new());
        Self {
            project,
            read: Arc::new(files.collect()),
            looked_up: None,
        }
    }

    /// The same world, which notes what is looked up in it from here on.
    #[must_use]
    pub fn noting(&self) -> Self {
        Self {
            project: self.project,
            read: self.read.clone(),
            looked_up: Some(Mutex::default()),
        }
    }

    /// What was looked up in a world that notes it.
    pub fn noted(self) -> Vec<Lookup> {
        let noted = self.looked_up.map(Mutex::into_inner).transpose();
        // A thread that panicked leaves whole entries behind.
        let noted = noted.unwrap_or_else(|poisoned| Some(poisoned.into_inner()));
        noted.into_iter().flatten().collect()
    }

    /// Notes what an answer hangs on that was kept from before.
    pub fn note(&self, lookups: &[Lookup]) {
        if let Some(noted) = &self.looked_up {
            let mut noted = noted.lock().unwrap_or_else(PoisonError::into_inner);
            noted.extend(lookups.iter().cloned());
        }
    }

    fn note_one(&self, lookup: impl FnOnce() -> Lookup) {
        if let Some(noted) = &self.looked_up {
            noted
                .lock()
                .unwrap_or_else(PoisonError::into_inner)
                .insert(lookup());
        }
    }

    /// What a name means in a file.
    pub fn find(&self, file: FileId, kind: BlockKind, name: &Arc<str>) -> Found {
        self.note_one(|| Lookup::Name(file, kind, name.clone()));
        self.project.find(file, kind, name)
    }

    /// What a block's own name means, seen from outside its file.
    pub fn find_next_out(&self, block: BlockRef<'_>) -> Found {
        let Some(head) = block.head() else {
            return Found::Missing;
        };
        let (file, name) = (block.id.file, &head.name.folded);
        self.note_one(|| Lookup::Outside(file, head.kind, name.clone()));
        self.project.find_outside(file, head.kind, name)
    }

    /// A shipped block.
    pub fn shipped(&self, kind: BlockKind, name: &str) -> Option<BlockId> {
        self.project.shelf().find(kind, name)
    }

    /// Every name of a kind that a file sees, sorted.
    pub fn visible(&self, file: FileId, kind: BlockKind) -> Vec<Arc<str>> {
        self.note_one(|| Lookup::Names(file, kind));
        self.project.sight(file, kind).names.clone()
    }

    /// The name of a kind that a misspelt word was meant to be, if one that a file sees is near.
    pub fn nearest(&self, file: FileId, kind: BlockKind, word: &str) -> Option<Arc<str>> {
        self.note_one(|| Lookup::Names(file, kind));
        let sight = self.project.sight(file, kind);
        sight
            .spellings
            .nearest(word)
            .map(|index| sight.names[index].clone())
    }

    /// A block as it was read.
    pub fn read(&self, id: BlockId) -> &Read<'p> {
        if self.project.ships(id.file) {
            return shelf::read(id);
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
            let (noting, faults) = (self.noting(), Faults::default());
            let read = blocks::read(&noting, self.project.block(id), &faults);
            Known {
                read,
                findings: faults.into_inner(),
                by: noting.noted(),
            }
        })
    }

    /// A block's name as it is compared.
    pub fn name(&self, id: BlockId) -> &'p str {
        self.project
            .placed(id)
            .block
            .opens
            .as_ref()
            .map_or("", |(_, name)| name)
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
            Finding::fault(faults::NAME_AMBIGUOUS, at.unwrap_or(place), message)
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
        let finding = Finding::fault(faults::NAME_UNKNOWN, place, message);
        self.note_one(|| Lookup::Names(line.file, kind));
        let sight = self.project.sight(line.file, kind);
        let near = sight.spellings.nearest_but(&word.folded, &word.folded);
        match near.map(|index| &*sight.names[index]) {
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

    /// That a block has the name of one before it in its file.
    pub fn named_twice(&self, block: BlockRef<'_>) -> Option<Finding> {
        self.project.named_twice(block)
    }

    /// That a block stands before a shipped one without being made from it.
    pub fn replaces(&self, block: BlockRef<'_>) -> Option<Finding> {
        let head = block.head()?;
        let base = head.base.as_ref();
        let adjusts = base.is_some_and(|base| base.folded == head.name.folded);
        let shipped = self.shipped(head.kind, &head.name.folded)?;
        let kind = self
            .project
            .placed(shipped)
            .block
            .opens
            .as_ref()
            .map(|(kind, _)| *kind);
        if adjusts || kind != Some(head.kind) {
            return None;
        }
        let (word, name) = (head.kind.word(), &head.name.folded);
        let message = format!("this {word} `{name}` takes the place of the one that ships with snell");
        let place = block.name_place();
        let finding = Finding::new(faults::SHIPPED_REPLACED, Level::Advice, place, message);
        Some(finding.help(format!(
            "to adjust the shipped one, write `{word} {name} from {name}`"
        )))
    }
}
