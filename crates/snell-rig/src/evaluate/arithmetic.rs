//! Sums and products with their dimensions checked.

use super::scope::no_value;
use crate::faults::Faults;
use crate::lack::{Lack, Outcome};
use crate::project::LineRef;
use crate::value::Value;
use snell_finding::{Code, Finding, Fix};
use snell_syntax::{Expr, Operator, Sign};
use snell_text::Span;
use snell_units::Dimension;

/// A sum; its parts are evaluated one by one, so that only the first fault is told.
pub(super) fn sum(
    faults: &Faults,
    line: LineRef<'_>,
    first: &Expr,
    rest: &[(Sign, Expr)],
    value: impl Fn(&Expr) -> Outcome,
) -> Outcome {
    let mut whole = value(first)?;
    let mut so_far = first.span;
    for (sign, expr) in rest {
        let part = value(expr)?;
        if part.dimension() != whole.dimension() {
            let left = Expr {
                kind: first.kind.clone(),
                span: so_far,
            };
            return Err(differ(faults, line, (&left, &whole), (expr, &part)));
        }
        if part.dimension() == Dimension::TEMPERATURE {
            let what = "adds temperatures, which can only be compared";
            return Err(no_value(faults, line, so_far.to(expr.span), what));
        }
        let si = match sign {
            Sign::Plus => whole.si() + part.si(),
            Sign::Minus => whole.si() - part.si(),
        };
        let dimension = whole.dimension();
        whole = whole.joined(&part).with(si, dimension);
        so_far = so_far.to(expr.span);
    }
    Ok(whole)
}

/// A product, likewise.
pub(super) fn product(
    faults: &Faults,
    line: LineRef<'_>,
    first: &Expr,
    rest: &[(Operator, Expr)],
    value: impl Fn(&Expr) -> Outcome,
) -> Outcome {
    let mut whole = value(first)?;
    let mut before = first;
    for (operator, expr) in rest {
        if let Some(finding) = spaced_unit(line, before, *operator, expr) {
            return Err(faults.lack(finding));
        }
        let part = value(expr)?;
        let (si, dimension) = match operator {
            Operator::Times => (whole.si() * part.si(), whole.dimension().times(part.dimension())),
            Operator::Over => (whole.si() / part.si(), whole.dimension().over(part.dimension())),
        };
        if !si.is_finite() || wild(dimension) {
            return Err(unbounded(faults, line, first.span.to(expr.span)));
        }
        whole = whole.joined(&part).with(si, dimension);
        before = expr;
    }
    Ok(whole)
}

/// Whether a dimension is beyond anything that a rig could mean, such as a length to the tenth power.
fn wild(dimension: Dimension) -> bool {
    let exponents = [
        dimension.length,
        dimension.mass,
        dimension.time,
        dimension.temperature,
    ];
    exponents.iter().any(|exponent| exponent.unsigned_abs() > 9)
}

/// `2.2 ft / s`, where a unit was meant and a name is read.
fn spaced_unit(line: LineRef<'_>, before: &Expr, operator: Operator, expr: &Expr) -> Option<Finding> {
    let crate::fit::Shape::Word(word) = crate::fit::shape(expr) else {
        return None;
    };
    let crate::fit::Shape::Quantity { unit: Some(unit), .. } = crate::fit::shape(before) else {
        return None;
    };
    let joined = format!("{unit}/{}", word.folded);
    if operator != Operator::Over || snell_units::resolve(&joined).is_err() {
        return None;
    }
    let gap = line.place(Span::new(number_end(before), expr.span.end));
    let place = line.place(before.span.to(expr.span));
    let message = format!(
        "`{}` divides by something called `{}`",
        line.written(before.span.to(expr.span)),
        word.folded
    );
    Some(
        Finding::fault(Code::UnitUnknown, place, message)
            .help(format!("a unit is written without spaces: `{joined}`"))
            .fix(Fix::sure(format!("write `{joined}`"), gap, format!(" {joined}"))),
    )
}

/// Where the number of a quantity ends, and its unit begins.
fn number_end(expr: &Expr) -> u32 {
    let Some(single) = expr.single() else {
        return expr.span.end;
    };
    single.number().map_or(single.span.end, |number| number.span.end)
}

/// Two quantities that cannot be put together.
pub(super) fn differ(
    faults: &Faults,
    line: LineRef<'_>,
    left: (&Expr, &Value),
    right: (&Expr, &Value),
) -> Lack {
    let told = |value: &Value| format!("{} ({})", value.dimension().name(), value.written());
    let finding = Finding::fault(
        Code::DimensionsDiffer,
        line.place(left.0.span.to(right.0.span)),
        format!(
            "{} and {} cannot be put together",
            left.1.dimension().name(),
            right.1.dimension().name()
        ),
    );
    let finding = with_causes(finding.label(line.place(left.0.span), told(left.1)), left.1);
    faults.lack(with_causes(
        finding.label(line.place(right.0.span), told(right.1)),
        right.1,
    ))
}

/// Adds the places that a value came from, where they are not on the finding yet.
pub(crate) fn with_causes(mut finding: Finding, value: &Value) -> Finding {
    for cause in value.causes.iter() {
        let there = |label: &snell_finding::Label| {
            label.place.text == cause.place.text && label.place.span.holds(cause.place.span)
        };
        if !finding.labels[1..].iter().any(there) && finding.labels[0].place != cause.place {
            finding = finding.label(cause.place, cause.written());
        }
    }
    finding
}

fn unbounded(faults: &Faults, line: LineRef<'_>, span: Span) -> Lack {
    let message = format!("`{}` comes to nothing that could be measured", line.written(span));
    faults.lack(Finding::fault(Code::DividedByNothing, line.place(span), message))
}
