//! A fault of one line: what is wrong, where, and the ways out.
//!
//! Places are counted from the line's start until the fault is put in its text.

use crate::limits::{LINE_LIMIT, NESTING_LIMIT};
use snell_finding::{Code, Edit, Finding, Fix};
use snell_text::{Place, Span, TextId};

/// A fault of one line.
#[derive(Debug)]
pub(crate) struct Slip(Box<Finding>);

impl Slip {
    pub(crate) fn new(code: Code, span: Span, message: impl Into<String>) -> Self {
        Self(Box::new(Finding::fault(code, here(span), message)))
    }

    pub(crate) fn help(self, help: impl Into<String>) -> Self {
        Self(Box::new(self.0.help(help)))
    }

    /// A way out that can only be what was meant.
    pub(super) fn sure(self, title: impl Into<String>, span: Span, new: impl Into<String>) -> Self {
        self.fix(Fix::sure(title, here(span), new))
    }

    /// The same with several edits.
    pub(super) fn sure_edits(
        self,
        title: impl Into<String>,
        edits: impl Iterator<Item = (Span, String)>,
    ) -> Self {
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
    pub(crate) fn offer(self, title: impl Into<String>, span: Span, new: impl Into<String>) -> Self {
        self.fix(Fix::offered(title, here(span), new))
    }

    pub(super) fn fix(self, fix: Fix) -> Self {
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

    pub(super) fn too_large(span: Span) -> Self {
        Self::new(
            Code::NumberTooLarge,
            span,
            "This number is too large for anything on a rig.",
        )
        .help("check the digits, or choose a larger unit")
    }

    pub(super) fn over_zero(span: Span) -> Self {
        Self::new(Code::NumberOverZero, span, "A fraction over 0 is no number.")
            .help("a hook size is written #2/0; for a fraction put a number other than 0 below the line")
    }

    /// The mark of a merge.
    pub(crate) fn conflict(line: &str, sign: char) -> Self {
        let span = Span::from(0..7.min(line.len()));
        Self::new(
            Code::ConflictMarker,
            span,
            format!(
                "A merge left two versions here, between marks such as `{}`.",
                sign.to_string().repeat(7)
            ),
        )
        .help("keep one version, and take out the other with the marks")
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
        let most = LINE_LIMIT / 1024;
        Self::new(
            Code::LineTooLong,
            span,
            format!("This line is longer than {most} KiB and was not read."),
        )
        .help("break it into several lines")
    }

    /// Parentheses too deep in each other; `span` is the first one too many.
    pub(crate) fn too_deep(span: Span) -> Self {
        let most = NESTING_LIMIT;
        Self::new(
            Code::NestedTooDeep,
            span,
            format!("More than {most} parentheses stand in each other here."),
        )
        .help("give a part of it a name with a let line")
    }
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
