//! The linter: rules and rulebooks written in the language, applied to rigs.
//!
//! A rule is a page of `book/`, or a block of a user's; this crate knows how a
//! rule is read and judged, and no rule by name.

mod allow;
mod apply;
mod ask;
mod book;
mod chance;
pub mod fit;
mod gathering;
mod judge;
mod length;
mod mend;
mod rule;
mod rulebook;
mod rules;
mod say;
mod scope;
mod verdict;

pub use apply::{Found, Outcome, Wanted, apply, mends};
pub use book::{Page, page, pages, project};
pub use chance::Chance;
pub use gathering::Applied;
pub use judge::Skipped;
pub use rule::{Guard, Mend, Rule};
pub use rulebook::Books;
pub use verdict::{Against, Deciding, Verdict};
