//! One run of values against the places that it may fill.

use crate::faults::Faults;
use crate::keywords::{Row, Slot};
use crate::names::Names;
use crate::project::LineRef;
use snell_finding::Finding;
use snell_syntax::{Expr, Joint};
use snell_text::{Place, Span};

/// What fitting needs to know of its surroundings.
pub struct Fitting<'a, 'p> {
    /// Blocks by name.
    pub names: &'a Names<'p>,
    /// Whether a bare word stands for a value where the line is written: a let, a label, a measure.
    pub is_value: &'a dyn Fn(&str) -> bool,
    /// Where faults go.
    pub faults: &'a Faults,
    /// Whether values that must be there may be left out, as in a `change`.
    pub partial: bool,
}

/// One run of values against the slots that it may fill.
pub(super) struct Run<'a, 'p> {
    pub(super) fitting: &'a Fitting<'a, 'p>,
    pub(super) line: LineRef<'p>,
    pub(super) row: &'static Row,
    pub(super) joint: Option<Joint>,
    pub(super) slots: &'static [Slot],
    pub(super) span: Span,
}

/// Whether a value fits.
pub(super) enum Accept {
    /// It does.
    Yes,
    /// It does not; a later place may take it.
    No,
    /// It belongs here but is wrong.
    Wrong(Box<Finding>),
}

impl From<bool> for Accept {
    fn from(fits: bool) -> Self {
        if fits { Self::Yes } else { Self::No }
    }
}

impl<'p> Run<'_, 'p> {
    pub(super) fn place(&self, expr: &Expr) -> Place {
        self.line.place(expr.span)
    }

    pub(super) fn written(&self, expr: &Expr) -> &'p str {
        self.line.written(expr.span)
    }
}
