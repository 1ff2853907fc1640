//! A line cut into pieces, forgivingly: words, numbers, signs, texts.
//!
//! This sees every character of a line, also those that the grammar has no
//! place for. It says what stands there, not whether it may.

use crate::layout::{is_quote, is_space};
use snell_text::Span;
use unicode_normalization::char::is_combining_mark;

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
    pub(crate) fn new(written: &'a str) -> Self {
        Self {
            written,
            pieces: cut(written),
        }
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

fn is_mark(c: char) -> bool {
    matches!(c, '\'' | '’' | '‘' | '′' | '"' | '”' | '“' | '″')
}

fn is_vulgar(c: char) -> bool {
    matches!(c, '¼'..='¾' | '⅓'..='⅔' | '⅛'..='⅞')
}

fn goes_on_in_a_name(c: char) -> bool {
    c.is_alphanumeric() && !is_vulgar(c) && !matches!(c, '²' | '³')
        || is_combining_mark(c)
        || matches!(c, '-' | '\u{2011}')
}

fn cut(line: &str) -> Vec<Piece> {
    let mut pieces: Vec<Piece> = Vec::new();
    let mut at = 0;
    while let Some(c) = line[at..].chars().next() {
        let rest = &line[at..];
        if is_space(c) {
            at += c.len_utf8();
            continue;
        }
        if rest.starts_with("//") {
            break;
        }
        let glued = pieces.last().is_some_and(|last| last.span.end as usize == at);
        let behind_number = glued && pieces.last().is_some_and(|last| last.kind == Kind::Number);
        let (kind, length) = piece(rest, c, behind_number);
        pieces.push(Piece {
            kind,
            span: Span::from(at..at + length),
            glued,
        });
        at += length;
    }
    pieces
}

/// The piece that begins with `c` at the start of `rest`, with its length.
fn piece(rest: &str, c: char, behind_number: bool) -> (Kind, usize) {
    let until = |ends: fn(char) -> bool| rest.find(ends).unwrap_or(rest.len());
    if behind_number && is_mark(c) {
        let second = rest[c.len_utf8()..].chars().next();
        let doubled = second.filter(|second| is_prime(c) && is_prime(*second));
        return (Kind::Mark, c.len_utf8() + doubled.map_or(0, char::len_utf8));
    }
    if is_quote(c) {
        return text(rest, c);
    }
    if c.is_ascii_digit() || is_vulgar(c) {
        return (Kind::Number, number(rest));
    }
    if c == '.' && rest[1..].starts_with(|c: char| c.is_ascii_digit()) {
        return (Kind::Number, 1 + number(&rest[1..]));
    }
    if c.is_alphabetic() {
        return (Kind::Word, until(|c| !goes_on_in_a_name(c)));
    }
    if matches!(c, '%' | '°' | 'º' | '²' | '³') {
        return (Kind::UnitSign, c.len_utf8());
    }
    (Kind::Sign(c), c.len_utf8())
}

fn is_prime(c: char) -> bool {
    matches!(c, '\'' | '’' | '‘' | '′')
}

fn number(rest: &str) -> usize {
    let mut length = 0;
    let mut characters = rest.chars().peekable();
    while let Some(c) = characters.next() {
        let digit_next = characters.peek().is_some_and(char::is_ascii_digit);
        if !(c.is_ascii_digit() || is_vulgar(c) || matches!(c, '.' | ',' | '/' | '⁄') && digit_next) {
            break;
        }
        length += c.len_utf8();
    }
    length
}

/// A text from its opening quote on: to the first quote with nothing behind
/// it, else to the next quote, else to the end of the line.
fn text(rest: &str, quote: char) -> (Kind, usize) {
    let inside = quote.len_utf8();
    let mut quotes = rest[inside..]
        .char_indices()
        .filter(|(_, c)| is_quote(*c))
        .map(|(at, c)| inside + at + c.len_utf8())
        .peekable();
    let next = quotes.peek().copied();
    match quotes.find(|end| ends_line(&rest[*end..])).or(next) {
        Some(end) => (Kind::Text, end),
        None => (Kind::Open, rest.trim_end_matches(is_space).len()),
    }
}

fn ends_line(rest: &str) -> bool {
    let rest = rest.trim_start_matches(is_space);
    let rest = rest
        .strip_prefix('.')
        .unwrap_or(rest)
        .trim_start_matches(is_space);
    rest.is_empty() || rest.starts_with("//")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn everything_is_cut_somewhere() {
        let kinds = |written: &str| {
            Line::new(written)
                .pieces
                .iter()
                .map(|piece| piece.kind)
                .collect::<Vec<_>>()
        };
        use Kind::*;
        assert_eq!(
            kinds("  a-b 3'8\" of .5"),
            [Word, Number, Mark, Number, Mark, Word, Number]
        );
        assert_eq!(kinds("note \"a\" b \"c\" // d"), [Word, Text]);
        assert_eq!(kinds("note \"a\" b"), [Word, Text, Word]);
        assert_eq!(kinds("note “a b // c"), [Word, Open]);
        assert_eq!(kinds("a\u{0}1.2.3½°"), [Word, Sign('\0'), Number, UnitSign]);
    }
}
