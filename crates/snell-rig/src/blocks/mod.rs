//! Blocks other than rigs, read into values: rods, waters, materials, spools,
//! knots, flies and their like.
//!
//! A block that lacks a line still stands: what it leaves unsaid is unknown.

mod fly;
mod line_size;
mod lineage;
mod lines;
mod outing;
mod plain;
mod read;
mod spool;
mod value;
mod water;

pub use fly::{Bead, Fly, Wire};
pub use line_size::{LineSize, Size};
pub use lineage::{is_edit, line_key, lineage, merged};
pub use outing::{Came, Catch, Outing};
pub use plain::{Bed, Dressing, Knot, Material, Rod};
pub use read::{Read, read};
pub use spool::Spool;
pub use water::Water;

pub(crate) use fly::Essentials;
pub(crate) use lines::fit_line;
pub(crate) use plain::rod_essentials;
pub(crate) use value::{constant, named, wrong_dimension};
pub(crate) use water::water_essentials;
