//! What stands around fences and is no part of CommonMark: admonitions, tabs,
//! directives, and tags between which Markdown goes on.
//!
//! Such a line is read as something of the same length that CommonMark knows,
//! so that every place stays where it is. Only the structure is read from it:
//! all text is taken from the page itself.

use crate::info::shows_code;
use crate::lines::lines;
use crate::span::Span;
use std::borrow::Cow;

/// Whose Markdown it is, where that makes a difference to fences.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Dialect {
    /// Of CommonMark and of those that add to it.
    Common,
    /// Tags hold Markdown, as in MDX, and in pandoc, which Quarto and R Markdown go through.
    InTags,
}

/// Directives whose inside is Markdown again. Source: the documentation of MyST and of sphinx-design.
const HOLDS_MARKDOWN: [&str; 33] = [
    "admonition",
    "aside",
    "attention",
    "button",
    "card",
    "caution",
    "compound",
    "container",
    "danger",
    "details",
    "div",
    "dropdown",
    "epigraph",
    "error",
    "example",
    "figure",
    "grid",
    "grid-item",
    "grid-item-card",
    "highlights",
    "hint",
    "important",
    "margin",
    "note",
    "pull-quote",
    "seealso",
    "sidebar",
    "tab-item",
    "tab-set",
    "tip",
    "todo",
    "topic",
    "warning",
];
/// Lines that open a block whose inside is indented by four. Source: the documentation of Python-Markdown
/// (`admonition`) and of PyMdown Extensions (`details`, `tabbed`).
const OPENS_INDENTED: [&str; 4] = ["!!!", "???", "???+", "==="];
/// Elements whose inside is text even where tags hold Markdown.
const HOLDS_TEXT: [&str; 4] = ["pre", "script", "style", "textarea"];

/// The page as CommonMark would have it.
pub(crate) fn masked(page: &str, dialect: Dialect) -> Cow<'_, str> {
    let mut mask = Mask {
        dialect,
        open: Vec::new(),
        new: page.as_bytes().to_vec(),
    };
    for line in lines(page) {
        mask.line(page, line);
    }
    // Only whole lines of letters were replaced, by ASCII.
    String::from_utf8(mask.new).map_or(Cow::Borrowed(page), Cow::Owned)
}

/// A fence that is open.
struct Open {
    mark: u8,
    length: usize,
    kind: Kind,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Kind {
    /// Code of any kind: nothing in it is looked at.
    Code,
    /// A directive that shows code between colons.
    Colons,
    /// A directive that holds Markdown.
    Markdown,
}

struct Mask {
    dialect: Dialect,
    open: Vec<Open>,
    new: Vec<u8>,
}

impl Mask {
    fn line(&mut self, page: &str, line: Span) {
        let written = line.of(page);
        let margin = margin_of(written);
        let text = written[margin..].trim_end();
        let span = Span::new(
            line.start + margin as u32,
            line.start + (margin + text.len()) as u32,
        );
        let mark = text.bytes().next().filter(|mark| b"`~:".contains(mark));
        let length = mark.map_or(0, |mark| text.bytes().take_while(|byte| *byte == mark).count());
        if let Some(open) = self.open.last() {
            let closes = mark == Some(open.mark) && length >= open.length && length == text.len();
            match (open.kind, closes) {
                (Kind::Code, true) => drop(self.open.pop()),
                (Kind::Markdown, true) => {
                    self.blank(span);
                    self.open.pop();
                    return;
                }
                (Kind::Colons, true) => {
                    self.fill(span, b'`');
                    self.open.pop();
                }
                (Kind::Code | Kind::Colons, false) => {}
                (Kind::Markdown, false) => self.opening(text, span, mark, length),
            }
            return;
        }
        self.opening(text, span, mark, length);
    }

    /// A line outside of code.
    fn opening(&mut self, text: &str, span: Span, mark: Option<u8>, length: usize) {
        let fence = mark.filter(|_| length >= 3);
        let info = text[length..].trim();
        match fence {
            Some(b':') => {
                let directive = directive(info);
                if directive.is_some_and(shows_code) {
                    self.push(b':', length, Kind::Colons);
                    self.fill(Span::new(span.start, span.start + length as u32), b'`');
                } else if directive.is_none_or(holds_markdown) {
                    // What stands between colons is Markdown; the line itself is none of its text.
                    self.blank(span);
                }
            }
            Some(b'`') if info.contains('`') => {}
            Some(mark) => {
                let holds = directive(info).is_some_and(holds_markdown);
                self.push(mark, length, if holds { Kind::Markdown } else { Kind::Code });
                if holds {
                    self.blank(span);
                }
            }
            None => self.plain(text, span),
        }
    }

    fn plain(&mut self, text: &str, span: Span) {
        let mut words = text.split_whitespace();
        let first = words.next().unwrap_or_default();
        if (OPENS_INDENTED.contains(&first) || is_odd_mark(first)) && words.next().is_some() {
            // An item of a list: what is indented below it belongs to it.
            self.fill(Span::new(span.start, span.start + first.len() as u32), b'x');
            self.fill(Span::new(span.start, span.start + 1), b'-');
            self.fill(Span::new(span.start + 1, span.start + 2), b' ');
        } else if self.dialect == Dialect::InTags && is_tag(text) {
            self.blank(span);
        }
    }

    fn push(&mut self, mark: u8, length: usize, kind: Kind) {
        self.open.push(Open { mark, length, kind });
    }

    fn blank(&mut self, span: Span) {
        self.fill(span, b' ');
    }

    fn fill(&mut self, span: Span, byte: u8) {
        if let Some(bytes) = self.new.get_mut(std::ops::Range::from(span)) {
            bytes.fill(byte);
        }
    }
}

/// Whether a word is the mark of an item that only pandoc has: `(@)`, `(@low)`, `#.`, `a.`, `(2)`.
fn is_odd_mark(word: &str) -> bool {
    let inside = word.strip_prefix('(').and_then(|word| word.strip_suffix(')'));
    let ended = word.strip_suffix(['.', ')']);
    let is_short = |inside: &str| inside.len() == 1 && inside.bytes().all(|byte| byte.is_ascii_lowercase());
    let is_number = |inside: &str| !inside.is_empty() && inside.bytes().all(|byte| byte.is_ascii_digit());
    inside.is_some_and(|inside| inside.starts_with('@') || is_short(inside) || is_number(inside))
        || ended.is_some_and(|inside| inside == "#" || is_short(inside))
}

/// The name of a directive, `{note}` or `{admonition} A title`.
fn directive(info: &str) -> Option<&str> {
    let (name, _) = info.strip_prefix('{')?.split_once('}')?;
    Some(name.trim())
}

fn holds_markdown(directive: &str) -> bool {
    HOLDS_MARKDOWN
        .iter()
        .any(|name| directive.eq_ignore_ascii_case(name))
}

/// Whether a line is one tag, or several, and nothing else.
fn is_tag(text: &str) -> bool {
    let name = text.trim_start_matches(['<', '/']);
    let opens_text = HOLDS_TEXT.iter().any(|element| {
        let head = name.get(..element.len());
        head.is_some_and(|head| head.eq_ignore_ascii_case(element))
    });
    text.starts_with('<') && text.ends_with('>') && !text.starts_with("<!") && !opens_text
}

/// How much of a line is the margin of its lists, quotes, definitions and footnotes.
fn margin_of(line: &str) -> usize {
    let mut rest = line;
    loop {
        let next = rest.trim_start_matches([' ', '\t', '>', '\u{feff}']);
        let next = item(next).unwrap_or(next);
        if next.len() == rest.len() {
            return line.len() - rest.len();
        }
        rest = next;
    }
}

/// What stands behind the mark of an item: `- `, `1. `, `: `, `[^1]: `.
fn item(text: &str) -> Option<&str> {
    let digits = text.trim_start_matches(|letter: char| letter.is_ascii_digit());
    let behind = match text.len() - digits.len() {
        0 => text.strip_prefix(['-', '*', '+', ':']).or_else(|| {
            text.strip_prefix("[^")?
                .split_once("]:")
                .map(|(_, behind)| behind)
        }),
        _ => digits.strip_prefix(['.', ')']),
    };
    behind.filter(|behind| behind.starts_with([' ', '\t']))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_the_structure_changes_and_every_place_stays() {
        for (page, expected) in [
            ("!!! note \"é\"\n    text\n", "- x note \"é\"\n    text\n"),
            (":::{note}\ntext\n:::\n", "         \ntext\n   \n"),
            (
                ":::{code-block} rig\nrig a\n:::\n",
                "```{code-block} rig\nrig a\n```\n",
            ),
            (
                "````{note}\n```rig\n:::\n```\n````\n",
                "          \n```rig\n:::\n```\n    \n",
            ),
            ("- ```{x}\n  :::{note}\n  ```\n", "- ```{x}\n  :::{note}\n  ```\n"),
        ] {
            assert_eq!(masked(page, Dialect::Common), expected);
            assert_eq!(expected.len(), page.len());
        }
        assert_eq!(
            masked("<div>\n<!-- a -->\n<pre>\n", Dialect::InTags),
            "     \n<!-- a -->\n<pre>\n"
        );
        assert_eq!(masked("<div>\n", Dialect::Common), "<div>\n");
    }
}
