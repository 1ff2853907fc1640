//! Scenes put into forms that can be looked at: SVG, PNG, PDF, and a
//! terminal's rows. What a scene is of is not known here.

mod bands;
mod cells;
mod letters;
mod literal;
mod paint;
mod pdf;
mod png;
mod signs;
mod svg;

pub use cells::{Painted, rows};
pub use pdf::pdf;
pub use png::{Unpainted, png, unlettered};
pub use svg::svg;
