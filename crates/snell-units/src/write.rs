//! Quantities as a person writes them: `15 ft 10.5 in`, `0.127 mm`, `1.8 kg`.
//!
//! Text made here is read by people and put into rig files by fixes, so it is
//! always plain: a full stop for decimals, no grouping, no trailing zeros. How
//! it was written at first is not known; [`write_as`] is for callers who know.

use crate::dimension::Dimension;
use crate::ladder::{Fineness, Rung, ladder};
use crate::quantity::{Quantity, STANDARD_GRAVITY, System};
use crate::resolve::{Resolved, resolve};
use crate::table::factor;

/// Writes a quantity in the unit that suits its size. A force is written as
/// the mass whose weight it is, as on spools. What is not finite, or has no
/// usual unit, is written in SI.
pub fn write(quantity: Quantity, system: System) -> String {
    let Quantity { si, dimension } = quantity;
    if dimension == Dimension::TEMPERATURE {
        let unit = match system {
            System::Metric => "C",
            System::Imperial => "F",
        };
        return resolve(unit).map_or_else(|_| in_si(quantity), |unit| write_as(quantity, &unit));
    }
    let si = if dimension == Dimension::FORCE {
        si / STANDARD_GRAVITY
    } else {
        si
    };
    let rungs = ladder(dimension, system);
    for rung in rungs {
        let number = si / rung.factor;
        let places = match rung.fineness {
            Fineness::Decimals(places) => places,
            Fineness::Plain => decimals_for(number.abs(), SIGNIFICANT),
        };
        // Judged by what will be read: 9.9996 mm is 1 cm, not 10 mm.
        if rounded(number, places).abs() < rung.below {
            let text = match rung.fineness {
                Fineness::Decimals(places) if number.abs() < LARGEST => decimals(number, places),
                Fineness::Decimals(_) | Fineness::Plain => write_number(number),
            };
            // Nothing at all is said in the unit that its neighbours have.
            let none = text == "0" && dimension == Dimension::LENGTH && system == System::Imperial;
            return with_unit(text, if none { "in" } else { rung.unit });
        }
    }
    if dimension == Dimension::LENGTH && system == System::Imperial && si.is_finite() {
        return feet_and_inches(si);
    }
    in_si(quantity)
}

/// Writes a quantity in one given unit: `20 in`, `80 %`. A force is written in
/// a unit of mass as the mass whose weight it is; any other mismatch of
/// dimensions is written in SI.
pub fn write_as(quantity: Quantity, unit: &Resolved) -> String {
    let weight = quantity.dimension == Dimension::FORCE && unit.dimension == Dimension::MASS;
    if quantity.dimension != unit.dimension && !weight {
        return in_si(quantity);
    }
    let si = if weight {
        quantity.si / STANDARD_GRAVITY
    } else {
        quantity.si
    };
    let number = unit.number(Quantity::new(si, unit.dimension));
    with_unit(at_hand(number, quantity.dimension, &unit.plain), &unit.plain)
}

/// Writes a plain number with four significant digits at most; whole parts are
/// kept in full. Only what is huge or tiny gets an exponent (`1.5e-7`).
pub fn write_number(number: f64) -> String {
    if number.is_nan() {
        return "not a number".to_owned();
    }
    if number.is_infinite() {
        return if number > 0.0 { "infinite" } else { "-infinite" }.to_owned();
    }
    let size = number.abs();
    if size != 0.0 && !(SMALLEST..LARGEST).contains(&size) {
        let text = format!("{number:.3e}");
        return match text.split_once('e') {
            Some((mantissa, exponent)) => format!("{}e{exponent}", trimmed(mantissa)),
            None => text,
        };
    }
    decimals(number, decimals_for(size, SIGNIFICANT))
}

/// Sizes outside these are easier to read with an exponent.
const SMALLEST: f64 = 1e-6;
const LARGEST: f64 = 1e15;
const SIGNIFICANT: i32 = 4;

fn in_si(quantity: Quantity) -> String {
    with_unit(write_number(quantity.si), &quantity.dimension.si_unit())
}

fn with_unit(number: String, unit: &str) -> String {
    if unit.is_empty() {
        number
    } else {
        format!("{number} {unit}")
    }
}

/// A number in a unit that somebody chose: as finely as the ladder has it for
/// this size, but with two digits at least, for the unit may not suit it.
fn at_hand(number: f64, dimension: Dimension, unit: &str) -> String {
    let size = number.abs();
    if dimension == Dimension::TEMPERATURE && size < LARGEST {
        return decimals(number, 1);
    }
    let usual = [System::Metric, System::Imperial]
        .into_iter()
        .flat_map(|system| ladder(dimension, system))
        .find(|rung| rung.unit == unit && size < rung.below);
    match usual.map(|Rung { fineness, .. }| *fineness) {
        // Less than this is what is left of a sum that came to nothing.
        Some(Fineness::Decimals(usual)) if size < SMALLEST => decimals(number, usual),
        Some(Fineness::Decimals(usual)) if size < LARGEST => {
            decimals(number, decimals_for(size, 2).max(usual))
        }
        _ => write_number(number),
    }
}

/// Halves go away from zero, as people round; huge numbers stay as they are.
fn rounded(number: f64, places: usize) -> f64 {
    let scale = 10_f64.powi(places as i32);
    let rounded = (number * scale).round() / scale;
    if rounded.is_finite() { rounded } else { number }
}

/// How many decimals show so many significant digits of a number of this size.
fn decimals_for(size: f64, digits: i32) -> usize {
    if size == 0.0 || !size.is_finite() {
        return 0;
    }
    let places = digits - 1 - size.log10().floor() as i32;
    // Past this a double has no digits left to show.
    places.clamp(0, 17) as usize
}

fn decimals(number: f64, places: usize) -> String {
    let text = format!("{:.places$}", rounded(number, places));
    match trimmed(&text) {
        "-0" => "0".to_owned(),
        trimmed => trimmed.to_owned(),
    }
}

fn trimmed(text: &str) -> &str {
    if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.')
    } else {
        text
    }
}

/// Tenths of an inch in a foot.
const TENTHS_A_FOOT: f64 = 120.0;

fn feet_and_inches(metres: f64) -> String {
    // Tenths of an inch are counted whole, so that 11.96 in carries to a foot.
    let tenths = (metres.abs() / factor("in") * 10.0).round();
    if tenths >= LARGEST {
        return with_unit(write_number(metres / factor("ft")), "ft");
    }
    let feet = (tenths / TENTHS_A_FOOT).floor();
    let inches = (tenths - feet * TENTHS_A_FOOT) / 10.0;
    let sign = if metres < 0.0 { "-" } else { "" };
    if inches == 0.0 {
        return format!("{sign}{} ft", decimals(feet, 0));
    }
    format!("{sign}{} ft {} in", decimals(feet, 0), decimals(inches, 1))
}

#[cfg(test)]
mod tests;
