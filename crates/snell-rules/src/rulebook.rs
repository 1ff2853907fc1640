//! Which rules a rig is held against, with what limits and levels.

use crate::book::SAFETY;
use crate::rule::{Rule, level};
use crate::scope::Limit;
use rustc_hash::{FxHashMap, FxHashSet};
use snell_finding::{Code, Finding, Fix, Level};
use snell_rig::faults::Faults;
use snell_rig::keywords::{Key, RulebookKey};
use snell_rig::project::{BlockRef, FileId, LineRef};
use snell_rig::rig::Rig;
use snell_rig::{BlockId, Lookup, Project, World};
use snell_syntax::{BlockKind, Expr, Joint, Plain, Word};
use std::sync::{Arc, LazyLock, Mutex, OnceLock, PoisonError};

/// A rule as a rig is held against it.
#[derive(Clone, Debug)]
pub struct Applied<'p> {
    /// The rule.
    pub rule: Arc<Rule<'p>>,
    /// The level of its findings.
    pub level: Level,
    /// Its figures, as the rulebooks set them.
    pub limits: Vec<Limit<'p>>,
}

/// A file, and the rulebooks that a rig of it keeps to.
type Kept = (FileId, Vec<BlockId>);

/// Every rule of a project, each read when it is first needed.
#[derive(Debug)]
pub struct Books<'w, 'p> {
    world: &'w World<'p>,
    rules: FxHashMap<BlockId, OnceLock<Read<'p>>>,
    /// The rigs that are made from a rig, near and far.
    derived: OnceLock<FxHashMap<BlockId, Vec<BlockId>>>,
    /// What was gathered for a file and its rulebooks: most rigs of a file keep to the same.
    gathered: Mutex<FxHashMap<Kept, Arc<Gathered<'p>>>>,
}

/// A rule as it was read, if it is whole, and what it was read by.
#[derive(Debug)]
struct Read<'p> {
    rule: Option<Arc<Rule<'p>>>,
    faults: Vec<Finding>,
    by: Vec<Lookup>,
}

/// The rules of some rulebooks, and what they were gathered by.
#[derive(Debug)]
struct Gathered<'p> {
    applied: Arc<[Applied<'p>]>,
    faults: Vec<Finding>,
    by: Vec<Lookup>,
}

/// Rules put together so far, in order.
#[derive(Default)]
struct Gathering<'p> {
    applied: Vec<Applied<'p>>,
    /// The rulebooks that are being taken in, each by the one before it.
    open: Vec<BlockId>,
    /// Every rulebook that was taken in.
    met: FxHashSet<BlockId>,
}

/// How deep rulebooks may take one another in: far beyond a club's, and a bound for hostile texts.
const DEEPEST: usize = 32;

/// The rules that ship, each read once a process: they see nothing but one another.
fn shipped(id: BlockId) -> Option<Arc<Rule<'static>>> {
    type Cell = OnceLock<Option<Arc<Rule<'static>>>>;
    static PROJECT: LazyLock<Project> = LazyLock::new(crate::book::project);
    static RULES: LazyLock<FxHashMap<BlockId, Cell>> = LazyLock::new(|| {
        let shipped = PROJECT.files().filter(|file| PROJECT.ships(*file));
        let rules = shipped.flat_map(|file| rules_of(&PROJECT, file));
        rules.map(|id| (id, Cell::default())).collect()
    });
    let read = || {
        let world = World::new(&PROJECT);
        Rule::read(&world, PROJECT.block(id), &Faults::default()).map(Arc::new)
    };
    RULES.get(&id)?.get_or_init(read).clone()
}

/// The blocks of a file that are rules.
fn rules_of(project: &Project, file: FileId) -> impl Iterator<Item = BlockId> {
    let blocks = project.source(file).file.blocks.iter().zip(0..);
    let rules = blocks.filter(|(placed, _)| {
        let opens = placed.block.opens.as_ref();
        opens.is_some_and(|(kind, _)| *kind == BlockKind::Rule)
    });
    rules.map(move |(_, index)| BlockId { file, index })
}

impl<'w, 'p> Books<'w, 'p> {
    /// The rules of a project that begins with the book, as [`crate::project`] gives it.
    pub fn new(world: &'w World<'p>) -> Self {
        let project = world.project;
        let own = project.own_files().flat_map(|file| rules_of(project, file));
        Self {
            world,
            rules: own.map(|id| (id, OnceLock::new())).collect(),
            derived: OnceLock::new(),
            gathered: Mutex::default(),
        }
    }

    /// A rule, if the block is one and is whole.
    fn rule(&self, world: &World<'p>, id: BlockId) -> Option<Arc<Rule<'p>>> {
        if self.world.project.ships(id.file) {
            return shipped(id);
        }
        let read = self.read(id)?;
        world.note(&read.by);
        read.rule.clone()
    }

    fn read(&self, id: BlockId) -> Option<&Read<'p>> {
        let cell = self.rules.get(&id)?;
        Some(cell.get_or_init(|| {
            let (noting, faults) = (self.world.noting(), Faults::default());
            let rule = Rule::read(&noting, self.world.project.block(id), &faults).map(Arc::new);
            Read {
                rule,
                faults: faults.into_inner(),
                by: noting.noted(),
            }
        }))
    }

    /// What is wrong with a rule of the project's own.
    pub fn rule_faults(&self, world: &World<'p>, id: BlockId) -> &[Finding] {
        let Some(read) = self.read(id) else { return &[] };
        world.note(&read.by);
        &read.faults
    }

    /// What is wrong with a rulebook as its own file sees it, even if no rig keeps to it.
    pub fn rulebook_faults(&self, world: &World<'p>, id: BlockId) -> Vec<Finding> {
        let faults = Faults::default();
        self.open(
            world,
            world.project.block(id),
            id.file,
            &mut Gathering::default(),
            &faults,
        );
        faults.into_inner()
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
            .world
            .shipped(BlockKind::Rulebook, SAFETY)
            .into_iter()
            .collect();
        if rig.settings.rules.is_empty() {
            books.extend(self.world.shipped(BlockKind::Rulebook, method));
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

    fn gathered(&self, file: FileId, books: Vec<BlockId>) -> Arc<Gathered<'p>> {
        let key = (file, books);
        // A thread that panicked leaves a map of whole entries, so it can still be used.
        let known = || self.gathered.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(known) = known().get(&key) {
            return known.clone();
        }
        let (noting, faults) = (self.world.noting(), Faults::default());
        let mut gathering = Gathering::default();
        for book in &key.1 {
            let book = self.world.project.block(*book);
            self.open(&noting, book, file, &mut gathering, &faults);
        }
        let gathered = Arc::new(Gathered {
            applied: gathering.applied.into(),
            faults: faults.into_inner(),
            by: noting.noted(),
        });
        known().insert(key, gathered.clone());
        gathered
    }

    /// Every rule that a file sees by a name.
    pub fn find(&self, world: &World<'p>, file: FileId, word: &Word) -> Option<Arc<Rule<'p>>> {
        let id = world.find(file, BlockKind::Rule, &word.folded).block()?;
        self.rule(world, id)
    }

    /// A rule as a rig is held against it; where its rulebooks leave it out, as it ships.
    pub fn of_rig_or_shipped(&self, rig: &Rig<'p>, name: &str) -> Option<Applied<'p>> {
        let applied = self.of_rig(self.world, rig, &Faults::default());
        let own = applied.iter().find(|applied| applied.rule.name == name);
        own.cloned().or_else(|| {
            let id = self.world.shipped(BlockKind::Rule, name)?;
            Some(as_it_stands(&self.rule(self.world, id)?))
        })
    }

    /// The rigs that are made from a rig, near and far.
    pub fn made_from(&self, rig: BlockId) -> &[BlockId] {
        let derived = self.derived.get_or_init(|| derived(self.world));
        derived.get(&rig).map_or(&[], Vec::as_slice)
    }

    /// The world that the rules stand in.
    pub fn world(&self) -> &'w World<'p> {
        self.world
    }

    fn open(
        &self,
        world: &World<'p>,
        book: BlockRef<'p>,
        file: FileId,
        gathering: &mut Gathering<'p>,
        faults: &Faults,
    ) {
        if gathering.open.contains(&book.id) || gathering.open.len() == DEEPEST {
            let name = self.world.name(book.id);
            let message = match gathering.open.contains(&book.id) {
                true => format!("the rulebook `{name}` takes itself in"),
                false => format!("more than {DEEPEST} rulebooks take one another in here"),
            };
            faults.report(Finding::fault(Code::RulebookLoop, book.name_place(), message));
            return;
        }
        // What was taken in once stands; to take it in again at every turn would never end.
        if !gathering.met.insert(book.id) {
            return;
        }
        let Ok(bases) = snell_rig::blocks::lineage(&world.names, book) else {
            return;
        };
        gathering.open.push(book.id);
        let lines = snell_rig::blocks::merged(&bases, &Faults::default());
        let plain = |line: &LineRef<'p>| Some((*line, line.line.form.plain()?));
        // Rules are taken in before they are adjusted, in whatever order the lines stand.
        let turns = [
            RulebookKey::With,
            RulebookKey::Without,
            RulebookKey::Set,
            RulebookKey::Level,
        ];
        for turn in turns {
            for (line, plain) in lines.iter().filter_map(plain) {
                let key = RulebookKey::of(&plain.key.folded).filter(|key| *key == turn);
                match key {
                    Some(RulebookKey::With) => self.with(world, line, plain, file, gathering, faults),
                    Some(RulebookKey::Without) => self.without(world, line, plain, file, gathering, faults),
                    Some(RulebookKey::Set) => self.set(world, line, plain, file, gathering, faults),
                    Some(RulebookKey::Level) => self.level(world, line, plain, file, gathering, faults),
                    Some(RulebookKey::Edition | RulebookKey::Source) | None => {}
                }
            }
        }
        gathering.open.pop();
    }

    fn with(
        &self,
        world: &World<'p>,
        line: LineRef<'p>,
        plain: &Plain,
        file: FileId,
        gathering: &mut Gathering<'p>,
        faults: &Faults,
    ) {
        for word in plain.items.iter().filter_map(word_of) {
            let Some(id) = world.find(file, BlockKind::Rule, &word.folded).block() else {
                faults.report(self.unknown(world, line, word, file));
                continue;
            };
            match self.rule(world, id) {
                Some(rule) => take_in(&rule, gathering),
                None => self.open(world, world.project.block(id), file, gathering, faults),
            }
        }
    }

    fn without(
        &self,
        world: &World<'p>,
        line: LineRef<'p>,
        plain: &Plain,
        file: FileId,
        gathering: &mut Gathering<'p>,
        faults: &Faults,
    ) {
        for word in plain.items.iter().filter_map(word_of) {
            match self.find(world, file, word) {
                Some(rule) => gathering.applied.retain(|applied| applied.rule.id != rule.id),
                None => faults.report(self.unknown(world, line, word, file)),
            }
        }
    }

    /// `set RULE.LIMIT to VALUE`
    fn set(
        &self,
        world: &World<'p>,
        line: LineRef<'p>,
        plain: &'p Plain,
        file: FileId,
        gathering: &mut Gathering<'p>,
        faults: &Faults,
    ) {
        let Some(path) = plain.items.first().and_then(Expr::path) else {
            return;
        };
        let value = plain
            .clauses
            .iter()
            .find(|clause| clause.joint == Joint::To)
            .and_then(|clause| clause.items.first());
        let (Some(rule), [word, limit], Some(value)) = (self.find(world, file, &path[0]), path, value) else {
            faults.report(self.unknown(world, line, &path[0], file));
            return;
        };
        if !rule
            .limits
            .iter()
            .any(|(_, bind)| bind.name.folded == limit.folded)
        {
            faults.report(no_limit(line, &rule, word, limit));
        }
        for applied in gathering
            .applied
            .iter_mut()
            .filter(|applied| applied.rule.id == rule.id)
        {
            for old in applied.limits.iter_mut().filter(|old| *old.name == *limit.folded) {
                *old = Limit::new(old.name, line, value);
            }
        }
    }

    fn level(
        &self,
        world: &World<'p>,
        line: LineRef<'p>,
        plain: &Plain,
        file: FileId,
        gathering: &mut Gathering<'p>,
        faults: &Faults,
    ) {
        let mut words = plain.items.iter().filter_map(word_of);
        let (Some(word), Some(to)) = (words.next(), words.next().and_then(|word| level(&word.folded))) else {
            return;
        };
        match self.find(world, file, word) {
            Some(rule) => {
                let named = gathering
                    .applied
                    .iter_mut()
                    .filter(|applied| applied.rule.id == rule.id);
                named.for_each(|applied| applied.level = to);
            }
            None => faults.report(self.unknown(world, line, word, file)),
        }
    }

    /// A rule's name that means nothing.
    pub(crate) fn unknown(&self, world: &World<'p>, line: LineRef<'_>, word: &Word, file: FileId) -> Finding {
        let place = line.place(word.span);
        let written = line.spelled(word);
        let message = format!("there is no rule `{written}` in sight");
        let finding = Finding::fault(Code::RuleUnknown, place, message);
        match world.names.nearest(file, BlockKind::Rule, &word.folded) {
            Some(near) => finding.here(format!("did you mean `{near}`?")).fix(Fix::offered(
                format!("write `{near}`"),
                place,
                &*near,
            )),
            None => {
                finding.help("the rules that ship are listed in the reference; `snell why RULE` explains one")
            }
        }
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

fn take_in<'p>(rule: &Arc<Rule<'p>>, gathering: &mut Gathering<'p>) {
    if gathering.applied.iter().any(|applied| applied.rule.id == rule.id) {
        return;
    }
    gathering.applied.push(as_it_stands(rule));
}

/// A rule with its own level and figures.
fn as_it_stands<'p>(rule: &Arc<Rule<'p>>) -> Applied<'p> {
    let limits = rule
        .limits
        .iter()
        .map(|(line, bind)| Limit::new(&bind.name.folded, *line, &bind.value));
    Applied {
        rule: rule.clone(),
        level: rule.level,
        limits: limits.collect(),
    }
}

fn word_of(expr: &Expr) -> Option<&Word> {
    expr.path()?.first()
}

fn no_limit(line: LineRef<'_>, rule: &Rule<'_>, word: &Word, limit: &Word) -> Finding {
    let message = format!(
        "the rule `{}` has no limit `{}`",
        line.spelled(word),
        line.spelled(limit)
    );
    let finding = Finding::fault(Code::RuleUnknown, line.place(limit.span), message);
    let known: Vec<String> = rule
        .limits
        .iter()
        .map(|(_, bind)| format!("`{}`", bind.name.folded))
        .collect();
    match known.as_slice() {
        [] => finding.help("it has no limits; copy it with `rule NAME from` it, and change its `keep`"),
        known => finding.help(format!("it has {}", known.join(", "))),
    }
}
