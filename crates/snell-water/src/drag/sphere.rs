//! A smooth sphere.

use super::table::Table;
use crate::math::pow;
use std::f64::consts::PI;
use std::sync::LazyLock;

/// Drag coefficient of a smooth sphere on its frontal area, by its Reynolds number; up to 3e5.
///
/// Source: Clift and Gauvin 1971, within 6 % of the standard drag curve.
pub fn sphere(reynolds: f64) -> f64 {
    let re = reynolds;
    24.0 / re * (1.0 + 0.15 * pow(re, 0.687)) + 0.42 / (1.0 + 42_500.0 * pow(re, -1.16))
}

/// `Cd Re pi / 8`: the force on a sphere in units of viscosity times speed times diameter. In slow flow it is
/// that of Stokes, `3 pi`.
pub(crate) fn grip(reynolds: f64) -> f64 {
    static TABLE: LazyLock<Table> = LazyLock::new(|| Table::of(|re| PI / 8.0 * re * sphere(re)));
    TABLE.at(reynolds)
}
