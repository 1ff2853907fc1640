//! The one table of measures: what can be told of a rig and its parts.
//!
//! Claims, rules, `show` and the reference read it. A measure is a function of
//! an evaluation; adding one is a row of `table` and a function beside its like.

mod bearing;
mod fly;
mod gap;
mod join;
mod length;
mod parting;
mod section;
mod strength;
mod table;
mod tied;
mod water;

pub use crate::evaluation::{Between, Draws, Error, Get, Measure};
pub use crate::thing::{Kind, Thing};
pub use length::{under_sighter, usual_run};
pub use parting::{Break, Parting, PartsAt, parting};
pub use snell_water::spread::{Drawn, Input, Paired};
pub use strength::{places as breaking_places, weakest_place};
pub use table::{MEASURES, all_of, formerly, of, of_rig};
pub use water::{
    Carrier, CastBy, Casting, DOWN, Drifting, Hanging, Sinking, bed_grain, carried_by, casting,
    depths_between, drifting, hanging, sinking, sinking_of, stream,
};
