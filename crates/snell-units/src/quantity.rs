//! A number with a dimension, and the two families of units that people write.
//!
//! Values are in SI throughout, so arithmetic needs no units; how a person
//! wrote a value is not kept here.

use crate::dimension::Dimension;

/// Standard gravity, m/s2. NIST SP 811 (2008), appendix B.8: exact.
pub const STANDARD_GRAVITY: f64 = 9.80665;

/// A value in SI units.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Quantity {
    /// The number in SI units; temperatures in degrees Celsius, angles in
    /// radians, percentages as fractions of one.
    pub si: f64,
    /// What it is a number of.
    pub dimension: Dimension,
}

impl Quantity {
    /// A value in SI units.
    pub const fn new(si: f64, dimension: Dimension) -> Self {
        Self { si, dimension }
    }

    /// The force that is meant where one is expected: a force is itself, a
    /// mass its weight at standard gravity, as the trade writes breaking
    /// strength. `None` for all else.
    pub fn as_force(self) -> Option<Self> {
        match self.dimension {
            Dimension::FORCE => Some(self),
            Dimension::MASS => Some(Self::new(self.si * STANDARD_GRAVITY, Dimension::FORCE)),
            _ => None,
        }
    }
}

/// The family that a unit belongs to, and in which a person is answered.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum System {
    /// Metres and grams.
    Metric,
    /// Feet, inches, grains and pounds.
    Imperial,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_mass_stands_for_its_weight() {
        let four_pounds = Quantity::new(4.0 * 0.453_592_37, Dimension::MASS);
        let force = four_pounds.as_force().unwrap();
        // NIST SP 811 (2008), appendix B.8: pound-force 4.448 222 N.
        assert!((force.si / 4.0 - 4.448_222).abs() < 5e-7);
        assert_eq!(force.as_force(), Some(force));
        assert_eq!(Quantity::new(1.0, Dimension::LENGTH).as_force(), None);
    }
}
