//! A way down, and the moments on it.

use uom::si::f64::{Length, Time};

/// How the flies come down on the water.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Cast {
    /// Flies first, with the line slack above them.
    Tuck,
    /// Straight along the surface with the flies upstream.
    Up,
    /// Straight along the surface with the flies downstream.
    Down,
}

/// The flies at one moment.
#[derive(Debug, Clone, PartialEq)]
pub struct Moment {
    /// Since they landed.
    pub time: Time,
    /// How far the top of the line has gone down the stream.
    pub entry: Length,
    /// Depth of each fly, the point first and the others from it upward.
    pub depths: Vec<Length>,
    /// How far downstream of where the rig landed each fly is.
    pub along: Vec<Length>,
}

/// A way down: what line is under water, how fast its top goes, and how it lands.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Way {
    /// m
    pub length: f64,
    /// m/s
    pub speed: f64,
    pub cast: Cast,
}
