//! Quantities in words with no more digits than they are worth.

use snell_units::{Quantity, Resolved, System};

/// A written error with no more digits than an error has: one, or two where the first is a one. Only what is one
/// number and one unit is rounded.
pub fn coarse(text: &str) -> String {
    match in_one_step(text) {
        Some((number, unit)) => format!("{} {unit}", snell_units::write_number(rounded(number, number))),
        None => text.to_owned(),
    }
}

/// A written figure with one digit behind the point at most, where it is one number and one unit.
pub fn to_tenths(text: &str) -> String {
    match in_one_step(text) {
        Some((number, unit)) => format!(
            "{} {unit}",
            snell_units::write_number((number * 10.0).round() / 10.0)
        ),
        None => text.to_owned(),
    }
}

/// An estimate with no more digits than what it may be off by: `26 in` for 26.1 in within `3 in`.
pub fn within(quantity: Quantity, off: &str, system: System) -> String {
    let unit = in_one_step(off).and_then(|(off, unit)| Some((off, snell_units::resolve(unit).ok()?)));
    let rounded = match unit {
        Some((off, unit)) if unit.dimension == quantity.dimension => {
            unit.quantity(rounded(unit.number(quantity), off))
        }
        _ => quantity,
    };
    snell_units::write(rounded, system)
}

/// Two figures that an estimate lies between, told as finely as it is: `24 to 31 in`.
pub fn range(low: Quantity, high: Quantity, off: &str, system: System) -> String {
    let (low, high) = (within(low, off, system), within(high, off, system));
    if low == high {
        return low;
    }
    match (in_one_step(&low), in_one_step(&high)) {
        (Some((low, one)), Some((_, other))) if one == other => {
            format!("{} to {high}", snell_units::write_number(low))
        }
        _ => format!("{low} to {high}"),
    }
}

/// A figure in a unit that is known to within what lies between two others, and those two, all as finely as that is told.
pub fn in_unit(figure: Quantity, between: (f64, f64), unit: &Resolved) -> String {
    let number = |si| unit.number(Quantity::new(si, figure.dimension));
    let (low, high) = (number(between.0), number(between.1));
    let off = (high - low).abs() / 2.0;
    let written = |number: f64| snell_units::write_as(unit.quantity(rounded(number, off)), unit);
    let told = written(number(figure.si));
    let (low, high) = (written(low), written(high));
    if low == high {
        return told;
    }
    format!("{told} ({low} to {high})")
}

/// A number to the place of the last digit that an error of this size is told with.
fn rounded(number: f64, off: f64) -> f64 {
    if off <= 0.0 {
        return number;
    }
    let tens = off.log10().floor();
    let step = if off / 10_f64.powf(tens) < 2.0 {
        tens - 1.0
    } else {
        tens
    };
    let scale = 10_f64.powf(step);
    (number / scale).round() * scale
}

fn in_one_step(text: &str) -> Option<(f64, &str)> {
    let (number, unit) = text.split_once(' ')?;
    let number = number.parse().ok()?;
    (!unit.contains(' ')).then_some((number, unit))
}

#[cfg(test)]
mod tests {
    use super::*;
    use snell_units::Dimension;

    #[test]
    fn what_a_knot_takes_is_told_to_a_tenth() {
        assert_eq!(to_tenths("6.69 in"), "6.7 in");
        assert_eq!(to_tenths("17 cm"), "17 cm");
        assert_eq!(to_tenths("1 ft 2.25 in"), "1 ft 2.25 in");
    }

    #[test]
    fn errors_are_written_coarsely() {
        assert_eq!(coarse("2.95 in"), "3 in");
        assert_eq!(coarse("0.089 m/s"), "0.09 m/s");
        assert_eq!(coarse("14.8 cm"), "15 cm");
        assert_eq!(coarse("0 in"), "0 in");
        assert_eq!(coarse("1 ft 2 in"), "1 ft 2 in");
    }

    #[test]
    fn estimates_are_written_as_finely_as_their_errors() {
        let length = |metres, off, system| within(Quantity::new(metres, Dimension::LENGTH), off, system);
        assert_eq!(length(0.662, "3 in", System::Imperial), "26 in");
        assert_eq!(length(2.243, "30 in", System::Imperial), "7 ft 6 in");
        assert_eq!(length(0.662, "7.5 cm", System::Metric), "66 cm");
        assert_eq!(length(1.04, "30 cm", System::Metric), "1 m");
        let time = Quantity::new(1.86, Dimension::TIME);
        assert_eq!(within(time, "0.6 s", System::Metric), "1.9 s");
        assert_eq!(within(time, "10 in", System::Metric), "1.86 s");
    }

    #[test]
    fn what_an_estimate_lies_between_names_its_unit_once() {
        let told = |low, high, off, system| {
            let length = |metres| Quantity::new(metres, Dimension::LENGTH);
            range(length(low), length(high), off, system)
        };
        assert_eq!(told(0.62, 0.793, "3 in", System::Imperial), "24 to 31 in");
        assert_eq!(told(0.884, 1.213, "15 cm", System::Metric), "88 cm to 1.21 m");
        assert_eq!(told(0.884, 0.886, "2 cm", System::Metric), "88 to 89 cm");
    }

    #[test]
    fn a_figure_in_a_unit_is_as_fine_as_what_it_lies_between() {
        let inches = snell_units::resolve("in").expect("inches are a unit");
        let told = in_unit(Quantity::new(0.662, Dimension::LENGTH), (0.62, 0.793), &inches);
        assert_eq!(told, "26 in (24 in to 31 in)");
    }
}
