//! Numbers and texts as a picture can hold them.

/// To a hundredth, without trailing noughts.
pub(super) fn number(value: f64) -> String {
    let text = format!("{value:.2}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" {
        "0".to_owned()
    } else {
        text.to_owned()
    }
}

/// Units whose figure stands raised in print.
const RAISED: [(&str, &str); 4] = [
    ("m2/s", "m²/s"),
    ("ft2/s", "ft²/s"),
    ("g/cm3", "g/cm³"),
    ("kg/m3", "kg/m³"),
];

/// A text without what no picture can hold, with raised figures.
pub(super) fn held(text: &str) -> String {
    let held = |letter: char| match letter {
        '\t' | '\n' | '\r' => ' ',
        letter if letter.is_control() || matches!(letter, '\u{fffe}' | '\u{ffff}') => '\u{fffd}',
        // Letters that turn the direction of what follows would tear labels apart.
        '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' => '\u{fffd}',
        letter => letter,
    };
    let held: String = text.chars().map(held).collect();
    RAISED
        .iter()
        .fold(held, |held, (plain, raised)| held.replace(plain, raised))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_of_units_are_raised() {
        assert_eq!(held("over 0.7 m2/s, 7.5 ft2/s"), "over 0.7 m²/s, 7.5 ft²/s");
        assert_eq!(held("tippet 2 m"), "tippet 2 m");
    }
}
