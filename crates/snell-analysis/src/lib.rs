//! The facade: files in; findings and evaluated rigs out.
//!
//! It knows no editor protocol and no output format; places are spans of
//! texts, and what is shown is plain data.

mod answers;
mod check;
mod disk;
pub mod document;
mod engine;
mod notebook;
mod of_block;
mod order;
mod overlay;
mod query;
mod reading;
mod real;
mod reckoned;
mod shown;
mod text;
mod threads;
mod unread;
pub mod why;

pub use answers::Kept;
pub use check::{check, examine, outings, rigs};
pub use disk::{Disk, FILE_LIMIT, LocalDisk, Unread, from_reader, without_turns};
pub use document::{Document, Kind};
pub use engine::Analysis;
pub use notebook::Notebook;
pub use order::{capped, ordered};
pub use overlay::{Overlay, real_of};
pub use query::{Checked, Query, Stop};
pub use real::real;
pub use snell_rules::{Skipped, Wanted};
pub use threads::in_threads;
pub use why::{Explained, explain, explain_in};
