//! What kind of thing a quantity is: a length, a mass, a speed.
//!
//! A dimension is four exponents, so products and quotients need no table.
//! Angles, percentages and counts have none. No unit is known here but the SI
//! ones, which a dimension is written in when it has no name of its own.

use std::borrow::Cow;

/// The exponents of the SI base units: m, kg, s and degrees of temperature.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Default)]
pub struct Dimension {
    /// Exponent of length.
    pub length: i8,
    /// Exponent of mass.
    pub mass: i8,
    /// Exponent of time.
    pub time: i8,
    /// Exponent of temperature.
    pub temperature: i8,
}

const fn of(length: i8, mass: i8, time: i8, temperature: i8) -> Dimension {
    Dimension {
        length,
        mass,
        time,
        temperature,
    }
}

impl Dimension {
    /// A plain number; also angles (in radians), percentages and counts.
    pub const NONE: Self = of(0, 0, 0, 0);
    /// m
    pub const LENGTH: Self = of(1, 0, 0, 0);
    /// m2
    pub const AREA: Self = of(2, 0, 0, 0);
    /// m3
    pub const VOLUME: Self = of(3, 0, 0, 0);
    /// kg
    pub const MASS: Self = of(0, 1, 0, 0);
    /// N
    pub const FORCE: Self = of(1, 1, -2, 0);
    /// s
    pub const TIME: Self = of(0, 0, 1, 0);
    /// m/s
    pub const SPEED: Self = of(1, 0, -1, 0);
    /// Degrees Celsius.
    pub const TEMPERATURE: Self = of(0, 0, 0, 1);
    /// kg/m3
    pub const DENSITY: Self = of(-3, 1, 0, 0);
    /// Pa
    pub const STRESS: Self = of(-1, 1, -2, 0);
    /// kg/m
    pub const LINEAR_DENSITY: Self = of(-1, 1, 0, 0);
    /// m2/s, as depth times speed, by which wading is judged.
    pub const SPEED_BY_DEPTH: Self = of(2, 0, -1, 0);

    /// The dimension of a product. Exponents stop at the ends of `i8`.
    pub const fn times(self, other: Self) -> Self {
        of(
            self.length.saturating_add(other.length),
            self.mass.saturating_add(other.mass),
            self.time.saturating_add(other.time),
            self.temperature.saturating_add(other.temperature),
        )
    }

    /// The dimension of a quotient. Exponents stop at the ends of `i8`.
    pub const fn over(self, other: Self) -> Self {
        of(
            self.length.saturating_sub(other.length),
            self.mass.saturating_sub(other.mass),
            self.time.saturating_sub(other.time),
            self.temperature.saturating_sub(other.temperature),
        )
    }

    /// Whether it is that of a plain number.
    pub fn is_none(self) -> bool {
        self == Self::NONE
    }

    /// Its name with an article, as a sentence wants it: `a length`, `a plain
    /// number`, or `a quantity in kg m/s` where there is no name for it.
    pub fn name(self) -> Cow<'static, str> {
        match self.named() {
            Some((name, _)) => name.into(),
            None => format!("a quantity in {}", self.si_unit()).into(),
        }
    }

    /// The SI unit: `m`, `kg/m3`, `N`; `C` for temperatures, nothing for a
    /// plain number.
    pub fn si_unit(self) -> Cow<'static, str> {
        match self.named() {
            Some((_, unit)) => unit.into(),
            None => self.product_of_base_units().into(),
        }
    }

    fn named(self) -> Option<(&'static str, &'static str)> {
        Some(match self {
            Self::NONE => ("a plain number", ""),
            Self::LENGTH => ("a length", "m"),
            Self::AREA => ("an area", "m2"),
            Self::VOLUME => ("a volume", "m3"),
            Self::MASS => ("a mass", "kg"),
            Self::FORCE => ("a force", "N"),
            Self::TIME => ("a time", "s"),
            Self::SPEED => ("a speed", "m/s"),
            Self::TEMPERATURE => ("a temperature", "C"),
            Self::DENSITY => ("a density", "kg/m3"),
            Self::STRESS => ("a stress", "Pa"),
            Self::LINEAR_DENSITY => ("a mass per length", "kg/m"),
            Self::SPEED_BY_DEPTH => ("a speed times a depth", "m2/s"),
            _ => return None,
        })
    }

    fn product_of_base_units(self) -> String {
        let base = [
            ("kg", self.mass),
            ("m", self.length),
            ("s", self.time),
            ("C", self.temperature),
        ];
        let side = |above: bool| -> Vec<String> {
            base.iter()
                .filter(|(_, power)| *power != 0 && (*power > 0) == above)
                .map(|(unit, power)| match power.unsigned_abs() {
                    1 => (*unit).to_owned(),
                    power => format!("{unit}{power}"),
                })
                .collect()
        };
        let (above, below) = (side(true), side(false));
        let top = if above.is_empty() {
            "1".to_owned()
        } else {
            above.join(" ")
        };
        match below.as_slice() {
            [] => top,
            [one] => format!("{top}/{one}"),
            several => format!("{top}/({})", several.join(" ")),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_read_well() {
        assert_eq!(Dimension::LENGTH.name(), "a length");
        assert_eq!(Dimension::NONE.name(), "a plain number");
        assert_eq!(
            Dimension::MASS.times(Dimension::SPEED).name(),
            "a quantity in kg m/s"
        );
    }

    #[test]
    fn products_and_quotients() {
        assert_eq!(
            Dimension::SPEED.times(Dimension::LENGTH),
            Dimension::SPEED_BY_DEPTH
        );
        assert_eq!(Dimension::FORCE.over(Dimension::AREA), Dimension::STRESS);
        assert_eq!(Dimension::MASS.over(Dimension::VOLUME), Dimension::DENSITY);
        assert_eq!(Dimension::MASS.over(Dimension::LENGTH), Dimension::LINEAR_DENSITY);
        assert!(Dimension::LENGTH.over(Dimension::LENGTH).is_none());
    }

    #[test]
    fn units_of_what_has_no_name() {
        let unit = |dimension: Dimension| dimension.si_unit().into_owned();
        assert_eq!(unit(Dimension::NONE.over(Dimension::TIME)), "1/s");
        assert_eq!(unit(Dimension::FORCE.times(Dimension::LENGTH)), "kg m2/s2");
        assert_eq!(unit(Dimension::STRESS.times(Dimension::TIME)), "kg/(m s)");
        assert_eq!(unit(Dimension::AREA.times(Dimension::AREA)), "m4");
    }

    #[test]
    fn powers_stop_at_the_end_of_their_range() {
        let mut far = Dimension::VOLUME;
        for _ in 0..9 {
            far = far.times(far);
        }
        assert_eq!(far.length, i8::MAX);
    }
}
