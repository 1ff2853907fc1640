//! From the grammar's tokens to the typed tree of a line.
//!
//! The tokens come outer ones first, so the tree is built in one walk: a token
//! holds those behind it that begin before its end. It looks up no name and
//! judges no unit; the only thing it can find wrong is a number.

mod expression;
mod walk;

use crate::number::Misread;
use crate::parse::{Node, Rule};
use crate::tree::{Bind, Change, Claim, Clause, Condition, Expr, Form, Head, Plain, Target, Text};
use crate::vocabulary::{BlockKind, Bound, Joint};
use crate::words::Words;
use snell_text::Span;
use walk::Walk;

/// The tree of an expression that stands by itself.
pub(crate) fn lower_alone(written: &str, tokens: &[Node], words: &mut Words) -> Result<Expr, Misread> {
    Walk::new(written, tokens, words).expression()
}

/// The tree of a line that was read, with its extent; nothing for an empty line.
pub(crate) fn lower(line: &str, tokens: &[Node], words: &mut Words) -> Result<Option<(Form, Span)>, Misread> {
    let mut walk = Walk::new(line, tokens, words);
    let Some(token) = walk.next() else {
        return Ok(None);
    };
    let form = match token.rule {
        Rule::plain => Form::Plain(walk.plain()?),
        Rule::block => Form::Block(walk.block()),
        Rule::change => Form::Change(walk.change()?),
        Rule::bind => Form::Bind(walk.bind()?),
        Rule::claim => Form::Claim(walk.claim()?),
        Rule::use_line => Form::Use(walk.text()),
        rule => unreachable!("{rule:?} does not open a line"),
    };
    Ok(Some((form, token.span)))
}

impl Walk<'_> {
    fn block(&mut self) -> Head {
        let kind = self.expect();
        let kind = BlockKind::of(self.written(kind)).unwrap_or_else(|| unreachable!("a kind of block"));
        let name = self.expect();
        let name = self.word(name);
        let base = self.take(Rule::name).map(|token| self.word(token));
        Head {
            kind,
            name,
            base,
            title: self.text_if_any(),
        }
    }

    fn change(&mut self) -> Result<Change, Misread> {
        let target = self.expect();
        let name = self.expect();
        let name = self.word(name);
        let count = self.take(Rule::count);
        let target = Target {
            name,
            // Three digits at most, so it always fits.
            count: count.and_then(|count| self.written(count).parse().ok()),
            span: target.span,
        };
        let items = self.items()?;
        let (clauses, _) = self.clauses()?;
        Ok(Change {
            target,
            items,
            clauses,
        })
    }

    fn bind(&mut self) -> Result<Bind, Misread> {
        let key = self.expect();
        let key = self.word(key);
        let name = self.expect();
        let name = self.word(name);
        let value = self.expression()?;
        Ok(Bind { key, name, value })
    }

    fn plain(&mut self) -> Result<Plain, Misread> {
        let key = self.expect();
        let key = self.word(key);
        let items = self.items()?;
        let (clauses, text) = self.clauses()?;
        Ok(Plain {
            key,
            items,
            clauses,
            text,
        })
    }

    /// Values up to the next joining word, text or end.
    fn items(&mut self) -> Result<Vec<Expr>, Misread> {
        let before = self.pending.len();
        while let Some(token) = self.peek() {
            if matches!(token.rule, Rule::joint | Rule::text) {
                break;
            }
            let value = self.expression()?;
            self.pending.push(value);
        }
        Ok(self.pending.drain(before..).collect())
    }

    /// Clauses to the end of the line, and the text behind the line's own
    /// values where there is no clause to own it.
    fn clauses(&mut self) -> Result<(Vec<Clause>, Option<Text>), Misread> {
        let joints = self.tokens[self.at..]
            .iter()
            .filter(|token| token.rule == Rule::joint);
        let mut clauses = Vec::with_capacity(joints.count());
        while let Some(token) = self.take(Rule::joint) {
            let joint = Joint::of(self.written(token)).unwrap_or_else(|| unreachable!("a joining word"));
            clauses.push(Clause {
                joint,
                span: token.span,
                items: self.items()?,
                text: None,
            });
        }
        let text = self.text_if_any();
        match clauses.last_mut() {
            Some(last) => {
                last.text = text;
                Ok((clauses, None))
            }
            None => Ok((clauses, text)),
        }
    }

    fn claim(&mut self) -> Result<Claim, Misread> {
        let key = self.expect();
        let key = self.word(key);
        let subject = self.expression()?;
        let compare = self.expect();
        Ok(Claim {
            key,
            subject,
            condition: self.condition()?,
            condition_span: compare.span,
        })
    }

    fn condition(&mut self) -> Result<Condition, Misread> {
        let token = self.expect();
        Ok(match token.rule {
            Rule::within => {
                let low = self.expression()?;
                Condition::Between(Box::new(low), Box::new(self.expression()?))
            }
            Rule::bounded => {
                let bound = self.expect();
                let bound = bound_of(self.written(bound));
                Condition::Bound(bound, Box::new(self.expression()?))
            }
            _ => {
                let negated = self.take(Rule::not).is_some();
                let mut words = Vec::new();
                while self.peek().is_some() {
                    words.push(self.expression()?);
                }
                Condition::Is { negated, words }
            }
        })
    }
}

fn bound_of(written: &str) -> Bound {
    let ends = |word: &str| {
        let tail = written.get(written.len().saturating_sub(word.len())..);
        tail.is_some_and(|tail| tail.eq_ignore_ascii_case(word))
    };
    if ends("least") {
        Bound::AtLeast
    } else if ends("most") {
        Bound::AtMost
    } else if ends("about") {
        Bound::About
    } else if ends("over") {
        Bound::Over
    } else {
        Bound::Under
    }
}
