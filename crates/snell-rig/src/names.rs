//! Which block a name means, seen from the file in which it is written, and what
//! was asked on the way.

use crate::content::ContentId;
use crate::project::{BlockId, BlockRef, FileId, LineRef, Project, is_of_rigs};
use rustc_hash::FxHashSet;
use snell_finding::{Code, Finding, Fix, Level};
use snell_syntax::{BlockKind, Word};
use snell_text::Place;
use std::sync::{Arc, Mutex, PoisonError};

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

impl Found {
    /// The block, where it is one.
    pub const fn block(self) -> Option<BlockId> {
        match self {
            Self::Block(id) => Some(id),
            Self::Ambiguous(..) | Self::Missing => None,
        }
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
    /// The flies that a file sees and that were timed.
    Timed(FileId),
}

impl Lookup {
    /// Whether its answer may change with a rig or an outing.
    pub fn is_of_rigs(&self) -> bool {
        match self {
            Self::Name(_, kind, _) | Self::Outside(_, kind, _) | Self::Names(_, kind) => is_of_rigs(*kind),
            Self::Timed(_) => false,
        }
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
    /// A set of timed flies.
    Timed(ContentId),
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
        let (Lookup::Name(file, ..)
        | Lookup::Outside(file, ..)
        | Lookup::Names(file, _)
        | Lookup::Timed(file)) = lookup;
        if *file >= self.next() {
            return (Answer::NoFile, [None; 2]);
        }
        let found = match lookup {
            Lookup::Name(file, kind, name) => self.find(*file, *kind, name),
            Lookup::Outside(file, kind, name) => self.find_outside(*file, *kind, name),
            Lookup::Names(file, kind) => return (Answer::Names(self.sight(*file, *kind).sum), [None; 2]),
            Lookup::Timed(file) => return (Answer::Timed(self.timed_flies(*file).sum), [None; 2]),
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

/// The names of a project, which notes what is looked up where somebody wants to know.
#[derive(Debug)]
pub struct Names<'p> {
    /// The project.
    pub project: &'p Project,
    looked_up: Option<Mutex<FxHashSet<Lookup>>>,
}

impl<'p> Names<'p> {
    /// The names of a project.
    pub fn new(project: &'p Project) -> Self {
        Self {
            project,
            looked_up: None,
        }
    }

    /// The same, noting what is looked up from here on.
    #[must_use]
    pub fn noting(&self) -> Self {
        Self {
            project: self.project,
            looked_up: Some(Mutex::default()),
        }
    }

    /// What was looked up, where it was noted.
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

    /// The flies that a file sees and that were timed, by name.
    pub fn timed_flies(&self, file: FileId) -> Vec<BlockId> {
        self.note_one(|| Lookup::Timed(file));
        self.project.timed_flies(file).flies.clone()
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

    /// A block's name as it is compared.
    pub fn name(&self, id: BlockId) -> &'p str {
        self.project
            .placed(id)
            .block
            .opens
            .as_ref()
            .map_or("", |(_, name)| name)
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
        let finding = Finding::new(Code::ShippedReplaced, Level::Advice, place, message);
        Some(finding.help(format!(
            "to adjust the shipped one, write `{word} {name} from {name}`"
        )))
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
