//! Articles brought up to date: what belongs between the markers of a page, put
//! there with the page's own line ends and margins.
//!
//! Nothing outside of the markers is touched. Which rigs are meant is for the
//! notebook.

pub mod book;
pub mod document;
pub mod given;
pub mod picture;

use crate::page::{self, markdown};
use snell_analysis::{Notebook, Wanted};
use snell_article::{Article, Content, Filling, Lay, Picture};
use snell_finding::{Finding, Level};
use snell_text::{Span, TextId};

/// An article of a notebook with the text that each of its places should have.
pub struct Refilled<'a> {
    /// The places that may be filled.
    pub places: Vec<Place<'a>>,
    /// What is told of the places where somebody else's text stands, which is kept.
    pub kept: Vec<Finding>,
}

/// A place of a page with the text that it should have.
pub struct Place<'a> {
    /// The place.
    pub filling: &'a Filling,
    /// The bytes that are replaced.
    pub span: Span,
    /// What takes their place.
    pub new: String,
    /// Whether what stands there says something else.
    pub is_stale: bool,
}

/// Whether the markers are kept, as in a file that is filled again, or taken out of running text, as in a page
/// that is only built: a line that begins with a comment is no paragraph to Markdown.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Markers {
    /// Kept, with the checksum of what is put in.
    Stay,
    /// Taken out of running text.
    Go,
}

/// The faults that stand in the way of filling an article: those of rigs that it may show, and those of its markers.
pub fn faults(notebook: &Notebook, article: &Article) -> Vec<Finding> {
    let mut findings = snell_analysis::examine(notebook, Wanted::Found).findings;
    findings.extend_from_slice(&article.findings);
    findings.retain(|finding| finding.level == Level::Fault);
    snell_analysis::capped(snell_analysis::ordered(findings))
}

/// Every place of a page as it should be. `link` says where a picture is found.
pub fn refilled<'a>(
    page: &str,
    id: TextId,
    article: &'a Article,
    markers: Markers,
    link: impl Fn(&Picture) -> String,
) -> Refilled<'a> {
    let mut refilled = Refilled {
        places: Vec::new(),
        kept: Vec::new(),
    };
    for filling in &article.places {
        let slot = &filling.slot;
        let written = markdown::write(&page::of(&filling.content, &link));
        let is_stale = !snell_article::alike(&written, slot.inside.of(page));
        if is_stale && !filling.may_be_replaced(page) {
            refilled.kept.push(slot.kept(page, id, &in_a_line(&written)));
            continue;
        }
        let (span, new) = match (&slot.lay, markers) {
            (Lay::Within, Markers::Go) => (slot.around, written.trim_end().to_owned()),
            (Lay::Within, Markers::Stay) => summed(page, filling, written.trim_end().to_owned()),
            (Lay::Lines { margin }, _) => summed(page, filling, lines(page, slot.inside, margin, &written)),
        };
        refilled.places.push(Place {
            filling,
            span,
            new,
            is_stale,
        });
    }
    refilled
}

/// A text that is put in, with the checksum behind it in the end marker.
fn summed(page: &str, filling: &Filling, new: String) -> (Span, String) {
    let slot = &filling.slot;
    let checksum = snell_article::checksum(&new);
    let between = Span::new(slot.inside.end, slot.end.start).of(page);
    let span = Span::new(slot.inside.start, slot.end.end);
    (span, format!("{new}{between}end {checksum}"))
}

/// The beginning of a text, for people.
fn in_a_line(written: &str) -> String {
    const MOST: usize = 72;
    let words: Vec<&str> = written.split_whitespace().collect();
    let line = words.join(" ");
    match line.char_indices().nth(MOST) {
        Some((at, _)) => format!("{} …", line[..at].trim_end()),
        None => line,
    }
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
pub fn told(place: &Place<'_>, page: &str) -> String {
    // The marks of a quote are no content.
    let is_margin = |letter: char| letter.is_whitespace() || letter == '>';
    let old = place.filling.slot.inside.of(page).trim_matches(is_margin);
    let asked = &place.filling.asked;
    if old.is_empty() {
        return format!("{asked}: nothing stands here yet");
    }
    match &place.filling.content {
        Content::Figure(new) => format!("{asked}: `{old}` stands here, and it is `{new}`"),
        Content::Rig(..)
        | Content::Picture(_)
        | Content::Cuts(_)
        | Content::Card(_)
        | Content::Changes(_) => {
            format!("{asked}: not as the rig is now")
        }
    }
}
