//! An expression outside any line of its own: what stands in the braces of a
//! text.
//!
//! It doesn't know the text around, only where the expression begins in it.

use crate::limits::{LINE_LIMIT, NESTING_LIMIT, too_deep};
use crate::lower::lower_alone;
use crate::parse::{Entry, Parsed};
use crate::tree::Expr;
use crate::words::Words;
use snell_text::Span;

/// Reads `written` as one expression; its spans count as if it stood at `at`. `None` where it is none.
pub fn expression(written: &str, at: u32) -> Option<Expr> {
    if written.len() > LINE_LIMIT || too_deep(written, NESTING_LIMIT).is_some() {
        return None;
    }
    let mut parsed = Parsed::default();
    parsed.read(Entry::Alone, written);
    if parsed.odd.is_some() {
        return None;
    }
    let mut expr = lower_alone(written, &parsed.nodes, &mut Words::default()).ok()?;
    expr.visit_spans(&mut |span: &mut Span| *span = span.shifted(at));
    Some(expr)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tree::ExprKind;

    #[test]
    fn spans_are_those_of_the_text_around() {
        let text = "say \"a {gap.length - 2 in} b\"";
        let at = text.find("gap").unwrap();
        let expr = expression(&text[at..at + 17], at as u32).unwrap();
        assert_eq!(expr.span.of(text), "gap.length - 2 in");
        let ExprKind::Sum(first, rest) = &expr.kind else {
            panic!("a sum");
        };
        let (first, last) = (first.span.of(text), rest[0].1.span.of(text));
        assert_eq!((first, last), ("gap.length", "2 in"));
    }

    #[test]
    fn only_an_expression_is_one() {
        assert!(expression(" min(a, 2 ft to 3 ft) ", 0).is_some());
        for written in ["", "gap.", "a // b", "a b", "of", "\"a\"", "1.2.3"] {
            assert!(expression(written, 0).is_none(), "{written}");
        }
    }
}
