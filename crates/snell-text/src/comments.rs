//! The comments of a Markdown page that are meant for this tool:
//! `<!-- rig: WORDS -->`, which no reader of the page sees, and
//! `[//]: # (rig: WORDS)`, a link that nobody follows, for those renderers that
//! show comments.
//!
//! What the words ask for is not known here, only where they stand. A comment
//! that the page shows as text (in a code block, in inline code) is none.

use crate::found::{Marker, Stands};
use crate::lines::lines;
use crate::span::Span;

pub(crate) const OPENS: &str = "<!--";
const CLOSES: &str = "-->";
const KEY: &str = "rig";
/// What stands between the label of a link that nobody follows and its words.
const LINK: &str = "]: # ";

/// A comment in running text, if it is meant for this tool.
pub(crate) fn inline(page: &str, comment: Span) -> Option<Marker> {
    marker(page, comment, Stands::Within)
}

/// Lines that have the form of a link that nobody follows. Whether they stand in text is not known here.
pub(crate) fn links(page: &str) -> impl Iterator<Item = Marker> + '_ {
    let at = |line: Span| Some((line, line.start as usize + line.of(page).find(LINK)?));
    lines(page)
        .filter_map(at)
        .filter_map(move |(line, at)| link(page, line, at))
}

fn link(page: &str, line: Span, at: usize) -> Option<Marker> {
    let label = &page[line.start as usize..at];
    let open = label.rfind('[')?;
    let is_margin = |letter: char| letter.is_whitespace() || letter == '>';
    if !label[..open].chars().all(is_margin) {
        return None;
    }
    let from = at + LINK.len();
    let title = page[from..line.end as usize].trim_end();
    let pairs = [('(', ')'), ('"', '"'), ('\'', '\'')];
    let inner = pairs
        .into_iter()
        .find_map(|(open, close)| title.strip_prefix(open)?.strip_suffix(close))?;
    let words = keyed(inner)?;
    let start = from + 1 + (inner.len() - words.len());
    Some(Marker {
        comment: Span::from(line.start as usize + open..from + title.len()),
        words: trimmed(page, Span::from(start..start + words.len())),
        stands: Stands::Alone,
    })
}

/// What stands behind `rig:` in the words of a comment.
fn keyed(inner: &str) -> Option<&str> {
    let key = inner.trim_start();
    let (key, rest) = (key.get(..KEY.len())?, key.get(KEY.len()..)?);
    let rest = rest.trim_start().strip_prefix(':')?;
    key.eq_ignore_ascii_case(KEY).then_some(rest)
}

fn trimmed(page: &str, span: Span) -> Span {
    let written = span.of(page);
    let start = span.start + (written.len() - written.trim_start().len()) as u32;
    Span::new(start, start + written.trim().len() as u32)
}

/// What is known of an HTML block so far.
#[derive(Default)]
pub(crate) struct Html {
    in_comment: bool,
    /// A script or the like, whose comments are its own text.
    is_text: bool,
    begun: bool,
}

impl Html {
    /// Takes a line of the block, its margin left out.
    pub fn line(&mut self, page: &str, line: Span, found: &mut Vec<Marker>) {
        let written = line.of(page);
        if !std::mem::replace(&mut self.begun, true) {
            let opening = written.trim_start().to_ascii_lowercase();
            self.is_text = ["<script", "<style", "<textarea"]
                .iter()
                .any(|tag| opening.starts_with(tag));
        }
        if self.is_text {
            return;
        }
        let mut at = 0;
        loop {
            let rest = &written[at..];
            if self.in_comment {
                let Some(end) = rest.find(CLOSES) else { return };
                at += end + CLOSES.len();
                self.in_comment = false;
                continue;
            }
            let Some(start) = rest.find(OPENS).map(|start| at + start) else {
                return;
            };
            let heads = written[..start].trim().is_empty();
            match written[start + OPENS.len()..].find(CLOSES) {
                Some(length) => {
                    at = start + OPENS.len() + length + CLOSES.len();
                    let stands = match (heads, written[at..].trim().is_empty()) {
                        (true, true) => Stands::Alone,
                        (true, false) => Stands::AtHead,
                        (false, _) => Stands::Within,
                    };
                    found.extend(marker(page, within(line, start, at), stands));
                }
                None => {
                    self.in_comment = true;
                    at = start + OPENS.len();
                    let end = written.trim_end().len();
                    found.extend(marker(page, within(line, start, end), Stands::Open));
                }
            }
        }
    }
}

fn within(line: Span, start: usize, end: usize) -> Span {
    Span::from(start..end).shifted(line.start)
}

/// The comment as a marker, if it is meant for this tool.
fn marker(page: &str, comment: Span, stands: Stands) -> Option<Marker> {
    let written = comment.of(page);
    let (comment, stands) = match written.find(['\n', '\r']) {
        Some(line) => (within(comment, 0, line), Stands::Open),
        None => (comment, stands),
    };
    let written = comment.of(page);
    let inner = written.strip_prefix(OPENS)?;
    let inner = inner.strip_suffix(CLOSES).unwrap_or(inner);
    let words = keyed(inner)?;
    let start = OPENS.len() + inner.len() - words.len();
    Some(Marker {
        comment,
        words: trimmed(page, within(comment, start, start + words.len())),
        stands,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Markup, Page};
    use proptest::prelude::*;

    fn markers(page: &str) -> Vec<Marker> {
        Page::read(page, Markup::Markdown).markers
    }

    fn read(page: &str) -> Vec<(&str, &str, Stands)> {
        let cut = |marker: Marker| (marker.comment.of(page), marker.words.of(page), marker.stands);
        markers(page).into_iter().map(cut).collect()
    }

    #[test]
    fn alone_in_text_and_at_the_head_of_a_line() {
        let page = "<!-- rig: show low -->\n\n<!--RIG :end-->\nIt is <!-- rig: total of low -->5 m<!-- rig: end --> long.\n\n<!-- rig: total of low -->5 m<!-- rig: end -->\n";
        assert_eq!(
            read(page),
            [
                ("<!-- rig: show low -->", "show low", Stands::Alone),
                ("<!--RIG :end-->", "end", Stands::Alone),
                ("<!-- rig: total of low -->", "total of low", Stands::Within),
                ("<!-- rig: end -->", "end", Stands::Within),
                ("<!-- rig: total of low -->", "total of low", Stands::AtHead),
                ("<!-- rig: end -->", "end", Stands::Within),
            ]
        );
    }

    #[test]
    fn what_the_page_shows_as_text_is_none() {
        for page in [
            "```html\n<!-- rig: show low -->\n```\n",
            "~~~\n<!-- rig: show low -->\n~~~\n",
            "text\n\n    <!-- rig: show low -->\n",
            "write `<!-- rig: show low -->` there\n",
            "---\ntitle: <!-- rig: show low -->\n---\n",
            "<script>\n<!-- rig: show low -->\n</script>\n",
            "<!-- an old one:\n<!-- rig: show low -->\n",
            "<!-- rigs: show low -->\n<!-- rig show low -->\n<!-- big: a -->\n",
            "\\<!-- rig: show low -->\n",
        ] {
            assert_eq!(read(page), [], "{page}");
        }
    }

    #[test]
    fn lists_quotes_html_and_line_ends() {
        let page = "> <!-- rig: show a -->\r\n>\r\n> <!-- rig: end -->\r\n\r\n1. one\r\n\r\n   - <!-- rig: draw b -->\r\n     <!-- rig: end -->\r\n\r\n<div>\r\n  <!-- rig: cut c -->\r\n</div>\r\n";
        let alone = |words: &'static str| (words, Stands::Alone);
        let found: Vec<_> = read(page)
            .into_iter()
            .map(|(_, words, how)| (words, how))
            .collect();
        assert_eq!(
            found,
            ["show a", "end", "draw b", "end", "cut c"].map(alone).to_vec()
        );
    }

    #[test]
    fn a_comment_over_lines_is_open() {
        assert_eq!(
            read("<!-- rig: show\n low -->\n"),
            [("<!-- rig: show", "show", Stands::Open)]
        );
        assert_eq!(
            read("a <!-- rig: show\n low --> b\n"),
            [("<!-- rig: show", "show", Stands::Open)]
        );
    }

    proptest! {
        #[test]
        fn every_span_lies_in_its_comment(page in "([a-z`>#~ \r\n-]|<!--|-->|rig:|1\\. |é|    ){0,60}") {
            let mut before = 0;
            for marker in markers(&page) {
                let (comment, words) = (marker.comment, marker.words);
                prop_assert!(before <= comment.start && comment.start < words.start.max(1));
                prop_assert!(words.start <= words.end && words.end <= comment.end);
                prop_assert!(comment.of(&page).starts_with(OPENS));
                prop_assert_eq!(words.of(&page).trim(), words.of(&page));
                before = comment.end;
            }
        }
    }
}
