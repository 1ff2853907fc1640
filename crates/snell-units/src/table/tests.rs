//! Checks of the table: factors against the source that each row names, and
//! that rows are complete and never claim the same word.

use super::*;
use crate::resolve::resolve;
use std::collections::HashMap;

fn row(name: &str) -> &'static Unit {
    UNITS.iter().find(|unit| unit.name == name).unwrap()
}

/// NIST SP 811 (2008), appendix B.8: the factors in bold type, which are exact.
#[test]
fn exact_factors_of_appendix_b8() {
    let exact = [
        ("in", 2.54e-2),
        ("ft", 3.048e-1),
        ("yd", 9.144e-1),
        ("thou", 2.54e-5), // there under "mil (0.001 in)"
        ("gr", 6.479_891e-5),
        ("ft/s", 3.048e-1),
        ("mph", 4.4704e-1),
        ("g/cm3", 1.0e3),
        ("min", 6.0e1),
        ("h", 3.6e3),
    ];
    for (name, factor) in exact {
        assert!((row(name).factor / factor - 1.0).abs() < 1e-15, "{name}");
    }
}

/// NIST SP 811 (2008), appendix B.8: the factors that are rounded there.
#[test]
fn rounded_factors_of_appendix_b8() {
    let rounded = [
        ("lb", 4.535_924e-1),
        ("oz", 2.834_952e-2),
        ("km/h", 2.777_778e-1),
        ("deg", 1.745_329e-2),
    ];
    for (name, factor) in rounded {
        assert!((row(name).factor / factor - 1.0).abs() < 5e-7, "{name}");
    }
}

/// NIST SP 811 (2008), appendix B, on the pound: 0.453 592 37 kg exactly; the
/// ounce is a sixteenth of it, the grain a seven thousandth.
#[test]
fn the_pound_and_its_parts() {
    assert_eq!(row("lb").factor, 0.453_592_37);
    assert_eq!(row("oz").factor, 0.028_349_523_125);
    assert!((row("gr").factor * 7000.0 / row("lb").factor - 1.0).abs() < 1e-15);
}

/// NIST SP 811 (2008), tables 1 to 6: base and derived units, prefixes, degrees;
/// section 7.10.2 for the percent.
#[test]
fn prefixes_and_derived_units() {
    let exact = [
        ("mm", 1e-3),
        ("cm", 1e-2),
        ("m", 1.0),
        ("mg", 1e-6),
        ("g", 1e-3),
        ("kg", 1.0),
        ("N", 1.0),
        ("m/s", 1.0),
        ("cm/s", 1e-2),
        ("s", 1.0),
        ("C", 1.0),
        ("kg/m3", 1.0),
        ("Pa", 1.0),
        ("MPa", 1e6),
        ("GPa", 1e9),
        ("%", 0.01),
        ("deg", PI / 180.0),
    ];
    for (name, factor) in exact {
        assert_eq!(row(name).factor, factor, "{name}");
    }
}

/// NIST SP 811 (2008), appendix B.8: t/C = (t/F - 32)/1.8.
#[test]
fn fahrenheit() {
    let fahrenheit = resolve("F").unwrap();
    assert_eq!(fahrenheit.quantity(32.0).si, 0.0);
    assert!((fahrenheit.quantity(50.0).si - 10.0).abs() < 1e-14);
    assert!((fahrenheit.quantity(-40.0).si + 40.0).abs() < 1e-14);
}

#[test]
fn every_row_says_what_it_is_and_where_it_comes_from() {
    for unit in UNITS {
        assert!(
            !unit.about.is_empty() && !unit.about.contains('\n'),
            "{}",
            unit.name
        );
        assert!(!unit.source.is_empty(), "{}", unit.name);
        assert!(unit.factor > 0.0 && unit.factor.is_finite(), "{}", unit.name);
    }
}

#[test]
fn no_two_rows_share_a_word() {
    let mut owners = HashMap::new();
    for unit in UNITS {
        for word in unit.words.iter().chain([&unit.name]) {
            let owner = owners.insert(word.to_lowercase(), unit.name);
            assert_eq!(
                owner, None,
                "`{word}` is a word of two rows, or twice one of {}",
                unit.name
            );
        }
    }
}

#[test]
fn what_fits_is_of_the_dimension() {
    for dimension in [
        Dimension::LENGTH,
        Dimension::AREA,
        Dimension::VOLUME,
        Dimension::MASS,
        Dimension::TIME,
        Dimension::SPEED,
        Dimension::TEMPERATURE,
        Dimension::DENSITY,
        Dimension::STRESS,
        Dimension::LINEAR_DENSITY,
        Dimension::SPEED_BY_DEPTH,
    ] {
        let names = fitting(dimension);
        assert!(!names.is_empty(), "{}", dimension.name());
        for name in names {
            let unit = resolve(name).unwrap();
            assert_eq!((unit.dimension, &*unit.plain), (dimension, name));
        }
    }
    for name in fitting(Dimension::FORCE) {
        assert!(
            resolve(name).unwrap().quantity(1.0).as_force().is_some(),
            "{name}"
        );
    }
    assert!(fitting(Dimension::NONE).is_empty());
}
