//! The listings of an AsciiDoc page that hold rigs: a block under `[source,rig]`,
//! or a fence of ticks.
//!
//! Source: the AsciiDoc language documentation, "Structural containers" and
//! "Source code blocks".

use crate::found::{Fence, Page, Unread, WhyUnread};
use crate::info::{self, FenceTag, Info};
use crate::lines::lines;
use crate::span::Span;

/// Delimiters of blocks whose inside is text.
const TEXT: [u8; 4] = *b"-.+/";
/// Delimiters of blocks whose inside is a page.
const PAGE: [u8; 3] = *b"=*_";

/// Reads a page.
pub(crate) fn read(page: &str) -> Page {
    let lines: Vec<Span> = lines(page).collect();
    let mut reading = Reading {
        page,
        lines: &lines,
        language: String::new(),
        announced: None,
        found: Page::default(),
    };
    let mut at = 0;
    while at < lines.len() {
        at = reading.line(at);
    }
    reading.found.sorted()
}

struct Reading<'p> {
    page: &'p str,
    lines: &'p [Span],
    /// The language of listings that name none, `:source-language:`.
    language: String,
    /// The tag of a listing of rigs that a line above has announced.
    announced: Option<FenceTag>,
    found: Page,
}

impl<'p> Reading<'p> {
    fn text(&self, at: usize) -> &'p str {
        self.lines[at].of(self.page).trim_end()
    }

    /// Goes through a line; the number of the next one.
    fn line(&mut self, at: usize) -> usize {
        let text = self.text(at);
        if let Some(language) = text.strip_prefix(":source-language:") {
            self.language = language.trim().to_owned();
        }
        if text.is_empty() {
            // Empty lines may stand between the line of attributes and its block.
            return at + 1;
        }
        if text.starts_with('[') && text.ends_with(']') {
            if let Some(tag) = self.announces(&text[1..text.len() - 1]) {
                self.announced = Some(tag);
            }
            return at + 1;
        }
        if text.starts_with('.') && !text.starts_with("..") && !text.starts_with(". ") {
            // The title of a block.
            return at + 1;
        }
        if text.starts_with("//") && !text.starts_with("////") {
            return at + 1;
        }
        let announced = self.announced.take();
        if let Some(info) = text.strip_prefix("```").filter(|info| !info.contains('`')) {
            let end = self.closing(at, "```");
            match Info::read(info) {
                Info::Rig(tag) => self.fence(tag, at + 1, end),
                Info::Near => self.unread(self.lines[at], WhyUnread::Words),
                Info::Other => {}
            }
            return end + 1;
        }
        let mark = text.as_bytes()[0];
        let is_rule = text.len() >= 4 && text.bytes().all(|byte| byte == mark);
        if is_rule && TEXT.contains(&mark) {
            let end = self.closing(at, text);
            if let Some(tag) = announced.filter(|_| mark == b'-' || mark == b'.') {
                self.fence(tag, at + 1, end);
            }
            return end + 1;
        }
        if text == "--"
            && let Some(tag) = announced
        {
            let end = self.closing(at, text);
            self.fence(tag, at + 1, end);
            return end + 1;
        }
        if is_rule && PAGE.contains(&mark) || text == "--" {
            return at + 1;
        }
        if text.starts_with("|===") {
            self.table(at + 1, self.closing(at, text));
            return self.closing(at, text) + 1;
        }
        match announced {
            Some(tag) => {
                let end = (at..self.lines.len()).find(|at| self.text(*at).is_empty());
                let end = end.unwrap_or(self.lines.len());
                self.fence(tag, at, end);
                end
            }
            None => at + 1,
        }
    }

    /// The tag of a line of attributes that announces a listing of rigs.
    fn announces(&self, attributes: &str) -> Option<FenceTag> {
        let style = attributes.split([',', '#', '.', '%']).next().unwrap_or_default();
        if !matches!(style.trim(), "" | "source") {
            return None;
        }
        let named = |part: &str| {
            let value = part.strip_prefix("language=")?;
            Some(info::is_rig(value.trim_matches(['"', '\''])))
        };
        let second = attributes.split(',').nth(1).map(str::trim);
        let positional = second.filter(|second| !second.is_empty() && !second.contains('='));
        let by_name = attributes.split(',').map(str::trim).find_map(named);
        let is_rig = match (by_name, positional) {
            (Some(is_rig), _) => is_rig,
            (None, Some(language)) => info::is_rig(language.trim_matches('"')),
            (None, None) => style == "source" && info::is_rig(&self.language),
        };
        is_rig.then(|| info::tag_in(&attributes.replace('.', " ")))
    }

    /// The line that closes a block, or the end of the page.
    fn closing(&self, at: usize, delimiter: &str) -> usize {
        let rest = at + 1..self.lines.len();
        let closes = |at: &usize| self.text(*at) == delimiter;
        rest.into_iter().find(closes).unwrap_or(self.lines.len())
    }

    /// A table: what its cells hold is not looked at.
    fn table(&mut self, from: usize, to: usize) {
        for at in from..to {
            let text = self.text(at);
            let inside = text.strip_prefix('[').and_then(|text| text.strip_suffix(']'));
            if inside.is_some_and(|inside| self.announces(inside).is_some()) {
                self.unread(self.lines[at], WhyUnread::Place);
            }
        }
    }

    fn fence(&mut self, tag: FenceTag, from: usize, to: usize) {
        let lines = self.lines[from..to].iter().map(|line| self.shown(*line));
        let lines = lines.filter(|line| !is_include(line.of(self.page))).collect();
        self.found.fences.push(Fence { tag, lines });
    }

    /// A line of a listing without the numbers that point from it to a remark, `<1>`.
    fn shown(&self, line: Span) -> Span {
        let mut text = line.of(self.page).trim_end();
        while let Some((before, number)) = text.strip_suffix('>').and_then(|text| text.rsplit_once('<')) {
            let is_number =
                number == "." || !number.is_empty() && number.bytes().all(|byte| byte.is_ascii_digit());
            if !is_number {
                break;
            }
            text = before.trim_end();
        }
        Span::new(line.start, line.start + text.len() as u32)
    }

    fn unread(&mut self, line: Span, why: WhyUnread) {
        self.found.unread.push(Unread { line, why });
    }
}

/// A line that stands for the lines of another file.
fn is_include(line: &str) -> bool {
    line.starts_with("include::") && line.ends_with(']')
}

#[cfg(test)]
mod tests {
    use super::*;

    fn found(page: &str) -> Vec<Vec<&str>> {
        let fences = read(page).fences.into_iter();
        fences
            .map(|fence| fence.lines.iter().map(|line| line.of(page)).collect())
            .collect()
    }

    #[test]
    fn listings_of_every_form() {
        let page = "= Title\n\n[source,rig]\n.The low rig\n----\nrig a\n  tippet 1 m <1>\n----\n\n[,rig]\n----\nrig b\n----\n\n====\n[source%linenums,rig]\n....\nrig c\n....\n====\n\n```rig\nrig d\n```\n\n[source,rig]\nrig e\n  tippet 1 m\n\ntext\n";
        assert_eq!(
            found(page),
            [
                vec!["rig a", "  tippet 1 m"],
                vec!["rig b"],
                vec!["rig c"],
                vec!["rig d"],
                vec!["rig e", "  tippet 1 m"],
            ]
        );
    }

    #[test]
    fn what_is_shown_as_text_is_none() {
        for page in [
            "----\n[source,rig]\nrig a\n----\n",
            "////\n[source,rig]\n----\nrig a\n----\n////\n",
            "[source,rust]\n----\nrig a\n----\n",
            "[quote,rig]\n____\nrig a\n____\n",
        ] {
            assert_eq!(found(page), Vec::<Vec<&str>>::new(), "{page}");
        }
        assert_eq!(
            found(":source-language: rig\n\n[source]\n----\nrig a\n----\n"),
            [vec!["rig a"]]
        );
    }
}
