//! What an expression comes to: a value with its causes, or why there is none.
//!
//! Names are asked of a [`Scope`]; this module knows numbers, units and
//! dimensions, and no rig.

mod arithmetic;
mod expression;
mod literal;
mod scope;

pub(crate) use arithmetic::with_causes;
pub use expression::evaluate;
pub(crate) use literal::{between, ends, sharing};
pub use literal::{single, spread};
pub use scope::{Constants, Scope, no_value};
