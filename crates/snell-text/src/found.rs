//! What is found on a page: its fences of rigs, its markers, and what looks like
//! a fence of rigs and is none.

use crate::info::FenceTag;
use crate::span::Span;

/// One fence of rigs. Nothing is cut out and nothing is shifted: every place in it is a place in the page.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Fence {
    /// What its words say.
    pub tag: FenceTag,
    /// Its lines in order, margins and line ends left out.
    pub lines: Vec<Span>,
}

/// A comment that is meant for this tool.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Marker {
    /// The whole comment; where it does not end on its line, up to the end of the line.
    pub comment: Span,
    /// What stands behind `rig:`, spaces around it left out.
    pub words: Span,
    /// How it stands on its line.
    pub stands: Stands,
}

/// How a comment stands on its line.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Stands {
    /// Nothing else is on the line, but for the margin that its list or quote gives it.
    Alone,
    /// The line begins with it and goes on, so that Markdown takes all of the line for HTML.
    AtHead,
    /// In running text, or behind other HTML.
    Within,
    /// It does not end on its line.
    Open,
}

/// What looks like a fence of rigs and is not read.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Unread {
    /// The line that would open it, margin left out.
    pub line: Span,
    /// Why it is not read.
    pub why: WhyUnread,
}

/// Why a fence is not read.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum WhyUnread {
    /// Its words name rigs in a way that no renderer knows.
    Words,
    /// It has no words, and a rig stands in it.
    NoWords,
    /// It stands where most renderers see no fence: within HTML, or too far to the right.
    Place,
}

/// What is found on a page, each in the order of the page.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Page {
    /// Its fences of rigs.
    pub fences: Vec<Fence>,
    /// Its comments that are meant for this tool.
    pub markers: Vec<Marker>,
    /// What looks like a fence of rigs and is not read.
    pub unread: Vec<Unread>,
}

impl Page {
    pub(crate) fn sorted(mut self) -> Self {
        self.fences
            .sort_by_cached_key(|fence| fence.lines.first().map_or(0, |line| line.start));
        self.markers.sort_by_cached_key(|marker| marker.comment.start);
        self.unread.sort_by_cached_key(|unread| unread.line.start);
        self
    }
}
