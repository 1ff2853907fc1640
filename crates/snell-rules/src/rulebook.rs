//! Which rules a rig is held against, with what limits and levels.

use crate::book::SAFETY;
use crate::gathering::{Applied, Gathering};
use crate::rules::Rules;
use rustc_hash::FxHashMap;
use snell_finding::Finding;
use snell_rig::faults::Faults;
use snell_rig::keywords::Method;
use snell_rig::project::FileId;
use snell_rig::rig::Rig;
use snell_rig::{BlockId, Lookup, World};
use snell_syntax::BlockKind;
use std::sync::{Arc, Mutex, OnceLock, PoisonError};

/// A file, and the rulebooks that a rig of it keeps to.
type Kept = (FileId, Vec<BlockId>);

/// Every rule of a project, each read when it is first needed.
#[derive(Debug)]
pub struct Books<'w, 'p> {
    pub(crate) rules: Rules<'w, 'p>,
    /// The rigs that are made from a rig, near and far.
    derived: OnceLock<FxHashMap<BlockId, Vec<BlockId>>>,
    /// What was gathered for a file and its rulebooks: most rigs of a file keep to the same.
    gathered: Mutex<FxHashMap<Kept, Arc<Gathered<'p>>>>,
}

/// The rules of some rulebooks, and what they were gathered by.
#[derive(Debug)]
struct Gathered<'p> {
    applied: Arc<[Applied<'p>]>,
    faults: Vec<Finding>,
    by: Vec<Lookup>,
}

impl<'w, 'p> Books<'w, 'p> {
    /// The rules of a project that begins with the book, as [`crate::project`] gives it.
    pub fn new(world: &'w World<'p>) -> Self {
        Self {
            rules: Rules::new(world),
            derived: OnceLock::new(),
            gathered: Mutex::default(),
        }
    }

    /// What is wrong with a rule of the project's own.
    pub fn rule_faults(&self, world: &World<'p>, id: BlockId) -> &[Finding] {
        self.rules.faults(world, id)
    }

    /// What is wrong with a rulebook as its own file sees it, even if no rig keeps to it.
    pub fn rulebook_faults(&self, world: &World<'p>, id: BlockId) -> Vec<Finding> {
        let mut gathering = Gathering::new(&self.rules, world, id.file);
        gathering.open(world.project.block(id));
        gathering.faults.into_inner()
    }

    /// The rules for a rig: those that guard people and fish, then those of its rulebooks in order; where it
    /// names none, those of its method, and where it has no method, those for every rig.
    pub fn of_rig(&self, world: &World<'p>, rig: &Rig<'p>, faults: &Faults) -> Arc<[Applied<'p>]> {
        let file = rig.block.id.file;
        let method = rig
            .settings
            .method
            .as_ref()
            .map_or("every-rig", |method| method.value.word());
        let mut books: Vec<BlockId> = self
            .world()
            .shipped(BlockKind::Rulebook, SAFETY)
            .into_iter()
            .collect();
        if rig.settings.rules.is_empty() {
            books.extend(self.world().shipped(BlockKind::Rulebook, method));
        }
        books.extend(rig.settings.rules.iter().map(|(book, _)| *book));
        let gathered = self.gathered(file, books);
        world.note(&gathered.by);
        gathered
            .faults
            .iter()
            .cloned()
            .for_each(|fault| faults.report(fault));
        gathered.applied.clone()
    }

    /// The rules of a method as they ship, as a file sees them.
    pub(crate) fn of_method(&self, world: &World<'p>, method: Method, file: FileId) -> Arc<[Applied<'p>]> {
        let book = self.world().shipped(BlockKind::Rulebook, method.word());
        let gathered = self.gathered(file, book.into_iter().collect());
        world.note(&gathered.by);
        gathered.applied.clone()
    }

    fn gathered(&self, file: FileId, books: Vec<BlockId>) -> Arc<Gathered<'p>> {
        let key = (file, books);
        // A thread that panicked leaves a map of whole entries, so it can still be used.
        let known = || self.gathered.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(known) = known().get(&key) {
            return known.clone();
        }
        let noting = self.world().noting();
        let mut gathering = Gathering::new(&self.rules, &noting, file);
        for book in &key.1 {
            gathering.open(self.world().project.block(*book));
        }
        let Gathering { applied, faults, .. } = gathering;
        let gathered = Arc::new(Gathered {
            applied: applied.into(),
            faults: faults.into_inner(),
            by: noting.noted(),
        });
        known().insert(key, gathered.clone());
        gathered
    }

    /// A rule as a rig is held against it; where its rulebooks leave it out, as it ships.
    pub fn of_rig_or_shipped(&self, rig: &Rig<'p>, name: &str) -> Option<Applied<'p>> {
        let applied = self.of_rig(self.world(), rig, &Faults::default());
        let own = applied.iter().find(|applied| applied.rule.name == name);
        own.cloned().or_else(|| {
            let id = self.world().shipped(BlockKind::Rule, name)?;
            Some(Applied::as_it_stands(&self.rules.rule(self.world(), id)?))
        })
    }

    /// The rigs that are made from a rig, near and far.
    pub fn made_from(&self, rig: BlockId) -> &[BlockId] {
        let derived = self.derived.get_or_init(|| derived(self.world()));
        derived.get(&rig).map_or(&[], Vec::as_slice)
    }

    /// The world that the rules stand in.
    pub fn world(&self) -> &'w World<'p> {
        self.rules.world
    }
}

fn derived(world: &World<'_>) -> FxHashMap<BlockId, Vec<BlockId>> {
    let mut derived: FxHashMap<BlockId, Vec<BlockId>> = FxHashMap::default();
    for block in world.project.own_blocks() {
        if block
            .head()
            .is_some_and(|head| head.kind == BlockKind::Rig && head.base.is_some())
        {
            let bases = snell_rig::blocks::lineage(&world.names, block).unwrap_or_default();
            for base in bases.iter().filter(|base| base.id != block.id) {
                derived.entry(base.id).or_default().push(block.id);
            }
        }
    }
    derived
}
