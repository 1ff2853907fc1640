//! The table of units: every unit of the language, with its words and source.
//!
//! Reading, writing, completion, hover and the reference page all use these
//! rows; a unit is added here and nowhere else. Products such as `ft2/s` are
//! put together from the rows when they are read and need none of their own.

use crate::dimension::Dimension;
use crate::quantity::System;
use std::f64::consts::PI;

/// One unit.
#[derive(PartialEq, Debug)]
pub struct Unit {
    /// How `tidy` and messages spell it.
    pub name: &'static str,
    /// Other spellings: plurals, long forms, marks. Case does not count.
    pub words: &'static [&'static str],
    /// What it measures.
    pub dimension: Dimension,
    /// SI units in one of it.
    pub factor: f64,
    /// What is added to the number before it is multiplied by the factor:
    /// -32 for Fahrenheit, otherwise 0.
    pub offset: f64,
    /// The family it belongs to; `None` where both use it.
    pub system: Option<System>,
    /// One line of documentation.
    pub about: &'static str,
    /// Where the factor comes from.
    pub source: &'static str,
}

const B8: &str = "NIST SP 811 (2008), appendix B.8: exact";
const B8_ROUNDED: &str = "NIST SP 811 (2008), appendix B.8; exact here, rounded to seven digits there";
const PREFIX: &str = "NIST SP 811 (2008), table 5 (SI prefixes): exact";
const DERIVED: &str = "NIST SP 811 (2008), table 3 (SI derived units): exact";
const COHERENT: &str = "NIST SP 811 (2008), table 2 (SI derived units in base units): exact";
const ACCEPTED: &str = "NIST SP 811 (2008), table 6 (units accepted for use with the SI): exact";
const BASE: &str = "NIST SP 811 (2008), table 1 (SI base units): exact";
const POUND: f64 = 0.453_592_37;

const fn metric(
    name: &'static str,
    words: &'static [&'static str],
    dimension: Dimension,
    factor: f64,
    about: &'static str,
    source: &'static str,
) -> Unit {
    Unit {
        system: Some(System::Metric),
        ..common(name, words, dimension, factor, about, source)
    }
}

const fn imperial(
    name: &'static str,
    words: &'static [&'static str],
    dimension: Dimension,
    factor: f64,
    about: &'static str,
    source: &'static str,
) -> Unit {
    Unit {
        system: Some(System::Imperial),
        ..common(name, words, dimension, factor, about, source)
    }
}

const fn common(
    name: &'static str,
    words: &'static [&'static str],
    dimension: Dimension,
    factor: f64,
    about: &'static str,
    source: &'static str,
) -> Unit {
    Unit {
        name,
        words,
        dimension,
        factor,
        offset: 0.0,
        system: None,
        about,
        source,
    }
}

const LENGTH: Dimension = Dimension::LENGTH;
const MASS: Dimension = Dimension::MASS;
const SPEED: Dimension = Dimension::SPEED;
const TIME: Dimension = Dimension::TIME;
const NONE: Dimension = Dimension::NONE;

/// Every unit, in the order in which people read a table of them.
// A table reads as a table: one row, three lines.
#[rustfmt::skip]
pub const UNITS: &[Unit] = &[
    metric("mm", &["mms", "millimetre", "millimetres", "millimeter", "millimeters"], LENGTH, 1e-3,
        "millimetre: diameters of line, beads and rings",
        PREFIX),
    metric("cm", &["cms", "centimetre", "centimetres", "centimeter", "centimeters"], LENGTH, 1e-2,
        "centimetre, 10 mm: tags, droppers, short sections",
        PREFIX),
    metric("m", &["metre", "metres", "meter", "meters"], LENGTH, 1.0,
        "metre, 100 cm: leaders and depths",
        BASE),
    imperial("in", &["ins", "inch", "inches", "\"", "''"], LENGTH, 0.0254,
        "inch, 25.4 mm",
        B8),
    imperial("ft", &["foot", "feet", "'"], LENGTH, 0.3048,
        "foot, 12 in: rods, depths, whole leaders; takes inches behind it, as in 3 ft 8 in",
        B8),
    imperial("yd", &["yds", "yard", "yards"], LENGTH, 0.9144,
        "yard, 3 ft: line on a spool",
        B8),
    imperial("thou", &["thous"], LENGTH, 2.54e-5,
        "a thousandth of an inch, 0.0254 mm: diameters of line",
        B8),

    metric("mg", &["milligram", "milligrams", "milligramme", "milligrammes"], MASS, 1e-6,
        "milligram, 0.001 g: rings, small beads",
        PREFIX),
    metric("g", &["gm", "gms", "gram", "grams", "gramme", "grammes"], MASS, 1e-3,
        "gram: flies and shot; where a force is wanted, its weight",
        PREFIX),
    metric("kg", &["kgs", "kilo", "kilos", "kilogram", "kilograms", "kilogramme", "kilogrammes"], MASS, 1.0,
        "kilogram; where a force is wanted, its weight, as for breaking strength",
        BASE),
    imperial("gr", &["grs", "grain", "grains"], MASS, 64.798_91e-6,
        "grain, 1/7000 lb or 64.8 mg: weights of fly lines; not the gram",
        B8),
    imperial("oz", &["ozs", "ounce", "ounces"], MASS, POUND / 16.0,
        "ounce (avoirdupois), 28.35 g; where a force is wanted, its weight",
        B8_ROUNDED),
    imperial("lb", &["lbs", "pound", "pounds"], MASS, POUND,
        "pound (avoirdupois), 16 oz; where a force is wanted, its weight, as for breaking strength",
        B8_ROUNDED),
    metric("N", &["newton", "newtons"], Dimension::FORCE, 1.0,
        "newton, the weight of 102 g",
        DERIVED),

    metric("m/s", &["mps"], SPEED, 1.0,
        "metres a second: speed of water, of a sinking fly",
        COHERENT),
    metric("cm/s", &[], SPEED, 1e-2,
        "centimetres a second",
        PREFIX),
    imperial("ft/s", &["fps"], SPEED, 0.3048,
        "feet a second, 0.305 m/s",
        B8),
    metric("km/h", &["kmh", "kmph", "kph", "km/hr", "kilometres/hour", "kilometers/hour"], SPEED, 1.0 / 3.6,
        "kilometres an hour, 0.278 m/s",
        B8_ROUNDED),
    imperial("mph", &["mi/h", "miles/hour"], SPEED, 0.447_04,
        "miles an hour, 0.447 m/s",
        B8),

    common("s", &["sec", "secs", "second", "seconds"], TIME, 1.0,
        "second",
        BASE),
    common("min", &["mins", "minute", "minutes"], TIME, 60.0,
        "minute, 60 s",
        ACCEPTED),
    common("h", &["hr", "hrs", "hour", "hours"], TIME, 3600.0,
        "hour, 60 min",
        ACCEPTED),

    metric("C", &["°c", "degc", "celsius", "centigrade"], Dimension::TEMPERATURE, 1.0,
        "degrees Celsius: temperature of the water",
        DERIVED),
    Unit {
        offset: -32.0,
        ..imperial("F", &["°f", "degf", "fahrenheit"], Dimension::TEMPERATURE, 1.0 / 1.8,
            "degrees Fahrenheit: 50 F is 10 C",
            B8)
    },

    metric("g/cm3", &["g/cc"], Dimension::DENSITY, 1e3,
        "grams in a cubic centimetre; water is 1, lead 11.3",
        B8),
    metric("kg/m3", &[], Dimension::DENSITY, 1.0,
        "kilograms in a cubic metre; water is 1000",
        COHERENT),
    metric("Pa", &["pascal", "pascals"], Dimension::STRESS, 1.0,
        "pascal, one newton on a square metre",
        DERIVED),
    metric("MPa", &["megapascal", "megapascals"], Dimension::STRESS, 1e6,
        "megapascal, one newton on a square millimetre: strength of a material",
        PREFIX),
    metric("GPa", &["gigapascal", "gigapascals"], Dimension::STRESS, 1e9,
        "gigapascal, 1000 MPa: modulus of a material",
        PREFIX),

    common("%", &["percent", "pct"], NONE, 0.01,
        "a hundredth part",
        "NIST SP 811 (2008), section 7.10.2: exact"),
    common("deg", &["degs", "degree", "degrees", "°"], NONE, PI / 180.0,
        "degree of angle, 360 to the circle",
        ACCEPTED),
    common("turns", &["turn", "wrap", "wraps"], NONE, 1.0,
        "turns of wire on a hook: a count",
        "a count, by definition 1"),
    common("wt", &["wts", "weight"], NONE, 1.0,
        "fly line weight: a size, written #5 as well; rods carry the same number",
        "a label, by definition 1"),
];

/// The factor of a row, for constants; an unknown name does not compile.
pub(crate) const fn factor(name: &str) -> f64 {
    let mut row = 0;
    while row < UNITS.len() {
        if same(UNITS[row].name.as_bytes(), name.as_bytes()) {
            return UNITS[row].factor;
        }
        row += 1;
    }
    panic!("no unit of this name in the table")
}

// `==` on strings is not there for constants yet.
const fn same(a: &[u8], b: &[u8]) -> bool {
    if a.len() != b.len() {
        return false;
    }
    let mut at = 0;
    while at < a.len() {
        if a[at] != b[at] {
            return false;
        }
        at += 1;
    }
    true
}

/// The units that a person would write for a dimension, the most usual first.
/// A force lists masses too, since they stand for their weight. Empty where no
/// unit is needed (a plain number) or none is usual.
pub fn fitting(dimension: Dimension) -> Vec<&'static str> {
    let names: &[&str] = match dimension {
        Dimension::LENGTH => &["in", "ft", "mm", "cm", "m"],
        Dimension::AREA => &["mm2", "in2"],
        Dimension::VOLUME => &["mm3", "cm3"],
        Dimension::MASS => &["g", "mg", "gr", "oz", "lb", "kg"],
        Dimension::FORCE => &["lb", "oz", "kg", "g", "N"],
        Dimension::TIME => &["s", "min", "h"],
        Dimension::SPEED => &["ft/s", "m/s", "cm/s", "mph", "km/h"],
        Dimension::TEMPERATURE => &["C", "F"],
        Dimension::DENSITY => &["g/cm3", "kg/m3"],
        Dimension::STRESS => &["MPa", "GPa"],
        Dimension::LINEAR_DENSITY => &["g/m", "gr/ft"],
        Dimension::SPEED_BY_DEPTH => &["m2/s", "ft2/s"],
        _ => &[],
    };
    names.to_vec()
}

#[cfg(test)]
mod tests;
