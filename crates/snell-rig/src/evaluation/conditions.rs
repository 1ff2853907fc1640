//! Conditions: whether a value lies where it should, or a thing carries a word.
//!
//! Claims of rigs and conditions of rules are judged alike; what is said when
//! one does not hold is for those who ask.

use super::core::{Evaluation, Get, Measure, Told};
use super::paths::Meaning;
use super::subjects::Subjects;
use crate::evaluate::{evaluate, sharing, single};
use crate::keywords::PartKind;
use crate::lack::{Lack, Outcome};
use crate::missing::{Missing, Unsaid};
use crate::project::LineRef;
use crate::rig::FlyAt;
use crate::thing::Thing;
use crate::value::Value;
use snell_finding::{Code, Finding};
use snell_syntax::{Bound, Claim, Condition, Expr};
use snell_units::Dimension;

/// How far `about` may be off.
const ABOUT: f64 = 0.02;
/// What rounding may do to a sum of written lengths.
const ROUNDING: f64 = 1e-9;

/// What became of a condition.
#[derive(Clone, Debug)]
pub struct Verdict {
    /// Whether it holds.
    pub holds: bool,
    /// What was found.
    pub found: Answer,
    /// The limits that it was held against.
    pub limits: Vec<Value>,
}

/// What was found of a condition's subject.
#[derive(Clone, Debug)]
pub enum Answer {
    /// A value.
    Value(Value),
    /// Words.
    Words(Carried),
}

/// The words that a thing carries, or that one measure tells of it. Most who ask only want to know whether a condition
/// holds, so they are not written down before they are told.
#[derive(Clone, Copy, Debug)]
pub struct Carried {
    thing: Thing,
    measure: Option<&'static Measure>,
}

impl Carried {
    /// All of them, parted by commas.
    pub(super) fn told(&self, evaluation: &Evaluation<'_, '_>) -> String {
        let mut words = Vec::new();
        each_word(evaluation, self.thing, self.measure, &mut |word| {
            words.push(word.to_owned());
        });
        words.join(", ")
    }
}

/// Judges a condition.
///
/// # Errors
/// It cannot be told; what is a fault of the text has been reported.
pub fn verdict(scope: &dyn Subjects<'_>, line: LineRef<'_>, claim: &Claim) -> Result<Verdict, Lack> {
    match &claim.condition {
        Condition::Is { negated, words } => is(scope, line, claim, *negated, words),
        Condition::Between(..) | Condition::Bound(..) => compared(scope, line, claim),
    }
}

fn compared(scope: &dyn Subjects<'_>, line: LineRef<'_>, claim: &Claim) -> Result<Verdict, Lack> {
    let value = evaluate(scope, line, &claim.subject)?;
    let (low, high) = limits(scope, line, claim)?;
    for (_, limit) in [&low, &high].into_iter().flatten() {
        if !comparable(value.dimension(), limit.dimension()) {
            return Err(scope.faults().lack(unlike(line, claim, &value, limit)));
        }
    }
    let si = weight(&value);
    let slack = ROUNDING * si.abs();
    let over = low
        .as_ref()
        .is_none_or(|(strict, limit)| match (strict, weight(limit)) {
            (true, limit) => si > limit + slack,
            (false, limit) => si >= limit - slack,
        });
    let under = high
        .as_ref()
        .is_none_or(|(strict, limit)| match (strict, weight(limit)) {
            (true, limit) => si < limit - slack,
            (false, limit) => si <= limit + slack,
        });
    Ok(Verdict {
        holds: over && under,
        found: Answer::Value(value),
        limits: [low, high]
            .into_iter()
            .flatten()
            .map(|(_, limit)| limit)
            .collect(),
    })
}

/// An end of what is allowed, and whether the value must lie beyond it.
type Limit = (bool, Value);

fn limits(
    scope: &dyn Subjects<'_>,
    line: LineRef<'_>,
    claim: &Claim,
) -> Result<(Option<Limit>, Option<Limit>), Lack> {
    match &claim.condition {
        Condition::Between(low, high) => {
            let high_value = evaluate(scope, line, high)?;
            let low_value = shared_unit(scope, line, low, high)?;
            Ok((Some((false, low_value)), Some((false, high_value))))
        }
        Condition::Bound(bound, limit) => {
            let limit = evaluate(scope, line, limit)?;
            Ok(match bound {
                Bound::AtLeast => (Some((false, limit)), None),
                Bound::AtMost => (None, Some((false, limit))),
                Bound::Over => (Some((true, limit)), None),
                Bound::Under => (None, Some((true, limit))),
                Bound::About => {
                    let (si, dimension) = (limit.si(), limit.dimension());
                    let low = limit.clone().with(si * (1.0 - ABOUT), dimension);
                    (
                        Some((false, low)),
                        Some((false, limit.with(si * (1.0 + ABOUT), dimension))),
                    )
                }
            })
        }
        Condition::Is { .. } => Ok((None, None)),
    }
}

/// `between 15 and 17 ft`: a bare lower end takes the upper's unit.
fn shared_unit(scope: &dyn Subjects<'_>, line: LineRef<'_>, low: &Expr, high: &Expr) -> Outcome {
    match low.single().zip(high.single()) {
        Some((low, high)) => single(scope.faults(), line, &sharing(low, high)),
        None => evaluate(scope, line, low),
    }
}

/// A value as a force where it is a mass, so that the two compare.
fn weight(value: &Value) -> f64 {
    match value.dimension() {
        Dimension::MASS => value.quantity.as_force().map_or(value.si(), |force| force.si),
        _ => value.si(),
    }
}

fn unlike(line: LineRef<'_>, claim: &Claim, value: &Value, limit: &Value) -> Finding {
    let message = format!(
        "{} cannot be compared with {}",
        value.dimension().name(),
        limit.dimension().name()
    );
    let told = |value: &Value| format!("{} ({})", value.dimension().name(), value.written());
    Finding::fault(
        Code::DimensionsDiffer,
        line.place(claim.subject.span.to(claim.condition_span)),
        message,
    )
    .label(line.place(claim.subject.span), told(value))
    .label(line.place(claim.condition_span), told(limit))
}

/// `is [not] WORD or WORD`
fn is(
    scope: &dyn Subjects<'_>,
    line: LineRef<'_>,
    claim: &Claim,
    negated: bool,
    asked: &[Expr],
) -> Result<Verdict, Lack> {
    let Some(path) = claim.subject.path() else {
        return Err(no_words(scope, line, claim));
    };
    let (measure, thing) = match scope.meaning(line, path)? {
        Meaning::Thing(thing) => (None, thing),
        Meaning::Measure(measure, thing) if matches!(measure.get, Get::Words(_)) => (Some(measure), thing),
        Meaning::Measure(..) | Meaning::Value(_) => return Err(no_words(scope, line, claim)),
    };
    let evaluation = scope.evaluation();
    let (mut carries, mut any) = (false, false);
    each_word(evaluation, thing, measure, &mut |word| {
        any = true;
        carries = carries
            || asked
                .iter()
                .any(|asked| line.written(asked.span).eq_ignore_ascii_case(word));
    });
    if let (false, Some(measure)) = (any, measure) {
        let missing = Missing::new(Unsaid::Words(measure.name)).of_thing(thing);
        return Err(missing.at(evaluation.rig.place()).into());
    }
    Ok(Verdict {
        holds: carries != negated,
        found: Answer::Words(Carried { thing, measure }),
        limits: Vec::new(),
    })
}

fn no_words(scope: &dyn Subjects<'_>, line: LineRef<'_>, claim: &Claim) -> Lack {
    let subject = line.written(claim.subject.span);
    let message = format!("`{subject}` carries no words that `is` could ask for");
    let finding = Finding::fault(Code::WordUnasked, line.place(claim.subject.span), message);
    let help = "compare a quantity with `at least`, `at most` or `between`; `is` asks a part for its role, kind or material";
    scope.faults().lack(finding.help(help))
}

/// Each word that a thing carries: its kind, role, material, flags; or that one measure tells of it.
fn each_word(evaluation: &Evaluation<'_, '_>, thing: Thing, of: Option<&Measure>, told: &mut Told<'_>) {
    if let Some(measure) = of {
        return evaluation.told(measure, thing, told);
    }
    told(thing.kind().word());
    for measure in evaluation.measures.in_words(thing.kind()) {
        evaluation.told(measure, thing, told);
    }
    if let Thing::Fly(id) = thing {
        let on = evaluation.rig.chain.fly(id);
        let flags = [
            ("barbless", on.tied.fly.barbless),
            ("weighted", on.tied.fly.is_weighted()),
            ("floating", evaluation.rig.rides_afloat(id)),
        ];
        let carried = flags.iter().filter(|(_, carried)| *carried);
        carried.for_each(|(word, _)| told(word));
        told(match on.at {
            FlyAt::Inline => PartKind::Inline.word(),
            FlyAt::Point => PartKind::Point.word(),
            FlyAt::Dropper(_) => PartKind::Dropper.word(),
        });
    }
}

/// Whether two dimensions may be compared: a mass stands for its weight beside a force.
fn comparable(left: Dimension, right: Dimension) -> bool {
    let weights = [Dimension::MASS, Dimension::FORCE];
    left == right || (weights.contains(&left) && weights.contains(&right))
}
