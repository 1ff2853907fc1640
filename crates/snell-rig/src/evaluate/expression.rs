//! Expressions, part by part.

use super::arithmetic;
use super::literal::{single, spread};
use super::scope::Scope;
use crate::lack::Outcome;
use crate::project::LineRef;
use snell_finding::{Code, Finding};
use snell_syntax::{Expr, ExprKind, Word};

/// Evaluates an expression that stands in `line`.
///
/// # Errors
/// Why there is no value; what is a fault of the text has been reported.
pub fn evaluate(scope: &dyn Scope, line: LineRef<'_>, expr: &Expr) -> Outcome {
    let part = |expr: &Expr| evaluate(scope, line, expr);
    match &expr.kind {
        ExprKind::Single(written) => single(scope.faults(), line, written),
        ExprKind::Spread(first, second) => spread(scope.faults(), line, first, second),
        ExprKind::Path(words) => scope.path(line, words, expr.span),
        ExprKind::Call(name, arguments) => call(scope, line, name, arguments),
        ExprKind::Sum(first, rest) => arithmetic::sum(scope.faults(), line, first, rest, part),
        ExprKind::Product(first, rest) => arithmetic::product(scope.faults(), line, first, rest, part),
    }
}

fn call(scope: &dyn Scope, line: LineRef<'_>, name: &Word, arguments: &[Expr]) -> Outcome {
    let pick: fn(f64, f64) -> bool = match &*name.folded {
        "min" => |new, best| new < best,
        "max" => |new, best| new > best,
        _ => {
            let written = line.spelled(name);
            let message = format!("there is no function `{written}`");
            let finding = Finding::fault(Code::FunctionUnknown, line.place(name.span), message);
            return Err(scope
                .faults()
                .lack(finding.help("there are `min(a, b)` and `max(a, b)`")));
        }
    };
    let mut best = evaluate(scope, line, &arguments[0])?;
    for argument in &arguments[1..] {
        let next = evaluate(scope, line, argument)?;
        if next.dimension() != best.dimension() {
            return Err(arithmetic::differ(
                scope.faults(),
                line,
                (&arguments[0], &best),
                (argument, &next),
            ));
        }
        if pick(next.si(), best.si()) {
            best = next.joined(&best);
        } else {
            best = best.joined(&next);
        }
    }
    Ok(best)
}
