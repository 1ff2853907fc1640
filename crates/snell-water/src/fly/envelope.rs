//! A weight in an envelope of a sphericity: what flies were before they were told by their parts.
//!
//! It goes when nothing builds flies with [`super::Fly::new`] any more.

use crate::bracket::{self, Bracket};
use crate::drag::Shape;
use crate::fluid::Fluid;
use crate::fluid::GRAVITY;
use std::f64::consts::PI;

#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Envelope {
    pub mass: f64,
    pub volume: f64,
    pub diameter: f64,
    pub shape: Shape,
    pub scale: f64,
}

/// An envelope in a water.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct EnvelopeBody {
    envelope: Envelope,
    fluid: Fluid,
    pub weight: f64,
}

/// Below this Reynolds number drag goes with speed. Source: Stokes 1851.
const CREEPING: f64 = 1e-4;

impl Envelope {
    pub fn in_water(self, fluid: &Fluid) -> EnvelopeBody {
        EnvelopeBody {
            envelope: self,
            fluid: *fluid,
            weight: (self.mass - fluid.rho * self.volume) * GRAVITY,
        }
    }

    pub fn has_size(&self) -> bool {
        [self.mass, self.volume, self.diameter, self.scale]
            .iter()
            .all(|size| size.is_finite() && *size > 0.0)
    }
}

impl EnvelopeBody {
    pub fn resistance(&self, speed: f64) -> f64 {
        let (of, fluid) = (&self.envelope, &self.fluid);
        let reynolds = fluid.rho * speed * of.diameter / fluid.mu;
        if reynolds < CREEPING {
            return of.scale * 3.0 * PI * fluid.mu * of.diameter;
        }
        let area = PI / 4.0 * of.diameter * of.diameter;
        0.5 * fluid.rho * area * of.scale * of.shape.drag_coefficient(reynolds) * speed
    }

    pub fn scale(&self) -> f64 {
        self.envelope.scale
    }

    pub fn sinks(&self) -> Option<f64> {
        (self.weight > 0.0).then(|| {
            let left = |speed: f64| self.resistance(speed) * speed - self.weight;
            let fastest = bracket::upward(left, 1.0);
            Bracket::of(left, 0.0, fastest).map_or(fastest, |bracket| bracket.root(1e-12))
        })
    }

    pub fn mass_carried(&self) -> f64 {
        let across = self.envelope.diameter;
        0.5 * self.fluid.rho * PI / 6.0 * across * across * across
    }
}
