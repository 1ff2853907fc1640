//! What water of one temperature does to a fly, worked out once.

use super::body::TiedBody;
use super::envelope::EnvelopeBody;
use uom::si::f64::{Force, Ratio, Velocity};
use uom::si::force::newton;
use uom::si::ratio::ratio;
use uom::si::velocity::meter_per_second;

/// What water of one temperature does to a fly. Forces against its speed through the water.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct InWater {
    body: Body,
}

impl InWater {
    pub(super) fn of(body: Body) -> Self {
        Self { body }
    }

    /// `(m - rho V) g`, below nothing where it floats.
    pub fn weight(&self) -> Force {
        Force::new::<newton>(self.body.weight())
    }

    /// The same of all but the bead.
    pub fn weight_behind_bead(&self) -> Force {
        Force::new::<newton>(match &self.body {
            Body::Tied(body) => body.behind_bead,
            Body::Envelope(body) => body.weight,
        })
    }

    /// Cosine of the angle between its axis and its way when it falls free: 1 is head first.
    pub fn tilt(&self) -> Ratio {
        Ratio::new::<ratio>(match &self.body {
            Body::Tied(body) => body.tilt,
            Body::Envelope(_) => 1.0,
        })
    }

    /// What its drag was scaled by to make its timed fall; 1 where it was not timed.
    pub fn drag_scale(&self) -> Ratio {
        Ratio::new::<ratio>(match &self.body {
            Body::Tied(body) => body.scale,
            Body::Envelope(body) => body.scale(),
        })
    }

    /// Drag at a speed when it falls free.
    pub fn falling(&self, speed: Velocity) -> Force {
        self.force(speed, |speed| self.body.falling(speed))
    }

    /// Drag at a speed of water that flows level past it while it hangs by the eye.
    pub fn slipping(&self, speed: Velocity) -> Force {
        self.force(speed, |speed| self.body.slipping(speed))
    }

    /// Drag at a speed broadside and head first.
    pub fn ends(&self, speed: Velocity) -> [Force; 2] {
        let at = |which: usize| {
            self.force(speed, |speed| match &self.body {
                Body::Tied(body) => body.ends(speed)[which],
                Body::Envelope(body) => body.resistance(speed),
            })
        };
        [at(0), at(1)]
    }

    fn force(&self, speed: Velocity, resistance: impl Fn(f64) -> f64) -> Force {
        let speed = speed.get::<meter_per_second>();
        Force::new::<newton>(resistance(speed) * speed)
    }
}

/// A fly in the water that a rig is in, worked out once.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Body {
    Tied(TiedBody),
    Envelope(EnvelopeBody),
}

impl Body {
    pub fn weight(&self) -> f64 {
        match self {
            Self::Tied(body) => body.weight,
            Self::Envelope(body) => body.weight,
        }
    }

    /// Drag over speed of a free fall.
    pub fn falling(&self, speed: f64) -> f64 {
        match self {
            Self::Tied(body) => body.falling(speed),
            Self::Envelope(body) => body.resistance(speed),
        }
    }

    /// Drag over speed where the water flows level.
    pub fn slipping(&self, speed: f64) -> f64 {
        match self {
            Self::Tied(body) => body.slipping(speed),
            Self::Envelope(body) => body.resistance(speed),
        }
    }

    /// Drag over speed in a flow of any direction, joined by the squares of its parts.
    pub fn resistance(&self, [along, up]: [f64; 2]) -> f64 {
        let squared = along * along + up * up;
        let speed = squared.sqrt();
        match self {
            Self::Tied(body) if squared > 0.0 => {
                let (level, fall) = (body.slipping(speed), body.falling(speed));
                level + (fall - level) * up * up / squared
            }
            Self::Tied(body) => body.falling(0.0),
            Self::Envelope(body) => body.resistance(speed),
        }
    }

    pub fn sinks(&self) -> Option<f64> {
        match self {
            Self::Tied(body) => body.sinks(),
            Self::Envelope(body) => body.sinks(),
        }
    }

    pub fn mass_carried(&self) -> f64 {
        match self {
            Self::Tied(body) => body.mass_carried(),
            Self::Envelope(body) => body.mass_carried(),
        }
    }

    /// How high its middle lies when it lies on the bed. Envelopes touch it with their middle, as they always did.
    pub fn radius(&self) -> f64 {
        match self {
            Self::Tied(body) => body.radius(),
            Self::Envelope(_) => 0.0,
        }
    }
}
