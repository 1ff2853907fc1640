//! A quantity as it is written, told in both systems of units.
//!
//! What it is of is not known here.

use snell_syntax::{Single, SingleKind};
use snell_units::{Quantity, Resolved, System};

/// A written quantity in both systems.
pub(super) fn both(singles: &[&Single]) -> Option<String> {
    let last = singles.last()?;
    let mut told = Vec::new();
    for single in singles {
        told.push(match (&single.kind, &last.kind) {
            // `2 to 3 ft`: a bare end takes the other's unit.
            (SingleKind::Number(number, own), SingleKind::Number(_, Some(other))) => {
                let unit = own.as_ref().unwrap_or(other);
                let unit = snell_units::resolve(&unit.plain).ok()?;
                (unit.quantity(number.value), Some(unit))
            }
            _ => (of_single(single)?, None),
        });
    }
    // In its own system a quantity keeps the unit that it was written in.
    let one = |(quantity, unit): &(Quantity, Option<Resolved>), system| match unit {
        Some(unit) if unit.system == Some(system) => snell_units::write_as(*quantity, unit),
        _ => snell_units::write(*quantity, system),
    };
    let written = |system| {
        let each: Vec<String> = told.iter().map(|of| one(of, system)).collect();
        each.join(" to ")
    };
    let (metric, imperial) = (written(System::Metric), written(System::Imperial));
    Some(if metric == imperial {
        format!("**{metric}**")
    } else {
        format!("**{metric}** ({imperial})")
    })
}

fn of_single(single: &Single) -> Option<Quantity> {
    let resolved = |unit: &str, number: f64| Some(snell_units::resolve(unit).ok()?.quantity(number));
    match &single.kind {
        SingleKind::Feet(feet, inches) => resolved("in", feet.value * 12.0 + inches.value),
        SingleKind::Pounds(pounds, ounces) => resolved("oz", pounds.value * 16.0 + ounces.value),
        SingleKind::X(number) => Some(Quantity::new(
            snell_units::diameter_of_x(number.value)?,
            snell_units::Dimension::LENGTH,
        )),
        SingleKind::Number(number, Some(unit)) => resolved(&unit.plain, number.value),
        SingleKind::Size(_) | SingleKind::Day | SingleKind::Number(_, None) => None,
    }
}
