//! What the picture of a rig shows of it: its parts in order with their lengths,
//! words and places, and nothing of where they are drawn.

use crate::colours::Colour;
use snell_rig::rig::FlyAt;
use snell_units::System;

/// A rig as it hangs.
#[derive(Clone, Debug)]
pub(super) struct Hung {
    pub(super) name: String,
    pub(super) title: Option<String>,
    /// Its sums, in words.
    pub(super) sums: Vec<String>,
    pub(super) system: System,
    pub(super) pieces: Vec<Piece>,
    /// The join below each piece but the last.
    pub(super) joins: Vec<Joint>,
    pub(super) flies: Vec<HungFly>,
    pub(super) on_line: Vec<OnLine>,
}

/// A piece of line.
#[derive(Clone, Debug)]
pub(super) struct Piece {
    pub name: String,
    /// Finished, in metres; `None` where it is not known, or is the reel's line, which no leader counts.
    pub metres: Option<f64>,
    pub length: Option<String>,
    pub what: String,
    /// The diameters of its ends in metres.
    pub ends: Option<(f64, f64)>,
    pub colours: Vec<Colour>,
    /// Whether it is watched.
    pub is_sighter: bool,
    /// From its lower end to the point.
    pub to_point: Option<String>,
}

/// What joins two pieces with an eye on each side.
#[derive(Clone, Debug)]
pub(super) enum Eyes {
    Ring(String),
    Swivel(String),
}

/// Where two pieces meet.
#[derive(Clone, Debug)]
pub(super) struct Joint {
    /// What joins them; empty where the line goes through.
    pub name: String,
    /// What it has an eye of on each side, as its line writes it.
    pub eyes: Option<Eyes>,
    /// Whether the rig names the knot.
    pub named: bool,
    /// Whether one piece of line goes through.
    pub through: bool,
    /// How long its cut ends are left, in metres.
    pub stubs: Option<f64>,
}

/// A fly.
#[derive(Clone, Debug)]
pub(super) struct HungFly {
    pub name: String,
    pub what: String,
    pub at: FlyAt,
    /// How many pieces lie above it.
    pub above: usize,
    /// Of a fly on a tag, the tag's length in metres.
    pub tag: Option<f64>,
    /// How the tag's length is written.
    pub tag_length: Option<String>,
    pub kind: FlyKind,
}

/// How a fly looks.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum FlyKind {
    Beaded,
    Plain,
    Floating,
}

/// What sits on the line besides flies.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum OnLineKind {
    Shot,
    Float,
}

/// A shot or a float.
#[derive(Clone, Debug)]
pub(super) struct OnLine {
    pub kind: OnLineKind,
    pub colour: Option<Colour>,
    pub what: String,
    /// How many pieces there are down to the one that it sits on.
    pub above: usize,
    /// How far down that piece, as a share of it; at its lower end mostly.
    pub share: f64,
    /// How far over the point, where that is not the lower end of a piece.
    pub to_point: Option<String>,
}

impl Joint {
    /// Whether it has a label.
    pub(super) fn is_told(&self) -> bool {
        self.eyes.is_some() || !self.name.is_empty()
    }

    /// Whether it is tied with a knot, and not made with eyes or gone through.
    pub(super) fn is_knot(&self) -> bool {
        self.eyes.is_none() && !self.through && !self.name.is_empty()
    }
}

impl Hung {
    /// Its name and title as one text.
    pub(super) fn told_title(&self) -> String {
        match &self.title {
            Some(title) => format!("{}: {title}", self.name),
            None => self.name.clone(),
        }
    }

    /// How long its pieces are together, as far as that is known.
    pub(super) fn metres(&self) -> f64 {
        self.pieces.iter().filter_map(|piece| piece.metres).sum()
    }
}
