//! A rule as it is read: what it looks at, when, what it asks for and says.

use crate::say::{self, Piece};
use snell_finding::{Code, Finding, Level};
use snell_rig::faults::Faults;
use snell_rig::keywords::{Decides, Key, OwnKey, RuleKey};
use snell_rig::measure::Kind;
use snell_rig::project::{BlockRef, LineRef};
use snell_rig::{BlockId, World};
use snell_syntax::{Bind, Claim, Condition, Expr, ExprKind, Form, Joint, Plain, Text};
use snell_text::Place;
use std::sync::OnceLock;

/// A rule.
#[derive(Debug)]
pub struct Rule<'p> {
    /// Its block.
    pub id: BlockId,
    /// Its name as it is compared.
    pub name: &'p str,
    /// The reason for it.
    pub about: Option<&'p str>,
    /// What it looks at; the whole rig where there is none.
    pub each: Option<Kind>,
    /// It speaks only where all of these hold, and none of those marked `unless`.
    pub when: Vec<Guard<'p>>,
    /// What it asks for.
    pub keep: Vec<(LineRef<'p>, &'p Claim)>,
    /// Its figures by name.
    pub limits: Vec<(LineRef<'p>, &'p Bind)>,
    /// How much a finding weighs.
    pub level: Level,
    /// What of the verdict on a rig hangs on it.
    pub decides: Option<Decides>,
    /// The line that says what a finding says, and its text.
    pub say: Option<(LineRef<'p>, Text)>,
    /// The same cut into pieces, once a finding is told.
    pieces: OnceLock<Vec<Piece>>,
    /// What to change.
    pub mend: Option<Mend<'p>>,
    /// Where it comes from.
    pub source: Option<&'p str>,
}

/// A `when` or `unless`.
#[derive(Clone, Copy, Debug)]
pub struct Guard<'p> {
    /// Its line.
    pub line: LineRef<'p>,
    /// Its condition.
    pub claim: &'p Claim,
    /// Whether the rule is silent where it holds, and not where it does not.
    pub silences: bool,
}

impl Guard<'_> {
    /// Whether it asks the rig as a whole, and not each thing that the rule looks at.
    pub fn asks_the_rig(&self, each: Option<Kind>) -> bool {
        let asks_thing = |expr: &Expr| match &expr.kind {
            ExprKind::Path(words) => each.is_some_and(|kind| *words[0].folded == *kind.word()),
            ExprKind::Single(_) | ExprKind::Spread(..) => false,
            ExprKind::Call(..) | ExprKind::Sum(..) | ExprKind::Product(..) => true,
        };
        let limits = match &self.claim.condition {
            Condition::Between(low, high) => asks_thing(low) || asks_thing(high),
            Condition::Bound(_, limit) => asks_thing(limit),
            Condition::Is { .. } => false,
        };
        !limits && !asks_thing(&self.claim.subject)
    }
}

/// `mend X to Y`
#[derive(Clone, Copy, Debug)]
pub struct Mend<'p> {
    /// Its line.
    pub line: LineRef<'p>,
    /// What is to reach a value.
    pub what: &'p Expr,
    /// The value.
    pub to: &'p Expr,
}

impl<'p> Rule<'p> {
    /// Reads a rule; what it lacks is reported, once, by the block itself.
    pub fn read(world: &World<'p>, block: BlockRef<'p>, faults: &Faults) -> Option<Self> {
        let bases = snell_rig::blocks::lineage(&world.names, block).ok()?;
        let mut rule = Self {
            id: block.id,
            name: world.name(block.id),
            about: None,
            each: None,
            when: Vec::new(),
            keep: Vec::new(),
            limits: Vec::new(),
            level: Level::Caution,
            decides: None,
            say: None,
            pieces: OnceLock::new(),
            mend: None,
            source: None,
        };
        // Lines said twice are reported where blocks are read.
        for line in snell_rig::blocks::merged(&bases, &Faults::default()) {
            rule.take(line);
        }
        // That what ships can be read is tested.
        if !world.project.ships(block.id.file) {
            rule.check_say(faults);
        }
        rule.complete(block, faults).then_some(rule)
    }

    /// What a finding says, in pieces.
    pub(crate) fn pieces(&self) -> &[Piece] {
        self.pieces.get_or_init(|| {
            let said = self.say.map(|(line, text)| say::read(line, text));
            said.and_then(Result::ok).unwrap_or_default()
        })
    }

    fn check_say(&mut self, faults: &Faults) {
        if let Some(Err(finding)) = self.say.map(|(line, text)| say::read(line, text)) {
            faults.report(*finding);
            self.say = None;
        }
    }

    /// Whether a place lies on one of its lines.
    pub fn writes(&self, place: Place) -> bool {
        let said = self.say.map(|(line, _)| line);
        let lines = self.keep.iter().map(|(line, _)| *line).chain(said);
        lines
            .into_iter()
            .any(|line| line.text_id() == place.text && line.whole().span.holds(place.span))
    }

    fn take(&mut self, line: LineRef<'p>) {
        match &*line.line.form {
            Form::Bind(bind) => self.limits.push((line, bind)),
            Form::Claim(claim) => match OwnKey::of(&claim.key.folded) {
                Some(key @ (OwnKey::When | OwnKey::Unless)) => self.when.push(Guard {
                    line,
                    claim,
                    silences: key == OwnKey::Unless,
                }),
                Some(OwnKey::Keep) => self.keep.push((line, claim)),
                Some(OwnKey::Let | OwnKey::Limit | OwnKey::Expect | OwnKey::Change) | None => {}
            },
            Form::Plain(plain) => self.plain(line, plain),
            Form::Use(_) | Form::Block(_) | Form::Change(_) => {}
        }
    }

    fn plain(&mut self, line: LineRef<'p>, plain: &'p Plain) {
        let text = plain.text.map(|text| line.text(text));
        let Some(key) = RuleKey::of(&plain.key.folded) else {
            return;
        };
        match key {
            RuleKey::About => self.about = text,
            RuleKey::Source => self.source = text,
            RuleKey::For => self.each = plain.items.get(1).and_then(word).and_then(Kind::of),
            RuleKey::Level => {
                let level = plain.items.first().and_then(word).and_then(level);
                self.level = level.unwrap_or(self.level);
            }
            RuleKey::Decides => {
                self.decides = plain.items.first().and_then(word).and_then(Decides::of);
            }
            RuleKey::Mend => self.mend = mend(line, plain),
            RuleKey::Say => self.say = plain.text.map(|text| (line, text)),
        }
    }

    fn complete(&self, block: BlockRef<'_>, faults: &Faults) -> bool {
        let lacks = match (self.keep.is_empty(), self.say.is_none()) {
            (false, false) => return true,
            (true, _) => "`keep` line, so it asks for nothing",
            (_, true) => "`say` line, so it has nothing to say",
        };
        if !block.block.broken {
            let message = format!("the rule `{}` has no {lacks}", self.name);
            faults.report(Finding::fault(Code::RuleIncomplete, block.name_place(), message));
        }
        false
    }
}

fn word(expr: &Expr) -> Option<&str> {
    Some(&expr.path()?.first()?.folded)
}

/// The level that a word names.
pub(crate) fn level(word: &str) -> Option<Level> {
    Level::ALL.into_iter().find(|level| level.word() == word)
}

fn mend<'p>(line: LineRef<'p>, plain: &'p Plain) -> Option<Mend<'p>> {
    let clause = plain.clauses.iter().find(|clause| clause.joint == Joint::To)?;
    Some(Mend {
        line,
        what: plain.items.first()?,
        to: clause.items.first()?,
    })
}
