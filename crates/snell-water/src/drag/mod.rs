//! Drag coefficients from published laws, by Reynolds number.
//!
//! They know no fly and no line, only shapes.

mod cylinder;
mod sphere;
mod table;

pub(crate) use cylinder::{LEAST_ALONG, grip_across, grips_of_line};
pub use cylinder::{across, along, shortened};
pub(crate) use sphere::grip as grip_of_sphere;
pub use sphere::sphere;
