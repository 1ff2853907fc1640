//! Half-open byte ranges, and the text that they lie in.

use std::fmt;
use std::ops::Range;

/// A half-open range of bytes in one text: `start..end`.
#[derive(Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Default)]
pub struct Span {
    /// First byte.
    pub start: u32,
    /// One past the last byte.
    pub end: u32,
}

impl Span {
    /// The span from `start` to `end`.
    pub const fn new(start: u32, end: u32) -> Self {
        Self { start, end }
    }

    /// The empty span at `at`.
    pub const fn empty(at: u32) -> Self {
        Self { start: at, end: at }
    }

    /// Length in bytes.
    pub const fn len(self) -> u32 {
        self.end.saturating_sub(self.start)
    }

    /// Whether the span holds no byte.
    pub const fn is_empty(self) -> bool {
        self.end <= self.start
    }

    /// The smallest span that holds both.
    pub fn to(self, other: Self) -> Self {
        Self {
            start: self.start.min(other.start),
            end: self.end.max(other.end),
        }
    }

    /// The same span counted from a text that begins `by` bytes earlier.
    pub const fn shifted(self, by: u32) -> Self {
        Self {
            start: self.start + by,
            end: self.end + by,
        }
    }

    /// Whether `other` lies within this span.
    pub const fn holds(self, other: Self) -> bool {
        self.start <= other.start && other.end <= self.end
    }

    /// The part of `text` that the span covers.
    ///
    /// # Panics
    /// If the span does not lie in `text` on character bounds.
    pub fn of(self, text: &str) -> &str {
        &text[Range::from(self)]
    }
}

impl fmt::Debug for Span {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}..{}", self.start, self.end)
    }
}

impl From<Span> for Range<usize> {
    fn from(span: Span) -> Self {
        span.start as usize..span.end as usize
    }
}

impl From<Range<usize>> for Span {
    /// Texts are capped far below 4 GiB before they are cut into spans.
    fn from(range: Range<usize>) -> Self {
        Self::new(range.start as u32, range.end as u32)
    }
}

/// Which text a span lies in; handed out by whoever keeps the texts.
#[derive(Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Debug, Default)]
pub struct TextId(pub u32);

/// A span together with the text that it lies in.
#[derive(Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Debug, Default)]
pub struct Place {
    /// The text.
    pub text: TextId,
    /// The bytes in it.
    pub span: Span,
}

impl Place {
    /// The place of `span` in `text`.
    pub const fn new(text: TextId, span: Span) -> Self {
        Self { text, span }
    }
}
