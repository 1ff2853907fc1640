//! Which word of a line is what, for colouring: keys, names, numbers, units,
//! texts and comments.

use super::walk::ASKED;
use snell_analysis::Notebook;
use snell_syntax::{Joint, Token, TokenKind, is_joining};
use snell_text::Span;

/// What a word is.
#[derive(Clone, Copy, PartialEq, Eq, Debug, PartialOrd, Ord)]
pub enum Paint {
    /// A word that opens a line or joins.
    Keyword,
    /// The word that opens a block.
    Opener,
    /// A name where it is given.
    Given,
    /// A name where it is used.
    Name,
    /// A number or size.
    Number,
    /// A unit.
    Unit,
    /// A text in quotes.
    Text,
    /// A comment.
    Comment,
}

impl Paint {
    /// Every one, in the order of their numbers.
    pub const ALL: [Self; 8] = [
        Self::Keyword,
        Self::Opener,
        Self::Given,
        Self::Name,
        Self::Number,
        Self::Unit,
        Self::Text,
        Self::Comment,
    ];
}

/// A word and what it is. None overlaps another.
#[derive(Clone, Copy, PartialEq, Eq, Debug, PartialOrd, Ord)]
pub struct Painted {
    /// Where, on one line of the asked text.
    pub place: Span,
    /// What it is.
    pub paint: Paint,
}

/// Every painted word of the asked text, in order.
pub fn tokens(notebook: &Notebook) -> Vec<Painted> {
    let project = notebook.project();
    let mut found = Vec::new();
    for file in project.files().filter(|file| !project.ships(*file)) {
        let source = project.source(file);
        if source.file.text != ASKED {
            continue;
        }
        let (text, read) = (&source.text, &source.file);
        let blocks = project.blocks(file);
        for line in blocks.flat_map(|block| block.head_line().into_iter().chain(block.lines())) {
            of_line(text, line.offset(), &line.line.tokens, &mut found);
        }
        for line in read.uses.iter().map(|used| &used.line) {
            of_line(text, line.offset, &line.tokens, &mut found);
        }
        for line in &read.rest {
            of_line(text, line.offset, &line.tokens, &mut found);
        }
    }
    found.sort_unstable();
    found
}

/// The painted words of one line, which begins at `offset`.
fn of_line(text: &str, offset: u32, tokens: &[Token], found: &mut Vec<Painted>) {
    // What stands behind `as` is a name that is given there.
    let mut labels = false;
    for (at, token) in tokens.iter().enumerate() {
        let place = token.span.shifted(offset);
        let next = tokens.get(at + 1).map(|next| next.kind);
        let paint = match token.kind {
            TokenKind::Comment => Paint::Comment,
            TokenKind::Opener => Paint::Opener,
            TokenKind::Key => Paint::Keyword,
            TokenKind::Joining => {
                labels = Joint::of(place.of(text)) == Some(Joint::As);
                Paint::Keyword
            }
            TokenKind::Word if is_joining(place.of(text)) => Paint::Keyword,
            TokenKind::Given => Paint::Given,
            // `min(`: what is called belongs to the language.
            TokenKind::Name if next == Some(TokenKind::Open) => Paint::Keyword,
            TokenKind::Name if labels => Paint::Given,
            TokenKind::Name => Paint::Name,
            TokenKind::Number | TokenKind::Size | TokenKind::Day => Paint::Number,
            TokenKind::X => {
                // It is one word with the number before it.
                if let Some(number) = found.last_mut() {
                    number.place = number.place.to(place);
                }
                continue;
            }
            TokenKind::Unit | TokenKind::Mark | TokenKind::Symbol => Paint::Unit,
            TokenKind::Text | TokenKind::Unclosed => Paint::Text,
            TokenKind::Space
            | TokenKind::Operator
            | TokenKind::Dash
            | TokenKind::Comma
            | TokenKind::Dot
            | TokenKind::Equals
            | TokenKind::Open
            | TokenKind::Close
            | TokenKind::Stop
            | TokenKind::Word
            | TokenKind::Sign => continue,
        };
        found.push(Painted { place, paint });
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use snell_analysis::{Kind, LocalDisk};
    use std::path::Path;

    #[test]
    fn words_that_join_are_painted_as_what_opens_a_line_is() {
        let text = "rig a\n  tippet 30 in as upper\n  expect total between (1 ft + 2 in) and 40 in\n\nrig b from a\n  change upper to 20 in\n";
        let book = Notebook::of_text(Path::new("a.rig"), Kind::Rig, text.to_owned(), &LocalDisk);
        let painted = tokens(&book);
        let keywords = painted.iter().filter(|one| one.paint == Paint::Keyword);
        let words: Vec<&str> = keywords.map(|one| one.place.of(text)).collect();
        assert_eq!(
            words,
            ["tippet", "as", "expect", "between", "and", "from", "change", "to"]
        );
    }
    #[test]
    fn a_line_that_cannot_be_read_is_painted_as_far_as_it_makes_sense() {
        let text = "// one\nrig a\n  tippet 3'8 of 6X @ \"pink\" // two\n  note \"left open\n";
        let book = Notebook::of_text(Path::new("a.rig"), Kind::Rig, text.to_owned(), &LocalDisk);
        let painted = tokens(&book);
        let words: Vec<(&str, Paint)> = painted
            .iter()
            .map(|one| (one.place.of(text), one.paint))
            .collect();
        assert_eq!(
            words,
            [
                ("// one", Paint::Comment),
                ("rig", Paint::Opener),
                ("a", Paint::Given),
                ("tippet", Paint::Keyword),
                ("3", Paint::Number),
                ("'", Paint::Unit),
                ("8", Paint::Number),
                ("of", Paint::Keyword),
                ("6X", Paint::Number),
                ("\"pink\"", Paint::Text),
                ("// two", Paint::Comment),
                ("note", Paint::Keyword),
                ("\"left open", Paint::Text),
            ]
        );
    }
}
