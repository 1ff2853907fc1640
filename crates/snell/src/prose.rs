//! Running text laid into lines: wrapping by words, hanging indents, and texts
//! made safe to print.
//!
//! Widths are those of a terminal's cells. It knows no colour: a text is
//! wrapped before it is painted.

use crate::screen::steers;
use std::borrow::Cow;
use unicode_width::UnicodeWidthStr;

/// Beyond this a line of prose is hard to read back from.
pub const WIDEST: usize = 100;

/// The width of a text in cells.
pub fn width(text: &str) -> usize {
    text.width()
}

/// A text cut into lines of at most `width` cells, at spaces where that can be.
/// There is always one line at least.
pub fn wrap(text: &str, width: usize) -> Vec<String> {
    let width = width.max(1);
    let mut lines = Vec::new();
    let mut line = String::new();
    let mut filled = 0;
    for word in &words(text) {
        let mut word = word.as_str();
        let mut wide = word.width();
        if filled > 0 && filled + 1 + wide > width {
            lines.push(std::mem::take(&mut line));
            filled = 0;
        }
        while wide > width {
            let (head, rest) = split_at_width(word, width);
            lines.push(head.to_owned());
            word = rest;
            wide = word.width();
        }
        if filled > 0 {
            line.push(' ');
            filled += 1;
        }
        line.push_str(word);
        filled += wide;
    }
    if !line.is_empty() || lines.is_empty() {
        lines.push(line);
    }
    lines
}

/// The words of a text, a figure and its unit as one: `0.28 mm` is not torn apart.
fn words(text: &str) -> Vec<String> {
    let mut words: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        match words.last_mut() {
            Some(figure) if figure.ends_with(|letter: char| letter.is_ascii_digit()) && is_unit(word) => {
                figure.push(' ');
                figure.push_str(word);
            }
            _ => words.push(word.to_owned()),
        }
    }
    words
}

fn is_unit(word: &str) -> bool {
    let letters = word.trim_end_matches([',', ';', '.', ')']);
    snell_units::resolve(letters).is_ok()
}

/// Splits off what fits in `width` cells, behind a hyphen where there is one; at least one character, so
/// that there is an end.
fn split_at_width(word: &str, width: usize) -> (&str, &str) {
    let mut filled = 0;
    let cut = word.char_indices().find(|(at, letter)| {
        filled += unicode_width::UnicodeWidthChar::width(*letter).unwrap_or(0);
        filled > width && *at > 0
    });
    let cut = cut.map_or(word.len(), |(at, _)| at);
    let hyphen = word[..cut].rfind('-').map(|at| at + 1);
    word.split_at(hyphen.unwrap_or(cut))
}

/// A text filled with spaces to `width` cells.
pub fn pad(text: &str, width: usize) -> String {
    let missing = width.saturating_sub(text.width());
    format!("{text}{}", " ".repeat(missing))
}

/// A count with its word: `1 fault`, `3 faults`.
pub fn counted(count: usize, one: &str, many: &str) -> String {
    format!("{count} {}", if count == 1 { one } else { many })
}

/// A text on one line that cannot steer a terminal: line ends become spaces, other control
/// characters and those that turn the reading direction are replaced.
pub fn printable(text: &str) -> Cow<'_, str> {
    if !text.chars().any(steers) {
        return Cow::Borrowed(text);
    }
    Cow::Owned(text.replace("\r\n", " ").chars().map(printed).collect())
}

/// A character as it may be printed.
pub fn printed(letter: char) -> char {
    match letter {
        '\n' | '\r' | '\t' => ' ',
        letter if steers(letter) => '\u{FFFD}',
        letter => letter,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_kept_whole_where_they_fit() {
        assert_eq!(wrap("a tag of eight inches", 9), ["a tag of", "eight", "inches"]);
        assert_eq!(wrap("", 9), [""]);
        assert_eq!(wrap("bead 2 mm, hook", 8), ["bead", "2 mm,", "hook"]);
        assert_eq!(
            wrap("butt sixtyinches end", 5),
            ["butt", "sixty", "inche", "s end"]
        );
        assert_eq!(wrap("three-turn-surgeon", 12), ["three-turn-", "surgeon"]);
    }

    #[test]
    fn wide_letters_count_twice() {
        assert_eq!(wrap("釣り 釣り", 5), ["釣り", "釣り"]);
        assert_eq!(wrap("釣", 1), ["釣"]);
        assert_eq!(pad("釣", 4), "釣  ");
    }

    #[test]
    fn nothing_steers_the_terminal() {
        assert_eq!(printable("a\u{1b}[2Jb\nc\u{202e}"), "a\u{fffd}[2Jb c\u{fffd}");
        assert_eq!(printable("a\r\nb"), "a b");
    }
}
