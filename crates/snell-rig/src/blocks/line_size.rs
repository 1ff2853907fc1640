//! The size of a line, and sizes that are counted and not measured: hooks and
//! fly line weights.

use super::constant;
use crate::fit::Fit;
use crate::value::{Faults, Lack, Outcome};
use snell_syntax::{ExprKind, Single, SingleKind};

/// A size as written behind `#`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Size {
    /// Without the mark: `14`, `2/0`, `3/4`.
    pub written: String,
    /// The whole number, where it is one.
    pub whole: Option<u32>,
}

impl Size {
    /// Reads `#14`, or `5 wt`.
    pub(crate) fn read(fit: Fit<'_>) -> Option<Self> {
        let ExprKind::Single(single) = &fit.expr.kind else {
            return None;
        };
        Self::of(fit, single)
    }

    fn of(fit: Fit<'_>, single: &Single) -> Option<Self> {
        let span = match &single.kind {
            SingleKind::Size(span) => *span,
            SingleKind::Number(number, Some(_)) => number.span,
            _ => return None,
        };
        let written = fit.line.written(span).to_owned();
        let whole = written.parse().ok();
        Some(Self { written, whole })
    }
}

/// A line's size.
#[derive(Clone, Debug)]
pub enum LineSize {
    /// One diameter.
    Level(Outcome),
    /// A tapered piece: the diameters of its upper and lower end.
    Tapered(Outcome, Outcome),
    /// A fly line by its weight.
    FlyLine(Size),
}

impl LineSize {
    pub(crate) fn read(faults: &Faults, fit: Fit<'_>) -> Self {
        if let Some(size) = Size::read(fit).filter(|_| matches!(&fit.expr.kind, ExprKind::Single(single) if matches!(single.kind, SingleKind::Size(_)))) {
            return Self::FlyLine(size);
        }
        let ExprKind::Spread(first, second) = &fit.expr.kind else {
            return Self::Level(constant(faults, fit));
        };
        let whole = constant(faults, fit);
        let end = |si: f64| match &whole {
            Ok(value) => Ok(value.clone().at(si)),
            Err(lack) => Err(lack.clone()),
        };
        match &whole {
            Ok(value) => {
                let (low, high) = (value.low(), value.high());
                if falls(faults, fit, first, second) {
                    Self::Tapered(end(high), end(low))
                } else {
                    Self::Tapered(end(low), end(high))
                }
            }
            Err(_) => Self::Level(Err(Lack::Faulty)),
        }
    }
}

/// Whether the first end is the thicker one.
fn falls(faults: &Faults, fit: Fit<'_>, first: &Single, second: &Single) -> bool {
    let of = |single| crate::evaluate::single(faults, fit.line, single).map_or(0.0, |value| value.si());
    of(first) >= of(second)
}
