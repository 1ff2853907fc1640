//! From byte offsets to lines and columns and back, in every encoding that
//! an editor or a report may count in.

use crate::lines::lines;
use crate::span::Span;

/// What a column counts.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Encoding {
    /// Bytes.
    Utf8,
    /// Code units of UTF-16.
    Utf16,
    /// Characters (Unicode scalar values).
    Utf32,
}

/// A line and column counted from 0, as editors count.
#[derive(Clone, Copy, PartialEq, Eq, Debug, PartialOrd, Ord)]
pub struct Position {
    /// Line, from 0.
    pub line: u32,
    /// Column, from 0, in the units of the [`Encoding`] that was asked for.
    pub column: u32,
}

/// A line and column counted from 1, columns in characters, as people count.
#[derive(Clone, Copy, PartialEq, Eq, Debug, PartialOrd, Ord)]
pub struct LineColumn {
    /// Line, from 1.
    pub line: u32,
    /// Column in characters, from 1.
    pub column: u32,
}

/// The line starts of one text.
#[derive(Clone, Debug)]
pub struct LineIndex {
    starts: Vec<u32>,
    length: u32,
}

impl LineIndex {
    /// Indexes `text`.
    pub fn new(text: &str) -> Self {
        let mut starts: Vec<u32> = lines(text).map(|line| line.start).collect();
        let ended = text.ends_with(['\n', '\r']);
        if starts.is_empty() || ended {
            starts.push(text.len() as u32);
        }
        Self {
            starts,
            length: text.len() as u32,
        }
    }

    /// Follows an edit: `span` of the text before was replaced by `new` bytes, which gave `text`.
    pub fn edited(&mut self, text: &str, span: Span, new: u32) {
        // A line end may be joined to or cut from its neighbours, so the lines on both sides are cut anew.
        let first = self.line_at(span.start).saturating_sub(1);
        let last = (self.line_at(span.end.min(self.length)) + 1).min(self.count() - 1);
        let behind = self.starts.get(last as usize + 1).copied();
        let moved = |at: u32| at - span.end + span.start + new;
        let from = self.starts[first as usize];
        let to = behind.map_or(text.len() as u32, moved);
        let piece = Span::new(from, to).of(text);
        let mut starts: Vec<u32> = lines(piece).map(|line| from + line.start).collect();
        let ended = behind.is_none() && (piece.is_empty() || piece.ends_with(['\n', '\r']));
        if ended && (starts.is_empty() || !piece.is_empty()) {
            starts.push(to);
        }
        for start in &mut self.starts[last as usize + 1..] {
            *start = moved(*start);
        }
        self.starts.splice(first as usize..=last as usize, starts);
        self.length = text.len() as u32;
    }

    /// How many lines there are; an end of line at the very end opens one more.
    pub fn count(&self) -> u32 {
        self.starts.len() as u32
    }

    /// The line (from 0) that holds `offset`.
    pub fn line_at(&self, offset: u32) -> u32 {
        self.starts.partition_point(|start| *start <= offset) as u32 - 1
    }

    /// The span of a line (from 0) with its end of line; empty past the last.
    pub fn line(&self, line: u32) -> Span {
        let at = |index: u32| self.starts.get(index as usize).copied();
        let start = at(line).unwrap_or(self.length);
        Span::new(start, at(line.saturating_add(1)).unwrap_or(self.length))
    }

    /// Line and column of a byte offset, as people count.
    pub fn line_column(&self, text: &str, offset: u32) -> LineColumn {
        let position = self.position(text, offset, Encoding::Utf32);
        LineColumn {
            line: position.line + 1,
            column: position.column + 1,
        }
    }

    /// The position of a byte offset. An offset inside a character counts as
    /// that character's start, one past the end as the end.
    pub fn position(&self, text: &str, offset: u32, encoding: Encoding) -> Position {
        let mut offset = offset.min(self.length) as usize;
        while !text.is_char_boundary(offset) {
            offset -= 1;
        }
        let line = self.line_at(offset as u32);
        let before = &text[self.starts[line as usize] as usize..offset];
        Position {
            line,
            column: width(before, encoding),
        }
    }

    /// The byte offset of a position. A column past the end of its line means
    /// the line's end, one inside a character that character's start.
    pub fn offset(&self, text: &str, position: Position, encoding: Encoding) -> u32 {
        let span = self.line(position.line);
        let line = span.of(text).trim_end_matches(['\n', '\r']);
        let mut column = 0;
        for (at, character) in line.char_indices() {
            let next = column + width_of(character, encoding);
            if next > position.column {
                return span.start + at as u32;
            }
            column = next;
        }
        span.start + line.len() as u32
    }
}

fn width(text: &str, encoding: Encoding) -> u32 {
    match encoding {
        Encoding::Utf8 => text.len() as u32,
        Encoding::Utf16 | Encoding::Utf32 => text.chars().map(|c| width_of(c, encoding)).sum(),
    }
}

fn width_of(character: char, encoding: Encoding) -> u32 {
    match encoding {
        Encoding::Utf8 => character.len_utf8() as u32,
        Encoding::Utf16 => character.len_utf16() as u32,
        Encoding::Utf32 => 1,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn columns_in_every_encoding() {
        let text = "a\n🎣é tippet\r\nb";
        let index = LineIndex::new(text);
        let at = text.find("tippet").unwrap() as u32;
        let column = |encoding| index.position(text, at, encoding).column;
        assert_eq!(column(Encoding::Utf8), 7);
        assert_eq!(column(Encoding::Utf16), 4);
        assert_eq!(column(Encoding::Utf32), 3);
        assert_eq!(index.line_column(text, at), LineColumn { line: 2, column: 4 });
    }

    #[test]
    fn the_ends_are_safe() {
        let index = LineIndex::new("");
        assert_eq!(index.line_column("", 0), LineColumn { line: 1, column: 1 });
        assert_eq!(index.line_column("", 9), LineColumn { line: 1, column: 1 });
        let index = LineIndex::new("a\n");
        assert_eq!(index.count(), 2);
        assert_eq!(index.line_column("a\n", 2), LineColumn { line: 2, column: 1 });
        assert!(index.line(7).is_empty());
    }

    proptest! {
        #[test]
        fn an_edited_index_is_that_of_the_new_text(
            text in "[a\u{e9}\u{1f3a3}\r\n]{0,20}",
            edits in proptest::collection::vec((0_usize..20, 0_usize..20, "[a\u{1f3a3}\r\n]{0,4}"), 1..6),
        ) {
            let mut text = text;
            let mut index = LineIndex::new(&text);
            for (from, to, new) in edits {
                let bounds: Vec<usize> = text.char_indices().map(|(at, _)| at).chain([text.len()]).collect();
                let at = |number: usize| bounds[number % bounds.len()];
                let (from, to) = (at(from).min(at(to)), at(from).max(at(to)));
                text.replace_range(from..to, &new);
                index.edited(&text, Span::from(from..to), new.len() as u32);
                let fresh = LineIndex::new(&text);
                prop_assert_eq!((&index.starts, index.length), (&fresh.starts, fresh.length), "{:?}", text);
            }
        }

        #[test]
        fn positions_round_trip(text in "[a\u{e9}\u{1f3a3}\r\n \"]{0,40}") {
            let index = LineIndex::new(&text);
            for encoding in [Encoding::Utf8, Encoding::Utf16, Encoding::Utf32] {
                for (at, character) in text.char_indices() {
                    if character == '\n' { continue; }
                    let position = index.position(&text, at as u32, encoding);
                    prop_assert_eq!(index.offset(&text, position, encoding), at as u32);
                }
            }
        }
    }
}
