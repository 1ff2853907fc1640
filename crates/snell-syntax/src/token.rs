//! The tokens of a line: every byte of it belongs to one, so that together they
//! are the line again.

use snell_text::Span;

/// What a token is.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, PartialOrd, Ord)]
pub enum TokenKind {
    Space,
    /// From `//` to the end of the line.
    Comment,
    /// The word that opens a block: `rig`.
    Opener,
    /// The word that begins any other line.
    Key,
    /// A name where a block, `let` or `limit` gives it.
    Given,
    /// A word that stands for something: a name, a measure, a colour.
    Name,
    /// A word between values: `of`, `from`, `at least`, `is`, `and`.
    Joining,
    /// `+`, `times`, `/` and their like.
    Operator,
    /// With its fraction, where it has one: `7 1/2`.
    Number,
    /// The `X` behind a number.
    X,
    /// `#14`
    Size,
    /// `2026-05-14`
    Day,
    /// A unit in letters.
    Unit,
    /// `'` or `"` behind a number.
    Mark,
    /// `%`, `°C`; where no unit fits also `²` and its like.
    Symbol,
    /// The dash of a spread.
    Dash,
    Comma,
    Dot,
    Equals,
    Open,
    Close,
    /// A text with its quotes.
    Text,
    /// The full stop that ends a line.
    Stop,
    /// A word where none fits.
    Word,
    /// A quote that nothing closes, with all behind it.
    Unclosed,
    /// Any other character where it does not fit.
    Sign,
}

/// A stretch of a line. Its place counts from the start of the line.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Token {
    pub kind: TokenKind,
    pub span: Span,
}
