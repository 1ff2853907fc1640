//! Rigs as pictures: a rig becomes a scene, and a scene becomes SVG, PNG or
//! rows of a terminal.
//!
//! `hanging` is the picture of the rig to scale, `drifting` that of the rig in
//! its water, `sinking` that of the way of its flies down, `pocket` the card for
//! the pocket, `sheet` all that is printed of one rig. All that they share stands beside them: the scene, the medium that
//! measures text, the placing of labels, rulers, colours and the writers. No file
//! is read or written here.

pub mod colours;
pub mod drifting;
pub mod hanging;
mod hatch;
mod key;
mod labels;
mod medium;
pub mod pocket;
mod ruler;
pub mod scene;
pub mod sheet;
pub mod sinking;
mod spread;
mod way;
mod widths;
pub mod write;

pub use medium::Medium;
pub use scene::Scene;
