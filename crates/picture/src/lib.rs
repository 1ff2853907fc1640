//! Rigs as pictures: a rig becomes a scene, and a scene becomes SVG, PNG or
//! rows of a terminal.
//!
//! `hanging` is the picture of the rig to scale. All that pictures share stands
//! beside it: the scene, the medium that measures text, the placing of labels,
//! rulers, colours and the writers. No file is read or written here.

pub mod colours;
pub mod hanging;
mod labels;
mod medium;
mod ruler;
pub mod scene;
mod spread;
pub mod write;

pub use medium::Medium;
pub use scene::Scene;
