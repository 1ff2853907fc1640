//! What water does to a line and its flies: how deep they drift, how soon they
//! are there, how the line sags in the air and what it bears.
//!
//! It knows quantities and no language: nothing here has a name, a place in a
//! text or a default. Lengths are taken and given in `uom` quantities; the inner
//! loops use plain SI numbers. All results are estimates; each says how good it is.

mod bracket;
pub mod drag;
pub mod drift;
mod float;
mod fluid;
pub mod fly;
pub mod leader;
pub mod load;
mod math;
mod plane;
mod profile;
mod rig;
pub mod rod;
pub mod sag;
mod secant;
pub mod sink;
pub mod spread;
mod strand;
mod stream;
mod tackle;
pub mod windy;

pub use float::{Afloat, Float};
pub use fluid::Fluid;
pub use fly::Fly;
pub use profile::Profile;
pub use rig::{BeyondTip, Rig, Settled};
pub use strand::Strand;
pub use stream::Stream;
pub use tackle::{Hung, NoTackle, Tackle};
