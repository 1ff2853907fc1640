//! Scenes put into forms that can be looked at: SVG, PNG, and a terminal's
//! rows. What a scene is of is not known here.

mod cells;
mod letters;
mod literal;
mod png;
mod svg;

pub use cells::{Painted, rows};
pub use png::{Unpainted, png};
pub use svg::{svg, svg_scaled};
