//! A length of line of one size: what it weighs and what the water does to it.

use crate::drag;
use crate::fluid::Fluid;
use crate::fluid::GRAVITY;
use std::f64::consts::PI;
use uom::si::f64::{Length, Mass, MassDensity};
use uom::si::length::meter;
use uom::si::mass::kilogram;
use uom::si::mass_density::kilogram_per_cubic_meter;

/// A length of level line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Strand {
    pub(crate) length: f64,
    pub(crate) diameter: f64,
    pub(crate) density: f64,
    /// What the water's hold on it is multiplied by.
    pub(crate) drag: f64,
}

impl Strand {
    /// A line of a length, a diameter and the density of its material.
    pub fn new(length: Length, diameter: Length, density: MassDensity) -> Self {
        Self {
            length: length.get::<meter>(),
            diameter: diameter.get::<meter>(),
            density: density.get::<kilogram_per_cubic_meter>(),
            drag: 1.0,
        }
    }

    /// From one end to the other.
    pub fn length(&self) -> Length {
        Length::new::<meter>(self.length)
    }

    /// The same line of another length.
    #[must_use]
    pub fn of_length(self, length: Length) -> Self {
        Self {
            length: length.get::<meter>(),
            ..self
        }
    }

    /// What it weighs in the air, as a mass.
    pub fn mass(&self) -> Mass {
        Mass::new::<kilogram>(self.mass_by_length() * self.length)
    }

    /// Whether it is there at all: all its sizes are numbers above nothing.
    pub(crate) fn has_size(&self) -> bool {
        [self.length, self.diameter, self.density, self.drag]
            .iter()
            .all(|size| size.is_finite() && *size > 0.0)
    }

    fn section(&self) -> f64 {
        PI / 4.0 * self.diameter * self.diameter
    }

    /// Weight of a metre in air, N/m; the air's own lift is left out.
    pub(crate) fn weight_in_air(&self) -> f64 {
        self.section() * self.density * GRAVITY
    }

    /// Weight of a metre in water, N/m; below nothing where it floats.
    pub(crate) fn weight_in(&self, fluid: &Fluid) -> f64 {
        self.section() * (self.density - fluid.rho) * GRAVITY
    }

    /// Mass of a metre, kg/m.
    pub(crate) fn mass_by_length(&self) -> f64 {
        self.section() * self.density
    }

    /// Mass of water that a metre carries along when it moves across itself, kg/m: that of its own
    /// volume. Source: potential flow about a circular cylinder (Lamb, Hydrodynamics, from memory).
    pub(crate) fn mass_carried(&self, fluid: &Fluid) -> f64 {
        self.section() * fluid.rho
    }

    /// What the water does to a metre of it: `flow` is the water's velocity against the line, `tangent` the
    /// line's direction, of length one.
    // Called by itself it waits for what its caller has just written to memory: a seventh of a drift.
    #[inline(always)]
    pub(crate) fn grip(&self, flow: [f64; 2], tangent: [f64; 2], fluid: &Fluid) -> Grip {
        let along = flow[0] * tangent[0] + flow[1] * tangent[1];
        let across = flow[1] * tangent[0] - flow[0] * tangent[1];
        let reynolds = fluid.rho_over_mu * across.abs() * self.diameter;
        let drag = self.drag * fluid.mu;
        let [on_across, on_along] = drag::grips_of_line(reynolds).map(|grip| drag * grip);
        let (pull_across, pull_along) = (on_across * across, on_along * along);
        Grip {
            pull: [
                pull_along * tangent[0] - pull_across * tangent[1],
                pull_along * tangent[1] + pull_across * tangent[0],
            ],
            across: on_across,
            along: on_along,
        }
    }
}

/// The water's hold on a metre of line.
pub(crate) struct Grip {
    /// N/m
    pub pull: [f64; 2],
    /// Pull over the speed of the flow across the line, N s/m2.
    pub across: f64,
    /// The same along it.
    pub along: f64,
}
