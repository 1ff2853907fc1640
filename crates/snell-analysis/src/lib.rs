//! The facade: files in; findings and evaluated rigs out.
//!
//! It knows no editor protocol and no output format; places are spans of
//! texts, and what is shown is plain data.

mod answers;
mod disk;
pub mod document;
mod load;
mod overlay;
mod query;
mod reckoned;
mod text;
pub mod why;

pub use answers::Kept;
pub use disk::{Disk, FILE_LIMIT, LocalDisk, Unread, from_reader};
pub use document::{Document, Kind};
pub use load::{Analysis, Notebook};
pub use overlay::{Overlay, real_of};
pub use query::{Checked, OfBlock, Query, Stop, capped, check, examine, in_threads, ordered, outings, rigs};
pub use snell_rules::{Skipped, Wanted};
pub use why::{Explained, explain, explain_in};
