//! A fly, a shot or any compact weight, as the water meets it.
//!
//! A fly is told by its parts; its drag is an estimate until it is timed in still water.

mod body;
mod calibration;
mod dressing;
mod hook;
mod in_water;
mod parts;
mod tied;

pub(crate) use body::TiedBody as Body;
pub use calibration::{Calibration, LIKELY, WORTH_IT};
pub use dressing::{DRESSINGS, Dressing};
pub use hook::Hook;
pub(crate) use hook::STEEL;
pub use in_water::InWater;
pub use parts::{Bead, NoFly, Parts, Timed, Wire};
pub(crate) use tied::Varied;
pub use tied::{Anatomy, DRAG_KNOWN_TO, Fly, TIMED_DRAG_KNOWN_TO};
