//! The facade: files in; findings and evaluated rigs out.
//!
//! It knows no editor protocol and no output format; places are spans of
//! texts, and what is shown is plain data.

pub mod check;
mod disk;
pub mod document;
mod load;
mod reckoned;
pub mod why;

pub use check::{
    Checked, OfRig, WORTH_A_THREAD, capped, check, examine, of_outing, of_rig, ordered, outings, rigs,
};
pub use disk::{Disk, FILE_LIMIT, LocalDisk, Unread, from_reader};
pub use document::{Document, Kind};
pub use load::Notebook;
pub use snell_rules::{Skipped, Wanted};
pub use why::{Explained, explain, explain_in};
