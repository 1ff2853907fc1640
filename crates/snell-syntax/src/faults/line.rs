//! A line as the finders of faults see it: its tokens by their look, whether
//! they fit or not, without the spaces and the comment.

use crate::parse::Entry;
use crate::token::{Token, TokenKind};
use crate::vocabulary::{BlockKind, OwnKey};
use snell_text::Span;

/// What a line's first word makes of it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Shape {
    Head,
    Bind,
    Claim,
    Plain,
}

impl Shape {
    pub(super) fn of(line: &Line, entry: Entry) -> Self {
        let first = line.word(0).unwrap_or_default();
        match OwnKey::of(&first) {
            Some(OwnKey::Let | OwnKey::Limit) => Self::Bind,
            Some(OwnKey::Expect | OwnKey::Keep | OwnKey::When | OwnKey::Unless) => Self::Claim,
            Some(OwnKey::Use | OwnKey::Change) => Self::Plain,
            None if entry == Entry::Margin && BlockKind::of(&first).is_some() => Self::Head,
            None => Self::Plain,
        }
    }
}

/// What a piece is.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Kind {
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
pub(super) struct Piece {
    pub(super) kind: Kind,
    pub(super) span: Span,
    /// Whether no space parts it from the piece before.
    pub(super) glued: bool,
}

/// A line and its pieces, without the comment.
pub(super) struct Line<'a> {
    pub(super) written: &'a str,
    pub(super) pieces: Vec<Piece>,
}

impl<'a> Line<'a> {
    pub(super) fn new(written: &'a str, tokens: &[Token]) -> Self {
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

    pub(super) fn get(&self, at: usize) -> Option<Piece> {
        self.pieces.get(at).copied()
    }

    pub(super) fn before(&self, at: usize) -> Option<Piece> {
        self.get(at.checked_sub(1)?)
    }

    /// The piece right behind `at` with no space between.
    pub(super) fn glued_after(&self, at: usize) -> Option<Piece> {
        self.get(at + 1).filter(|next| next.glued)
    }

    pub(super) fn of(&self, piece: Piece) -> &'a str {
        piece.span.of(self.written)
    }

    /// The word at `at` in lower case.
    pub(super) fn word(&self, at: usize) -> Option<String> {
        let piece = self.get(at).filter(|piece| piece.kind == Kind::Word)?;
        Some(self.of(piece).to_lowercase())
    }

    pub(super) fn is_word(&self, at: usize, words: &[&str]) -> bool {
        self.word(at).is_some_and(|word| words.contains(&word.as_str()))
    }

    /// One past the last piece.
    pub(super) fn end(&self) -> u32 {
        self.pieces.last().map_or(0, |last| last.span.end)
    }
}

pub(super) fn is_dash(c: char) -> bool {
    matches!(c, '-' | '–' | '—' | '−')
}

fn kind(written: &str, token: Token) -> Option<Kind> {
    Some(match token.kind {
        TokenKind::Space | TokenKind::Comment => return None,
        TokenKind::Opener | TokenKind::Key | TokenKind::Given | TokenKind::Name => Kind::Word,
        TokenKind::Joining | TokenKind::X | TokenKind::Word => Kind::Word,
        TokenKind::Number | TokenKind::Size | TokenKind::Day => Kind::Number,
        TokenKind::Unit => Kind::Word,
        TokenKind::Operator => match token.span.of(written).chars().next()? {
            letter if letter.is_alphabetic() => Kind::Word,
            sign => Kind::Sign(sign),
        },
        TokenKind::Mark => Kind::Mark,
        TokenKind::Symbol => Kind::UnitSign,
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

/// At most so much as fits into a message.
pub(super) fn short(words: &str) -> String {
    match words.char_indices().nth(30) {
        Some((at, _)) => format!("{}…", &words[..at]),
        None => words.to_owned(),
    }
}
