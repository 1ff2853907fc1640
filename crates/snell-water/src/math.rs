//! Powers, logarithms and their like, the same on every machine.
//!
//! The standard library takes them from the platform, and platforms differ in the last digits. Searches and
//! choices between states can make a large difference out of a small one, so these are computed here.
//! The square root is exact everywhere, and small powers are written out as products.

use std::f64::consts::LN_2;
use std::sync::LazyLock;

pub(crate) use libm::{acos, asinh, atan2, cbrt, cos, erfc, exp, exp2, log as ln, pow, sinh};

/// Pieces of a doubling in which [`quick_ln`] looks: the first bits of the fraction of a number.
const BITS: u32 = 7;
const FRACTION: u32 = 52;

/// The natural logarithm of a number above nothing to 2e-13, in a third of the time: the speed of the water is asked for at
/// every place of every line.
pub(crate) fn quick_ln(number: f64) -> f64 {
    /// Of the middle of each piece, one over it and its logarithm.
    static MIDDLES: LazyLock<[[f64; 2]; 1 << BITS]> = LazyLock::new(|| {
        std::array::from_fn(|piece| {
            let middle = 1.0 + (piece as f64 + 0.5) / f64::from(1 << BITS);
            [1.0 / middle, ln(middle)]
        })
    });
    // Numbers near nothing have no exponent of their own, and what is no number none at all.
    if !(f64::MIN_POSITIVE..f64::INFINITY).contains(&number) {
        return ln(number);
    }
    let bits = number.to_bits();
    let doublings = (bits >> FRACTION) as f64 - 1023.0;
    let fraction = bits & ((1 << FRACTION) - 1);
    let [over, of_middle] = MIDDLES[(fraction >> (FRACTION - BITS)) as usize];
    let beyond = f64::from_bits((1023 << FRACTION) | fraction) * over - 1.0;
    let series = beyond * (1.0 - beyond * (0.5 - beyond * (1.0 / 3.0 - beyond * 0.25)));
    doublings * LN_2 + (of_middle + series)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_quick_logarithm_is_the_logarithm() {
        let mut number = 1e-12;
        while number < 1e12 {
            let off = (quick_ln(number) - ln(number)).abs();
            assert!(
                off < 2e-13 * ln(number).abs().max(1.0),
                "{number}: off by {off:e}"
            );
            number *= 1.000_37;
        }
        assert_eq!(quick_ln(0.0), f64::NEG_INFINITY);
        assert_eq!(quick_ln(f64::INFINITY), f64::INFINITY);
        assert!(quick_ln(f64::NAN).is_nan() && quick_ln(-1.0).is_nan());
        assert!((quick_ln(5e-320) - ln(5e-320)).abs() < 1e-9);
    }
}
