//! A line cut into pieces, forgivingly: words, numbers, signs, texts.
//!
//! This sees every character of a line, also those that the grammar has no
//! place for. It says what stands there, not whether it may.

use crate::token::{Token, TokenKind};
use snell_text::Span;

/// What a piece is.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Kind {
    /// A letter and what may follow it in a name.
    Word,
    /// Digits with points, commas and slashes between them, or a `½`.
    Number,
    /// `'` or `"` behind a number.
    Mark,
    /// A text with both its quotes.
    Text,
    /// A quote that nothing closes, with all behind it.
    Open,
    /// `%`, `°`, `²` and their like.
    UnitSign,
    /// Any other single character.
    Sign(char),
}

/// A piece of a line.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) struct Piece {
    pub(crate) kind: Kind,
    pub(crate) span: Span,
    /// Whether no space parts it from the piece before.
    pub(crate) glued: bool,
}

/// A line and its pieces, without the comment.
pub(crate) struct Line<'a> {
    pub(crate) written: &'a str,
    pub(crate) pieces: Vec<Piece>,
}

impl<'a> Line<'a> {
    pub(crate) fn new(written: &'a str, tokens: &[Token]) -> Self {
        let mut pieces: Vec<Piece> = Vec::with_capacity(tokens.len());
        for token in tokens {
            if let Some(kind) = kind(written, *token) {
                pieces.push(Piece {
                    kind,
                    span: token.span,
                    glued: pieces
                        .last()
                        .is_some_and(|last| last.span.end == token.span.start),
                });
            }
        }
        Self { written, pieces }
    }

    pub(crate) fn get(&self, at: usize) -> Option<Piece> {
        self.pieces.get(at).copied()
    }

    pub(crate) fn before(&self, at: usize) -> Option<Piece> {
        self.get(at.checked_sub(1)?)
    }

    /// The piece right behind `at` with no space between.
    pub(crate) fn glued_after(&self, at: usize) -> Option<Piece> {
        self.get(at + 1).filter(|next| next.glued)
    }

    pub(crate) fn of(&self, piece: Piece) -> &'a str {
        piece.span.of(self.written)
    }

    /// The word at `at` in lower case.
    pub(crate) fn word(&self, at: usize) -> Option<String> {
        let piece = self.get(at).filter(|piece| piece.kind == Kind::Word)?;
        Some(self.of(piece).to_lowercase())
    }

    pub(crate) fn is_word(&self, at: usize, words: &[&str]) -> bool {
        self.word(at).is_some_and(|word| words.contains(&word.as_str()))
    }

    /// One past the last piece.
    pub(crate) fn end(&self) -> u32 {
        self.pieces.last().map_or(0, |last| last.span.end)
    }
}

pub(crate) fn is_dash(c: char) -> bool {
    matches!(c, '-' | '–' | '—' | '−')
}

fn kind(written: &str, token: Token) -> Option<Kind> {
    Some(match token.kind {
        TokenKind::Space | TokenKind::Comment => return None,
        TokenKind::Opener | TokenKind::Key | TokenKind::Given | TokenKind::Name => Kind::Word,
        TokenKind::Joining | TokenKind::X | TokenKind::Word => Kind::Word,
        TokenKind::Number | TokenKind::Size | TokenKind::Day => Kind::Number,
        TokenKind::Unit | TokenKind::Operator => match token.span.of(written).chars().next() {
            Some('%' | '°' | 'º') => Kind::UnitSign,
            Some(letter) if letter.is_alphabetic() => Kind::Word,
            Some(sign) if token.kind == TokenKind::Operator => Kind::Sign(sign),
            _ => Kind::Mark,
        },
        TokenKind::Mark => Kind::Mark,
        TokenKind::UnitSign => Kind::UnitSign,
        TokenKind::Text => Kind::Text,
        TokenKind::Unclosed => Kind::Open,
        TokenKind::Comma
        | TokenKind::Dot
        | TokenKind::Dash
        | TokenKind::Equals
        | TokenKind::Open
        | TokenKind::Close
        | TokenKind::Stop
        | TokenKind::Sign => Kind::Sign(token.span.of(written).chars().next()?),
    })
}
