//! Numbers with units: what a written unit means, how a quantity is written
//! for a person, the X sizes of tippet, and the nearest of some names.
//!
//! All units are rows of one table, [`UNITS`], each with its source. This
//! crate knows neither the language nor where in a text a word stands.

mod dimension;
mod fault;
mod folded;
mod ladder;
mod nearest;
mod order;
mod quantity;
mod resolve;
mod sizes;
mod table;
mod write;

pub use dimension::Dimension;
pub use fault::UnitFault;
pub use nearest::{Spellings, is_one_slip, nearest, slips_between};
pub use order::in_order;
pub use quantity::{Quantity, STANDARD_GRAVITY, System};
pub use resolve::{Resolved, known, resolve};
pub use sizes::diameter_of_x;
pub use table::{UNITS, Unit, fitting};
pub use write::{write, write_as, write_number};
