//! Fits: the fewest changes at the bank that make a rig right for a water.
//!
//! A change is another length of a tippet or a tag, another fly or bead, or
//! another cast. Sets of changes are tried by their number; which change can
//! help is learnt from what stands against the rig. No rule is known by name,
//! and nothing is known of how a way is told or written.

mod asks;
mod bank;
mod change;
mod fitted;
mod plan;
mod rank;
mod search;
mod values;
mod way;

pub use asks::is_sum;
pub use bank::Bank;
pub use change::{Change, Target, To};
pub use fitted::{Fit, Fitted, MOST_CHANGES, fit};
pub use plan::{Plan, Stop, knots, plan};
pub use way::{Told, Way};
