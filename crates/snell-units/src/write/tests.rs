//! Checks of writing: sizes that anglers meet, the edges between units, and
//! what holds for any quantity.

use super::*;
use System::{Imperial, Metric};
use proptest::prelude::*;

fn metric(number: f64, unit: &str) -> String {
    write(resolve(unit).unwrap().quantity(number), Metric)
}

fn imperial(number: f64, unit: &str) -> String {
    write(resolve(unit).unwrap().quantity(number), Imperial)
}

fn force(number: f64, unit: &str, system: System) -> String {
    write(
        resolve(unit).unwrap().quantity(number).as_force().unwrap(),
        system,
    )
}

#[test]
fn lengths_in_inches_and_feet() {
    for (number, unit, expected) in [
        (0.2794, "mm", "0.279 mm"),
        (5.5, "thou", "0.14 mm"),
        (0.19999, "in", "0.2 in"),
        (1.0, "in", "1 in"),
        (7.5, "in", "7.5 in"),
        (7.256, "in", "7.26 in"),
        (52.0, "in", "52 in"),
        (52.26, "in", "52.3 in"),
        (71.94, "in", "71.9 in"),
        (71.96, "in", "6 ft"),
        (6.0, "ft", "6 ft"),
        (190.0, "in", "15 ft 10 in"),
        (190.5, "in", "15 ft 10.5 in"),
        (191.97, "in", "16 ft"),
        (30.0, "yd", "90 ft"),
        (-190.5, "in", "-15 ft 10.5 in"),
        (0.0, "in", "0 in"),
        (-1e-9, "in", "0 in"),
    ] {
        assert_eq!(imperial(number, unit), expected);
    }
}

#[test]
fn lengths_in_metres() {
    for (number, unit, expected) in [
        (0.005, "in", "0.127 mm"),
        (0.2, "mm", "0.2 mm"),
        (2.8, "mm", "2.8 mm"),
        (9.9996, "mm", "1 cm"),
        (20.0, "in", "50.8 cm"),
        (99.96, "cm", "1 m"),
        (15.0, "ft", "4.57 m"),
        (-15.0, "ft", "-4.57 m"),
    ] {
        assert_eq!(metric(number, unit), expected);
    }
}

#[test]
fn masses() {
    assert_eq!(metric(0.25, "mg"), "0.25 mg");
    assert_eq!(metric(6.0, "mg"), "6 mg");
    assert_eq!(metric(0.123, "g"), "0.123 g");
    assert_eq!(metric(1.0, "lb"), "453.6 g");
    assert_eq!(metric(1.5, "kg"), "1.5 kg");
    assert_eq!(imperial(0.123, "g"), "0.123 g");
    assert_eq!(imperial(6.0, "mg"), "6 mg");
    assert_eq!(imperial(1.0, "oz"), "1 oz");
    assert_eq!(imperial(36.0, "oz"), "2.25 lb");
}

#[test]
fn forces_as_the_trade_writes_strength() {
    assert_eq!(force(4.0, "lb", Imperial), "4 lb");
    assert_eq!(force(4.0, "lb", Metric), "1.81 kg");
    assert_eq!(force(1.8, "kg", Metric), "1.8 kg");
    assert_eq!(force(3.25, "g", Metric), "3.3 g");
    assert_eq!(force(6.0, "oz", Imperial), "6 oz");
    assert_eq!(force(12.0, "oz", Imperial), "0.75 lb");
    assert_eq!(force(9.80665, "N", Metric), "1 kg");
}

#[test]
fn everything_else() {
    for (number, unit, in_metric, in_imperial) in [
        (2.2, "ft/s", "0.67 m/s", "2.2 ft/s"),
        (8.5, "cm/s", "0.085 m/s", "0.28 ft/s"),
        (54.0, "F", "12.2 C", "54 F"),
        (1.14, "g/cm3", "1.14 g/cm3", "1.14 g/cm3"),
        (17.0, "kg/m3", "0.017 g/cm3", "0.017 g/cm3"),
        (859.4, "MPa", "859 MPa", "859 MPa"),
        (2500.0, "MPa", "2.5 GPa", "2.5 GPa"),
        (0.0127, "mm2", "0.0127 mm2", "0.0127 mm2"),
        (1.0, "cm3", "1 cm3", "0.06102 in3"),
        (0.31, "g/m", "0.31 g/m", "0.31 g/m"),
        (0.65, "m2/s", "0.65 m2/s", "7 ft2/s"),
        (4.256, "s", "4.26 s", "4.26 s"),
        (119.0, "s", "119 s", "119 s"),
        (150.0, "s", "2.5 min", "2.5 min"),
        (80.0, "%", "0.8", "0.8"),
        (3.0, "turns", "3", "3"),
        (2.0, "N/m", "2 kg/s2", "2 kg/s2"),
    ] {
        assert_eq!(metric(number, unit), in_metric);
        assert_eq!(imperial(number, unit), in_imperial);
    }
}

#[test]
fn in_a_given_unit() {
    for (number, from, to, expected) in [
        (50.8, "cm", "in", "20 in"),
        (20.5, "in", "cm", "52.1 cm"),
        (190.0, "in", "ft", "15.83 ft"),
        (0.4, "mm", "cm", "0.04 cm"),
        (1.0, "m", "mm", "1000 mm"),
        (0.8, "turns", "%", "80 %"),
        (180.0, "deg", "deg", "180 deg"),
        (10.0, "C", "F", "50 F"),
        (0.65, "m2/s", "ft2/s", "7 ft2/s"),
        (1.0, "lb", "in", "0.4536 kg"),
        (0.0, "in", "mm", "0 mm"),
        (1e-17, "m", "in", "0 in"),
        (7.125, "in", "in", "7.13 in"),
    ] {
        let quantity = resolve(from).unwrap().quantity(number);
        assert_eq!(write_as(quantity, &resolve(to).unwrap()), expected);
    }
    let strength = resolve("lb").unwrap().quantity(4.0).as_force().unwrap();
    assert_eq!(write_as(strength, &resolve("lb").unwrap()), "4 lb");
    assert_eq!(write_as(strength, &resolve("N").unwrap()), "17.79 N");
}

#[test]
fn plain_numbers() {
    for (number, expected) in [
        (0.0, "0"),
        (-0.0, "0"),
        (-1e-20, "-1e-20"),
        (0.1 + 0.2, "0.3"),
        (1.0 / 3.0, "0.3333"),
        (1.2, "1.2"),
        (0.99996, "1"),
        (12.345, "12.35"),
        (9999.7, "10000"),
        (123_456.7, "123457"),
        (-2.5, "-2.5"),
        (0.000_123_45, "0.0001235"),
        (1.5e-7, "1.5e-7"),
        (6.02e23, "6.02e23"),
    ] {
        assert_eq!(write_number(number), expected);
    }
}

#[test]
fn what_is_not_finite_is_said_in_words() {
    assert_eq!(write_number(f64::NAN), "not a number");
    assert_eq!(metric(f64::INFINITY, "in"), "infinite m");
    assert_eq!(imperial(f64::NEG_INFINITY, "in"), "-infinite m");
    assert_eq!(imperial(f64::INFINITY, "C"), "infinite F");
}

fn any_dimension() -> impl Strategy<Value = Dimension> {
    let known = crate::UNITS.iter().map(|unit| unit.dimension);
    let extra = [
        Dimension::AREA,
        Dimension::VOLUME,
        Dimension::SPEED_BY_DEPTH,
        Dimension::LINEAR_DENSITY,
    ];
    let odd = Dimension::MASS.times(Dimension::AREA);
    prop::sample::select(known.chain(extra).chain([odd]).collect::<Vec<_>>())
}

proptest! {
    #[test]
    fn any_value_gets_a_text(si in any::<f64>(), dimension in any_dimension()) {
        for system in [Metric, Imperial] {
            let text = write(Quantity::new(si, dimension), system);
            prop_assert!(!text.is_empty());
            prop_assert!(!text.starts_with("-0 "), "{}", text);
        }
        for unit in crate::UNITS {
            prop_assert!(!write_as(Quantity::new(si, dimension), &unit.into()).is_empty());
        }
        prop_assert!(!write_number(si).is_empty());
    }

    #[test]
    fn a_written_number_is_near(number in -1e9_f64..1e9) {
        let back: f64 = write_number(number).parse().unwrap();
        prop_assert!((back - number).abs() <= number.abs() * 5.1e-4);
    }

    #[test]
    fn feet_and_inches_are_near(inches in 72.0_f64..1e5) {
        let text = imperial(inches, "in");
        let (feet, rest) = text.split_once(" ft").unwrap();
        let rest: f64 = rest.trim_end_matches(" in").trim().parse().unwrap_or(0.0);
        prop_assert!(rest < 12.0);
        let back = feet.parse::<f64>().unwrap() * 12.0 + rest;
        prop_assert!((back - inches).abs() < 0.0501);
    }
}
