//! How much is read, so that no line and no text can stall the reader: far
//! beyond any notebook.

use crate::layout::is_quote;
use snell_finding::Limit;
use snell_text::Span;

/// The longest line that is read, in bytes.
pub const LINE_LIMIT: usize = Limit::LineBytes.count();

/// How deep parentheses may stand in each other.
pub const NESTING_LIMIT: usize = Limit::Parentheses.count();

/// How many findings are kept of one text.
pub const FINDING_LIMIT: usize = Limit::BrokenLines.count();

/// The most blocks of one text.
pub(crate) const BLOCK_LIMIT: usize = Limit::Blocks.count();

/// The most `use` lines of one text.
pub(crate) const USE_LIMIT: usize = Limit::Uses.count();

/// The most lines of one block.
pub(crate) const BODY_LIMIT: usize = Limit::BlockLines.count();

/// The first parenthesis that opens deeper than `limit`. What stands in quotes
/// or behind `//` does not count.
pub(crate) fn too_deep(line: &str, limit: usize) -> Option<Span> {
    let parentheses = line.bytes().filter(|byte| *byte == b'(').count();
    if parentheses <= limit {
        return None;
    }
    let mut depth = 0;
    let mut before = ' ';
    for (at, c) in line.char_indices() {
        match c {
            '(' if depth == limit => return Some(Span::from(at..at + 1)),
            '(' => depth += 1,
            ')' => depth = depth.saturating_sub(1),
            // A quote behind a digit is an inch mark; any other opens a text.
            c if is_quote(c) && !before.is_numeric() => return None,
            '/' if before == '/' => return None,
            _ => {}
        }
        before = c;
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn depth_is_counted_outside_of_texts() {
        assert_eq!(too_deep(&"(".repeat(33), 32), Some(Span::new(32, 33)));
        assert_eq!(too_deep(&"()".repeat(33), 32), None);
        assert_eq!(too_deep(&format!("note \"{}\"", "(".repeat(40)), 32), None);
        assert_eq!(too_deep(&format!("a // {}", "(".repeat(40)), 32), None);
    }
}
