//! Drag coefficients from published laws, by Reynolds number.
//!
//! They know no fly and no line, only shapes.

mod cylinder;
mod grain;

pub(crate) use cylinder::LEAST_ALONG;
pub use cylinder::{across, along};
pub use grain::{SPHERE, Shape};
