//! Flies on their way down, as a chart shows them.

use crate::scene::MarkKind;
use snell_units::System;

/// What is drawn, in SI.
#[derive(Clone, Debug, PartialEq)]
pub struct Sunk {
    /// The rig's name.
    pub name: String,
    /// The units of its rulers.
    pub system: System,
    /// The water's depth.
    pub depth: f64,
    /// Height over the bed and the water's speed there, from the bed up.
    pub profile: Vec<(f64, f64)>,
    /// The speed at the surface, as it is written.
    pub surface: String,
    /// The flies, the point first.
    pub flies: Vec<SunkFly>,
    /// What the picture shows in words.
    pub about: String,
}

/// One fly.
#[derive(Clone, Debug, PartialEq)]
pub struct SunkFly {
    /// Its name.
    pub name: String,
    /// Its sign.
    pub kind: MarkKind,
    /// How deep it rides, as it is written with what that may be off by.
    pub rides: String,
    /// How deep it rides.
    pub depth: f64,
    /// The depths between which it is.
    pub between: (f64, f64),
    /// From landing on: how far down the stream it is, and how deep.
    pub path: Vec<(f64, f64)>,
}
