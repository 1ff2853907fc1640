//! The places of each kind of line: which items a part takes, and in which order its strict line has them.

mod fly;
mod line;
mod on_line;
mod take;
mod water;
