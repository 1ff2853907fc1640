//! A text cut into lines, line ends left out.

use crate::span::Span;

/// The lines of `text`, without their ends (`\n`, `\r\n` or a lone `\r`).
///
/// A text that ends in a line end has no further, empty line behind it.
pub fn lines(text: &str) -> Lines<'_> {
    Lines { text, at: 0 }
}

/// Iterator over the spans of lines; see [`lines`].
#[derive(Clone, Debug)]
pub struct Lines<'a> {
    text: &'a str,
    at: usize,
}

impl Iterator for Lines<'_> {
    type Item = Span;

    fn next(&mut self) -> Option<Span> {
        let bytes = self.text.as_bytes();
        if self.at >= bytes.len() {
            return None;
        }
        let start = self.at;
        let Some(length) = memchr::memchr2(b'\n', b'\r', &bytes[start..]) else {
            self.at = bytes.len();
            return Some(Span::from(start..bytes.len()));
        };
        let end = start + length;
        let pair = bytes[end] == b'\r' && bytes.get(end + 1) == Some(&b'\n');
        self.at = end + if pair { 2 } else { 1 };
        Some(Span::from(start..end))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn cut(text: &str) -> Vec<&str> {
        lines(text).map(|span| span.of(text)).collect()
    }

    #[test]
    fn every_line_end_is_known() {
        assert_eq!(cut("a\nb\r\nc\rd"), ["a", "b", "c", "d"]);
        assert_eq!(cut("a\n\n\nb\n"), ["a", "", "", "b"]);
        assert_eq!(cut("\r\n"), [""]);
        assert!(cut("").is_empty());
    }
}
