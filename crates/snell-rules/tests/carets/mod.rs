//! Caret lines: what a text says is found in it, and where.

use snell_text::Span;

/// A rule's name and the words that it is found at, by line.
pub type Expected = (u32, String, String);

/// The caret lines of a passage, each about the nearest line above that is none.
pub fn carets(text: &str, lines: &[Span]) -> Vec<Expected> {
    let mut expected = Vec::new();
    let mut above: Option<Span> = None;
    for line in lines {
        let written = line.of(text);
        let Some(start) = written
            .find('^')
            .filter(|_| written.trim_start().starts_with("//"))
        else {
            above = Some(*line);
            continue;
        };
        let end = start + written[start..].chars().take_while(|c| *c == '^').count();
        let above = above.expect("a caret line has a line above it");
        let words = above.of(text).get(start..end).expect("carets stand below words");
        expected.push((above.start, written[end..].trim().to_owned(), words.to_owned()));
    }
    expected.sort();
    expected
}

/// Where the line that holds a place begins.
pub fn line_start(text: &str, at: u32) -> u32 {
    text[..at as usize].rfind('\n').map_or(0, |end| end as u32 + 1)
}
