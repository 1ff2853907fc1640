//! Where things stand in a text: byte spans, lines and columns, the lines of a
//! Markdown page that belong to `rig` fences, and its `rig:` comments.
//!
//! This is the one place with column arithmetic. It knows no language: what a
//! line means is for the crates above.

mod fences;
mod index;
mod lines;
mod markers;
mod span;

pub use fences::{Fence, FenceTag, fences};
pub use index::{Encoding, LineColumn, LineIndex, Position};
pub use lines::{Lines, lines};
pub use markers::{Marker, Stands, markers};
pub use span::{Place, Span, TextId};
