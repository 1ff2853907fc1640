//! A Markdown page: its fences of rigs and its comments, found in one reading.
//!
//! A fence is a list of spans of the page itself, each one line without the
//! margin that its list or quote gives it.

use crate::comments::{self, Html};
use crate::found::{Fence, Marker, Page, Unread, WhyUnread};
use crate::info::{FenceTag, Info};
use crate::lines::lines;
use crate::mask::{Dialect, masked};
use crate::restructured;
use crate::span::Span;
use pulldown_cmark::{CodeBlockKind, Event, Options, Parser, Tag, TagEnd};

/// Reads a page. Front matter is passed over.
pub(crate) fn read(page: &str, dialect: Dialect) -> Page {
    let shown = masked(page, dialect);
    let mut walk = Walk::of(page);
    for (event, range) in events(&shown) {
        walk.take(event, range);
    }
    walk.done()
}

/// What is met on a page, and where. A byte-order mark is no part of the first line.
fn events(page: &str) -> impl Iterator<Item = (Event<'_>, Span)> {
    let options = Options::ENABLE_YAML_STYLE_METADATA_BLOCKS
        | Options::ENABLE_PLUSES_DELIMITED_METADATA_BLOCKS
        | Options::ENABLE_FOOTNOTES
        | Options::ENABLE_DEFINITION_LIST;
    let marked = page.strip_prefix('\u{feff}').unwrap_or(page);
    let shift = (page.len() - marked.len()) as u32;
    let events = Parser::new_ext(marked, options).into_offset_iter();
    events.map(move |(event, range)| (event, Span::from(range).shifted(shift)))
}

/// What a block of code holds.
#[derive(Clone, Copy)]
enum Holds {
    Rigs(FenceTag),
    /// A page of reStructuredText, as a directive of MyST has it.
    Restructured,
    /// It has no words, so that only what stands in it tells.
    Unsaid,
    Other,
}

/// A page while it is gone through.
struct Walk<'p> {
    page: &'p str,
    found: Page,
    /// The block of code that is open, with the pieces of its text.
    open: Option<(Holds, Vec<Span>)>,
    html: Html,
    /// Fences of any language, front matter and commented passages: what looks like a fence in them is none.
    closed: Vec<Span>,
    /// Text that is shown: what looks like a definition of a link in it is none.
    shown: Vec<Span>,
}

impl<'p> Walk<'p> {
    fn of(page: &'p str) -> Self {
        Self {
            page,
            found: Page::default(),
            open: None,
            html: Html::default(),
            closed: Vec::new(),
            shown: Vec::new(),
        }
    }

    fn take(&mut self, event: Event<'_>, range: Span) {
        match event {
            Event::Start(Tag::CodeBlock(kind)) => self.begin_code(&kind, range),
            Event::Text(_) => {
                if let Some((_, pieces)) = &mut self.open {
                    pieces.push(range);
                }
            }
            Event::End(TagEnd::CodeBlock) => self.end_code(),
            Event::Start(Tag::HtmlBlock) => {
                self.html = Html::default();
                self.shown.push(range);
                if range.of(self.page).trim_start().starts_with(comments::OPENS) {
                    self.closed.push(range);
                }
            }
            Event::Html(_) => self.html.line(self.page, range, &mut self.found.markers),
            Event::InlineHtml(_) => self.found.markers.extend(comments::inline(self.page, range)),
            Event::Start(Tag::MetadataBlock(_)) => {
                self.closed.push(range);
                self.shown.push(range);
            }
            Event::Start(Tag::Paragraph | Tag::Heading { .. }) => self.shown.push(range),
            _ => {}
        }
    }

    fn begin_code(&mut self, kind: &CodeBlockKind<'_>, range: Span) {
        self.shown.push(range);
        let CodeBlockKind::Fenced(info) = kind else {
            self.open = None;
            return;
        };
        self.closed.push(range);
        let holds = match Info::read(info) {
            Info::Rig(tag) => Holds::Rigs(tag),
            Info::Near => {
                self.unread(first_line(self.page, range), WhyUnread::Words);
                Holds::Other
            }
            Info::Other if info.trim() == "{eval-rst}" => Holds::Restructured,
            Info::Other if info.trim().is_empty() => Holds::Unsaid,
            Info::Other => Holds::Other,
        };
        self.open = Some((holds, Vec::new()));
    }

    fn end_code(&mut self) {
        let Some((holds, pieces)) = self.open.take() else {
            return;
        };
        let lines = lines_of(self.page, &pieces);
        match holds {
            Holds::Rigs(tag) => {
                let lines = without_options(self.page, lines);
                self.found.fences.push(Fence { tag, lines });
            }
            Holds::Restructured => {
                let inner = restructured::read_lines(self.page, &lines);
                self.found.fences.extend(inner.fences);
                self.found.unread.extend(inner.unread);
            }
            Holds::Unsaid if is_rig(self.page, &lines) => {
                self.unread(lines.first().copied().unwrap_or_default(), WhyUnread::NoWords);
            }
            Holds::Unsaid | Holds::Other => {}
        }
    }

    fn unread(&mut self, line: Span, why: WhyUnread) {
        self.found.unread.push(Unread { line, why });
    }

    fn done(mut self) -> Page {
        self.link_markers();
        self.misplaced();
        self.found.sorted()
    }

    /// Markers in the form of a link that nobody follows, `[//]: # (rig: show low)`: nothing of the page's text.
    fn link_markers(&mut self) {
        let page = self.page;
        let mut found: Vec<Marker> = comments::links(page).collect();
        self.shown.sort_by_cached_key(|span| *span);
        found.retain(|marker| !lies_in(&self.shown, marker.comment.start));
        self.found.markers.extend(found);
    }

    /// Lines that would open a fence of rigs if they stood elsewhere.
    fn misplaced(&mut self) {
        let page = self.page;
        self.closed.sort_by_cached_key(|span| *span);
        for line in lines_with_fences(page) {
            if !lies_in(&self.closed, line.start) {
                self.unread(line, WhyUnread::Place);
            }
        }
    }
}

/// Whether a byte lies in one of some spans, which are sorted and do not overlap but for one that holds others.
fn lies_in(spans: &[Span], at: u32) -> bool {
    let before = spans.partition_point(|span| span.start <= at);
    spans[..before].last().is_some_and(|span| at < span.end)
}

/// Lines that begin like a fence of rigs, margins left out.
fn lines_with_fences(page: &str) -> impl Iterator<Item = Span> + '_ {
    let is_margin = |letter: char| letter.is_whitespace() || ">-*+:".contains(letter);
    lines(page).filter_map(move |line| {
        let opening = line.of(page).trim_start_matches(is_margin);
        let info = opening.trim_start_matches(['`', '~']);
        let opens = opening.starts_with("```") || opening.starts_with("~~~");
        let found = opens && !info.contains('`') && matches!(Info::read(info), Info::Rig(_));
        found.then(|| Span::new(line.end - opening.len() as u32, line.end))
    })
}

fn first_line(page: &str, range: Span) -> Span {
    let first = lines(range.of(page)).next().unwrap_or_default();
    first.shifted(range.start)
}

/// Whether lines begin as a rig does: `rig NAME`, and something indented below it.
fn is_rig(page: &str, lines: &[Span]) -> bool {
    let mut lines = lines
        .iter()
        .map(|line| line.of(page))
        .filter(|line| !line.trim().is_empty());
    let opens = lines.next().is_some_and(|line| {
        line.strip_prefix("rig ")
            .is_some_and(|name| !name.trim().is_empty())
    });
    opens && lines.next().is_some_and(|line| line.starts_with([' ', '\t']))
}

/// Without the options that a directive of MyST has at its top, `:caption: The low rig`, or between two rules.
fn without_options(page: &str, lines: Vec<Span>) -> Vec<Span> {
    let is_option = |line: &Span| {
        let rest = line.of(page).trim_start().strip_prefix(':');
        rest.and_then(|rest| rest.split_once(':'))
            .is_some_and(|(name, _)| !name.is_empty() && !name.contains(char::is_whitespace))
    };
    let is_rule = |line: &Span| line.of(page).trim() == "---";
    let top = match lines.iter().skip(1).position(is_rule) {
        Some(end) if lines.first().is_some_and(is_rule) => end + 2,
        _ => lines.iter().take_while(|line| is_option(line)).count(),
    };
    lines[top..].to_vec()
}

/// Joins the reader's pieces, which may end in mid-line, to whole lines.
fn lines_of(page: &str, pieces: &[Span]) -> Vec<Span> {
    let mut whole: Vec<Span> = Vec::new();
    let mut unfinished = false;
    for piece in pieces {
        for line in lines(piece.of(page)) {
            let line = line.shifted(piece.start);
            // The reader passes over a lone `\r`, which ends a line here.
            let goes_on = |last: &Span| !Span::new(last.end, line.start).of(page).contains('\r');
            match whole.last_mut() {
                Some(_) if unfinished && line.is_empty() => {}
                Some(last) if unfinished && goes_on(last) => *last = last.to(line),
                _ => whole.push(line),
            }
            unfinished = line.end == piece.end;
        }
    }
    whole
}
