//! Why a line could not be read, in words that an angler understands.
//!
//! A broken line gives one fault. Its place and name come from a look at the
//! line's own words, not from what the parser had hoped for. Places are
//! counted from the line's start until the driver puts the fault in its text.

mod find;
mod punctuation;
mod signs;
mod text;
mod words;

pub(crate) use find::{find, head};

use crate::number::Misread;
use crate::parse::Entry;
use crate::token::Token;
use snell_finding::{Code, Edit, Finding, Fix};
use snell_text::{Place, Span, TextId};

/// A fault of one line.
#[derive(Debug)]
pub(crate) struct Slip(Box<Finding>);

impl Slip {
    fn new(name: &'static str, span: Span, message: impl Into<String>) -> Self {
        let code = Code::named(name);
        debug_assert!(code.is_some(), "{name} is not in the registry of codes");
        let code = code.unwrap_or(Code::LineUnreadable);
        Self(Box::new(Finding::fault(code, here(span), message)))
    }

    fn help(self, help: impl Into<String>) -> Self {
        Self(Box::new(self.0.help(help)))
    }

    /// A way out that can only be what was meant.
    fn sure(self, title: impl Into<String>, span: Span, new: impl Into<String>) -> Self {
        self.fix(Fix::sure(title, here(span), new))
    }

    /// The same with several edits.
    fn sure_edits(self, title: impl Into<String>, edits: impl Iterator<Item = (Span, String)>) -> Self {
        let edits = edits.map(|(span, new)| Edit {
            place: here(span),
            new,
        });
        self.fix(Fix {
            title: title.into(),
            sure: true,
            edits: edits.collect(),
        })
    }

    /// A way out that may be what was meant.
    fn offer(self, title: impl Into<String>, span: Span, new: impl Into<String>) -> Self {
        self.fix(Fix::offered(title, here(span), new))
    }

    fn fix(self, fix: Fix) -> Self {
        Self(Box::new(self.0.fix(fix)))
    }

    /// The finding for `line`, its places fit to be shown: none is empty, none
    /// lies past the line's end.
    pub(crate) fn into_finding(mut self, line: &str) -> Finding {
        for label in &mut self.0.labels {
            label.place.span = visible(label.place.span, line);
        }
        *self.0
    }

    /// A quantity without a value.
    pub(crate) fn number(bad: &Misread, line: &str, tokens: &[Token], entry: Entry) -> Self {
        match *bad {
            Misread::Malformed(span) => find(line, tokens, span.start, entry),
            Misread::OverZero(span) => Self::over_zero(span),
            Misread::TooLarge(span) => Self::too_large(span),
            Misread::ThirdEnd(span) => Self::new("spread-unclear", span, "This spread has a third end.")
                .help("a spread has a lower and an upper end: 2 ft to 3 ft"),
        }
    }

    fn too_large(span: Span) -> Self {
        Self::new(
            "number-too-large",
            span,
            "This number is too large for anything on a rig.",
        )
        .help("check the digits, or choose a larger unit")
    }

    fn over_zero(span: Span) -> Self {
        Self::new("number-over-zero", span, "A fraction over 0 is no number.")
            .help("a hook size is written #2/0; for a fraction put a number other than 0 below the line")
    }

    /// A line longer than any that is read.
    pub(crate) fn too_long(line: &str) -> Self {
        let first = line
            .trim_start()
            .split(char::is_whitespace)
            .next()
            .unwrap_or(line);
        let start = line.find(first).unwrap_or(0);
        let end = first.char_indices().nth(40).map_or(first.len(), |(at, _)| at);
        let span = Span::from(start..start + end);
        let most = crate::LINE_LIMIT / 1024;
        Self::new(
            "line-too-long",
            span,
            format!("This line is longer than {most} KiB and was not read."),
        )
        .help("break it into several lines")
    }

    /// Parentheses too deep in each other; `span` is the first one too many.
    pub(crate) fn too_deep(span: Span) -> Self {
        let most = crate::NESTING_LIMIT;
        Self::new(
            "nested-too-deep",
            span,
            format!("More than {most} parentheses stand in each other here."),
        )
        .help("give a part of it a name with a let line")
    }
}

/// A finding of one line as it stands in `text`, the line beginning at `offset`.
pub(crate) fn placed(finding: &Finding, text: TextId, offset: u32) -> Finding {
    let mut finding = finding.clone();
    let put = |place: &mut Place| *place = Place::new(text, place.span.shifted(offset));
    finding.labels.iter_mut().for_each(|label| put(&mut label.place));
    let edits = finding.fixes.iter_mut().flat_map(|fix| &mut fix.edits);
    edits.for_each(|edit: &mut Edit| put(&mut edit.place));
    finding
}

/// How many more faults there are than are shown.
pub(crate) fn too_many(place: Place, more: usize) -> Finding {
    let lines = if more == 1 { "line" } else { "lines" };
    Finding::fault(
        Code::FaultsLeftOut,
        place,
        format!("{more} more {lines} of this text could not be read; the faults above are the first."),
    )
    .help("mend the first ones and check again")
}

/// More of something than is read.
pub(crate) fn overfull(place: Place, limit: usize, what: &str) -> Finding {
    Finding::fault(
        Code::TextOverfull,
        place,
        format!("This text has more than {limit} {what}; from here on it is not read."),
    )
    .help("split it into several files")
}

fn here(span: Span) -> Place {
    Place::new(TextId::default(), span)
}

/// `span`, or the last character before it where it holds none.
fn visible(span: Span, line: &str) -> Span {
    let end = (span.end as usize).min(line.len());
    let start = (span.start as usize).min(end);
    if start < end {
        return Span::from(start..end);
    }
    let last = line[..end].char_indices().next_back();
    let first = line[end..].chars().next().map_or(0, char::len_utf8);
    match last {
        Some((at, _)) => Span::from(at..end),
        None => Span::from(end..end + first),
    }
}
