//! Articles brought up to date: what belongs between the markers of a page, put
//! there with the page's own line ends and margins.
//!
//! Nothing outside of the markers is touched. Which rigs are meant is for the
//! notebook.

pub mod book;
pub mod document;

use crate::page::{self, markdown};
use snell_analysis::{Notebook, Wanted};
use snell_article::{Article, Content, Filling, Lay, Picture};
use snell_finding::{Finding, Level};
use snell_text::Span;

/// The faults of a notebook: those of markers, and those of rigs that they may show.
pub fn faults(notebook: &Notebook) -> Vec<Finding> {
    let mut findings = snell_article::examine(notebook, Wanted::Found).findings;
    findings.retain(|finding| finding.level == Level::Fault);
    findings
}

/// A place of a page with the text that it should have.
pub struct Refilled<'a> {
    /// The place.
    pub place: &'a Filling,
    /// The bytes that are replaced.
    pub span: Span,
    /// What takes their place.
    pub new: String,
}

/// Whether the markers are kept, as in a file that is filled again, or taken out of running text, as in a page
/// that is only built: a line that begins with a comment is no paragraph to Markdown.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Markers {
    /// Kept.
    Stay,
    /// Taken out of running text.
    Go,
}

/// Every place of a page as it should be. `link` says where a picture is found.
pub fn refilled<'a>(
    page: &str,
    article: &'a Article,
    markers: Markers,
    link: impl Fn(&Picture) -> String,
) -> Vec<Refilled<'a>> {
    let one = |place: &'a Filling| {
        let pieces = page::of(&place.content, &link);
        let written = markdown::write(&pieces);
        let (span, new) = match (&place.lay, markers) {
            (Lay::Within, Markers::Stay) => (place.inside, written.trim_end().to_owned()),
            (Lay::Within, Markers::Go) => (place.around, written.trim_end().to_owned()),
            (Lay::Lines { margin }, _) => (place.inside, lines(page, place.inside, margin, &written)),
        };
        Refilled { place, span, new }
    };
    article.places.iter().map(one).collect()
}

/// A text on lines of its own, an empty one above and below, up to the margin of the marker behind it.
fn lines(page: &str, inside: Span, margin: &str, written: &str) -> String {
    let end = line_end(page, inside);
    let old = inside.of(page);
    let last = old.rfind('\n').map_or(margin, |at| &old[at + 1..]);
    let mut new = String::new();
    for line in std::iter::once("").chain(written.lines()).chain([""]) {
        new.push_str(end);
        new.push_str(format!("{margin}{line}").trim_end());
    }
    new.push_str(end);
    new.push_str(last);
    new
}

/// The line end that a page has at a place.
fn line_end(page: &str, at: Span) -> &'static str {
    let next = |from: usize| page[from..].find('\n').map(|end| from + end);
    let end = next(at.start as usize).or_else(|| next(0));
    match end {
        Some(end) if page[..end].ends_with('\r') => "\r\n",
        _ => "\n",
    }
}

/// What stands at a place and what should, in a few words.
pub fn told(refilled: &Refilled<'_>, page: &str) -> String {
    // The marks of a quote are no content.
    let plain = |text: &str| {
        let text = text.trim_matches(|letter: char| letter.is_whitespace() || letter == '>');
        text.to_owned()
    };
    let (old, new) = (plain(refilled.span.of(page)), plain(&refilled.new));
    let asked = &refilled.place.asked;
    if old.is_empty() {
        return format!("{asked}: nothing stands here yet");
    }
    match &refilled.place.content {
        Content::Figure(_) => format!("{asked}: `{old}` stands here, and it is `{new}`"),
        Content::Rig(..) | Content::Picture(_) | Content::Cuts(_) => {
            format!("{asked}: not as the rig is now")
        }
    }
}
