//! From the grammar's tokens to the typed tree of a line.
//!
//! The tokens come outer ones first, so the tree is built in one walk: a token
//! holds those behind it that begin before its end. It looks up no name and
//! judges no unit; the only thing it can find wrong is a number.

mod expression;

use crate::number::Misread;
use crate::parse::{Node, Rule};
use crate::tree::{
    Bind, BlockKind, Bound, Change, Claim, Clause, Condition, Expr, Form, Head, Joint, Plain, Target, Text,
    Word,
};
use crate::words::Words;
use snell_text::Span;

/// The tree of an expression that stands by itself.
pub(crate) fn lower_alone(written: &str, tokens: &[Node], words: &mut Words) -> Result<Expr, Misread> {
    Walk::new(written, tokens, words).expression()
}

/// The tree of a line that was read, with its extent; nothing for an empty line.
pub(crate) fn lower(line: &str, tokens: &[Node], words: &mut Words) -> Result<Option<(Form, Span)>, Misread> {
    let mut walk = Walk::new(line, tokens, words);
    while let Some(token) = walk.next() {
        let form = match token.rule {
            Rule::plain => Form::Plain(walk.plain()?),
            Rule::block => Form::Block(walk.block()),
            Rule::change => Form::Change(walk.change()?),
            Rule::bind => Form::Bind(walk.bind()?),
            Rule::claim => Form::Claim(walk.claim()?),
            Rule::use_line => Form::Use(walk.text()),
            rule => unreachable!("{rule:?} does not open a line"),
        };
        return Ok(Some((form, token.span)));
    }
    Ok(None)
}

/// A walk over the tokens of one line.
struct Walk<'a> {
    line: &'a str,
    tokens: &'a [Node],
    at: usize,
    /// Where the parentheses end that are being read.
    until: u32,
    words: &'a mut Words,
    /// Values not yet claimed by their line or clause, kept here so that each
    /// list is allocated once and at its length.
    pending: Vec<Expr>,
}

impl<'a> Walk<'a> {
    fn new(line: &'a str, tokens: &'a [Node], words: &'a mut Words) -> Self {
        Self {
            line,
            tokens,
            at: 0,
            until: u32::MAX,
            words,
            pending: Vec::new(),
        }
    }

    /// The next token that says something.
    fn next(&mut self) -> Option<Node> {
        let token = self.tokens.get(self.at).copied();
        self.at += 1;
        token
    }

    fn peek(&self) -> Option<Node> {
        self.tokens.get(self.at).copied()
    }

    /// Reads within the parentheses that `outer` stands for.
    fn within<T>(&mut self, outer: Node, read: impl FnOnce(&mut Self) -> T) -> T {
        let until = std::mem::replace(&mut self.until, outer.span.end);
        let inner = read(self);
        self.until = until;
        inner
    }

    /// The next token if it has that name.
    fn take(&mut self, rule: Rule) -> Option<Node> {
        let token = self.peek().filter(|token| token.rule == rule)?;
        self.at += 1;
        Some(token)
    }

    /// The next token, which the grammar says is there.
    fn expect(&mut self) -> Node {
        let token = self.next();
        token.unwrap_or_else(|| unreachable!("the grammar promises a token in {:?}", self.line))
    }

    fn written(&self, token: Node) -> &'a str {
        token.span.of(self.line)
    }

    fn word(&mut self, token: Node) -> Word {
        Word {
            folded: self.words.fold(self.written(token)),
            span: token.span,
        }
    }

    fn text(&mut self) -> Text {
        let token = self.expect();
        text_of(token, self.written(token))
    }

    fn text_if_any(&mut self) -> Option<Text> {
        let token = self.take(Rule::text)?;
        Some(text_of(token, self.written(token)))
    }

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

fn text_of(token: Node, written: &str) -> Text {
    let width = |quote: Option<char>| quote.map_or(0, |quote| quote.len_utf8() as u32);
    let mut quotes = written.chars();
    let inner = Span::new(
        token.span.start + width(quotes.next()),
        token.span.end - width(quotes.next_back()),
    );
    Text {
        span: token.span,
        inner,
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
