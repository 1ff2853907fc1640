//! What of a rig and its water is not known well, and how well it is known.

use super::draws::COLUMNS;
use crate::fly::{Fly, Varied};
use crate::math::{exp, ln};
use crate::rig::Rig;
use crate::strand::Strand;
use uom::si::f64::{Length, Velocity};
use uom::si::ratio::ratio;

/// An input that is drawn. Cast, lengths and reach are told and never drawn: each of them counts for more than all of
/// these.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Input {
    /// Of the point, by what its fly says.
    PointDrag,
    /// Of the flies above it, by what each says.
    OtherDrag,
    /// The mass of hooks and dressings.
    HookAndDressing,
    /// The mass of beads and shots.
    Bead,
    /// The grain of the bed.
    Grain,
    /// The speed of the water.
    Speed,
    /// The depth of the water.
    Depth,
    /// The drag of the line.
    LineDrag,
    /// How thick the line is.
    LineDiameter,
}

impl Input {
    /// All of them, in the order of the draws' columns.
    pub const ALL: [Self; COLUMNS] = [
        Self::PointDrag,
        Self::OtherDrag,
        Self::HookAndDressing,
        Self::Bead,
        Self::Grain,
        Self::Speed,
        Self::Depth,
        Self::LineDrag,
        Self::LineDiameter,
    ];
}

/// How well a number is known, nine times out of ten.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Known {
    /// To within a factor.
    Times(f64),
    /// To within a share of it either way.
    Within(f64),
    /// Downward to within a factor; upward as far as another one, which one draw in ten comes to and none passes.
    UpTo {
        /// Nine times out of ten.
        down: f64,
        /// At most.
        most: f64,
    },
    /// It is as it is.
    Exactly,
}

/// Standard deviations either way that nine of ten lie in. Source: the normal distribution.
const NINE_IN_TEN: f64 = 1.644_853_626_951_472_7;
/// Standard deviations over which one of ten lies. Source: the normal distribution.
const ONE_IN_TEN: f64 = 1.281_551_565_544_600_4;
/// No number is taken as less than this share of what was told.
const LEAST: f64 = 0.05;

impl Known {
    /// A number that lies between two, nine times out of ten; it is told by their middle.
    pub fn between(low: f64, high: f64) -> Self {
        let middle = (low + high) / 2.0;
        if middle > 0.0 && high > low {
            Self::Within((high - low) / 2.0 / middle)
        } else {
            Self::Exactly
        }
    }

    /// What a number is multiplied by so many standard deviations off.
    fn factor(self, off: f64) -> f64 {
        match self {
            Self::Times(factor) => exp(off * ln(factor) / NINE_IN_TEN),
            Self::UpTo { down, .. } if off < 0.0 => Self::Times(down).factor(off),
            Self::UpTo { most, .. } => exp((off / ONE_IN_TEN).min(1.0) * ln(most)),
            Self::Within(share) => (1.0 + off * share / NINE_IN_TEN).max(LEAST),
            Self::Exactly => 1.0,
        }
    }
}

/// How well the inputs of a rig are known. The drag of each fly is told by the fly ([`crate::fly::Fly::known_to`]).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Uncertain {
    /// The mass of hooks and dressings.
    pub hook_and_dressing: Known,
    /// The mass of beads and shots.
    pub bead: Known,
    /// The grain of the bed.
    pub grain: Known,
    /// The speed of the water.
    pub speed: Known,
    /// The depth of the water.
    pub depth: Known,
    /// The drag of the line.
    pub line_drag: Known,
    /// How thick the line is.
    pub line_diameter: Known,
}

/// The roughness length that was measured in streams over the usual one, by the depth in grains: 258.3 times its power of
/// -1.821 from five grains on, at least 1. Source: Mazi and others, depth-averaged from surface speed (abstract): `8.61 k
/// (h/k)^-1.821` for 5 to 30 grains, against `k/30`; shallower water is taken as five grains deep.
fn measured_over_usual(grains: f64) -> f64 {
    (30.0 * 8.61 * exp(-1.821 * ln(grains.max(5.0)))).max(1.0)
}

impl Default for Uncertain {
    /// Source of all figures: from memory, but the line's drag, which is known to 10 % (Sucker and Brauer 1975).
    fn default() -> Self {
        Self {
            hook_and_dressing: Known::Times(1.3),
            bead: Known::Within(0.05),
            grain: Known::Times(2.0),
            speed: Known::Within(0.15),
            depth: Known::Within(0.05),
            line_drag: Known::Times(1.12),
            line_diameter: Known::Within(0.04),
        }
    }
}

impl Uncertain {
    /// A water whose depth and speed are each told as a range.
    #[must_use]
    pub fn with_ranges(self, depth: Option<(Length, Length)>, speed: Option<(Velocity, Velocity)>) -> Self {
        Self {
            depth: depth.map_or(self.depth, |(low, high)| Known::between(low.value, high.value)),
            speed: speed.map_or(self.speed, |(low, high)| Known::between(low.value, high.value)),
            ..self
        }
    }

    /// A water of a depth over a bed of a grain. Where it is shallow for its stones the bed may slow it as much as was measured
    /// there, which is more than the usual law has.
    #[must_use]
    pub fn over(self, depth: Length, grain: Length) -> Self {
        let rougher = measured_over_usual((depth / grain).get::<ratio>());
        let down = 2.0;
        Self {
            grain: if rougher > Known::Times(down).factor(ONE_IN_TEN) {
                Known::UpTo { down, most: rougher }
            } else {
                self.grain
            },
            ..self
        }
    }

    /// A fly by itself with its drag and its mass so many standard deviations off.
    pub(super) fn fly_drawn(&self, fly: &Fly, off: &[f64; COLUMNS]) -> Fly {
        let [drag, _, hook, bead, ..] = *off;
        self.varied(fly, [drag, hook, bead])
    }

    fn varied(&self, fly: &Fly, [drag, hook, bead]: [f64; 3]) -> Fly {
        fly.varied(&Varied {
            drag: Known::Times(fly.drag_known_to()).factor(drag),
            hook_and_dressing: self.hook_and_dressing.factor(hook),
            bead: self.bead.factor(bead),
        })
    }

    /// A rig with each input so many standard deviations off.
    pub(crate) fn drawn(&self, rig: &Rig, off: &[f64; COLUMNS]) -> Rig {
        let [
            point,
            others,
            hook,
            bead,
            grain,
            speed,
            depth,
            line_drag,
            line_diameter,
        ] = *off;
        let fly = |index: usize, fly: &Fly| {
            let drag = if index == 0 { point } else { others };
            self.varied(fly, [drag, hook, bead])
        };
        let (drag, diameter) = (
            self.line_drag.factor(line_drag),
            self.line_diameter.factor(line_diameter),
        );
        let line = |strand: &Strand| Strand {
            drag: strand.drag * drag,
            diameter: strand.diameter * diameter,
            ..*strand
        };
        let mut drawn = Rig {
            tackle: rig.tackle.changed(fly, line),
            ..rig.clone()
        };
        drawn.stream.profile = rig.stream.profile.times(
            self.depth.factor(depth),
            self.speed.factor(speed),
            self.grain.factor(grain),
        );
        drawn
    }
}
