//! What the line above the water does to the rig's top, as something that is missing until the speed is right.

use super::walk::End;
use crate::drift::state::Lead;
use crate::float::Sunk;
use crate::leader::Reach;
use crate::plane::size;
use crate::strand::Strand;
use crate::stream::Stream;
use crate::tackle::Tackle;
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::ratio::ratio;
use uom::si::velocity::meter_per_second;

/// What the rig's top has to come to.
#[derive(Debug, Clone)]
pub(super) enum Top<'a> {
    /// A speed, m/s: nothing is missing.
    Goes(f64),
    /// A pull along the stream, N.
    Pulled(f64),
    /// The drag of a float, by the surface's speed.
    Floats(Sunk, f64),
    /// The place of the tip; with the line above the length that is under water, where that is known before.
    Hangs(Reach, &'a Tackle, Option<Vec<Strand>>),
}

/// A pull has to be what was asked for to within this share of the whole tension,
const PULL_TOLERANCE: f64 = 1e-3;
/// and the tip to be where it is to within this share of its distance.
const REACH_TOLERANCE: f64 = 1e-4;

impl<'a> Top<'a> {
    /// What a lead asks for; nothing where it is told in numbers that are none.
    pub fn of(lead: &Lead, tackle: &'a Tackle, stream: &Stream, submerged: Option<f64>) -> Option<Self> {
        let surface = stream.profile.speed(stream.profile.depth_si());
        match lead {
            Lead::Free => Some(Self::Pulled(0.0)),
            Lead::Pull(pull) => Some(Self::Pulled(pull.get::<newton>())).filter(|_| pull.is_finite()),
            Lead::Speed(speed) => {
                Some(Self::Goes(speed.get::<meter_per_second>())).filter(|_| speed.is_finite())
            }
            Lead::Share(share) => {
                Some(Self::Goes(share.get::<ratio>() * surface)).filter(|_| share.is_finite())
            }
            Lead::Float(float) => Some(Self::Floats(float.sunk(&stream.fluid), surface)),
            Lead::Reach(reach) => {
                let line = submerged.map(|length| tackle.above(length));
                reach.is_sound().then_some(Self::Hangs(*reach, tackle, line))
            }
        }
    }

    /// The speed, where it is given.
    pub fn given(&self) -> Option<f64> {
        match self {
            Self::Goes(speed) => Some(*speed),
            Self::Pulled(_) | Self::Floats(..) | Self::Hangs(..) => None,
        }
    }

    /// What is missing at a speed: it grows with it.
    pub fn missing(&self, end: &End, speed: f64) -> Option<f64> {
        let [pull, load] = end.step.pull;
        match self {
            Self::Goes(_) => Some(0.0),
            Self::Pulled(wanted) => Some(pull - wanted),
            Self::Floats(float, surface) => Some(pull - float.drag(load, surface - speed)),
            Self::Hangs(reach, _, Some(line)) => reach.missing(line, pull, load, speed),
            Self::Hangs(reach, tackle, None) => reach.missing(&tackle.above(end.length), pull, load, speed),
        }
    }

    /// Whether what is missing counts as nothing.
    pub fn is_met(&self, missing: f64, end: &End) -> bool {
        let allowed = match self {
            Self::Goes(_) => f64::INFINITY,
            Self::Pulled(_) | Self::Floats(..) => PULL_TOLERANCE * size(end.step.pull),
            Self::Hangs(reach, ..) => REACH_TOLERANCE * reach.along.get::<meter>().abs(),
        };
        missing.abs() <= allowed
    }

    /// A pull to begin a search with, N.
    pub fn about(&self) -> f64 {
        match self {
            Self::Pulled(pull) => *pull,
            Self::Goes(_) | Self::Floats(..) | Self::Hangs(..) => 0.0,
        }
    }
}
