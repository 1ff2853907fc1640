//! What an expression comes to: a value with its causes, or why there is none.
//!
//! Names are asked of a [`Scope`]; this module knows numbers, units and
//! dimensions, and no rig.

mod arithmetic;
mod literal;

pub(crate) use arithmetic::with_causes;
pub use literal::{single, spread};

use crate::project::LineRef;
use crate::value::{Faults, Lack, Outcome};
use snell_finding::{Code, Finding};
use snell_syntax::{Expr, ExprKind, Word};
use snell_text::Span;

/// What names mean where an expression stands.
pub trait Scope {
    /// The value of a dotted name.
    fn path(&self, line: LineRef<'_>, path: &[Word], span: Span) -> Outcome;

    /// Where faults go.
    fn faults(&self) -> &Faults;
}

/// Evaluates an expression that stands in `line`.
///
/// # Errors
/// Why there is no value; what is a fault of the text has been reported.
pub fn evaluate(scope: &dyn Scope, line: LineRef<'_>, expr: &Expr) -> Outcome {
    match &expr.kind {
        ExprKind::Single(written) => single(scope.faults(), line, written),
        ExprKind::Spread(first, second) => spread(scope.faults(), line, first, second),
        ExprKind::Path(words) => scope.path(line, words, expr.span),
        ExprKind::Call(name, arguments) => call(scope, line, name, arguments),
        ExprKind::Sum(first, rest) => arithmetic::sum(scope, line, first, rest),
        ExprKind::Product(first, rest) => arithmetic::product(scope, line, first, rest),
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
                scope,
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

/// The scope of blocks other than rigs: there are no names in it.
pub struct Constants<'a>(pub &'a Faults);

impl Scope for Constants<'_> {
    fn path(&self, line: LineRef<'_>, _path: &[Word], span: Span) -> Outcome {
        let message = format!("`{}` means nothing here", line.written(span));
        let finding = Finding::fault(Code::NameUnknown, line.place(span), message);
        Err(self
            .0
            .lack(finding.help("names of values can be used in rigs only; write the value itself")))
    }

    fn faults(&self) -> &Faults {
        self.0
    }
}

/// A value is wanted where none can be had.
pub fn no_value(faults: &Faults, line: LineRef<'_>, span: Span, what: &str) -> Lack {
    let message = format!("`{}` {what}", line.written(span));
    faults.lack(Finding::fault(Code::NotAValue, line.place(span), message))
}
