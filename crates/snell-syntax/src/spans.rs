//! All places in an expression, to move them at once.

use crate::tree::{Expr, ExprKind, Single, SingleKind};
use snell_text::Span;

impl Expr {
    /// Hands every span of the expression to `change`.
    pub(crate) fn visit_spans(&mut self, change: &mut impl FnMut(&mut Span)) {
        change(&mut self.span);
        match &mut self.kind {
            ExprKind::Single(single) => single.visit_spans(change),
            ExprKind::Spread(low, high) => {
                low.visit_spans(change);
                high.visit_spans(change);
            }
            ExprKind::Path(words) => words.iter_mut().for_each(|word| change(&mut word.span)),
            ExprKind::Call(name, arguments) => {
                change(&mut name.span);
                arguments
                    .iter_mut()
                    .for_each(|argument| argument.visit_spans(change));
            }
            ExprKind::Sum(first, rest) => {
                first.visit_spans(change);
                rest.iter_mut().for_each(|(_, term)| term.visit_spans(change));
            }
            ExprKind::Product(first, rest) => {
                first.visit_spans(change);
                rest.iter_mut().for_each(|(_, factor)| factor.visit_spans(change));
            }
        }
    }
}

impl Single {
    fn visit_spans(&mut self, change: &mut impl FnMut(&mut Span)) {
        change(&mut self.span);
        match &mut self.kind {
            SingleKind::Feet(first, second) | SingleKind::Pounds(first, second) => {
                change(&mut first.span);
                change(&mut second.span);
            }
            SingleKind::X(number) => change(&mut number.span),
            SingleKind::Size(span) => change(span),
            SingleKind::Day => {}
            SingleKind::Number(number, unit) => {
                change(&mut number.span);
                unit.iter_mut().for_each(|unit| change(&mut unit.span));
            }
        }
    }
}
