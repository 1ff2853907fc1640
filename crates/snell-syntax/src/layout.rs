//! How lines stand on the page: their margin, blank ones, comments, and
//! whether a text has lost its indent.
//!
//! It doesn't know what a line says beyond its first two characters.

use snell_text::Span;

/// The spaces of the language, with those that have no width.
pub(crate) fn is_space(c: char) -> bool {
    matches!(
        c,
        ' ' | '\t' | '\u{A0}' | '\u{2009}' | '\u{202F}' | '\u{200B}' | '\u{FEFF}' | '\u{3000}'
    )
}

/// What a line is before it is read.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Shape {
    /// Nothing but spaces.
    Blank,
    /// Nothing but a comment.
    Comment,
    /// Words, indented or not.
    Words {
        /// Whether there is room before the first word.
        indented: bool,
    },
}

impl Shape {
    /// The shape of `line`.
    pub(crate) fn of(line: &str) -> Self {
        let words = line.trim_start_matches(is_space);
        if words.is_empty() {
            Self::Blank
        } else if words.starts_with("//") {
            Self::Comment
        } else {
            Self::Words {
                indented: is_indented(line),
            }
        }
    }
}

/// Whether there is room before the first word. A byte-order mark or another
/// space without width is none.
pub fn is_indented(line: &str) -> bool {
    line.trim_start_matches(['\u{FEFF}', '\u{200B}'])
        .starts_with(is_space)
}

/// Whether no line is indented at all, so that indent cannot tell which lines
/// belong to a block.
pub fn has_lost_indent(text: &str, passage: &[Span]) -> bool {
    passage
        .iter()
        .map(|line| line.of(text))
        .all(|line| !is_indented(line) || Shape::of(line) == Shape::Blank)
}

/// Whether a line names a file to use. Such a line stands for itself even
/// where a text has lost its indent.
pub(crate) fn is_use(line: &str) -> bool {
    let words = line.trim_start_matches(is_space);
    let key = words.get(..3).is_some_and(|key| key.eq_ignore_ascii_case("use"));
    key && words[3..].trim_start_matches(is_space).starts_with(is_quote)
}

/// The sign of the mark that a merge leaves on a line of its own: seven of one sign at the margin.
pub(crate) fn conflict(line: &str) -> Option<char> {
    let sign = line
        .chars()
        .next()
        .filter(|sign| matches!(sign, '<' | '=' | '>' | '|'))?;
    let behind = line.trim_start_matches(sign);
    let seven = line.len() - behind.len() == 7;
    (seven && (behind.is_empty() || behind.starts_with(is_space))).then_some(sign)
}

/// Whether a line is nothing but a rule drawn with one sign, as below a title.
pub(crate) fn is_ruled(line: &str) -> bool {
    let signs = line.trim_matches(is_space);
    let mut letters = signs.chars();
    let first = letters
        .next()
        .filter(|sign| matches!(sign, '=' | '-' | '_' | '*' | '~'));
    first.is_some_and(|first| signs.len() >= SHORTEST_RULE && letters.all(|letter| letter == first))
}

/// A shorter run of signs is a slip.
const SHORTEST_RULE: usize = 3;

/// The quotes that a text may begin and end with.
pub(crate) fn is_quote(c: char) -> bool {
    matches!(c, '"' | '“' | '”' | '„' | '«' | '»')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn used_files() {
        assert!(is_use("use \"a.rig\"") && is_use(" USE“a.rig”"));
        assert!(!is_use("use spools.rig") && !is_use("used \"a\"") && !is_use("uße"));
    }

    #[test]
    fn shapes() {
        assert_eq!(Shape::of(" \u{A0}\t"), Shape::Blank);
        assert_eq!(Shape::of("  // a"), Shape::Comment);
        assert_eq!(Shape::of("\u{FEFF}rig a"), Shape::Words { indented: false });
        assert_eq!(Shape::of("\u{3000}rig a"), Shape::Words { indented: true });
    }
}
