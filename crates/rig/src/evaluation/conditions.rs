//! Claims judged: whether an `expect` holds, with the lines to blame.

use super::{Evaluation, Meaning, comparable, of_claim};
use crate::evaluate::with_causes;
use crate::faults;
use crate::measure::{Get, Thing};
use crate::project::LineRef;
use crate::value::{Lack, Outcome, Value};
use report::Finding;
use syntax::{Bound, Claim, Condition, Expr, ExprKind, Single, SingleKind};
use units::{Dimension, System};

/// How far `about` may be off.
const ABOUT: f64 = 0.02;
/// What rounding may do to a sum of written lengths.
const ROUNDING: f64 = 1e-9;

/// Judges an `expect` line of a rig and reports what does not hold.
pub fn judge<'p>(evaluation: &Evaluation<'_, 'p>, line: LineRef<'p>, claim: &'p Claim) {
    let outcome = match &claim.condition {
        Condition::Is { negated, words } => is(evaluation, line, claim, *negated, words),
        _ => compared(evaluation, line, claim),
    };
    match outcome {
        Ok(None) | Err(Lack::Faulty) => {}
        Ok(Some(finding)) => evaluation.faults.report(finding.rig(&evaluation.rig.name)),
        Err(Lack::Unknown(needs)) => {
            let subject = line.written(claim.subject.span);
            let message = format!("`{subject}` cannot be told for `{}`", evaluation.rig.name);
            let mut finding = Finding::fault(faults::EXPECT_UNKNOWN, line.whole(), message).rig(&evaluation.rig.name);
            let told: Vec<String> = needs.iter().map(|need| need.what.clone()).collect();
            for need in &needs {
                if let Some(place) = need.place.filter(|place| *place != line.whole()) {
                    finding = finding.label(place, format!("lacks {}", need.what));
                }
            }
            evaluation.faults.report(finding.help(format!("say {}", told.join(", and "))));
        }
    }
}

type Judged = Result<Option<Finding>, Lack>;

fn compared<'p>(evaluation: &Evaluation<'_, 'p>, line: LineRef<'p>, claim: &'p Claim) -> Judged {
    let value = of_claim(evaluation, line, &claim.subject)?;
    let (low, high) = limits(evaluation, line, claim)?;
    for (_, limit) in [&low, &high].into_iter().flatten() {
        if !comparable(value.dimension(), limit.dimension()) {
            return Err(evaluation.faults.lack(unlike(line, claim, &value, limit)));
        }
    }
    let si = weight(&value);
    let slack = ROUNDING * si.abs();
    let kept = |limit: &Option<Limit>, keeps: fn(f64, f64, f64) -> bool, strict: fn(f64, f64) -> bool| {
        limit.as_ref().is_none_or(|(strictly, limit)| match strictly {
            true => strict(si, weight(limit)),
            false => keeps(si, weight(limit), slack),
        })
    };
    let over = kept(&low, |si, limit, slack| si >= limit - slack, |si, limit| si > limit);
    let under = kept(&high, |si, limit, slack| si <= limit + slack, |si, limit| si < limit);
    if over && under {
        return Ok(None);
    }
    Ok(Some(fails(evaluation, line, claim, &value, limit_system(&low, &high))))
}

/// An end of what is allowed, and whether the value must lie beyond it.
type Limit = (bool, Value);

fn limits<'p>(
    evaluation: &Evaluation<'_, 'p>,
    line: LineRef<'p>,
    claim: &'p Claim,
) -> Result<(Option<Limit>, Option<Limit>), Lack> {
    match &claim.condition {
        Condition::Between(low, high) => {
            let high_value = of_claim(evaluation, line, high)?;
            let low_value = shared_unit(evaluation, line, low, high)?;
            Ok((Some((false, low_value)), Some((false, high_value))))
        }
        Condition::Bound(bound, limit) => {
            let limit = of_claim(evaluation, line, limit)?;
            Ok(match bound {
                Bound::AtLeast => (Some((false, limit)), None),
                Bound::AtMost => (None, Some((false, limit))),
                Bound::Over => (Some((true, limit)), None),
                Bound::Under => (None, Some((true, limit))),
                Bound::About => {
                    let (si, dimension) = (limit.si(), limit.dimension());
                    let low = limit.clone().with(si * (1.0 - ABOUT), dimension);
                    (Some((false, low)), Some((false, limit.with(si * (1.0 + ABOUT), dimension))))
                }
            })
        }
        Condition::Is { .. } => Ok((None, None)),
    }
}

/// `between 15 and 17 ft`: a bare lower end takes the upper's unit.
fn shared_unit<'p>(evaluation: &Evaluation<'_, 'p>, line: LineRef<'p>, low: &'p Expr, high: &Expr) -> Outcome {
    let unit = match &high.kind {
        ExprKind::Single(Single { kind: SingleKind::Number(_, Some(unit)), .. }) => unit,
        _ => return of_claim(evaluation, line, low),
    };
    match &low.kind {
        ExprKind::Single(Single { kind: SingleKind::Number(number, None), span }) => {
            let kind = SingleKind::Number(*number, Some(unit.clone()));
            crate::evaluate::single(&evaluation.faults, line, &Single { kind, span: *span })
        }
        _ => of_claim(evaluation, line, low),
    }
}

/// A value as a force where it is a mass, so that the two compare.
fn weight(value: &Value) -> f64 {
    match value.dimension() {
        Dimension::MASS => value.quantity.as_force().map_or(value.si(), |force| force.si),
        _ => value.si(),
    }
}

fn limit_system(low: &Option<Limit>, high: &Option<Limit>) -> Option<System> {
    [low, high].into_iter().flatten().find_map(|(_, limit)| limit.system)
}

fn fails(
    evaluation: &Evaluation<'_, '_>,
    line: LineRef<'_>,
    claim: &Claim,
    value: &Value,
    system: Option<System>,
) -> Finding {
    let subject = line.written(claim.subject.span);
    let told = match value.system.or(system) {
        Some(system) => value.written_in(system),
        None => value.written(),
    };
    let condition = line.written(claim.condition_span);
    let condition = condition.strip_prefix("is ").unwrap_or(condition);
    let message = format!("`{subject}` of `{}` is {told}, not {condition}", evaluation.rig.name);
    // In a derived rig a claim of the base is told at the derived rig's own name.
    let own = line.file == evaluation.rig.block.id.file && stands_in(evaluation, line);
    let place = if own { line.whole() } else { evaluation.rig.place() };
    let mut finding = Finding::fault(faults::EXPECT, place, message);
    if own {
        finding = finding.here(format!("{subject} is {told}"));
    } else {
        let from = evaluation.rig.base.unwrap_or("its base");
        finding = finding.here("of this rig").label(line.whole(), format!("the claim, from {from}"));
    }
    with_causes(finding, value)
}

/// Whether a line stands in the rig's own block.
fn stands_in(evaluation: &Evaluation<'_, '_>, line: LineRef<'_>) -> bool {
    evaluation.rig.block.lines().any(|own| own.line.offset == line.line.offset)
}

fn unlike(line: LineRef<'_>, claim: &Claim, value: &Value, limit: &Value) -> Finding {
    let message = format!("{} cannot be compared with {}", value.dimension().name(), limit.dimension().name());
    let told = |value: &Value| format!("{} ({})", value.dimension().name(), value.written());
    Finding::fault(faults::DIMENSIONS_DIFFER, line.place(claim.subject.span.to(claim.condition_span)), message)
        .label(line.place(claim.subject.span), told(value))
        .label(line.place(claim.condition_span), told(limit))
}

/// `is [not] WORD or WORD`
fn is<'p>(
    evaluation: &Evaluation<'_, 'p>,
    line: LineRef<'p>,
    claim: &'p Claim,
    negated: bool,
    asked: &'p [Expr],
) -> Judged {
    let ExprKind::Path(path) = &claim.subject.kind else {
        return Err(no_words(evaluation, line, claim));
    };
    let carried = match evaluation.meaning(line, path)? {
        Meaning::Thing(thing) => words_of(evaluation, thing),
        Meaning::Measure(measure, thing) => match measure.get {
            Get::Words(get) => get(evaluation, thing),
            Get::Value(_) => return Err(no_words(evaluation, line, claim)),
        },
        Meaning::Value(_) => return Err(no_words(evaluation, line, claim)),
    };
    if carried.is_empty() {
        let what = format!("the {}", line.written(claim.subject.span));
        return Err(Lack::need(what, Some(evaluation.rig.place())));
    }
    let is_carried = |word: &Expr| carried.iter().any(|carried| carried.eq_ignore_ascii_case(line.written(word.span)));
    if asked.iter().any(is_carried) != negated {
        return Ok(None);
    }
    let subject = line.written(claim.subject.span);
    let message = format!(
        "`{subject}` of `{}` is {}, not {}",
        evaluation.rig.name,
        carried.join(", "),
        asked.iter().map(|word| line.written(word.span)).collect::<Vec<_>>().join(" or ")
    );
    Ok(Some(Finding::fault(faults::EXPECT, line.whole(), message)))
}

fn no_words(evaluation: &Evaluation<'_, '_>, line: LineRef<'_>, claim: &Claim) -> Lack {
    let subject = line.written(claim.subject.span);
    let message = format!("`{subject}` carries no words that `is` could ask for");
    let finding = Finding::fault(faults::WORD_MISPLACED, line.place(claim.subject.span), message);
    let help = "compare a quantity with `at least`, `at most` or `between`; `is` asks a part for its role, kind or material";
    evaluation.faults.lack(finding.help(help))
}

/// The words that a thing carries: role, kind, flags, material, method.
pub(crate) fn words_of(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Vec<String> {
    let measures = crate::measure::all_of(thing.kind());
    let mut words: Vec<String> = vec![thing.kind().word().to_owned()];
    for measure in measures {
        if let Get::Words(get) = measure.get {
            words.extend(get(evaluation, thing));
        }
    }
    if let Thing::Fly(index) = thing {
        let fly = &evaluation.rig.layout.flies[index].fly;
        let flags = [
            ("barbless", fly.barbless),
            ("weighted", fly.bead.is_some() || fly.wire.is_some()),
            ("floating", fly.floats.is_some()),
        ];
        words.extend(flags.iter().filter(|(_, carried)| *carried).map(|(word, _)| (*word).to_owned()));
    }
    words
}
