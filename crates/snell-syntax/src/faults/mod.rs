//! Why a line could not be read, in words that an angler understands.
//!
//! A broken line gives one fault. Its place and name come from a look at the
//! line's own tokens.

mod find;
mod head;
mod line;
mod punctuation;
mod signs;
mod slip;
mod text;
mod text_limits;
mod words;

pub(crate) use find::{find, of_number};
pub(crate) use head::head;
pub(crate) use slip::Slip;
pub(crate) use text_limits::{overfull, placed, too_many, unread};
