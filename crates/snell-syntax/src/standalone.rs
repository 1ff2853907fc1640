//! What is read by itself, without a text around: an expression in the braces
//! of a text, and a line that is still being typed.

use crate::layout::is_indented;
use crate::limits::{LINE_LIMIT, NESTING_LIMIT, too_deep};
use crate::lower::lower_alone;
use crate::parse::{Entry, Parsed};
use crate::token::Token;
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

/// The tokens of a line as far as it is typed. Whether it may open a block is told by its margin.
pub fn tokens(line: &str) -> Vec<Token> {
    let mut parsed = Parsed::default();
    if line.len() > LINE_LIMIT || too_deep(line, NESTING_LIMIT).is_some() {
        parsed.give_up(line);
    } else {
        let entry = if is_indented(line) {
            Entry::Body
        } else {
            Entry::Margin
        };
        parsed.read(entry, line);
    }
    parsed.tokens
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
