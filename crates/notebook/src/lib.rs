//! The facade: files in; findings, evaluated rigs and laid-out texts out.
//!
//! It knows no editor protocol and no output format; places are spans of
//! texts, and what is shown is plain data.

pub mod article;
mod check;
pub mod compare;
mod disk;
mod document;
pub mod editor;
mod faults;
pub mod fit;
mod load;
mod reckoned;
pub mod season;
pub mod view;
mod why;

pub use check::{Checked, check, examine};
pub use disk::{Disk, FILE_LIMIT, LocalDisk, Unread, from_reader};
pub use document::{Document, Kind};
pub use load::Notebook;
pub use rules::{Skipped, Wanted};
pub use why::{Explained, explain, explain_in, fault_names};
