//! The value in a place of a block's line.

use crate::evaluate::{Constants, evaluate};
use crate::faults::Faults;
use crate::fit::Fit;
use crate::lack::Outcome;
use crate::names::Names;
use crate::project::BlockId;
use crate::value::Value;
use snell_finding::{Code, Finding};
use snell_syntax::BlockKind;

/// A value that needs no names.
pub(crate) fn constant<'p>(faults: &Faults, fit: Fit<'p>) -> Outcome {
    let value = evaluate(&Constants(faults), fit.line, fit.expr)?;
    if fit.take.takes(value.dimension()) {
        Ok(value)
    } else {
        Err(faults.lack(wrong_dimension(fit, &value)))
    }
}

/// A computed value of another kind than its place takes.
pub(crate) fn wrong_dimension(fit: Fit<'_>, value: &Value) -> Finding {
    let message = format!(
        "`{}` comes to {} ({}) where another kind is needed",
        fit.line.written(fit.expr.span),
        value.dimension().name(),
        value.written()
    );
    let finding =
        Finding::fault(Code::UnitWrong, fit.place(), message).here(format!("{} goes here", fit.take.told()));
    crate::evaluate::with_causes(finding, value)
}

/// The block that a name in its place means.
pub(crate) fn named(names: &Names<'_>, fit: Fit<'_>, kind: BlockKind) -> Option<BlockId> {
    let word = fit.expr.word()?;
    names.find(fit.line.file, kind, &word.folded).block()
}
