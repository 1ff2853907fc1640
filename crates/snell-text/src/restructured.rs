//! The blocks of code of a reStructuredText page that hold rigs:
//! `.. code-block:: rig` and its like, wherever they are indented.
//!
//! Blocks are told by their indent. What stands in code of another language, in
//! a literal block or in a comment is text of its own.

use crate::found::{Fence, Page, Unread, WhyUnread};
use crate::info::{self, FenceTag, Info, shows_code};
use crate::lines::lines;
use crate::span::Span;

/// Directives whose inside is no page. Source: the documentation of docutils and Sphinx.
const HOLDS_TEXT: [&str; 10] = [
    "csv-table",
    "doctest",
    "graphviz",
    "highlight",
    "math",
    "parsed-literal",
    "productionlist",
    "prompt",
    "raw",
    "testcode",
];

/// Reads a page.
pub(crate) fn read(page: &str) -> Page {
    read_lines(page, &lines(page).collect::<Vec<_>>())
}

/// Reads some lines of a page as if they were all of it.
pub(crate) fn read_lines(page: &str, lines: &[Span]) -> Page {
    let mut reading = Reading {
        page,
        lines,
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
    found: Page,
}

impl<'p> Reading<'p> {
    fn text(&self, at: usize) -> &'p str {
        self.lines[at].of(self.page).trim_end()
    }

    fn indent(&self, at: usize) -> usize {
        let text = self.text(at);
        text.len() - text.trim_start().len()
    }

    /// Goes through a line; the number of the next one.
    fn line(&mut self, at: usize) -> usize {
        let (own, column) = item(self.text(at));
        let line = self.lines[at];
        let place = Span::new(line.end - (line.of(self.page).len() - column) as u32, line.end);
        let Some(explicit) = own
            .strip_prefix("..")
            .filter(|rest| rest.is_empty() || rest.starts_with(' '))
        else {
            let fence = own.strip_prefix("```").map(Info::read);
            if let Some(Info::Rig(_)) = fence {
                self.unread(place, WhyUnread::Place);
            }
            return if own.ends_with("::") {
                self.body(at, column)
            } else {
                at + 1
            };
        };
        let explicit = explicit.trim_start();
        match explicit.split_once("::") {
            Some((name, language)) if shows_code(name.trim()) => {
                let language = language.trim();
                let body = self.body(at, column);
                if info::is_rig(language) {
                    self.fence(at + 1, body);
                } else if language.split_whitespace().any(info::is_rig) {
                    self.unread(place, WhyUnread::Words);
                }
                body
            }
            Some((name, _)) if HOLDS_TEXT.contains(&name.trim()) => self.body(at, column),
            Some((name, _)) if !name.contains(char::is_whitespace) || name.starts_with('|') => at + 1,
            // Footnotes, targets and citations hold a page; all else is a comment.
            _ if explicit.starts_with(['[', '_', '|']) => at + 1,
            _ => self.body(at, column),
        }
    }

    /// The number of the first line behind those that are indented deeper than a column.
    fn body(&self, at: usize, column: usize) -> usize {
        let mut end = at + 1;
        for next in at + 1..self.lines.len() {
            if self.text(next).is_empty() {
                continue;
            }
            if self.indent(next) <= column {
                break;
            }
            end = next + 1;
        }
        end
    }

    /// The block of code in some lines below its directive: options first, then the code behind an empty line.
    fn fence(&mut self, from: usize, to: usize) {
        let mut from = from;
        let mut tag = FenceTag::Shared;
        while from < to && self.text(from).trim_start().starts_with(':') {
            if let Some(classes) = self.text(from).trim_start().strip_prefix(":class:") {
                tag = info::tag_in(classes);
            }
            from += 1;
        }
        while from < to && self.text(from).is_empty() {
            from += 1;
        }
        let filled = (from..to).filter(|at| !self.text(*at).is_empty());
        let margin = filled.map(|at| self.indent(at)).min().unwrap_or_default();
        let cut = |at: usize| {
            let line = self.lines[at];
            Span::new(line.start + (margin as u32).min(line.len()), line.end)
        };
        let lines = (from..to).map(cut).collect();
        self.found.fences.push(Fence { tag, lines });
    }

    fn unread(&mut self, line: Span, why: WhyUnread) {
        self.found.unread.push(Unread { line, why });
    }
}

/// A line without its indent and the marks of its list items, and the column at which that stands.
fn item(text: &str) -> (&str, usize) {
    let mut rest = text.trim_start();
    loop {
        let digits = rest.trim_start_matches(|letter: char| letter.is_ascii_digit() || letter == '#');
        let behind = match rest.len() - digits.len() {
            0 => rest.strip_prefix(['-', '*', '+']),
            _ => digits.strip_prefix(['.', ')']),
        };
        match behind.filter(|behind| behind.starts_with(' ')) {
            Some(behind) => rest = behind.trim_start(),
            None => return (rest, text.len() - rest.len()),
        }
    }
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
    fn blocks_in_notes_and_lists() {
        let page = "A page.\n\n.. code-block:: rig\n   :name: low\n\n   rig a\n\n     tippet 1 m\n\n.. note::\n\n   .. code:: rig\n\n      rig b\n\n- .. sourcecode:: rig\n\n     rig c\n\nMore.\n";
        assert_eq!(
            found(page),
            [vec!["rig a", "", "  tippet 1 m"], vec!["rig b"], vec!["rig c"]]
        );
    }

    #[test]
    fn what_is_shown_as_text_is_none() {
        for page in [
            "Write so::\n\n  .. code-block:: rig\n\n     rig a\n",
            ".. code-block:: rst\n\n   .. code-block:: rig\n\n      rig a\n",
            ".. a comment\n   .. code-block:: rig\n\n      rig a\n",
            ".. code-block:: rigs\n\n   rig a\n",
        ] {
            assert_eq!(found(page), Vec::<Vec<&str>>::new(), "{page}");
        }
    }
}
