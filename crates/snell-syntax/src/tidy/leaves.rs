//! The leaves of a line's tree, each with the words that are to stand there.
//!
//! What lies between leaves (spaces, commas, operators, joining words) is no
//! business of this module.

use super::quantity;
use crate::tree::{Clause, Condition, Expr, ExprKind, Form, Text};
use snell_text::Span;

/// A stretch of a line and its new words.
pub(super) type Leaf = (Span, String);

/// The leaves of a form in the order of the line.
pub(super) fn leaves(written: &str, form: &Form) -> Vec<Leaf> {
    let mut leaves = Leaves {
        written,
        found: Vec::new(),
    };
    match form {
        Form::Use(path) => leaves.text(Some(*path)),
        Form::Block(head) => {
            leaves.as_it_is(head.name.span);
            head.base.iter().for_each(|base| leaves.as_it_is(base.span));
            leaves.text(head.title);
        }
        Form::Change(change) => {
            leaves.as_it_is(change.target.name.span);
            if change.target.count.is_some() {
                let behind = Span::new(change.target.name.span.end, change.target.span.end);
                let count = behind.of(written).trim_start_matches(crate::layout::is_space);
                leaves.as_it_is(Span::new(behind.end - count.len() as u32, behind.end));
            }
            leaves.exprs(&change.items);
            leaves.clauses(&change.clauses);
        }
        Form::Bind(bind) => {
            leaves.as_it_is(bind.name.span);
            leaves.expr(&bind.value);
        }
        Form::Claim(claim) => {
            leaves.expr(&claim.subject);
            leaves.condition(&claim.condition);
        }
        Form::Plain(plain) => {
            leaves.exprs(&plain.items);
            leaves.clauses(&plain.clauses);
            leaves.text(plain.text);
        }
    }
    leaves.found
}

struct Leaves<'a> {
    written: &'a str,
    found: Vec<Leaf>,
}

impl Leaves<'_> {
    fn as_it_is(&mut self, span: Span) {
        self.found.push((span, span.of(self.written).to_owned()));
    }

    fn text(&mut self, text: Option<Text>) {
        if let Some(text) = text {
            let plain = format!("\"{}\"", text.inner.of(self.written));
            self.found.push((text.span, plain));
        }
    }

    fn clauses(&mut self, clauses: &[Clause]) {
        for clause in clauses {
            self.found.push((clause.span, clause.joint.word().to_owned()));
            self.exprs(&clause.items);
            self.text(clause.text);
        }
    }

    fn condition(&mut self, condition: &Condition) {
        match condition {
            Condition::Between(low, high) => {
                self.expr(low);
                self.expr(high);
            }
            Condition::Bound(_, value) => self.expr(value),
            Condition::Is { words, .. } => self.exprs(words),
        }
    }

    fn exprs(&mut self, exprs: &[Expr]) {
        exprs.iter().for_each(|expr| self.expr(expr));
    }

    fn expr(&mut self, expr: &Expr) {
        match &expr.kind {
            ExprKind::Single(single) => {
                self.found
                    .push((single.span, quantity::single(self.written, single)));
            }
            ExprKind::Spread(low, high) => {
                self.found
                    .push((low.span.to(high.span), quantity::spread(self.written, low, high)));
            }
            ExprKind::Path(words) => {
                let ends = words.first().zip(words.last());
                let span = ends.map_or(expr.span, |(first, last)| first.span.to(last.span));
                self.as_it_is(span);
            }
            ExprKind::Call(name, arguments) => {
                self.as_it_is(name.span);
                self.exprs(arguments);
            }
            ExprKind::Sum(first, rest) => {
                self.expr(first);
                rest.iter().for_each(|(_, term)| self.expr(term));
            }
            ExprKind::Product(first, rest) => {
                self.expr(first);
                rest.iter().for_each(|(_, factor)| self.expr(factor));
            }
        }
    }
}
