//! What carries the cast, in words.

use super::shown::{ShownCast, ShownCastBy};
use snell_rig::Evaluation;
use snell_rig::measure::{CastBy, casting};
use snell_units::{Dimension, Quantity, System};

/// What carries the cast of a rig; nothing where a mass is not known.
pub(super) fn shown(evaluation: &Evaluation<'_, '_>) -> Option<ShownCast> {
    let casting = casting(evaluation).ok()?;
    let (flies, line) = (grams(casting.flies), grams(casting.line));
    let together = grams(casting.flies + casting.line);
    let all = format!("of the {} that is out", grams(casting.all));
    let (by, text) = match casting.by {
        CastBy::Flies => (ShownCastBy::Flies, format!("the flies carry it: {flies} {all}")),
        CastBy::Line => (ShownCastBy::Line, format!("the line carries it: {line} {all}")),
        CastBy::Both => (
            ShownCastBy::Both,
            format!("flies and line carry it together: {together} {all}"),
        ),
        // What to change: common practice, no source.
        CastBy::Neither => (
            ShownCastBy::Neither,
            format!(
                "nothing heavy carries it: flies and line are {together} {all}; a heavier point, a thinner or shorter \
                 leader, or line out beyond the tip helps"
            ),
        ),
    };
    Some(ShownCast {
        by,
        flies: casting.flies,
        line: casting.line,
        all: casting.all,
        text,
    })
}

/// A mass to two digits: no more is known of what is estimated.
fn grams(kilograms: f64) -> String {
    let step = 10_f64.powf(kilograms.max(1e-9).log10().floor() - 1.0);
    let rounded = (kilograms / step).round() * step;
    snell_units::write(Quantity::new(rounded, Dimension::MASS), System::Metric)
}
