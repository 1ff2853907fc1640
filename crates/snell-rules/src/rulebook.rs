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
use snell_rig::{BlockId, Found, Project, World};
use snell_syntax::{BlockKind, Expr, ExprKind, Form, Joint, Plain, Word};
use std::sync::{Arc, LazyLock, Mutex, PoisonError};

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

/// Every rule of a project, read once.
#[derive(Debug)]
pub struct Books<'w, 'p> {
    world: &'w World<'p>,
    rules: FxHashMap<BlockId, Arc<Rule<'p>>>,
    /// The rigs that are made from a rig, near and far.
    derived: FxHashMap<BlockId, Vec<BlockId>>,
    /// What was gathered for a file and its rulebooks: most rigs of a file keep to the same.
    gathered: Mutex<FxHashMap<Kept, Arc<[Applied<'p>]>>>,
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

/// The project of what ships, which every other begins with.
static SHELF: LazyLock<Project> = LazyLock::new(crate::book::project);

/// The rules that ship, read once a process: they see nothing but one another.
static SHIPPED: LazyLock<Vec<(BlockId, Arc<Rule<'static>>)>> = LazyLock::new(|| {
    let (world, _) = World::new(&SHELF);
    let blocks = SHELF.files().flat_map(|file| SHELF.blocks(file));
    let rules = blocks.filter(|block| block.head().is_some_and(|head| head.kind == BlockKind::Rule));
    let read =
        |block: BlockRef<'static>| Some((block.id, Arc::new(Rule::read(&world, block, &Faults::default())?)));
    rules.filter_map(read).collect()
});

impl<'w, 'p> Books<'w, 'p> {
    /// Reads every rule of a project that begins with the book, as [`crate::project`] gives it.
    pub fn read(world: &'w World<'p>, faults: &Faults) -> Self {
        let mut rules: FxHashMap<BlockId, Arc<Rule<'p>>> = FxHashMap::default();
        rules.extend(
            SHIPPED
                .iter()
                .map(|(id, rule)| -> (BlockId, Arc<Rule<'p>>) { (*id, rule.clone()) }),
        );
        let own = world.project.files().filter(|file| !world.project.ships(*file));
        for block in own.flat_map(|file| world.project.blocks(file)) {
            if block.head().is_some_and(|head| head.kind == BlockKind::Rule) {
                rules.extend(Rule::read(world, block, faults).map(|rule| (block.id, Arc::new(rule))));
            }
        }
        Self {
            world,
            rules,
            derived: derived(world),
            gathered: Mutex::default(),
        }
    }

    /// The rules for a rig: those that guard people and fish, then those of its rulebooks in order; where it
    /// names none, those of its method, and where it has no method, those for every rig.
    pub fn of_rig(&self, rig: &Rig<'p>, faults: &Faults) -> Arc<[Applied<'p>]> {
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
        let key = (file, books);
        // A thread that panicked leaves a map of whole entries, so it can still be used.
        let mut gathered = self.gathered.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(known) = gathered.get(&key) {
            return known.clone();
        }
        let mut gathering = Gathering::default();
        for book in &key.1 {
            self.open(self.world.project.block(*book), file, &mut gathering, faults);
        }
        let applied: Arc<[Applied<'p>]> = gathering.applied.into();
        gathered.insert(key, applied.clone());
        applied
    }

    /// Reads every rulebook that is not shipped as its own file sees it, so that its faults are told even if no
    /// rig keeps to it.
    pub fn check_rulebooks(&self, faults: &Faults) {
        let project = self.world.project;
        let own = project.files().filter(|file| !project.ships(*file));
        for block in own.flat_map(|file| project.blocks(file)) {
            if block.head().is_some_and(|head| head.kind == BlockKind::Rulebook) {
                self.open(block, block.id.file, &mut Gathering::default(), faults);
            }
        }
    }

    /// Every rule that a file sees by a name.
    pub fn find(&self, file: FileId, word: &Word) -> Option<&Arc<Rule<'p>>> {
        match self.world.find(file, BlockKind::Rule, &word.folded) {
            Found::Block(id) => self.rules.get(&id),
            _ => None,
        }
    }

    /// A rule as a rig is held against it; where its rulebooks leave it out, as it ships.
    pub fn of_rig_or_shipped(&self, rig: &Rig<'p>, name: &str) -> Option<Applied<'p>> {
        let applied = self.of_rig(rig, &Faults::default());
        let own = applied.iter().find(|applied| applied.rule.name == name);
        own.cloned().or_else(|| {
            let id = self.world.shipped(BlockKind::Rule, name)?;
            Some(as_it_stands(self.rules.get(&id)?))
        })
    }

    /// The rigs that are made from a rig, near and far.
    pub fn made_from(&self, rig: BlockId) -> &[BlockId] {
        self.derived.get(&rig).map_or(&[], Vec::as_slice)
    }

    /// The world that the rules stand in.
    pub fn world(&self) -> &'w World<'p> {
        self.world
    }

    fn open(&self, book: BlockRef<'p>, file: FileId, gathering: &mut Gathering<'p>, faults: &Faults) {
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
        let Ok(bases) = snell_rig::blocks::lineage(&self.world.names, book) else {
            return;
        };
        gathering.open.push(book.id);
        let lines = snell_rig::blocks::merged(&bases, &Faults::default());
        let plain = |line: &LineRef<'p>| match &*line.line.form {
            Form::Plain(plain) => Some((*line, plain)),
            _ => None,
        };
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
                    Some(RulebookKey::With) => self.with(line, plain, file, gathering, faults),
                    Some(RulebookKey::Without) => self.without(line, plain, file, gathering, faults),
                    Some(RulebookKey::Set) => self.set(line, plain, file, gathering, faults),
                    Some(RulebookKey::Level) => self.level(line, plain, file, gathering, faults),
                    Some(RulebookKey::Edition | RulebookKey::Source) | None => {}
                }
            }
        }
        gathering.open.pop();
    }

    fn with(
        &self,
        line: LineRef<'p>,
        plain: &Plain,
        file: FileId,
        gathering: &mut Gathering<'p>,
        faults: &Faults,
    ) {
        for word in plain.items.iter().filter_map(word_of) {
            match self.world.find(file, BlockKind::Rule, &word.folded) {
                Found::Block(id) => match self.rules.get(&id) {
                    Some(rule) => take_in(rule, gathering),
                    None => self.open(self.world.project.block(id), file, gathering, faults),
                },
                _ => faults.report(self.unknown(line, word, file)),
            }
        }
    }

    fn without(
        &self,
        line: LineRef<'p>,
        plain: &Plain,
        file: FileId,
        gathering: &mut Gathering<'p>,
        faults: &Faults,
    ) {
        for word in plain.items.iter().filter_map(word_of) {
            match self.find(file, word) {
                Some(rule) => gathering.applied.retain(|applied| applied.rule.id != rule.id),
                None => faults.report(self.unknown(line, word, file)),
            }
        }
    }

    /// `set RULE.LIMIT to VALUE`
    fn set(
        &self,
        line: LineRef<'p>,
        plain: &'p Plain,
        file: FileId,
        gathering: &mut Gathering<'p>,
        faults: &Faults,
    ) {
        let Some(ExprKind::Path(path)) = plain.items.first().map(|item| &item.kind) else {
            return;
        };
        let value = plain
            .clauses
            .iter()
            .find(|clause| clause.joint == Joint::To)
            .and_then(|clause| clause.items.first());
        let (Some(rule), [word, limit], Some(value)) = (self.find(file, &path[0]), path.as_slice(), value)
        else {
            faults.report(self.unknown(line, &path[0], file));
            return;
        };
        if !rule
            .limits
            .iter()
            .any(|(_, bind)| bind.name.folded == limit.folded)
        {
            faults.report(no_limit(line, rule, word, limit));
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
        match self.find(file, word) {
            Some(rule) => {
                let named = gathering
                    .applied
                    .iter_mut()
                    .filter(|applied| applied.rule.id == rule.id);
                named.for_each(|applied| applied.level = to);
            }
            None => faults.report(self.unknown(line, word, file)),
        }
    }

    /// A rule's name that means nothing.
    pub(crate) fn unknown(&self, line: LineRef<'_>, word: &Word, file: FileId) -> Finding {
        let place = line.place(word.span);
        let written = line.spelled(word);
        let message = format!("there is no rule `{written}` in sight");
        let finding = Finding::fault(Code::RuleUnknown, place, message);
        let known = self.world.visible(file, BlockKind::Rule);
        match snell_units::nearest(&word.folded, known.iter().map(String::as_str)) {
            Some(near) => finding.here(format!("did you mean `{near}`?")).fix(Fix::offered(
                format!("write `{near}`"),
                place,
                near,
            )),
            None => {
                finding.help("the rules that ship are listed in the reference; `snell why RULE` explains one")
            }
        }
    }
}

fn derived(world: &World<'_>) -> FxHashMap<BlockId, Vec<BlockId>> {
    let mut derived: FxHashMap<BlockId, Vec<BlockId>> = FxHashMap::default();
    let project = world.project;
    let own = project.files().filter(|file| !project.ships(*file));
    for block in own.flat_map(|file| project.blocks(file)) {
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
    match &expr.kind {
        ExprKind::Path(words) => words.first(),
        _ => None,
    }
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
