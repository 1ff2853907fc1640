//! An expression outside any line of its own: what stands in the braces of a
//! text.

use crate::reader::read;
use crate::tree::{Expr, ExprKind, Form, Single, SingleKind};
use text::{Span, TextId};

/// The line that an expression is read in.
const FRAME: &str = "let a = ";

/// Reads `written` as one expression; its spans count as if it stood at `at`. `None` where it is none.
pub fn expression(written: &str, at: u32) -> Option<Expr> {
    let line = format!("{FRAME}{written}");
    let passage = vec![vec![Span::new(0, line.len() as u32)]];
    let mut file = read(&line, TextId::default(), &passage);
    let line = file.blocks.pop()?.body.pop()?;
    let Form::Bind(bind) = &*line.form else {
        return None;
    };
    let mut expr = bind.value.clone();
    shift(&mut expr, at);
    Some(expr)
}

fn moved(span: &mut Span, at: u32) {
    let by = |end: u32| end - FRAME.len() as u32 + at;
    *span = Span::new(by(span.start), by(span.end));
}

fn shift(expr: &mut Expr, at: u32) {
    moved(&mut expr.span, at);
    match &mut expr.kind {
        ExprKind::Single(single) => shift_single(single, at),
        ExprKind::Spread(first, second) => {
            shift_single(first, at);
            shift_single(second, at);
        }
        ExprKind::Path(words) => words.iter_mut().for_each(|word| moved(&mut word.span, at)),
        ExprKind::Call(name, arguments) => {
            moved(&mut name.span, at);
            arguments.iter_mut().for_each(|argument| shift(argument, at));
        }
        ExprKind::Sum(first, rest) => {
            shift(first, at);
            rest.iter_mut().for_each(|(_, expr)| shift(expr, at));
        }
        ExprKind::Product(first, rest) => {
            shift(first, at);
            rest.iter_mut().for_each(|(_, expr)| shift(expr, at));
        }
    }
}

fn shift_single(single: &mut Single, at: u32) {
    moved(&mut single.span, at);
    match &mut single.kind {
        SingleKind::Feet(one, other) | SingleKind::Pounds(one, other) => {
            moved(&mut one.span, at);
            moved(&mut other.span, at);
        }
        SingleKind::X(number) | SingleKind::Number(number, None) => moved(&mut number.span, at),
        SingleKind::Number(number, Some(unit)) => {
            moved(&mut number.span, at);
            moved(&mut unit.span, at);
        }
        SingleKind::Size(span) => moved(span, at),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn spans_are_those_of_the_text_around() {
        let text = "say \"a {gap.length - 2 in} b\"";
        let at = text.find("gap").unwrap();
        let expr = expression(&text[at..at + 17], at as u32).unwrap();
        assert_eq!(expr.span.of(text), "gap.length - 2 in");
        let ExprKind::Sum(first, rest) = &expr.kind else {
            panic!("a sum");
        };
        assert_eq!((first.span.of(text), rest[0].1.span.of(text)), ("gap.length", "2 in"));
        assert!(expression("gap.", 3).is_none());
        assert!(expression("a // b", 3).is_some_and(|expr| matches!(expr.kind, ExprKind::Path(_))));
    }
}
