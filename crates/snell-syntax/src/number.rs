//! The value of a number as it was written: decimals with point or comma,
//! fractions, mixed numbers, the one-character fractions.
//!
//! It knows nothing of units.

use crate::tree::Number;
use snell_finding::Limit;
use snell_text::Span;

/// What is wrong with a quantity that the grammar took for one.
#[derive(Debug)]
pub(crate) enum Misread {
    /// More points, commas and slashes than a number can hold.
    Malformed(Span),
    /// A fraction over nothing.
    OverZero(Span),
    /// Larger than anything.
    TooLarge(Span),
    /// A spread with a third end.
    ThirdEnd(Span),
}

/// Nothing on a rig, in any unit, is counted in more than this.
const LARGEST: f64 = Limit::Number.most() as f64;

/// Reads a number that the grammar took for one.
pub(crate) fn number(written: &str, span: Span) -> Result<Number, Misread> {
    if is_malformed(written) {
        return Err(Misread::Malformed(span));
    }
    let value = value(written);
    if value.is_nan() || (value.is_infinite() && written.contains(['/', '⁄'])) {
        return Err(Misread::OverZero(span));
    }
    if value > LARGEST {
        return Err(Misread::TooLarge(span));
    }
    Ok(Number {
        value,
        span,
        doubtful: is_doubtful(written),
    })
}

/// The value of a number that is not malformed.
fn value(written: &str) -> f64 {
    if written.bytes().all(|byte| byte.is_ascii_digit() || byte == b'.') {
        return decimal(written);
    }
    if let Some((at, part)) = written.char_indices().find_map(|(at, c)| Some((at, vulgar(c)?))) {
        return decimal(spaceless(&written[..at])) + f64::from(part.0) / f64::from(part.1);
    }
    let Some((above, below)) = written.split_once(['/', '⁄']) else {
        return decimal(&written.replace(',', "."));
    };
    // What stands before the fraction is parted from it by a space or a hyphen.
    let digits = above.trim_end_matches(|c: char| c.is_ascii_digit());
    let (whole, above) = (&above[..digits.len()], &above[digits.len()..]);
    decimal(spaceless(whole)) + decimal(above) / decimal(below)
}

/// Whether more stands there than one number can hold: `1.2.3`, `1,200.5`.
pub(crate) fn is_malformed(written: &str) -> bool {
    let joints = written
        .chars()
        .filter(|c| matches!(c, '.' | ',' | '/' | '⁄'))
        .count();
    match written.char_indices().find(|(_, c)| vulgar(*c).is_some()) {
        Some((at, sign)) => joints > 0 || at + sign.len_utf8() < written.len(),
        None => joints > 1,
    }
}

/// Plain digits; none at all counts as nothing.
fn decimal(digits: &str) -> f64 {
    if digits.is_empty() {
        return 0.0;
    }
    digits
        .parse()
        .unwrap_or_else(|_| unreachable!("the grammar lets only digits through: {digits:?}"))
}

fn spaceless(whole: &str) -> &str {
    whole.trim_end_matches(|c: char| !c.is_ascii_digit())
}

/// What stands above and below the line of a number that is one fraction: 5 and 64 of `5/64`.
pub fn fraction(written: &str) -> Option<(u32, u32)> {
    let (above, below) = written.split_once(['/', '⁄'])?;
    Some((above.parse().ok()?, below.parse().ok()?))
}

/// What stands above and below the line of a fraction that is one character.
pub(crate) fn vulgar(c: char) -> Option<(u8, u8)> {
    Some(match c {
        '½' => (1, 2),
        '¼' => (1, 4),
        '¾' => (3, 4),
        '⅓' => (1, 3),
        '⅔' => (2, 3),
        '⅛' => (1, 8),
        '⅜' => (3, 8),
        '⅝' => (5, 8),
        '⅞' => (7, 8),
        _ => return None,
    })
}

/// `1,200`: some write so for 1.2, some for 1200.
pub(crate) fn is_doubtful(written: &str) -> bool {
    written.split_once(',').is_some_and(|(whole, thousandths)| {
        thousandths.len() == 3 && whole.bytes().any(|digit| digit != b'0')
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(written: &str) -> f64 {
        number(written, Span::default()).unwrap().value
    }

    #[test]
    fn every_way_to_write_a_number() {
        let cases = [
            ("44", 44.0),
            ("0.28", 0.28),
            (".22", 0.22),
            ("0,28", 0.28),
            ("½", 0.5),
            ("7½", 7.5),
            ("7 ½", 7.5),
            ("7\u{A0}⅜", 7.375),
            ("7 1/2", 7.5),
            ("7-1/2", 7.5),
            ("7 1⁄2", 7.5),
            ("5/64", 5.0 / 64.0),
            ("007", 7.0),
        ];
        for (written, value) in cases {
            assert_eq!(read(written), value, "{written}");
        }
    }

    #[test]
    fn the_comma_that_may_mean_two_things() {
        let doubtful = |written| number(written, Span::default()).unwrap().doubtful;
        assert!(doubtful("1,200") && doubtful("10,285"));
        assert!(!doubtful("0,285") && !doubtful("1,20") && !doubtful("1.200") && !doubtful("00,285"));
    }

    #[test]
    fn no_number_is_endless() {
        assert!(number(&"9".repeat(400), Span::default()).is_err());
        assert!(number("1/0", Span::default()).is_err());
        for written in ["1.2.3", "1,200.5", "1/2/3", "½5", "7 1/2.5", "½.5"] {
            assert!(number(written, Span::default()).is_err(), "{written}");
        }
        assert!(number("0/0", Span::default()).is_err());
        assert!(number("7 1/0", Span::default()).is_err());
        assert_eq!(read(&format!("0.{}", "0".repeat(400))), 0.0);
    }
}
