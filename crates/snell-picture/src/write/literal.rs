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

/// A text without what no picture can hold.
pub(super) fn held(text: &str) -> String {
    let held = |letter: char| match letter {
        '\t' | '\n' | '\r' => ' ',
        letter if letter.is_control() || matches!(letter, '\u{fffe}' | '\u{ffff}') => '\u{fffd}',
        // Letters that turn the direction of what follows would tear labels apart.
        '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' => '\u{fffd}',
        letter => letter,
    };
    text.chars().map(held).collect()
}
