//! A fly, or any compact weight: what it weighs in water and how the water
//! drags it.

use crate::bracket::{self, Bracket};
use crate::drag::Shape;
use crate::plane::size;
use crate::{Fluid, GRAVITY};
use std::f64::consts::PI;
use uom::si::f64::{Force, Length, Mass, MassDensity, Ratio, Velocity, Volume};
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::mass::kilogram;
use uom::si::ratio::ratio;
use uom::si::velocity::meter_per_second;
use uom::si::volume::cubic_meter;

/// A fly as the water meets it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fly {
    mass: f64,
    volume: f64,
    diameter: f64,
    shape: Shape,
    /// What its drag is multiplied by; 1 unless it was measured.
    calibration: f64,
}

impl Fly {
    /// A fly of a mass that displaces a volume, in an envelope (body and dressing) as large as a
    /// sphere of `diameter`, of a sphericity from 0 to 1.
    ///
    /// The envelope of a dressed fly is a guess: its sink is known to 25-40 % until it is measured.
    pub fn new(mass: Mass, displaced: Volume, diameter: Length, sphericity: f64) -> Self {
        Self {
            mass: mass.get::<kilogram>(),
            volume: displaced.get::<cubic_meter>(),
            diameter: diameter.get::<meter>(),
            shape: Shape::of_sphericity(sphericity),
            calibration: 1.0,
        }
    }

    /// A ball of a material, bored through by a hole of a share of its diameter from 0 to 1: a bare bead,
    /// or a shot. What is left of it is `(pi/6) d^3 (1 - b^2)^1.5` (geometry); the water goes round it as
    /// round a whole one.
    pub fn ball(diameter: Length, bore: Ratio, material: MassDensity) -> Self {
        let bore = bore.get::<ratio>().clamp(0.0, 1.0);
        let left = (1.0 - bore * bore).powf(1.5);
        let volume = Volume::new::<cubic_meter>(PI / 6.0 * diameter.get::<meter>().powi(3) * left);
        Self::new(material * volume, volume, diameter, 1.0)
    }

    /// The same fly with its drag scaled so that it sinks at a measured speed in still water.
    /// A fly that does not sink there, or no speed, leaves it as it is.
    #[must_use]
    pub fn sinking_at(self, measured: Velocity, fluid: &Fluid) -> Self {
        let speed = measured.get::<meter_per_second>();
        let by_shape = Self {
            calibration: 1.0,
            ..self
        }
        .resistance(speed, fluid)
            * speed;
        let weight = self.weight(fluid);
        if weight > 0.0 && by_shape > 0.0 {
            let calibration = weight / by_shape;
            return Self { calibration, ..self };
        }
        self
    }

    /// The same fly with its drag multiplied.
    #[must_use]
    pub fn dragging(self, times: f64) -> Self {
        let calibration = self.calibration * times;
        Self { calibration, ..self }
    }

    /// What it weighs under water: `(m - rho V) g`, below nothing where it floats.
    pub fn wet_weight(&self, fluid: &Fluid) -> Force {
        Force::new::<newton>(self.weight(fluid))
    }

    /// The speed at which it sinks in still water, where it sinks.
    pub fn sinks(&self, fluid: &Fluid) -> Option<Velocity> {
        let weight = self.weight(fluid);
        (weight > 0.0 && self.diameter > 0.0).then(|| {
            let left = |speed: f64| self.resistance(speed, fluid) * speed - weight;
            let fastest = bracket::upward(left, 1.0);
            let speed = Bracket::of(left, 0.0, fastest).map_or(fastest, |bracket| bracket.root(1e-12));
            Velocity::new::<meter_per_second>(speed)
        })
    }

    /// Its Reynolds number at a speed.
    pub fn reynolds(&self, speed: Velocity, fluid: &Fluid) -> f64 {
        self.reynolds_at(speed.get::<meter_per_second>(), fluid)
    }

    fn reynolds_at(&self, speed: f64, fluid: &Fluid) -> f64 {
        fluid.rho * speed * self.diameter / fluid.mu
    }

    pub(crate) fn weight(&self, fluid: &Fluid) -> f64 {
        (self.mass - fluid.rho * self.volume) * GRAVITY
    }

    /// Whether it is there at all: all its sizes are numbers above nothing.
    pub(crate) fn has_size(&self) -> bool {
        [self.mass, self.volume, self.diameter, self.calibration]
            .iter()
            .all(|size| size.is_finite() && *size > 0.0)
    }

    pub(crate) fn mass(&self) -> f64 {
        self.mass
    }

    /// Mass of water that its envelope carries along, kg: half of the sphere's.
    /// Source: potential flow about a sphere (Lamb, Hydrodynamics, from memory).
    pub(crate) fn mass_carried(&self, fluid: &Fluid) -> f64 {
        0.5 * fluid.rho * PI / 6.0 * self.diameter.powi(3)
    }

    /// Drag over speed, N s/m.
    pub(crate) fn resistance(&self, speed: f64, fluid: &Fluid) -> f64 {
        let reynolds = self.reynolds_at(speed, fluid);
        if reynolds < CREEPING {
            return self.calibration * 3.0 * PI * fluid.mu * self.diameter;
        }
        let area = PI / 4.0 * self.diameter * self.diameter;
        0.5 * fluid.rho * area * self.calibration * self.shape.drag_coefficient(reynolds) * speed
    }

    /// Pull of the water on it, N, by the water's velocity against it.
    pub(crate) fn pull(&self, flow: [f64; 2], fluid: &Fluid) -> [f64; 2] {
        let resistance = self.resistance(size(flow), fluid);
        [resistance * flow[0], resistance * flow[1]]
    }
}

/// Below this Reynolds number drag goes with speed. Source: Stokes 1851.
const CREEPING: f64 = 1e-4;
