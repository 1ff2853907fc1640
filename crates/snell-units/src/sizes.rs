//! The X sizes of leader and tippet: 0X is 0.011 in, each X a thousandth less.
//!
//! From 9X on labels leave that formula, so there it gives no answer. Hook and
//! line numbers (`#14`, `#5`) are labels without a formula and not known here.
//! Source: common practice.

use crate::table::factor;

const THOU: f64 = factor("thou");
const ZERO_X: f64 = 11.0;
const FIRST_WITHOUT_FORMULA: f64 = 9.0;

/// Six noughts before the X, or `06X`.
const STOUTEST: f64 = -6.0;

/// The diameter of an X size in metres. `x` is 0 to 8.5 in halves, or a whole
/// number down to -6 for the stouter sizes, `01X` to `06X`; `None` for anything
/// else.
pub fn diameter_of_x(x: f64) -> Option<f64> {
    let fine = (0.0..FIRST_WITHOUT_FORMULA).contains(&x) && (x * 2.0).fract() == 0.0;
    let stout = (STOUTEST..0.0).contains(&x) && x.fract() == 0.0;
    (fine || stout).then_some((ZERO_X - x) * THOU)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn assert_millimetres(x: f64, millimetres: f64) {
        let diameter = diameter_of_x(x).unwrap();
        assert!(
            (diameter * 1e3 - millimetres).abs() < 1e-12,
            "{x}X is {diameter} m"
        );
    }

    // The table printed on spools; common practice, so without a source.
    #[test]
    fn sizes_of_the_trade() {
        assert_millimetres(0.0, 0.2794);
        assert_millimetres(-3.0, 0.014 * 25.4);
        assert_millimetres(5.0, 0.006 * 25.4);
        assert_millimetres(5.5, 0.0055 * 25.4);
        assert_millimetres(6.0, 0.127);
        assert_millimetres(8.0, 0.0762);
    }

    #[test]
    fn no_formula_outside_the_range() {
        for x in [-7.0, -0.5, 5.3, 9.0, 10.0, f64::NAN, f64::INFINITY] {
            assert_eq!(diameter_of_x(x), None, "{x}");
        }
    }
}
