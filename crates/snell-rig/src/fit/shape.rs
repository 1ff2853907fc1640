//! What a value looks like before anything is looked up or computed.

use crate::literal::{Literal, NoQuantity, numbers as numbers_of};
use snell_syntax::{Expr, ExprKind, Number, Single, SingleKind, Word};
use snell_text::Span;
use snell_units::Dimension;

/// The look of a value.
#[derive(Clone, Debug, PartialEq)]
pub enum Shape<'p> {
    /// A number without a unit.
    Bare(f64),
    /// A quantity with a unit that the table knows.
    Quantity {
        /// Its dimension.
        dimension: Dimension,
        /// Its value in SI; of a spread, the first end.
        si: f64,
        /// Whether it is written as an X size.
        x: bool,
        /// Whether it is a spread.
        spread: bool,
        /// The name of its unit in the table, where it has one.
        unit: Option<&'static str>,
    },
    /// A number with a word behind it that is no unit.
    NoUnit {
        /// The word in plain form.
        word: &'p str,
        /// Where it stands.
        span: Span,
    },
    /// `#14`
    Size,
    /// `2026-05-14`
    Day,
    /// A spread of sizes: `#0-#2`.
    SizeSpread,
    /// One word.
    Word(&'p Word),
    /// Anything that has to be computed.
    Computed,
}

/// What `expr` looks like.
pub fn shape(expr: &Expr) -> Shape<'_> {
    match &expr.kind {
        ExprKind::Single(single) => of_single(single),
        ExprKind::Spread(first, second) => of_spread(first, second),
        ExprKind::Path(_) => expr.word().map_or(Shape::Computed, Shape::Word),
        ExprKind::Call(..) | ExprKind::Sum(..) | ExprKind::Product(..) => Shape::Computed,
    }
}

fn of_single(single: &Single) -> Shape<'_> {
    let quantity = |literal: &Literal, x, unit| Shape::Quantity {
        dimension: literal.quantity.dimension,
        si: literal.quantity.si,
        x,
        spread: false,
        unit,
    };
    match Literal::of(single) {
        Ok(literal) => match single.kind {
            SingleKind::Number(number, None) => Shape::Bare(number.value),
            SingleKind::Feet(..) => quantity(&literal, false, Some("ft")),
            SingleKind::Pounds(..) => quantity(&literal, false, Some("lb")),
            SingleKind::X(_) => quantity(&literal, true, None),
            SingleKind::Number(..) | SingleKind::Size(_) | SingleKind::Day => {
                quantity(&literal, false, literal.unit.map(|unit| unit.name))
            }
        },
        Err(NoQuantity::Size) => Shape::Size,
        Err(NoQuantity::Day) => Shape::Day,
        Err(NoQuantity::TooFine) => Shape::Quantity {
            dimension: Dimension::LENGTH,
            si: 0.0,
            x: true,
            spread: false,
            unit: None,
        },
        Err(NoQuantity::NoUnit(_)) => match single.unit() {
            Some(unit) => Shape::NoUnit {
                word: &unit.plain,
                span: unit.span,
            },
            None => Shape::Computed,
        },
    }
}

/// `2 to 3 ft`: the first end takes its unit from the second.
fn of_spread<'p>(first: &'p Single, second: &'p Single) -> Shape<'p> {
    let own = of_single(first);
    match (own, of_single(second)) {
        (Shape::Size, Shape::Size) => Shape::SizeSpread,
        (unknown @ Shape::NoUnit { .. }, _) | (_, unknown @ Shape::NoUnit { .. }) => unknown,
        (mut quantity @ Shape::Quantity { .. }, _) | (_, mut quantity @ Shape::Quantity { .. }) => {
            if let Shape::Quantity { spread, .. } = &mut quantity {
                *spread = true;
            }
            quantity
        }
        (own, _) => own,
    }
}

/// A number of `expr` written like `1,200`, if it has one.
pub fn doubtful(expr: &Expr) -> Option<Number> {
    numbers(expr).into_iter().flatten().find(|number| number.doubtful)
}

fn numbers(expr: &Expr) -> [Option<Number>; 4] {
    match &expr.kind {
        ExprKind::Single(single) => {
            let [a, b] = numbers_of(single);
            [a, b, None, None]
        }
        ExprKind::Spread(first, second) => {
            let ([a, b], [c, d]) = (numbers_of(first), numbers_of(second));
            [a, b, c, d]
        }
        ExprKind::Path(_) | ExprKind::Call(..) | ExprKind::Sum(..) | ExprKind::Product(..) => [None; 4],
    }
}
