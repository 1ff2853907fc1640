//! Scenes put into forms that can be looked at: SVG, PNG, PDF, and a
//! terminal's rows. What a scene is of is not known here.

mod bands;
mod cells;
#[cfg(feature = "png")]
pub(crate) mod fonts;
#[cfg(feature = "png")]
mod letters;
mod literal;
mod paint;
#[cfg(feature = "png")]
mod pdf;
#[cfg(feature = "png")]
mod png;
mod signs;
mod svg;

pub use cells::{Painted, rows};
#[cfg(feature = "png")]
pub use pdf::pdf;
#[cfg(feature = "png")]
pub use png::{Unpainted, png, unlettered};
pub use svg::{runs_left, svg};
