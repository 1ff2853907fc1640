//! Checks of reading units: spellings, products, faults, and what holds for
//! any word at all.

use super::*;
use proptest::prelude::*;

fn plain(word: &str) -> String {
    resolve(word).map_or_else(|fault| fault.to_string(), |unit| unit.plain.into_owned())
}

#[test]
fn every_word_of_every_row_in_any_case() {
    for unit in UNITS {
        for word in unit.words.iter().chain([&unit.name]) {
            for spelling in [
                word.to_string(),
                word.to_ascii_uppercase(),
                word.to_ascii_lowercase(),
            ] {
                assert_eq!(resolve(&spelling).unwrap().unit, Some(unit), "{spelling}");
            }
        }
    }
}

#[test]
fn as_people_write_them() {
    for (written, expected) in [
        ("Inches", "in"),
        ("″", "in"),
        ("”", "in"),
        ("′′", "in"),
        ("’", "ft"),
        ("°C", "C"),
        ("º f", "F"),
        ("°\u{a0}C", "C"),
        ("°", "deg"),
        ("mpa", "MPa"),
        ("M", "m"),
        ("min", "min"),
        ("WT", "wt"),
    ] {
        assert_eq!(plain(written), expected);
    }
}

#[test]
fn products() {
    for (written, expected, factor) in [
        ("m2/s", "m2/s", 1.0),
        ("feet²/sec", "ft2/s", 0.3048 * 0.3048),
        ("g/m", "g/m", 1e-3),
        ("IN2", "in2", 0.0254 * 0.0254),
        ("mm3", "mm3", 1e-9),
        ("gr/ft", "gr/ft", 64.798_91e-6 / 0.3048),
        ("N/mm²", "N/mm2", 1e6),
    ] {
        let unit = resolve(written).unwrap();
        assert_eq!((&*unit.plain, unit.unit), (expected, None));
        assert!((unit.factor / factor - 1.0).abs() < 1e-14, "{written}");
    }
    assert_eq!(resolve("N/mm2").unwrap().dimension, Dimension::STRESS);
    assert_eq!(resolve("g/cm³").unwrap().dimension, Dimension::DENSITY);
}

#[test]
fn a_product_that_is_a_row_is_that_row() {
    for (written, expected) in [("metres/second", "m/s"), ("g/cm³", "g/cm3"), ("FEET/s", "ft/s")] {
        assert_eq!(
            resolve(written).unwrap().unit.map(|unit| unit.name),
            Some(expected)
        );
    }
}

#[test]
fn a_product_belongs_to_the_family_of_its_parts() {
    assert_eq!(resolve("g/m").unwrap().system, Some(System::Metric));
    assert_eq!(resolve("in2/s").unwrap().system, Some(System::Imperial));
    assert_eq!(resolve("g/ft").unwrap().system, None);
}

#[test]
fn faults_say_what_would_do() {
    for (written, expected) in [
        ("inchs", "`inchs` is not a unit; did you mean `inch`?"),
        ("ponds", "`ponds` is not a unit; did you mean `pounds`?"),
        ("ft/sek", "`ft/sek` is not a unit; did you mean `ft/sec`?"),
        ("foott2/s", "`foott2/s` is not a unit; did you mean `foot2/s`?"),
        ("furlong", "`furlong` is not a unit"),
        ("z", "`z` is not a unit"),
        ("", "`` is not a unit"),
        ("m/", "`m/` is not a unit"),
        ("m/s/s", "`m/s/s` is not a unit"),
        ("mil", "`mil` can mean `thou` or `mm`; write the one you mean"),
        ("F/h", "`F/h`: a temperature cannot be multiplied or divided"),
        ("C2", "`C2`: a temperature cannot be multiplied or divided"),
    ] {
        assert_eq!(plain(written), expected);
    }
}

#[test]
fn the_longest_product_has_room() {
    let words = UNITS
        .iter()
        .flat_map(|unit| unit.words.iter().chain([&unit.name]));
    let longest = words
        .clone()
        .filter(|word| !word.contains('/'))
        .max_by_key(|word| word.len())
        .unwrap();
    let product = format!("{longest}³/{longest}³");
    assert!(Folded::new(&product).is_some(), "{product}");
    assert!(words.map(|word| word.len()).max() < Some(Folded::ROOM));
}

proptest! {
    #[test]
    fn numbers_come_back(number in -1e6_f64..1e6) {
        for unit in UNITS {
            let unit = Resolved::from(unit);
            let back = unit.number(unit.quantity(number));
            // Fahrenheit passes through 32 on its way.
            let scale = number.abs().max(unit.offset.abs());
            prop_assert!((back - number).abs() <= 1e-12 * scale, "{} {}: {}", number, unit.plain, back);
        }
    }

    #[test]
    fn any_word_is_answered_and_any_offer_holds(word in "\\PC{0,40}|[a-zC°/²23 '\"]{0,12}") {
        if let Err(UnitFault::Unknown { nearest: Some(offer), .. }) = resolve(&word) {
            prop_assert!(resolve(&offer).is_ok(), "{}", offer);
        }
    }

    #[test]
    fn a_plain_spelling_means_itself(word in "[a-z]{1,2}[23]?(/[a-z]{1,2}[23]?)?") {
        if let Ok(unit) = resolve(&word) {
            prop_assert_eq!(resolve(&unit.plain), Ok(unit));
        }
    }
}
