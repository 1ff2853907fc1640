//! Why a line could not be read, in words that an angler understands.

use text::{Place, Span, TextId};

/// Every fault of reading with what it means.
pub const FAULTS: &[(&str, &str)] = &[("line-unreadable", "The line cannot be read.")];

/// A fault of one line, counted from the line's start.
#[derive(Debug)]
pub(crate) struct Slip(pub(crate) report::Finding);

impl Slip {
    pub(crate) fn over_zero(span: Span) -> Self {
        Self(report::Finding::fault("number-over-zero", Place::new(TextId(0), span), "x"))
    }
    pub(crate) fn too_large(span: Span) -> Self {
        Self(report::Finding::fault("number-too-large", Place::new(TextId(0), span), "x"))
    }
    pub(crate) fn malformed_number(_written: &str, span: Span) -> Self {
        Self(report::Finding::fault("number-malformed", Place::new(TextId(0), span), "x"))
    }
    pub(crate) fn unreadable(span: Span) -> Self {
        Self(report::Finding::fault("line-unreadable", Place::new(TextId(0), span), "x"))
    }
}
