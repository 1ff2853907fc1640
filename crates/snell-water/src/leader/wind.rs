//! Air, and the wind over the water.

use crate::math::{ln, pow};
use uom::si::f64::{Length, MassDensity, ThermodynamicTemperature, Velocity};
use uom::si::dynamic_viscosity::pascal_second;
use uom::si::f64::DynamicViscosity;
use uom::si::length::meter;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::velocity::meter_per_second;

/// Dry air at sea level.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Air {
    /// kg/m3
    pub(crate) rho: f64,
    /// Pa s
    pub(crate) mu: f64,
}

/// Pressure at sea level and the gas constant of dry air. Source: the standard atmosphere (from memory).
const PRESSURE: f64 = 101_325.0;
const GAS_CONSTANT: f64 = 287.052_87;
const FREEZING: f64 = 273.15;

impl Air {
    /// Air at a temperature: by the gas law, and the viscosity of Sutherland.
    /// Held against 1.225 kg/m3 and 1.789e-5 Pa s at 15 C, standard sea level.
    pub fn at(temperature: ThermodynamicTemperature) -> Self {
        let kelvin = temperature.get::<degree_celsius>() + FREEZING;
        Self {
            rho: PRESSURE / (GAS_CONSTANT * kelvin),
            mu: 1.458e-6 * pow(kelvin, 1.5) / (kelvin + 110.4),
        }
    }

    /// Mass of a unit of volume.
    pub fn density(&self) -> MassDensity {
        MassDensity::new::<kilogram_per_cubic_meter>(self.rho)
    }

    /// Dynamic viscosity.
    pub fn viscosity(&self) -> DynamicViscosity {
        DynamicViscosity::new::<pascal_second>(self.mu)
    }

    pub(crate) fn as_fluid(&self) -> crate::Fluid {
        crate::Fluid {
            rho: self.rho,
            mu: self.mu,
        }
    }
}

/// A steady wind over the water. Gusts, banks and trees are left out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wind {
    /// Downstream, m/s.
    pub(crate) along: f64,
    /// Across the stream, m/s.
    pub(crate) across: f64,
    /// The height that its speed is told for, m.
    pub(crate) at: f64,
    pub(crate) air: Air,
}

/// The height over open water at which a wind is nothing, m. Source: the open sea of five kilometres of fetch; that of
/// a river is a convention. Over 30 mm of grass the depth of a drift moves by 2 to 7 cm.
const STILL_BELOW: f64 = 0.2e-3;

impl Wind {
    /// A wind by its speeds downstream and across at a height over the water, usually the tip's.
    pub fn new(downstream: Velocity, across: Velocity, height: Length, air: Air) -> Self {
        Self {
            along: downstream.get::<meter_per_second>(),
            across: across.get::<meter_per_second>(),
            at: height.get::<meter>(),
            air,
        }
    }

    /// Air that is still; the leader goes through it with the rig.
    pub fn calm(air: Air) -> Self {
        Self { along: 0.0, across: 0.0, at: 1.0, air }
    }

    /// The same with its speeds multiplied.
    #[must_use]
    pub(crate) fn times(self, times: f64) -> Self {
        Self {
            along: self.along * times,
            across: self.across * times,
            ..self
        }
    }

    /// The share of its speed that it has at a height: `ln(z/z0) / ln(zr/z0)`.
    pub fn share_at(&self, height: Length) -> f64 {
        self.share(height.get::<meter>())
    }

    pub(crate) fn share(&self, height: f64) -> f64 {
        if height <= STILL_BELOW || self.at <= STILL_BELOW {
            return 0.0;
        }
        ln(height / STILL_BELOW) / ln(self.at / STILL_BELOW)
    }

    pub(crate) fn is_sound(&self) -> bool {
        let numbers = [self.along, self.across, self.at];
        numbers.iter().all(|number| number.is_finite()) && self.at > 0.0
    }
}
