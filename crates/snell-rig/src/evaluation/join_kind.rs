//! How two pieces of line are joined.

use crate::project::BlockId;

/// How two sections are joined.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum JoinKind {
    /// One piece of line goes through.
    Through,
    /// A knot.
    Knot(BlockId),
    /// A ring, with an eye knot on each side.
    Ring(BlockId),
    /// A swivel, with an eye knot on each side.
    Swivel(BlockId),
}
