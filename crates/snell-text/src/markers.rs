//! The comments of a Markdown page that are meant for this tool:
//! `<!-- rig: WORDS -->`, which no reader of the page sees.
//!
//! What the words ask for is not known here, only where they stand. A comment
//! that the page shows as text (in a code block, in inline code) is none.

use crate::fences::events;
use crate::span::Span;
use memchr::memmem;
use pulldown_cmark::{Event, Tag};

/// One such comment.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Marker {
    /// The whole comment; where it does not end on its line, up to the end of the line.
    pub comment: Span,
    /// What stands behind `rig:`, spaces around it left out.
    pub words: Span,
    /// How it stands on its line.
    pub stands: Stands,
}

/// How a comment stands on its line.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Stands {
    /// Nothing else is on the line, but for the margin that its list or quote gives it.
    Alone,
    /// The line begins with it and goes on, so that Markdown takes all of the line for HTML.
    AtHead,
    /// In running text, or behind other HTML.
    Within,
    /// It does not end on its line.
    Open,
}

const OPENS: &str = "<!--";
const CLOSES: &str = "-->";
const KEY: &str = "rig";

/// The comments of a page that are meant for this tool, in order.
pub fn markers(page: &str) -> Vec<Marker> {
    // Reading a page takes a hundred times as long as looking whether it can have any.
    if memmem::find(page.as_bytes(), OPENS.as_bytes()).is_none() {
        return Vec::new();
    }
    let mut found = Vec::new();
    let mut html = Html::default();
    for (event, range) in events(page) {
        match event {
            Event::Start(Tag::HtmlBlock) => html = Html::default(),
            Event::Html(_) => html.line(page, range, &mut found),
            Event::InlineHtml(_) => found.extend(marker(page, range, Stands::Within)),
            _ => {}
        }
    }
    found
}

/// What is known of an HTML block so far.
#[derive(Default)]
struct Html {
    in_comment: bool,
    /// A script or the like, whose comments are its own text.
    is_text: bool,
    begun: bool,
}

impl Html {
    /// Takes a line of the block, its margin left out.
    fn line(&mut self, page: &str, line: Span, found: &mut Vec<Marker>) {
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
    let key = inner.trim_start();
    let (key, rest) = (key.get(..KEY.len())?, key.get(KEY.len()..)?);
    let rest = rest.trim_start().strip_prefix(':')?;
    if !key.eq_ignore_ascii_case(KEY) {
        return None;
    }
    let words = rest.trim();
    let start = OPENS.len() + inner.len() - rest.len() + (rest.len() - rest.trim_start().len());
    Some(Marker {
        comment,
        words: within(comment, start, start + words.len()),
        stands,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

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
