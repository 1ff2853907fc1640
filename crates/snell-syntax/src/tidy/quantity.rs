//! Quantities in their plain form: digits with a point, units in words, a
//! space between.
//!
//! The number stays the one that was written; nothing is converted.

use crate::tree::{Number, Single, SingleKind, Unit};

/// One quantity.
pub(super) fn single(written: &str, single: &Single) -> String {
    let number = |value: &Number| number(written, value);
    match &single.kind {
        SingleKind::Feet(feet, inches) => format!("{} ft {} in", number(feet), number(inches)),
        SingleKind::Pounds(pounds, ounces) => format!("{} lb {} oz", number(pounds), number(ounces)),
        SingleKind::X(value) => format!("{}X", number(value)),
        SingleKind::Size(_) => single.span.of(written).to_owned(),
        SingleKind::Day => plain_day(single.span.of(written)),
        SingleKind::Number(value, None) => number(value),
        SingleKind::Number(value, Some(word)) => format!("{} {}", number(value), unit(written, word)),
    }
}

/// Two quantities with `to` or a dash between them, as it was written.
pub(super) fn spread(written: &str, low: &Single, high: &Single) -> String {
    let between = &written[low.span.end as usize..high.span.start as usize];
    let dashed = !between.to_ascii_lowercase().contains("to");
    let low = single(written, low);
    let plain = single(written, high);
    if !dashed {
        return format!("{low} to {plain}");
    }
    // `2-½` must not become `2-1/2`, which is two and a half.
    if low.bytes().all(|byte| byte.is_ascii_digit()) && begins_with_fraction(&plain) {
        return format!("{low}-{}", high.span.of(written));
    }
    format!("{low}-{plain}")
}

/// A day with plain dashes.
pub(super) fn plain_day(written: &str) -> String {
    let plain = |letter: char| if letter.is_ascii_digit() { letter } else { '-' };
    written.chars().map(plain).collect()
}

fn begins_with_fraction(plain: &str) -> bool {
    plain
        .trim_start_matches(|c: char| c.is_ascii_digit())
        .starts_with('/')
}

fn unit(written: &str, unit: &Unit) -> String {
    match snell_units::resolve(&unit.plain) {
        Ok(resolved) => resolved.plain.into_owned(),
        Err(_) => unit.span.of(written).to_owned(),
    }
}

fn number(written: &str, number: &Number) -> String {
    let digits = number.span.of(written);
    // Which of two numbers is meant is for the writer to say.
    if number.doubtful {
        return digits.to_owned();
    }
    let mut plain = String::with_capacity(digits.len() + 3);
    for c in digits.chars() {
        match c {
            ',' => plain.push('.'),
            '⁄' => plain.push('/'),
            c if c.is_ascii() && c != ' ' && c != '\t' => plain.push(c),
            c => {
                if !plain.is_empty() && !plain.ends_with(' ') {
                    plain.push(' ');
                }
                plain.push_str(vulgar(c));
            }
        }
    }
    if plain.starts_with('.') {
        plain.insert(0, '0');
    }
    plain
}

fn vulgar(c: char) -> &'static str {
    match c {
        '½' => "1/2",
        '¼' => "1/4",
        '¾' => "3/4",
        '⅓' => "1/3",
        '⅔' => "2/3",
        '⅛' => "1/8",
        '⅜' => "3/8",
        '⅝' => "5/8",
        '⅞' => "7/8",
        _ => "",
    }
}
