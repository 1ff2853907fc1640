//! Rulers: the steps that people count in, and the scale bar.

use crate::labels::run;
use crate::medium::Medium;
use crate::scene::{Item, Line, LineRole, Point, Side, Stands, TextRole, at};
use snell_units::{Dimension, Quantity, System};

const INCH: f64 = 0.0254;
const FOOT: f64 = 0.3048;

/// Steps of a ruler in metres, each with how it is written.
const METRIC: &[f64] = &[
    0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0,
];
const IMPERIAL: &[f64] = &[
    INCH,
    2.0 * INCH,
    6.0 * INCH,
    FOOT,
    2.0 * FOOT,
    5.0 * FOOT,
    10.0 * FOOT,
    20.0 * FOOT,
    50.0 * FOOT,
    100.0 * FOOT,
];

/// The smallest step of a system that is drawn at least `least` long, in metres.
pub(crate) fn step(system: System, metre: f64, least: f64) -> f64 {
    let steps = match system {
        System::Metric => METRIC,
        System::Imperial => IMPERIAL,
    };
    let fits = steps.iter().copied().find(|step| step * metre >= least);
    fits.unwrap_or_else(|| steps[steps.len() - 1] * (least / metre / steps[steps.len() - 1]).ceil().max(1.0))
}

/// A length as a ruler of that step writes it.
fn written(metres: f64, step: f64, system: System) -> String {
    let length = Quantity::new(metres, Dimension::LENGTH);
    let unit = if step >= FOOT { "ft" } else { "in" };
    match snell_units::resolve(unit) {
        Ok(unit) if system == System::Imperial => snell_units::write_as(length, &unit),
        _ => snell_units::write(length, system),
    }
}

/// The figure beside a tick of a ruler, counted from its nought.
pub(crate) fn figure(index: usize, step: f64, system: System) -> String {
    if index == 0 {
        "0".to_owned()
    } else {
        written(index as f64 * step, step, system)
    }
}

/// A ruler upright at `x`, counting up from nought at `low` to `high`, its figures to the left of it.
pub(crate) fn upright(
    medium: Medium,
    system: System,
    metre: f64,
    x: f64,
    (low, high): (f64, f64),
) -> Vec<Item> {
    /// How far apart its figures are at least, and how long its ticks are.
    const LEAST: f64 = 34.0;
    const TICK: f64 = 5.0;
    let step = step(system, metre, LEAST);
    let line = |points| Line::even(LineRole::Ruler, points, 0.8);
    let mut items = vec![line(vec![at(x, high), at(x, low)]).into()];
    let count = ((low - high) / (step * metre) + 1e-6).floor() as usize;
    for index in 0..=count {
        let y = low - index as f64 * step * metre;
        items.push(line(vec![at(x - TICK, y), at(x, y)]).into());
        let runs = vec![run(TextRole::Tick, figure(index, step, system))];
        items.push(medium.text(runs, (x - TICK - 2.0, y), Side::Ends).into());
    }
    items
}

/// A bar of a scale of that name that begins at `from`, with its length behind it; and where that ends.
pub(crate) fn bar(
    (medium, system): (Medium, System),
    name: &str,
    metre: f64,
    from: Point,
    least: f64,
) -> ([Item; 2], f64) {
    let step = step(system, metre, least);
    let figure = written(step, step, system);
    let to = from.x + step * metre;
    let gap = if medium.is_cells() { 2.0 } else { 7.0 };
    let bar = Line {
        role: LineRole::Bar,
        points: vec![from, at(to, from.y)],
        thick: (2.0, 2.0),
        colours: Vec::new(),
        stands: Some(Stands {
            name: name.to_owned(),
            metres: step,
            told: format!("the bar is {figure}"),
        }),
    };
    let runs = vec![run(TextRole::Tick, figure)];
    let told = medium.text(runs, (to + gap, from.y), Side::Begins);
    let end = told.bounds().to.x;
    ([bar.into(), told.into()], end)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn steps_are_those_that_people_count_in() {
        assert_eq!(step(System::Imperial, 130.0, 34.0), FOOT);
        assert_eq!(step(System::Metric, 130.0, 34.0), 0.5);
        assert_eq!(step(System::Metric, 0.001, 34.0), 34000.0);
        assert_eq!(written(1.5 * FOOT, INCH, System::Imperial), "18 in");
    }
}
