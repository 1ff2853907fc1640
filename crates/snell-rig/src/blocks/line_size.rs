//! The size of a line, and sizes that are counted and not measured: hooks and
//! fly line weights.

use super::value::constant;
use crate::evaluate::{between, ends};
use crate::faults::Faults;
use crate::fit::Fit;
use crate::lack::{Lack, Outcome};
use crate::value::Value;
use snell_syntax::{ExprKind, Single, SingleKind};
use snell_water::fly::Hook;

/// Hooks are made from 10/0 to #32, the smallest. Source: common practice, no source.
const SMALLEST_HOOK: u32 = 32;
/// In noughts.
const LARGEST_HOOK: u32 = 10;

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
        Self::of(fit, fit.expr.single()?)
    }

    /// The hook that has it: `14`, or `2/0` of the large ones.
    pub fn hook(&self) -> Option<Hook> {
        let known = |number: u32, most| (1..=most).contains(&number).then_some(f64::from(number));
        match (self.whole, self.written.strip_suffix("/0")) {
            (Some(whole), _) => known(whole, SMALLEST_HOOK).map(Hook::of_size),
            (None, Some(noughts)) => known(noughts.parse().ok()?, LARGEST_HOOK).map(Hook::of_noughts),
            (None, None) => None,
        }
    }

    fn of(fit: Fit<'_>, single: &Single) -> Option<Self> {
        let span = match &single.kind {
            SingleKind::Size(span) => *span,
            SingleKind::Number(number, Some(_)) => number.span,
            SingleKind::Number(_, None)
            | SingleKind::Feet(..)
            | SingleKind::Pounds(..)
            | SingleKind::X(_)
            | SingleKind::Day => return None,
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
        match &fit.expr.kind {
            ExprKind::Single(single) if matches!(single.kind, SingleKind::Size(_)) => {
                Size::of(fit, single).map_or(Self::Level(Err(Lack::Faulty)), Self::FlyLine)
            }
            ExprKind::Spread(first, second) => match ends(faults, fit.line, first, second) {
                Ok((upper, lower)) => {
                    let whole = between(fit.line, fit.expr.span, &upper, &lower);
                    let at = |end: &Value| Ok(whole.clone().at(end.si()));
                    Self::Tapered(at(&upper), at(&lower))
                }
                Err(_) => Self::Level(Err(Lack::Faulty)),
            },
            ExprKind::Single(_)
            | ExprKind::Path(_)
            | ExprKind::Call(..)
            | ExprKind::Sum(..)
            | ExprKind::Product(..) => Self::Level(constant(faults, fit)),
        }
    }
}
