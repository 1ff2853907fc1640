//! Quantities as written.

use crate::fit::slips;
use crate::project::LineRef;
use crate::value::{Cause, Causes, Faults, Lack, Outcome, Value};
use snell_finding::{Code, Finding, Fix};
use snell_syntax::{Number, Single, SingleKind, Unit};
use snell_text::Span;
use snell_units::{Dimension, Quantity, System};

/// Metres to the foot and to the inch, kilograms to the pound and to the ounce.
/// Source: NIST SP 811 (2008), appendix B.8, exact (the ounce a sixteenth of the pound).
const FOOT: f64 = 0.3048;
const INCH: f64 = 0.0254;
const POUND: f64 = 0.453_592_37;
const OUNCE: f64 = POUND / 16.0;

/// The value of one quantity.
///
/// # Errors
/// A fault of the text, which has been reported.
pub fn single(faults: &Faults, line: LineRef<'_>, written: &Single) -> Outcome {
    let made =
        |si: f64, dimension, system: Option<System>| value(line, written.span, (si, dimension), system, None);
    let checked = |number: &Number| check(faults, line, number);
    match &written.kind {
        SingleKind::Feet(feet, inches) => {
            let si = checked(feet)? * FOOT + checked(inches)? * INCH;
            Ok(made(si, Dimension::LENGTH, Some(System::Imperial)))
        }
        SingleKind::Pounds(pounds, ounces) => {
            let si = checked(pounds)? * POUND + checked(ounces)? * OUNCE;
            Ok(made(si, Dimension::MASS, Some(System::Imperial)))
        }
        SingleKind::X(number) => match snell_units::diameter_of_x(checked(number)?) {
            Some(si) => Ok(made(si, Dimension::LENGTH, None)),
            None => Err(faults.lack(*slips::too_fine(line, written.span))),
        },
        SingleKind::Size(_) => Err(super::no_value(
            faults,
            line,
            written.span,
            "is a size, which cannot be reckoned with",
        )),
        SingleKind::Day => Err(super::no_value(
            faults,
            line,
            written.span,
            "is a day, which cannot be reckoned with",
        )),
        SingleKind::Number(number, None) => Ok(made(checked(number)?, Dimension::NONE, None)),
        SingleKind::Number(number, Some(unit)) => {
            let number = checked(number)?;
            with_unit(faults, line, written, number, unit)
        }
    }
}

fn with_unit(faults: &Faults, line: LineRef<'_>, written: &Single, number: f64, unit: &Unit) -> Outcome {
    match snell_units::resolve(&unit.plain) {
        Ok(known) => {
            let Quantity { si, dimension } = known.quantity(number);
            Ok(value(
                line,
                written.span,
                (si, dimension),
                known.system,
                known.unit,
            ))
        }
        Err(_) => Err(faults.lack(unknown(line, unit))),
    }
}

/// A word that is no unit.
fn unknown(line: LineRef<'_>, unit: &Unit) -> Finding {
    let place = line.place(unit.span);
    let finding = Finding::fault(
        Code::UnitUnknown,
        place,
        format!("there is no unit `{}`", unit.plain),
    );
    match snell_units::resolve(&unit.plain) {
        Err(snell_units::UnitFault::Unknown {
            nearest: Some(near), ..
        }) => finding.here(format!("did you mean `{near}`?")).fix(Fix::offered(
            format!("write `{near}`"),
            place,
            near,
        )),
        _ => finding,
    }
}

/// A spread: its middle, with its ends. An end without a unit takes the other's.
///
/// # Errors
/// A fault of the text, which has been reported.
pub fn spread(faults: &Faults, line: LineRef<'_>, first: &Single, second: &Single) -> Outcome {
    let shared = |bare: &Single, other: &Single| match (&bare.kind, &other.kind) {
        (SingleKind::Number(number, None), SingleKind::Number(_, Some(unit))) => Single {
            kind: SingleKind::Number(*number, Some(unit.clone())),
            span: bare.span,
        },
        _ => bare.clone(),
    };
    let low = single(faults, line, &shared(first, second))?;
    let high = single(faults, line, &shared(second, first))?;
    let span = first.span.to(second.span);
    if low.dimension() != high.dimension() {
        let finding = Finding::fault(
            Code::DimensionsDiffer,
            line.place(span),
            format!("the ends of `{}` are of different kinds", line.written(span)),
        );
        return Err(faults.lack(
            finding
                .label(line.place(first.span), low.dimension().name())
                .label(line.place(second.span), high.dimension().name()),
        ));
    }
    let (a, b) = (low.si(), high.si());
    let unit = low
        .unit
        .filter(|unit| high.unit.is_some_and(|other| other.name == unit.name));
    let middle = ((a + b) / 2.0, low.dimension());
    let ends = Some((a.min(b), a.max(b)));
    let mut whole = value(line, span, middle, low.system.or(high.system), unit);
    whole.causes = whole
        .causes
        .iter()
        .map(|cause| Cause { ends, ..*cause })
        .collect();
    whole.ends = ends;
    Ok(whole)
}

fn value(
    line: LineRef<'_>,
    span: Span,
    (si, dimension): (f64, Dimension),
    system: Option<System>,
    unit: Option<&'static snell_units::Unit>,
) -> Value {
    let quantity = Quantity { si, dimension };
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

fn check(faults: &Faults, line: LineRef<'_>, number: &Number) -> Result<f64, Lack> {
    if number.doubtful {
        return Err(faults.lack(*slips::doubtful(line, *number)));
    }
    Ok(number.value)
}
