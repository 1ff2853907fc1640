//! Written quantities with no more digits than they are worth.
//!
//! Only what is one number and one unit is rounded; anything else stays.

/// No more digits than an error has: one, or two where the first is a one.
pub(super) fn coarse(text: &str) -> String {
    rounded(text, text)
}

/// An estimate with no more digits than what it may be off by; `26 in` for `26.1 in` within `3 in`.
pub(crate) fn within(text: &str, off: &str) -> String {
    rounded(text, off)
}

fn rounded(text: &str, off: &str) -> String {
    let (Some((number, unit)), Some((off, of))) = (in_one_step(text), in_one_step(off)) else {
        return text.to_owned();
    };
    if unit != of || off <= 0.0 {
        return text.to_owned();
    }
    let tens = off.log10().floor();
    let step = if off / 10_f64.powf(tens) < 2.0 {
        tens - 1.0
    } else {
        tens
    };
    let scale = 10_f64.powf(step);
    format!("{} {unit}", units::write_number((number / scale).round() * scale))
}

fn in_one_step(text: &str) -> Option<(f64, &str)> {
    let (number, unit) = text.split_once(' ')?;
    let number = number.parse().ok()?;
    (!unit.contains(' ')).then_some((number, unit))
}

#[cfg(test)]
mod tests {
    use super::*;

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
        assert_eq!(within("26.1 in", "3 in"), "26 in");
        assert_eq!(within("41.3 in", "12 in"), "41 in");
        assert_eq!(within("1.86 s", "0.6 s"), "1.9 s");
        assert_eq!(within("88 cm", "0.07 m"), "88 cm");
        assert_eq!(within("4 ft 2 in", "3 in"), "4 ft 2 in");
    }
}
