//! A rig evaluated: lengths, lets and measures by need, each computed once.
//!
//! A value that needs itself is one fault that names the members of the loop.

mod claims;
mod conditions;
mod core;
mod diameters;
mod join_kind;
mod joins;
mod lengths;
mod loops;
mod measures;
mod paths;
mod seats;
mod states;
mod subjects;
mod units;
mod words;
mod written;

pub use conditions::{Answer, Verdict, verdict};
pub(crate) use core::Measures;
pub use core::{Between, Draws, Error, Evaluation, Get, Measure, OfThing, Told, WordsOf};
pub(crate) use diameters::{ends, ends_of, meeting, meeting_ratio};
pub use join_kind::JoinKind;
pub use paths::Meaning;
pub use seats::Sits;
pub use states::State;
pub use subjects::Subjects;
pub use words::{AssumedWords, MissingWords};
pub use written::Written;
