//! What names mean in a rule: its limits, the thing that it looks at, and the
//! measures of the rig. A rig's own lets and labels mean nothing here.

use snell_finding::{Code, Finding};
use snell_rig::Evaluation;
use snell_rig::evaluate::{Constants, Scope, evaluate};
use snell_rig::evaluation::{Meaning, Subjects};
use snell_rig::faults::Faults;
use snell_rig::lack::{Lack, Outcome};
use snell_rig::measure::{Get, Thing};
use snell_rig::project::LineRef;
use snell_rig::value::{Causes, Value};
use snell_syntax::{Expr, ExprKind, Word};
use snell_text::Span;
use std::cell::Cell;

/// A figure of a rule: its line and its value, a rulebook's where one sets it.
#[derive(Clone, Debug)]
pub struct Limit<'p> {
    /// Its name.
    pub name: &'p str,
    line: LineRef<'p>,
    value: &'p Expr,
    /// What it comes to, where it is one written quantity.
    constant: Option<Value>,
}

impl<'p> Limit<'p> {
    /// Whether it is one written quantity, and not worked out from others.
    pub fn is_stated(&self) -> bool {
        self.constant.is_some()
    }

    /// A figure with the value that a line gives it.
    pub fn new(name: &'p str, line: LineRef<'p>, value: &'p Expr) -> Self {
        let written = matches!(value.kind, ExprKind::Single(_) | ExprKind::Spread(..));
        // What is wrong with it is told where it is asked for.
        let faults = Faults::default();
        let constant = written
            .then(|| evaluate(&Constants(&faults), line, value).ok())
            .flatten();
        Self {
            name,
            line,
            value,
            constant: constant.map(blameless),
        }
    }
}

/// A figure of a rule is no line of the rig to blame.
fn blameless(mut value: Value) -> Value {
    value.causes = Causes::default();
    value
}

/// Limits that name one another are followed this far.
const DEEPEST: usize = snell_finding::Limit::RuleLimits.count();

/// One rule at one thing of one rig.
pub struct RuleScope<'a, 'w, 'p> {
    /// The rig.
    pub evaluation: &'a Evaluation<'w, 'p>,
    /// What the rule looks at.
    pub thing: Thing,
    /// Its figures.
    pub limits: &'a [Limit<'p>],
    faults: &'a Faults,
    depth: Cell<usize>,
}

impl<'a, 'w, 'p> RuleScope<'a, 'w, 'p> {
    /// A rule at a thing.
    pub fn new(
        evaluation: &'a Evaluation<'w, 'p>,
        thing: Thing,
        limits: &'a [Limit<'p>],
        faults: &'a Faults,
    ) -> Self {
        Self {
            evaluation,
            thing,
            limits,
            faults,
            depth: Cell::new(0),
        }
    }

    pub(crate) fn limit(&self, limit: &Limit<'p>) -> Outcome {
        if let Some(constant) = &limit.constant {
            return Ok(constant.clone());
        }
        if self.depth.get() >= DEEPEST {
            return Err(self.tell_depth(limit));
        }
        self.depth.set(self.depth.get() + 1);
        let outcome = evaluate(self, limit.line, limit.value);
        self.depth.set(self.depth.get() - 1);
        outcome.map(blameless)
    }
}

impl RuleScope<'_, '_, '_> {
    fn tell_depth(&self, limit: &Limit<'_>) -> Lack {
        let message = format!("more than {DEEPEST} limits hang on one another here");
        let place = limit.line.place(limit.value.span);
        let finding = Finding::fault(Code::ValueDeep, place, message);
        self.faults
            .lack(finding.help("write one of them as a plain value"))
    }
}

impl Scope for RuleScope<'_, '_, '_> {
    fn path(&self, line: LineRef<'_>, path: &[Word], span: Span) -> Outcome {
        match self.meaning(line, path)? {
            Meaning::Value(outcome) => outcome,
            Meaning::Measure(measure, thing) => match measure.get {
                Get::Value(_) => self.evaluation.measure(measure, thing),
                Get::Words(_) => Err(snell_rig::evaluate::no_value(
                    self.faults,
                    line,
                    span,
                    "is told in words, which cannot be reckoned with",
                )),
            },
            Meaning::Thing(_) => Err(snell_rig::evaluate::no_value(
                self.faults,
                line,
                span,
                "is a thing; name one of its measures",
            )),
        }
    }

    fn faults(&self) -> &Faults {
        self.faults
    }
}

impl<'p> Subjects<'p> for RuleScope<'_, '_, 'p> {
    fn meaning(&self, line: LineRef<'_>, path: &[Word]) -> Result<Meaning, Lack> {
        let first = &path[0];
        let limit = self.limits.iter().find(|limit| limit.name == &*first.folded);
        let start = match limit {
            Some(limit) => Meaning::Value(self.limit(limit)),
            None if *first.folded == *self.thing.kind().word() => Meaning::Thing(self.thing),
            None => self.evaluation.named(self.faults, line, first)?,
        };
        self.evaluation.follow(self.faults, line, start, path)
    }

    fn evaluation(&self) -> &Evaluation<'_, 'p> {
        self.evaluation
    }
}
