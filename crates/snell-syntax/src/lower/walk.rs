//! A walk over the nodes of one line, the outer ones before those inside.

use crate::parse::{Node, Rule};
use crate::tree::{Expr, Text, Word};
use crate::words::Words;
use snell_text::Span;

/// A walk over the tokens of one line.
pub(super) struct Walk<'a> {
    pub(super) line: &'a str,
    pub(super) tokens: &'a [Node],
    pub(super) at: usize,
    /// Where the parentheses end that are being read.
    pub(super) until: u32,
    pub(super) words: &'a mut Words,
    /// Values not yet claimed by their line or clause, kept here so that each
    /// list is allocated once and at its length.
    pub(super) pending: Vec<Expr>,
}

impl<'a> Walk<'a> {
    pub(super) fn new(line: &'a str, tokens: &'a [Node], words: &'a mut Words) -> Self {
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
    pub(super) fn next(&mut self) -> Option<Node> {
        let token = self.tokens.get(self.at).copied();
        self.at += 1;
        token
    }

    pub(super) fn peek(&self) -> Option<Node> {
        self.tokens.get(self.at).copied()
    }

    /// Reads within the parentheses that `outer` stands for.
    pub(super) fn within<T>(&mut self, outer: Node, read: impl FnOnce(&mut Self) -> T) -> T {
        let until = std::mem::replace(&mut self.until, outer.span.end);
        let inner = read(self);
        self.until = until;
        inner
    }

    /// The next token if it has that name.
    pub(super) fn take(&mut self, rule: Rule) -> Option<Node> {
        let token = self.peek().filter(|token| token.rule == rule)?;
        self.at += 1;
        Some(token)
    }

    /// The next token, which the grammar says is there.
    pub(super) fn expect(&mut self) -> Node {
        let token = self.next();
        token.unwrap_or_else(|| unreachable!("the grammar promises a token in {:?}", self.line))
    }

    pub(super) fn written(&self, token: Node) -> &'a str {
        token.span.of(self.line)
    }

    pub(super) fn word(&mut self, token: Node) -> Word {
        Word {
            folded: self.words.fold(self.written(token)),
            span: token.span,
        }
    }

    pub(super) fn text(&mut self) -> Text {
        let token = self.expect();
        text_of(token, self.written(token))
    }

    pub(super) fn text_if_any(&mut self) -> Option<Text> {
        let token = self.take(Rule::text)?;
        Some(text_of(token, self.written(token)))
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
