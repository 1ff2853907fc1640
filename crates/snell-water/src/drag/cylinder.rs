//! A long cylinder across and along the flow, and a short one across it.

use super::table::{Pair, Table};
use crate::math::pow;
use std::sync::LazyLock;

/// Drag coefficient of a long smooth cylinder across the flow, on length times diameter, by its
/// Reynolds number; good from 1e-4 to 2e5, about 10-15 %.
///
/// Source: Sucker and Brauer 1975, Wärme- und Stoffübertragung 8:149. Held against another fit to
/// measurements it is within 12 % from 10 to 1000 and up to 18 % lower about 2; against the theory of slow
/// flow up to 17 % higher below 0.1, where there is hardly any drag.
pub fn across(reynolds: f64) -> f64 {
    let re = reynolds;
    1.18 + 6.8 / pow(re, 0.89) + 1.96 / re.sqrt() - 0.0004 * re / (1.0 + 3.64e-7 * re * re)
}

/// What the pull of the water along a thin line is, in units of viscosity times speed along it times
/// length, by the Reynolds number of the flow across it.
///
/// A join of two limits, `sqrt(2.0^2 + 2.7^2 Re)`: a swept cylinder (Taylor 1952, Proc. R. Soc. A
/// 214:158, from memory) and a thin cylinder along the flow (Glauert and Lighthill 1955, Proc. R. Soc. A
/// 230:188). Taken as 1.5 or 2.5 in place of 2.0 a sink time moves by 0.9 %.
pub fn along(reynolds_across: f64) -> f64 {
    (LEAST_ALONG * LEAST_ALONG + 2.7 * 2.7 * reynolds_across).sqrt()
}

/// What [`along`] comes to where nothing flows across the line.
pub(crate) const LEAST_ALONG: f64 = 2.0;

/// What is left of the drag coefficient of a cylinder that is so many diameters long, from a half for a disc to
/// 1 for a long one.
///
/// Fitted to the drag of finite cylinders, 0.63, 0.68, 0.74, 0.82 and 0.98 of 1.20 at 1, 2, 5, 10 and 40
/// diameters, within 4 %. Source: aeronautical engineer's data book, figure 5.13.
pub fn shortened(diameters_long: f64) -> f64 {
    0.5 + 0.5 * diameters_long / (diameters_long + 20.0)
}

/// `Cd Re / 2` across: the force on a length of cylinder in units of viscosity times speed times length.
pub(crate) fn grip_across(reynolds: f64) -> f64 {
    static TABLE: LazyLock<Table> = LazyLock::new(|| Table::of(|re| 0.5 * re * across(re)));
    TABLE.at(reynolds)
}

/// The same and [`along`], both by the Reynolds number of the flow across.
pub(crate) fn grips_of_line(reynolds: f64) -> [f64; 2] {
    static TABLE: LazyLock<Pair> = LazyLock::new(|| Pair::of([|re| 0.5 * re * across(re), along]));
    TABLE.at(reynolds)
}
