//! Measures of the rig in its water: what it weighs there, how deep it rides,
//! how soon, and what the line in the air does to it.
//!
//! The mechanics are those of the crate `water`; here a rig is put in its terms
//! and what it leaves unsaid is taken from the trade, and listed as assumed.
//! Each state is solved once, and only if something asks.

mod air;
mod body;
mod cast;
mod casting;
mod drifting;
mod float;
mod overhead;
mod sinking;
mod spread;
pub(super) mod stream;
mod tackle;
mod timings;
mod usual;

pub use air::{Hanging, hanging};
pub use casting::{CastBy, Casting, casting};
pub use drifting::{Drifting, drifting};
pub use sinking::{DOWN, Sinking, sinking, sinking_of};
pub use spread::depths_between;
pub use stream::{bed_grain, stream};
pub use tackle::{Carrier, carried_by};

pub(super) use air::{beyond_tip, draws_in, greatest_wind, sag, sag_pull};
pub(super) use body::{parts_sink, sinks, wet_weight};
pub(super) use casting::mass_beyond_tip;
pub(super) use drifting::{drags, in_air, off_bed, rides, sighter_out, tippet_needed};
pub(super) use overhead::reach;
pub(super) use sinking::{sink_run, sink_time};
pub(super) use spread::{
    beyond_tip_drawn, drags_drawn, needed_drawn, off_bed_drawn, out_drawn, rides_drawn, sink_run_drawn,
    sink_time_drawn, sinks_drawn, wet_weight_drawn,
};
pub(super) use usual::usual;
