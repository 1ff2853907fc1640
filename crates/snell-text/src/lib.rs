//! Where things stand in a text: byte spans, lines and columns, and what a page
//! holds of rigs: the lines of its `rig` fences, and its `rig:` comments.
//!
//! This is the one place with column arithmetic, and the one that reads markup.
//! It knows no language: what a line means is for the crates above.

mod asciidoc;
mod comments;
mod found;
mod index;
mod info;
mod lines;
mod markdown;
mod mask;
mod page;
#[cfg(feature = "published")]
mod published;
mod restructured;
mod span;
mod utf16;

pub use found::{Fence, Marker, Page, Stands, Unread, WhyUnread};
pub use index::{Encoding, LineColumn, LineIndex, Position};
pub use info::FenceTag;
pub use lines::{Lines, lines};
pub use page::{Markup, fences};
#[cfg(feature = "published")]
pub use published::published;
pub use span::{Place, Span, TextId};
pub use utf16::Utf16;
