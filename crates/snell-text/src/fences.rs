//! The `rig` fences of a Markdown page, line by line.
//!
//! Nothing is cut out and nothing is shifted: a fence is a list of spans of
//! the page itself, each one line without the margin that its list or quote
//! gives it. So every place in a fence is a place in the page.

use crate::lines::lines;
use crate::span::Span;
use pulldown_cmark::{CodeBlockKind, Event, Options, Parser, Tag, TagEnd};

/// What the word behind `rig` says of a fence.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum FenceTag {
    /// `rig`: part of the page's one file.
    Shared,
    /// `rig alone`: a file of its own.
    Alone,
    /// `rig good`: a file of its own that its page calls sound.
    Good,
    /// `rig bad`: a file of its own that its page calls wrong.
    Bad,
}

impl FenceTag {
    fn read(info: &str) -> Option<Self> {
        let mut words = info.split_whitespace();
        if !words.next()?.eq_ignore_ascii_case("rig") {
            return None;
        }
        Some(match words.next().map(str::to_ascii_lowercase).as_deref() {
            Some("alone") => Self::Alone,
            Some("good") => Self::Good,
            Some("bad") => Self::Bad,
            _ => Self::Shared,
        })
    }
}

/// One `rig` fence.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Fence {
    /// What its tag says.
    pub tag: FenceTag,
    /// Its lines in order, margins and line ends left out.
    pub lines: Vec<Span>,
}

/// The `rig` fences of a Markdown page in order. Front matter is passed over.
pub fn fences(page: &str) -> Vec<Fence> {
    let mut found = Vec::new();
    let mut open: Option<(FenceTag, Vec<Span>)> = None;
    for (event, range) in events(page) {
        match event {
            Event::Start(Tag::CodeBlock(CodeBlockKind::Fenced(info))) => {
                open = FenceTag::read(&info).map(|tag| (tag, Vec::new()));
            }
            Event::Text(_) => {
                if let Some((_, pieces)) = &mut open {
                    pieces.push(range);
                }
            }
            Event::End(TagEnd::CodeBlock) => {
                if let Some((tag, pieces)) = open.take() {
                    found.push(Fence {
                        tag,
                        lines: lines_of(page, &pieces),
                    });
                }
            }
            _ => {}
        }
    }
    found
}

/// The one way in which pages are read: what is met, and where. A byte-order mark is no part of the first line.
pub(crate) fn events(page: &str) -> impl Iterator<Item = (Event<'_>, Span)> {
    let options =
        Options::ENABLE_YAML_STYLE_METADATA_BLOCKS | Options::ENABLE_PLUSES_DELIMITED_METADATA_BLOCKS;
    let marked = page.strip_prefix('\u{feff}').unwrap_or(page);
    let shift = (page.len() - marked.len()) as u32;
    let events = Parser::new_ext(marked, options).into_offset_iter();
    events.map(move |(event, range)| (event, Span::from(range).shifted(shift)))
}

/// Joins the reader's pieces, which may end in mid-line, to whole lines.
fn lines_of(page: &str, pieces: &[Span]) -> Vec<Span> {
    let mut whole: Vec<Span> = Vec::new();
    let mut unfinished = false;
    for piece in pieces {
        for line in lines(piece.of(page)) {
            let line = line.shifted(piece.start);
            match whole.last_mut() {
                // The reader passes over a `\r`, which must not be drawn in again.
                Some(_) if unfinished && line.is_empty() => {}
                Some(last) if unfinished => *last = last.to(line),
                _ => whole.push(line),
            }
            unfinished = line.end == piece.end;
        }
    }
    whole
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(page: &str) -> Vec<(FenceTag, Vec<&str>)> {
        let cut = |fence: Fence| {
            let lines = fence.lines.iter().map(|line| line.of(page)).collect();
            (fence.tag, lines)
        };
        fences(page).into_iter().map(cut).collect()
    }

    #[test]
    fn only_fences_tagged_rig() {
        let page =
            "# A\n```rig\nrig a\n\n  tippet 1 m\n```\n```rust\nfn a() {}\n```\n~~~ rig alone\nrig b\n~~~\n";
        assert_eq!(
            read(page),
            [
                (FenceTag::Shared, vec!["rig a", "", "  tippet 1 m"]),
                (FenceTag::Alone, vec!["rig b"]),
            ]
        );
    }

    #[test]
    fn the_margin_of_a_list_or_quote_is_the_fences_own() {
        let page = "- one\n\n  ```rig\n  rig a\n    tippet 1 m\n  ```\n\n> ```rig bad\n> rig b\n>   tippet 2 m\n> ```\n";
        assert_eq!(
            read(page),
            [
                (FenceTag::Shared, vec!["rig a", "  tippet 1 m"]),
                (FenceTag::Bad, vec!["rig b", "  tippet 2 m"]),
            ]
        );
    }

    #[test]
    fn line_ends_front_matter_and_open_fences() {
        let page = "---\ntitle: ```rig\n---\r\n```rig good\r\nrig a\r\n  tippet 1 m\r\n```\r\n";
        assert_eq!(read(page), [(FenceTag::Good, vec!["rig a", "  tippet 1 m"])]);
        assert_eq!(
            read("```rig\nrig a\n  tippet"),
            [(FenceTag::Shared, vec!["rig a", "  tippet"])]
        );
        assert_eq!(read("```rig\n```\n"), [(FenceTag::Shared, vec![])]);
        assert_eq!(
            read("\u{feff}```rig\nrig a\n```\n"),
            [(FenceTag::Shared, vec!["rig a"])]
        );
    }
}
