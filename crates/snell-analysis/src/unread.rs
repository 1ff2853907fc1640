//! What looks like a fence of rigs and is not read, told where it stands.

use crate::document::Document;
use snell_finding::{Code, Finding, Level};
use snell_text::{Place, Unread, WhyUnread};

/// What is told of a page's fences that are not read.
pub(crate) fn findings(document: &Document) -> impl Iterator<Item = Finding> + '_ {
    document
        .page()
        .unread
        .iter()
        .map(|unread| finding(document, unread))
}

fn finding(document: &Document, unread: &Unread) -> Finding {
    let (level, message, help) = match unread.why {
        WhyUnread::Words => (
            Level::Caution,
            "this fence names rigs, but not in a way that it is read by",
            "write `rig` behind the ticks, or `{.rig}`",
        ),
        WhyUnread::NoWords => (
            Level::Advice,
            "a rig stands in a fence that does not say so, and is not read",
            "write `rig` behind the ticks, or `text` where nothing should read it",
        ),
        WhyUnread::Place => (
            Level::Caution,
            "a fence of rigs cannot stand here, so it is not read",
            "put an empty line above it, and no more than three spaces before it",
        ),
    };
    Finding::new(
        Code::FenceUnread,
        level,
        Place::new(document.id, unread.line),
        message,
    )
    .help(help)
}
