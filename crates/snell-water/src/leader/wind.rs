//! Air, and the wind over the water.

use crate::math::{pow, quick_ln};
use uom::si::dynamic_viscosity::pascal_second;
use uom::si::f64::{DynamicViscosity, Length, MassDensity, ThermodynamicTemperature, Velocity};
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
    pub(crate) shear: Shear,
    pub(crate) air: Air,
}

/// How a wind falls off towards the water.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Shear {
    /// `ln(z/z0) / ln(zr/z0)` over open water.
    OverWater,
    /// The same over ground of a height at which there is no wind: 30 mm for grass, which moves a depth by 2 to 7 cm.
    Over(Length),
    /// `(z/zr)^(1/7)`, which moves a depth by up to a centimetre.
    Power,
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
            shear: Shear::OverWater,
            air,
        }
    }

    /// Air that is still; the leader goes through it with the rig.
    pub fn calm(air: Air) -> Self {
        let nothing = Velocity::new::<meter_per_second>(0.0);
        Self::new(nothing, nothing, Length::new::<meter>(1.0), air)
    }

    /// The same with another law of how it falls off.
    #[must_use]
    pub fn with(self, shear: Shear) -> Self {
        Self { shear, ..self }
    }

    /// The share of its speed that it has at a height.
    pub fn share_at(&self, height: Length) -> f64 {
        self.share(height.get::<meter>())
    }

    pub(crate) fn share(&self, height: f64) -> f64 {
        let still = match self.shear {
            Shear::OverWater => STILL_BELOW,
            Shear::Over(still) => still.get::<meter>(),
            Shear::Power => {
                return if height > 0.0 {
                    pow(height / self.at, 1.0 / 7.0)
                } else {
                    0.0
                };
            }
        };
        if height <= still || self.at <= still {
            return 0.0;
        }
        quick_ln(height / still) / quick_ln(self.at / still)
    }

    /// Whether it blows across the stream.
    pub fn is_across(&self) -> bool {
        self.across != 0.0
    }

    pub(crate) fn is_sound(&self) -> bool {
        let numbers = [self.along, self.across, self.at];
        numbers.iter().all(|number| number.is_finite()) && self.at > 0.0
    }
}
