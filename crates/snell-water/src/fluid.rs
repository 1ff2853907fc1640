//! Fresh water at one temperature: its density and its viscosity.
//!
//! It knows nothing of streams; salt, silt and air bubbles are left out.

use crate::math::pow;
use uom::si::dynamic_viscosity::pascal_second;
use uom::si::f64::{DynamicViscosity, MassDensity, ThermodynamicTemperature};
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::thermodynamic_temperature::degree_celsius;

/// Fresh water at a temperature and one atmosphere.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fluid {
    /// kg/m3
    pub(crate) rho: f64,
    /// Pa s
    pub(crate) mu: f64,
    /// Density over viscosity, s/m2: Reynolds numbers are worked out too often to divide for each.
    pub(crate) rho_over_mu: f64,
}

impl Fluid {
    /// Water at a temperature, good from 0 to 40 C; beyond these ends it is taken at the end.
    ///
    /// Density by Kell 1975, J. Chem. Eng. Data 20:97, within 4e-6 of IAPWS-95 over 0-30 C. Viscosity
    /// by Kestin, Sokolov and Wakeham 1978, J. Phys. Chem. Ref. Data 7:941, within 0.09 % of IAPWS 2008.
    pub fn at(temperature: ThermodynamicTemperature) -> Self {
        let celsius = temperature.get::<degree_celsius>().clamp(0.0, 40.0);
        Self::of(kell(celsius), kestin(celsius))
    }

    pub(crate) fn of(rho: f64, mu: f64) -> Self {
        let rho_over_mu = rho / mu;
        Self { rho, mu, rho_over_mu }
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

fn kell(t: f64) -> f64 {
    let above = [
        999.839_52,
        16.945_176,
        -7.987_040_1e-3,
        -46.170_461e-6,
        105.563_02e-9,
        -280.542_53e-12,
    ];
    above.iter().rev().fold(0.0, |sum, term| sum * t + term) / (1.0 + 16.879_850e-3 * t)
}

fn kestin(t: f64) -> f64 {
    let below = 20.0 - t;
    let exponent = below / (t + 96.0) * (1.2364 - 1.37e-3 * below + 5.7e-6 * below * below);
    1.002e-3 * pow(10.0, exponent)
}

/// Standard gravity, m/s2. Source: the 3rd General Conference on Weights and Measures, 1901.
pub(crate) const GRAVITY: f64 = 9.806_65;
