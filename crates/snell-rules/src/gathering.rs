//! The rules of rulebooks put together, each with the level and the limits that
//! the rulebooks give it.

use crate::rule::{Rule, level};
use crate::rules::Rules;
use crate::scope::Limit;
use rustc_hash::FxHashSet;
use snell_finding::{Code, Finding, Level};
use snell_rig::faults::Faults;
use snell_rig::keywords::{Key, RulebookKey};
use snell_rig::project::{BlockRef, FileId, LineRef};
use snell_rig::{BlockId, World};
use snell_syntax::{BlockKind, Expr, Joint, Plain, Word};
use std::sync::Arc;

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

/// Rules put together so far, in order.
pub(crate) struct Gathering<'a, 'w, 'p> {
    rules: &'a Rules<'w, 'p>,
    world: &'a World<'p>,
    /// From where names are looked up.
    file: FileId,
    pub(crate) applied: Vec<Applied<'p>>,
    pub(crate) faults: Faults,
    /// The rulebooks that are being taken in, each by the one before it.
    open: Vec<BlockId>,
    /// Every rulebook that was taken in.
    met: FxHashSet<BlockId>,
}

/// How deep rulebooks may take one another in: far beyond a club's, and a bound for hostile texts.
const DEEPEST: usize = snell_finding::Limit::Rulebooks.count();

impl<'a, 'w, 'p> Gathering<'a, 'w, 'p> {
    pub(crate) fn new(rules: &'a Rules<'w, 'p>, world: &'a World<'p>, file: FileId) -> Self {
        Self {
            rules,
            world,
            file,
            applied: Vec::new(),
            faults: Faults::default(),
            open: Vec::new(),
            met: FxHashSet::default(),
        }
    }

    /// Takes a rulebook in.
    pub(crate) fn open(&mut self, book: BlockRef<'p>) {
        if self.open.contains(&book.id) || self.open.len() == DEEPEST {
            // Told where its author can mend it: those that ship take in none of an author's own but by its name.
            let is_own = |id: &&BlockId| !self.world.project.ships(id.file);
            let told = std::iter::once(&book.id)
                .chain(self.open.iter().rev())
                .find(is_own);
            let told = self.world.project.block(*told.unwrap_or(&book.id));
            let name = self.world.name(told.id);
            let message = match self.open.contains(&book.id) {
                true => format!("the rulebook `{name}` takes itself in"),
                false => format!("more than {DEEPEST} rulebooks take one another in here"),
            };
            let finding = Finding::fault(Code::RulebookLoop, told.name_place(), message);
            return self.faults.report(finding);
        }
        // What was taken in once stands; to take it in again at every turn would never end.
        if !self.met.insert(book.id) {
            return;
        }
        let Ok(bases) = snell_rig::blocks::lineage(&self.world.names, book) else {
            return;
        };
        self.open.push(book.id);
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
                    Some(RulebookKey::With) => self.with(line, plain),
                    Some(RulebookKey::Without) => self.without(line, plain),
                    Some(RulebookKey::Set) => self.set(line, plain),
                    Some(RulebookKey::Level) => self.level(line, plain),
                    Some(RulebookKey::Edition | RulebookKey::Source) | None => {}
                }
            }
        }
        self.open.pop();
    }

    fn with(&mut self, line: LineRef<'p>, plain: &Plain) {
        for word in plain.items.iter().filter_map(word_of) {
            let Some(id) = self.world.find(self.file, BlockKind::Rule, &word.folded).block() else {
                self.report_unknown(line, word);
                continue;
            };
            let block = self.world.project.block(id);
            if block.kind() == BlockKind::Rulebook {
                self.open(block);
            } else if let Some(rule) = self.rules.rule(self.world, id) {
                self.take_in(&rule);
            }
        }
    }

    fn without(&mut self, line: LineRef<'p>, plain: &Plain) {
        for word in plain.items.iter().filter_map(word_of) {
            if let Some(rule) = self.find(line, word) {
                self.applied.retain(|applied| applied.rule.id != rule.id);
            }
        }
    }

    /// `set RULE.LIMIT to VALUE`
    fn set(&mut self, line: LineRef<'p>, plain: &'p Plain) {
        let Some(path) = plain.items.first().and_then(Expr::path) else {
            return;
        };
        let Some(rule) = self.find(line, &path[0]) else {
            return;
        };
        let value = plain
            .clauses
            .iter()
            .find(|clause| clause.joint == Joint::To)
            .and_then(|clause| clause.items.first());
        let ([word, limit], Some(value)) = (path, value) else {
            return self.report_unknown(line, &path[0]);
        };
        if !rule
            .limits
            .iter()
            .any(|(_, bind)| bind.name.folded == limit.folded)
        {
            self.faults.report(no_limit(line, &rule, word, limit));
        }
        for applied in self.standing(&rule) {
            for old in applied.limits.iter_mut().filter(|old| *old.name == *limit.folded) {
                *old = Limit::new(old.name, line, value);
            }
        }
    }

    fn level(&mut self, line: LineRef<'p>, plain: &Plain) {
        let mut words = plain.items.iter().filter_map(word_of);
        let (Some(word), Some(to)) = (words.next(), words.next().and_then(|word| level(&word.folded))) else {
            return;
        };
        if let Some(rule) = self.find(line, word) {
            self.standing(&rule).for_each(|applied| applied.level = to);
        }
    }

    fn take_in(&mut self, rule: &Arc<Rule<'p>>) {
        if self.standing(rule).next().is_none() {
            self.applied.push(Applied::as_it_stands(rule));
        }
    }

    /// A rule as far as it was taken in.
    fn standing(&mut self, rule: &Rule<'p>) -> impl Iterator<Item = &mut Applied<'p>> {
        let id = rule.id;
        self.applied
            .iter_mut()
            .filter(move |applied| applied.rule.id == id)
    }

    /// The rule of a name; that there is none is reported.
    fn find(&self, line: LineRef<'p>, word: &Word) -> Option<Arc<Rule<'p>>> {
        let found = self.rules.find(self.world, self.file, word);
        if found.is_none() {
            self.report_unknown(line, word);
        }
        found
    }

    fn report_unknown(&self, line: LineRef<'p>, word: &Word) {
        self.faults
            .report(self.rules.unknown(self.world, line, word, self.file));
    }
}

impl<'p> Applied<'p> {
    /// A rule with its own level and figures.
    pub(crate) fn as_it_stands(rule: &Arc<Rule<'p>>) -> Self {
        let limits = rule
            .limits
            .iter()
            .map(|(line, bind)| Limit::new(&bind.name.folded, *line, &bind.value));
        Self {
            rule: rule.clone(),
            level: rule.level,
            limits: limits.collect(),
        }
    }
}

/// The rule or rulebook that an item names.
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
