//! A rig's line as pieces that can be held against those of another: each with
//! its role, its label and what it is, in plain data.
//!
//! Two pieces are equal if they come to the same, however they were written.

mod piece;
mod taken;

pub(super) use piece::by_word;
pub use piece::{Detail, Piece, Trait, TraitKind};
pub(super) use taken::pieces;
