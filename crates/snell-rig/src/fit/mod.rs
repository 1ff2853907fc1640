//! A line held against its row in the table of keywords: which value is
//! which, and the one fault to report where something does not fit.
//!
//! Values are only sorted here, by the look of them; what an expression
//! comes to is for `evaluate`.

mod accept;
mod given;
mod run;
mod shape;
pub(crate) mod slips;
mod sort;

pub use given::{Fit, Given, Values};
pub use run::Fitting;
pub use shape::{Shape, shape};
