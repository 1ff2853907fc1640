//! Where the pieces of a hanging rig begin and end.
//!
//! A leader of twenty feet and more is drawn to scale in its last part only, where
//! everything happens; what hangs above it is a stub each, and the whole of it
//! stands in the strip beside it.

use super::frame::Frame;
use super::subject::Hung;
use snell_units::System;

/// A leader from this length on has its last part magnified: 20 ft.
const LONG: f64 = 6.096;
/// How much of it at least, 2 m or 6 ft 6 in; and how much more than its sighter and all below it.
const fn last(system: System) -> (f64, f64) {
    match system {
        System::Metric => (2.0, 0.1),
        System::Imperial => (78.0 * 0.0254, 4.0 * 0.0254),
    }
}

/// The last part of a long leader.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Inset {
    /// How long it is.
    pub metres: f64,
    /// How long all of it is.
    pub whole: f64,
}

impl Inset {
    /// The last part of a rig, where it is so long that it has one.
    pub fn of(hung: &Hung) -> Option<Self> {
        let whole = hung.metres();
        if whole < LONG {
            return None;
        }
        // From the uppermost piece that is watched on; where none is, the last two metres.
        let watched = hung.pieces.iter().skip_while(|piece| !piece.is_sighter);
        let watched: f64 = watched.filter_map(|piece| piece.metres).sum();
        let (least, beyond) = last(hung.system);
        let metres = (watched + beyond).max(least);
        let metres = if metres > whole / 2.0 { least } else { metres };
        Some(Self { metres, whole })
    }
}

/// Where pieces begin and end.
pub(super) struct Places {
    /// How long a metre is drawn.
    pub metre: Option<f64>,
    /// The upper end of the first piece, then each lower end.
    pub joins: Vec<f64>,
    /// Down to where each piece is a stub.
    cuts: Vec<f64>,
    /// Where lengths to scale begin.
    pub to_scale_from: f64,
}

impl Places {
    /// All pieces at one height.
    pub fn all_at(pieces: usize, y: f64) -> Self {
        Self {
            metre: None,
            joins: vec![y; pieces + 1],
            cuts: vec![y; pieces],
            to_scale_from: y,
        }
    }

    /// The pieces below `top`, at a scale that gives labels of a height room.
    pub fn hung(hung: &Hung, frame: &Frame, top: f64, labels: f64) -> Self {
        let shown = Inset::of(hung).map_or_else(|| hung.metres(), |inset| inset.metres);
        let lengths = lengths(hung, shown);
        let stubs = lengths.iter().filter(|length| length.stub).count() as f64 * frame.stub;
        let (least, most, each) = frame.tall;
        let wished = (shown * each).clamp(least, most);
        let span = wished.max(labels * frame.slack - stubs);
        let metre = (shown > 0.0)
            .then(|| span / shown)
            .filter(|metre| metre.is_normal());
        let mut places = Self::all_at(lengths.len(), top);
        places.metre = metre;
        let mut y = top;
        let mut begins = None;
        for (index, length) in lengths.iter().enumerate() {
            let to_scale = length.metres * metre.unwrap_or_default();
            if length.stub || metre.is_none() {
                y += frame.stub;
            }
            places.cuts[index] = y;
            if to_scale > 0.0 {
                begins.get_or_insert(y);
            }
            y += to_scale;
            places.joins[index + 1] = y;
        }
        places.to_scale_from = begins.unwrap_or(top);
        places
    }

    /// Down to where a piece is a stub.
    pub fn cut(&self, piece: usize) -> f64 {
        self.cuts[piece]
    }
}

/// How a piece is drawn.
struct Length {
    /// Whether it has a part that is not to scale.
    stub: bool,
    /// How much of it is to scale.
    metres: f64,
}

/// The pieces of a rig of which the last metres are to scale.
fn lengths(hung: &Hung, shown: f64) -> Vec<Length> {
    // What rounding leaves of a piece is none of it.
    const NOTHING: f64 = 1e-6;
    let mut left = shown;
    let mut lengths: Vec<Length> = Vec::new();
    for piece in hung.pieces.iter().rev() {
        let metres = piece.metres.map_or(0.0, |metres| metres.min(left));
        let metres = if metres < NOTHING { 0.0 } else { metres };
        lengths.push(Length {
            stub: piece.metres.is_none_or(|whole| whole - metres > NOTHING),
            metres,
        });
        left -= metres;
    }
    lengths.reverse();
    lengths
}
