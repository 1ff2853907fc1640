//! Which unit a quantity of some size is written in, and how finely.
//!
//! A ladder has the small units first; a quantity climbs until a rung holds
//! it. That choice is taste, as a person would write it: diameters in mm,
//! tags in cm, leaders in m. No text is made here.

use crate::dimension::Dimension;
use crate::quantity::System;
use crate::table::factor;

/// One step of a ladder.
#[derive(Clone, Copy)]
pub(crate) struct Rung {
    /// Plain spelling of the unit.
    pub unit: &'static str,
    /// SI units in one of it.
    pub factor: f64,
    /// Numbers from here up belong on the next rung.
    pub below: f64,
    /// How finely the number is written.
    pub fineness: Fineness,
}

/// How many digits a number gets.
#[derive(Clone, Copy)]
pub(crate) enum Fineness {
    /// At most so many decimals.
    Decimals(usize),
    /// As many as any plain number gets.
    Plain,
}

use Fineness::{Decimals, Plain};

const fn rung(unit: &'static str, factor: f64, below: f64, fineness: Fineness) -> Rung {
    Rung {
        unit,
        factor,
        below,
        fineness,
    }
}

/// A rung in a unit of the table.
const fn row(unit: &'static str, below: f64, fineness: Fineness) -> Rung {
    rung(unit, factor(unit), below, fineness)
}

const MM: f64 = factor("mm");
const CM: f64 = factor("cm");
const IN: f64 = factor("in");
const FT: f64 = factor("ft");
const TOP: f64 = f64::INFINITY;

const LENGTH_METRIC: &[Rung] = &[
    row("mm", 10.0, Decimals(3)),
    row("cm", 100.0, Decimals(1)),
    row("m", TOP, Decimals(2)),
];
/// Beads and the thickness of line are sold in millimetres everywhere.
const LENGTH_IMPERIAL: &[Rung] = &[
    row("mm", 5.0, Decimals(3)),
    row("in", 10.0, Decimals(2)),
    row("in", 72.0, Decimals(1)),
];
const AREA_METRIC: &[Rung] = &[rung("mm2", MM * MM, 1e4, Plain), rung("m2", 1.0, TOP, Plain)];
const AREA_IMPERIAL: &[Rung] = &[
    rung("mm2", MM * MM, 25.0, Plain),
    rung("in2", IN * IN, 144.0, Plain),
    rung("ft2", FT * FT, TOP, Plain),
];
const VOLUME_METRIC: &[Rung] = &[
    rung("mm3", MM * MM * MM, 1e3, Plain),
    rung("cm3", CM * CM * CM, 1e6, Plain),
    rung("m3", 1.0, TOP, Plain),
];
const VOLUME_IMPERIAL: &[Rung] = &[rung("in3", IN * IN * IN, TOP, Plain)];
const MASS_METRIC: &[Rung] = &[
    row("mg", 10.0, Decimals(2)),
    row("g", 10.0, Decimals(3)),
    row("g", 1e3, Decimals(1)),
    row("kg", TOP, Decimals(2)),
];
/// Flies, shot and leaders are weighed in grams everywhere.
const MASS_IMPERIAL: &[Rung] = &[
    row("mg", 10.0, Decimals(2)),
    row("g", 10.0, Decimals(3)),
    row("g", 28.0, Decimals(1)),
    row("oz", 16.0, Decimals(2)),
    row("lb", TOP, Decimals(2)),
];
const SPEED_METRIC: &[Rung] = &[row("m/s", 0.1, Decimals(3)), row("m/s", TOP, Decimals(2))];
const SPEED_IMPERIAL: &[Rung] = &[row("ft/s", 0.1, Decimals(3)), row("ft/s", TOP, Decimals(2))];
const TIME: &[Rung] = &[
    row("s", 10.0, Decimals(2)),
    row("s", 120.0, Decimals(1)),
    row("min", TOP, Decimals(1)),
];
const DENSITY: &[Rung] = &[row("g/cm3", TOP, Decimals(3))];
const STRESS: &[Rung] = &[
    row("Pa", 1e4, Plain),
    row("MPa", 10.0, Decimals(2)),
    row("MPa", 1e3, Decimals(0)),
    row("GPa", TOP, Decimals(2)),
];
const LINEAR_DENSITY: &[Rung] = &[rung("g/m", factor("g"), TOP, Plain)];
const SPEED_BY_DEPTH_METRIC: &[Rung] = &[rung("m2/s", 1.0, TOP, Decimals(2))];
const SPEED_BY_DEPTH_IMPERIAL: &[Rung] = &[rung("ft2/s", FT * FT, TOP, Decimals(2))];

/// The mass whose weight a force is, as the trade writes breaking strength;
/// its SI number is the force over standard gravity.
const WEIGHT_METRIC: &[Rung] = &[
    row("g", 1.0, Decimals(3)),
    row("g", 100.0, Decimals(1)),
    row("kg", TOP, Decimals(2)),
];
const WEIGHT_IMPERIAL: &[Rung] = &[
    row("g", 1.0, Decimals(3)),
    row("g", 28.0, Decimals(1)),
    row("oz", 8.0, Decimals(1)),
    row("lb", TOP, Decimals(2)),
];

/// The ladder of a dimension; empty if it is not written by size. Inches end
/// where feet and inches begin; every other ladder holds all that is finite.
pub(crate) fn ladder(dimension: Dimension, system: System) -> &'static [Rung] {
    match (dimension, system) {
        (Dimension::LENGTH, System::Metric) => LENGTH_METRIC,
        (Dimension::LENGTH, System::Imperial) => LENGTH_IMPERIAL,
        (Dimension::AREA, System::Metric) => AREA_METRIC,
        (Dimension::AREA, System::Imperial) => AREA_IMPERIAL,
        (Dimension::VOLUME, System::Metric) => VOLUME_METRIC,
        (Dimension::VOLUME, System::Imperial) => VOLUME_IMPERIAL,
        (Dimension::MASS, System::Metric) => MASS_METRIC,
        (Dimension::MASS, System::Imperial) => MASS_IMPERIAL,
        (Dimension::FORCE, System::Metric) => WEIGHT_METRIC,
        (Dimension::FORCE, System::Imperial) => WEIGHT_IMPERIAL,
        (Dimension::SPEED, System::Metric) => SPEED_METRIC,
        (Dimension::SPEED, System::Imperial) => SPEED_IMPERIAL,
        (Dimension::SPEED_BY_DEPTH, System::Metric) => SPEED_BY_DEPTH_METRIC,
        (Dimension::SPEED_BY_DEPTH, System::Imperial) => SPEED_BY_DEPTH_IMPERIAL,
        (Dimension::TIME, _) => TIME,
        (Dimension::DENSITY, _) => DENSITY,
        (Dimension::STRESS, _) => STRESS,
        (Dimension::LINEAR_DENSITY, _) => LINEAR_DENSITY,
        _ => &[],
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::resolve;

    const DIMENSIONS: [Dimension; 11] = [
        Dimension::LENGTH,
        Dimension::AREA,
        Dimension::VOLUME,
        Dimension::MASS,
        Dimension::FORCE,
        Dimension::TIME,
        Dimension::SPEED,
        Dimension::DENSITY,
        Dimension::STRESS,
        Dimension::LINEAR_DENSITY,
        Dimension::SPEED_BY_DEPTH,
    ];

    #[test]
    fn rungs_mean_what_their_units_mean() {
        for dimension in DIMENSIONS {
            for rung in [System::Metric, System::Imperial]
                .map(|system| ladder(dimension, system))
                .concat()
            {
                let unit = resolve(rung.unit).unwrap();
                let written = if dimension == Dimension::FORCE {
                    Dimension::MASS
                } else {
                    dimension
                };
                assert_eq!((unit.dimension, &*unit.plain), (written, rung.unit));
                assert!((unit.factor / rung.factor - 1.0).abs() < 1e-15, "{}", rung.unit);
            }
        }
    }

    #[test]
    fn each_rung_begins_where_the_last_one_ends() {
        for dimension in DIMENSIONS {
            for system in [System::Metric, System::Imperial] {
                let ends = ladder(dimension, system)
                    .iter()
                    .map(|rung| rung.below * rung.factor);
                assert!(ends.is_sorted(), "{} {system:?}", dimension.name());
            }
        }
    }
}
