//! How a rig drifts and sinks, as it is shown.

use crate::need::ShownAssumed;
use crate::written::Written;
use indexmap::IndexMap;
use serde::Serialize;
use snell_picture::scene::MarkKind;
use snell_units::System;

/// A rig in its water.
#[derive(Clone, Debug, Serialize)]
pub struct ShownDrift {
    /// The rig's name.
    pub name: String,
    /// Its title for people.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub title: Option<String>,
    /// The file that it stands in.
    pub file: String,
    /// The verdict on it in that water, in at most three lines.
    pub answer: Vec<String>,
    /// What was taken of the water and the rig.
    pub inputs: IndexMap<&'static str, Written>,
    /// How it comes to drift; nothing where it does not.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub steady: Option<Steady>,
    /// How it gets there; nothing where there is no drift.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub sink: Option<ShownSink>,
    /// What was taken because the rig leaves it unsaid.
    pub assumed: Vec<ShownAssumed>,
    /// What is missing where there is no drift.
    pub needs: Vec<String>,
    /// The units that the rig is written in.
    #[serde(skip)]
    pub system: System,
}

/// The steady drift.
#[derive(Clone, Debug, Serialize)]
pub struct Steady {
    /// How fast the whole rig goes down the stream.
    pub speed: Written,
    /// The water's speed at the surface.
    pub surface: Written,
    /// Line under water.
    pub submerged: Written,
    /// Whether the point lies on the bed.
    pub on_bed: bool,
    /// The depths of the point in the other states that the rig could stay in, the deepest first.
    pub others: Vec<Written>,
    /// The rig's own measures of the drift.
    pub measures: IndexMap<&'static str, Written>,
    /// What each of them hangs on most, where they are drawn.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub hangs_on: Vec<HangsOn>,
    /// The flies and shots, the point first.
    pub flies: Vec<ShownRide>,
    /// The line from the point to the surface, in metres: downstream of its entry, and depth.
    pub line: Vec<(f64, f64)>,
    /// The water, in metres and metres a second: height over the bed, and speed there.
    pub profile: Vec<(f64, f64)>,
}

/// What a measure hangs on most, of all that is not known well.
#[derive(Clone, Debug, Serialize)]
pub struct HangsOn {
    /// The measure.
    pub measure: &'static str,
    /// What to find out.
    pub remedy: &'static str,
    /// Its share of the measure's variance.
    pub share: f64,
}

/// How one fly rides.
#[derive(Clone, Debug, Serialize)]
pub struct ShownRide {
    /// Its name.
    pub name: String,
    /// Its sign in a picture.
    #[serde(skip)]
    pub kind: MarkKind,
    /// Its depth.
    pub rides: Written,
    /// The depths between which it is with what is not known of drag and stream, in metres.
    pub between: (f64, f64),
    /// The lesser of them as it is written.
    #[serde(skip)]
    pub shallowest: String,
    /// The greater of them as it is written.
    #[serde(skip)]
    pub deepest: String,
    /// How high over the bed.
    pub off_bed: Written,
    /// Downstream of where the line enters the water; below nothing where upstream.
    pub ahead: Written,
    /// Its speed against the water beside it.
    pub lag: Written,
    /// Whether it is slower than that water; else it is dragged ahead.
    #[serde(skip)]
    pub slower: bool,
}

/// The sink.
#[derive(Clone, Debug, Serialize)]
pub struct ShownSink {
    /// How the flies were laid on the water.
    pub cast: &'static str,
    /// When the point is at nine tenths of its depth, where it gets there.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub down: Option<Written>,
    /// When it would be half way down if the flies sank straight, where that may be believed: a check of the
    /// series by another way.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub half_straight_down: Option<Written>,
    /// The series, in SI.
    pub moments: Vec<ShownMoment>,
}

/// A moment of the sink, in seconds and metres.
#[derive(Clone, Debug, Serialize)]
pub struct ShownMoment {
    /// Since the flies landed.
    pub time: f64,
    /// How far the line's entry has gone down the stream.
    pub entry: f64,
    /// Of each fly, in the order of the rides: its depth, and how far down the stream it is.
    pub flies: Vec<(f64, f64)>,
}
