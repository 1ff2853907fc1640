//! Lengths solved for: where a figure reaches what is wanted of it, and what a
//! person would cut.
//!
//! Mends and fits share it. What the figure is, is not known here.

use snell_units::System;

/// What a person cuts to, in metres: half an inch, a centimetre.
const HALF_INCH: f64 = 0.0127;
const CENTIMETRE: f64 = 0.01;

/// Steps of the secant; lengths enter measures in straight lines, so two are the rule.
const STEPS: usize = 6;

/// No piece is cut longer than this, in metres; a figure that hardly hangs on a length would send the secant beyond.
const LONGEST: f64 = 150.0;

/// What a person cuts to in a system of units, in metres.
pub(crate) const fn cut(system: System) -> f64 {
    match system {
        System::Imperial => HALF_INCH,
        System::Metric => CENTIMETRE,
    }
}

/// The lengths that a person would cut for an exact one: the nearest, then that on its other side.
pub(crate) fn cuts(exact: f64, system: System) -> impl Iterator<Item = f64> {
    let step = cut(system);
    let steps = exact / step;
    let nearest = steps.round();
    let other = if nearest > steps {
        steps.floor()
    } else {
        steps.ceil()
    };
    std::iter::once(nearest)
        .chain((other != nearest).then_some(other))
        .map(move |steps| steps * step)
        .filter(|length| *length > 0.0)
}

/// The length at which `off` comes to nothing, by the secant from a length that is near; nothing where it does
/// not hang on the length, or cannot be told.
pub(crate) fn root(near: f64, off: impl Fn(f64) -> Option<f64>) -> Option<f64> {
    let (mut a, mut b) = (near, near * 1.05 + 1e-3);
    let (mut fa, mut fb) = (off(a)?, off(b)?);
    for _ in 0..STEPS {
        if fb.abs() < 1e-9 {
            break;
        }
        let slope = (fb - fa) / (b - a);
        // A length on which the figure does not hang mends nothing.
        if !slope.is_finite() || slope.abs() < 1e-9 {
            return None;
        }
        (a, fa) = (b, fb);
        b -= fb / slope;
        if b.abs() > LONGEST {
            return None;
        }
        fb = off(b)?;
    }
    (b.is_finite() && b > 0.0 && fb.abs() < 1e-6).then_some(b)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_straight_line_is_solved_and_a_level_one_is_not() {
        let found = root(0.5, |length| Some(2.0 * length - 3.0)).expect("it crosses nothing");
        assert!((found - 1.5).abs() < 1e-9);
        assert_eq!(root(0.5, |_| Some(1.0)), None);
        assert_eq!(
            root(0.5, |length| Some(length + 1.0)),
            None,
            "no length is negative"
        );
        let hardly = |length: f64| {
            assert!(length < 200.0, "{length} m is tried");
            Some(1e-6 * length - 1.0)
        };
        assert_eq!(root(0.5, hardly), None, "a thousand kilometres are no tag");
    }

    #[test]
    fn what_a_person_cuts() {
        let inches: Vec<f64> = cuts(0.5, System::Imperial).map(|si| si / 0.0254).collect();
        assert!((inches[0] - 19.5).abs() < 1e-9 && (inches[1] - 20.0).abs() < 1e-9);
        assert!(cuts(0.004, System::Metric).all(|length| length > 0.0));
    }
}
