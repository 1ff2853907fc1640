//! The lines of a text that a report shows: those with marks and their
//! neighbours, long ones cut to a window around their marks.
//!
//! An excerpt keeps the real line numbers, moves empty marks onto a character,
//! and lets nothing through that steers a terminal. It knows no finding.

use crate::prose::{printable, printed};
use miette::{MietteError, MietteSpanContents, SourceCode, SourceSpan, SpanContents};
use snell_analysis::Document;
use snell_text::Span;
use std::collections::BTreeMap;

/// Lines of one text, ready to be drawn.
#[derive(Debug)]
pub struct Excerpt {
    /// The lines one after the other, each with its end.
    text: String,
    lines: Vec<Line>,
    /// What stands over a frame, by the mark that it is drawn for.
    headings: Vec<(usize, String)>,
}

#[derive(Debug)]
struct Line {
    /// Its number in the real text, from 0.
    number: usize,
    /// Its bytes in the excerpt, with its end.
    bytes: Span,
}

/// How an excerpt is cut.
#[derive(Clone, Copy, Debug)]
pub struct Cut<'c> {
    /// The most characters that are shown of a line.
    pub longest: usize,
    /// What stands where a line is cut.
    pub ellipsis: &'c str,
}

/// How many lines are shown above and below a mark.
const AROUND: u32 = 1;

impl Excerpt {
    /// The lines around `marks`, and for each mark its bytes in the excerpt; `None` where it lies
    /// outside the window of its line or the text has no character to put it on.
    pub fn new(document: &Document, marks: &[Span], cut: Cut<'_>) -> (Self, Vec<Option<Span>>) {
        let text = &*document.text;
        let headings: Vec<String> = marks.iter().map(|mark| heading(document, mark.start)).collect();
        let marks: Vec<Option<Span>> = marks.iter().map(|mark| clamped(text, *mark)).collect();
        let mut wanted: BTreeMap<u32, Option<Span>> = BTreeMap::new();
        for mark in marks.iter().flatten() {
            let line = document.index().line_at(mark.start);
            let first = wanted.entry(line).or_default();
            *first = first.or(Some(*mark));
            let last = document.index().count() - 1;
            for near in line.saturating_sub(AROUND)..=(line + AROUND).min(last) {
                wanted.entry(near).or_default();
            }
        }
        let mut excerpt = Self {
            text: String::new(),
            lines: Vec::new(),
            headings: Vec::new(),
        };
        let mut moved = vec![None; marks.len()];
        for (number, mark) in wanted {
            let line = content(text, document.index().line(number));
            if line.is_empty() && line.start as usize == text.len() {
                continue;
            }
            let window = window(line, text, mark, cut.longest);
            let begin = excerpt.text.len() as u32;
            if window.start > line.start {
                excerpt.text.push_str(cut.ellipsis);
            }
            for (index, mark) in marks.iter().enumerate() {
                moved[index] = moved[index].or_else(|| {
                    let mark = mark.filter(|mark| window.start <= mark.start && mark.start < window.end)?;
                    let before =
                        excerpt.text.len() + shown(Span::new(window.start, mark.start).of(text)).len();
                    let marked = shown(Span::new(mark.start, mark.end.min(window.end)).of(text)).len();
                    Some(Span::from(before..before + marked))
                });
            }
            excerpt.text.push_str(&shown(window.of(text)));
            if window.end < line.end {
                excerpt.text.push_str(cut.ellipsis);
            }
            excerpt.text.push('\n');
            let bytes = Span::new(begin, excerpt.text.len() as u32);
            let number = number as usize;
            excerpt.lines.push(Line { number, bytes });
        }
        let drawn = moved
            .iter()
            .zip(headings)
            .filter_map(|(mark, heading)| Some(((*mark)?.start as usize, heading)));
        excerpt.headings = drawn.collect();
        (excerpt, moved)
    }

    /// The number of the last line, from 1.
    pub fn last_line(&self) -> usize {
        self.lines.last().map_or(1, |line| line.number + 1)
    }

    /// The characters before a place on its line.
    pub fn column(&self, at: u32) -> usize {
        let line = self.lines.iter().rfind(|line| line.bytes.start <= at);
        line.map_or(0, |line| {
            Span::new(line.bytes.start, at).of(&self.text).chars().count()
        })
    }
}

/// `file:line:column` of a place.
fn heading(document: &Document, at: u32) -> String {
    let at = document.index().line_column(&document.text, at);
    let heading = format!("{}:{}:{}", document.path.display(), at.line, at.column);
    printable(&heading).into_owned()
}

/// A mark as it can be drawn: on one line, on one character at least.
pub fn clamped(text: &str, mark: Span) -> Option<Span> {
    let on_bound = |mut at: usize| {
        at = at.min(text.len());
        while !text.is_char_boundary(at) {
            at -= 1;
        }
        at
    };
    let start = on_bound(mark.start as usize);
    let end = on_bound(mark.end as usize).max(start);
    let rest = &text[start..end];
    let first_line = rest.find(['\n', '\r']).unwrap_or(rest.len());
    if first_line > 0 {
        return Some(Span::from(start..start + first_line));
    }
    let is_end = |letter: char| letter == '\n' || letter == '\r';
    let before = text[..start]
        .char_indices()
        .next_back()
        .filter(|(_, letter)| !is_end(*letter));
    let here = || {
        text[start..]
            .chars()
            .next()
            .filter(|letter| !is_end(*letter))
            .map(|letter| (start, letter))
    };
    let earlier = || {
        text[..start]
            .char_indices()
            .rev()
            .find(|(_, letter)| !is_end(*letter))
    };
    let (at, letter) = before.or_else(here).or_else(earlier)?;
    Some(Span::from(at..at + letter.len_utf8()))
}

/// A line without its end.
fn content(text: &str, line: Span) -> Span {
    let length = line.of(text).trim_end_matches(['\n', '\r']).len() as u32;
    Span::new(line.start, line.start + length)
}

/// The part of a line that is shown: all of it, or `longest` characters with the mark well inside.
fn window(line: Span, text: &str, mark: Option<Span>, longest: usize) -> Span {
    let content = line.of(text);
    if content.len() <= longest || content.chars().nth(longest).is_none() {
        return line;
    }
    let bounds: Vec<u32> = content
        .char_indices()
        .map(|(at, _)| line.start + at as u32)
        .chain([line.end])
        .collect();
    let last = bounds.len() - 1;
    let at = mark.map_or(0, |mark| bounds.partition_point(|bound| *bound < mark.start));
    let end = (at.saturating_sub(longest / 3) + longest).min(last);
    Span::new(bounds[end.saturating_sub(longest)], bounds[end])
}

/// A part of a line as it may be printed. Tabs become single spaces, so that marks stay under their words.
fn shown(part: &str) -> String {
    part.chars().map(printed).collect()
}

impl SourceCode for Excerpt {
    fn read_span<'a>(
        &'a self,
        span: &SourceSpan,
        before: usize,
        after: usize,
    ) -> Result<Box<dyn SpanContents<'a> + 'a>, MietteError> {
        let last = (span.offset() + span.len().max(1) - 1) as u32;
        let holds = |at: u32| {
            self.lines
                .iter()
                .position(|line| line.bytes.start <= at && at < line.bytes.end)
        };
        let first = holds(span.offset() as u32).ok_or(MietteError::OutOfBounds)?;
        let last = holds(last).ok_or(MietteError::OutOfBounds)?;
        // Lines that are not neighbours in the text are drawn in frames of their own.
        let neighbours = |upper: usize| self.lines[upper].number + 1 == self.lines[upper + 1].number;
        if !(first..last).all(neighbours) {
            return Err(MietteError::OutOfBounds);
        }
        let from = (first.saturating_sub(before)..first)
            .rev()
            .take_while(|line| neighbours(*line))
            .last()
            .unwrap_or(first);
        let to = (last..last + after)
            .take_while(|line| line + 1 < self.lines.len() && neighbours(*line))
            .count()
            + last;
        let heading = self.headings.iter().find(|(mark, _)| *mark == span.offset());
        let bytes = self.lines[from].bytes.to(self.lines[to].bytes);
        Ok(Box::new(MietteSpanContents::new_named(
            heading.map_or_else(String::new, |(_, heading)| heading.clone()),
            bytes.of(&self.text).as_bytes(),
            (bytes.start as usize, bytes.len() as usize).into(),
            self.lines[from].number,
            0,
            to - from + 1,
        )))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use snell_analysis::Kind;
    use snell_text::TextId;
    use std::path::PathBuf;

    fn document(text: &str) -> Document {
        Document::new(TextId(0), PathBuf::from("a.rig"), Kind::Rig, text.into())
    }

    fn cut(text: &str, marks: &[Span], longest: usize) -> (Excerpt, Vec<Option<String>>) {
        let document = document(text);
        let (excerpt, moved) = Excerpt::new(
            &document,
            marks,
            Cut {
                longest,
                ellipsis: "…",
            },
        );
        let words = moved
            .iter()
            .map(|mark| mark.map(|mark| mark.of(&excerpt.text).to_owned()))
            .collect();
        (excerpt, words)
    }

    #[test]
    fn marks_always_lie_on_a_character() {
        let on = |text: &str, start, end| {
            clamped(text, Span::new(start, end)).map(|mark| mark.of(text).to_owned())
        };
        assert_eq!(on("", 0, 0), None);
        assert_eq!(on("\n\n", 1, 2), None);
        assert_eq!(on("ab\n", 3, 3), Some("b".into()));
        assert_eq!(on("ab\n\ncd", 3, 3), Some("b".into()));
        assert_eq!(on("ab", 0, 0), Some("a".into()));
        assert_eq!(on("ab cd", 2, 2), Some("b".into()));
        assert_eq!(on("ab\ncd", 1, 5), Some("b".into()));
        assert_eq!(on("aé", 2, 9), Some("é".into()));
        assert_eq!(on("aé", 90, 91), Some("é".into()));
    }

    #[test]
    fn only_marked_lines_and_their_neighbours() {
        let text = "one\ntwo\nthree\nfour\nfive\nsix\r\nseven\n";
        let at = |word: &str| {
            let start = text.find(word).unwrap();
            Span::from(start..start + word.len())
        };
        let (excerpt, words) = cut(text, &[at("two"), at("seven")], 80);
        assert_eq!(excerpt.text, "one\ntwo\nthree\nsix\nseven\n");
        assert_eq!(words, [Some("two".into()), Some("seven".into())]);
        let numbers: Vec<usize> = excerpt.lines.iter().map(|line| line.number).collect();
        assert_eq!(numbers, [0, 1, 2, 5, 6]);
        let both = (4, excerpt.text.len() - 5).into();
        assert!(excerpt.read_span(&both, 1, 1).is_err());
        let one = excerpt.read_span(&(4, 3).into(), 1, 1).unwrap();
        assert_eq!(
            (one.data(), one.line(), one.line_count()),
            (&b"one\ntwo\nthree\n"[..], 0, 3)
        );
    }

    #[test]
    fn long_lines_are_cut_around_their_mark() {
        let text = format!("{}é here {}", "a".repeat(50_000), "b".repeat(10_000));
        let start = text.find("here").unwrap();
        let far = Span::from(text.len() - 1..text.len());
        let (excerpt, words) = cut(&text, &[Span::from(start..start + 4), far], 30);
        assert_eq!(excerpt.text, "…aaaaaaaaé here bbbbbbbbbbbbbbb…\n");
        assert_eq!(words, [Some("here".into()), None]);
        let (excerpt, words) = cut(&text, &[far], 12);
        assert_eq!(excerpt.text, "…bbbbbbbbbbbb\n");
        assert_eq!(words, [Some("b".into())]);
    }

    #[test]
    fn what_steers_a_terminal_is_replaced_and_marks_keep_their_words() {
        let text = "a\t\u{1b}[2J here";
        let start = text.find("here").unwrap();
        let (excerpt, words) = cut(text, &[Span::from(start..start + 4)], 80);
        assert_eq!(excerpt.text, "a \u{fffd}[2J here\n");
        assert_eq!(words, [Some("here".into())]);
    }
}
