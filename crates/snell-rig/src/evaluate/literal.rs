//! Quantities as written, with the place that they came from.

use crate::faults::Faults;
use crate::fit::slips;
use crate::lack::{Lack, Outcome};
use crate::literal::{Literal, NoQuantity, numbers};
use crate::project::LineRef;
use crate::value::{Cause, Causes, Value};
use snell_finding::{Code, Finding, Fix};
use snell_syntax::{Single, SingleKind};
use snell_text::Span;
use snell_units::UnitFault;

use super::scope::no_value;

/// The value of one quantity.
///
/// # Errors
/// A fault of the text, which has been reported.
pub fn single(faults: &Faults, line: LineRef<'_>, written: &Single) -> Outcome {
    if let Some(number) = numbers(written)
        .into_iter()
        .flatten()
        .find(|number| number.doubtful)
    {
        return Err(faults.lack(*slips::doubtful(line, number)));
    }
    match Literal::of(written) {
        Ok(literal) => Ok(value(line, written.span, literal)),
        Err(NoQuantity::TooFine) => Err(faults.lack(*slips::too_fine(line, written.span))),
        Err(NoQuantity::Size) => {
            let what = "is a size, which cannot be reckoned with";
            Err(no_value(faults, line, written.span, what))
        }
        Err(NoQuantity::Day) => {
            let what = "is a day, which cannot be reckoned with";
            Err(no_value(faults, line, written.span, what))
        }
        Err(NoQuantity::NoUnit(fault)) => Err(faults.lack(unknown(line, written, fault))),
    }
}

/// A word that is no unit.
fn unknown(line: LineRef<'_>, written: &Single, fault: UnitFault) -> Finding {
    let (word, span) = match written.unit() {
        Some(unit) => (&*unit.plain, unit.span),
        None => (line.written(written.span), written.span),
    };
    let place = line.place(span);
    let finding = Finding::fault(Code::UnitUnknown, place, format!("there is no unit `{word}`"));
    match fault {
        UnitFault::Unknown {
            nearest: Some(near), ..
        } => finding.here(format!("did you mean `{near}`?")).fix(Fix::offered(
            format!("write `{near}`"),
            place,
            near,
        )),
        UnitFault::Unknown { nearest: None, .. }
        | UnitFault::Ambiguous { .. }
        | UnitFault::Temperature { .. } => finding,
    }
}

/// The ends of a spread as they are written. An end without a unit takes the other's.
///
/// # Errors
/// A fault of the text, which has been reported.
pub(crate) fn ends(
    faults: &Faults,
    line: LineRef<'_>,
    first: &Single,
    second: &Single,
) -> Result<(Value, Value), Lack> {
    let upper = single(faults, line, &sharing(first, second))?;
    let lower = single(faults, line, &sharing(second, first))?;
    if upper.dimension() == lower.dimension() {
        return Ok((upper, lower));
    }
    let span = first.span.to(second.span);
    let finding = Finding::fault(
        Code::DimensionsDiffer,
        line.place(span),
        format!("the ends of `{}` are of different kinds", line.written(span)),
    );
    Err(faults.lack(
        finding
            .label(line.place(first.span), upper.dimension().name())
            .label(line.place(second.span), lower.dimension().name()),
    ))
}

/// A bare number with the unit of another.
pub(crate) fn sharing(bare: &Single, other: &Single) -> Single {
    match (&bare.kind, &other.kind) {
        (SingleKind::Number(number, None), SingleKind::Number(_, Some(unit))) => Single {
            kind: SingleKind::Number(*number, Some(unit.clone())),
            span: bare.span,
        },
        _ => bare.clone(),
    }
}

/// A spread: its middle, with its ends.
///
/// # Errors
/// A fault of the text, which has been reported.
pub fn spread(faults: &Faults, line: LineRef<'_>, first: &Single, second: &Single) -> Outcome {
    let (one, other) = ends(faults, line, first, second)?;
    Ok(between(line, first.span.to(second.span), &one, &other))
}

/// The middle of two ends, which came from the spread as a whole.
pub(crate) fn between(line: LineRef<'_>, span: Span, one: &Value, other: &Value) -> Value {
    let (a, b) = (one.si(), other.si());
    let mut literal = Literal {
        quantity: one.quantity,
        system: one.system.or(other.system),
        unit: one
            .unit
            .filter(|unit| other.unit.is_some_and(|other| other.name == unit.name)),
    };
    literal.quantity.si = (a + b) / 2.0;
    let mut whole = value(line, span, literal);
    whole.ends = Some((a.min(b), a.max(b)));
    whole.causes = whole
        .causes
        .iter()
        .map(|cause| Cause {
            ends: whole.ends,
            ..*cause
        })
        .collect();
    whole
}

fn value(line: LineRef<'_>, span: Span, literal: Literal) -> Value {
    let Literal {
        quantity,
        system,
        unit,
    } = literal;
    let cause = Cause {
        place: line.place(span),
        part: quantity,
        ends: None,
        unit,
        system,
    };
    Value {
        quantity,
        ends: None,
        system,
        unit,
        causes: Causes::from_iter([cause]),
    }
}
