//! What is asked back: a word that is nearly one of the table, and values that can be read in two ways.

use super::trade::{PATTERN_WORDS, Part, TRADE};
use crate::faults::Slip;
use crate::words::fold;
use snell_finding::Code;
use snell_text::Span;
use snell_units::slips_between;

/// Shorter words are too near to too many.
const SHORTEST: usize = 4;

/// From so many letters on two slips are looked for.
const LONG: usize = 7;

/// Whether a free word is a slip of one that the line takes.
pub(super) fn check(line: &str, part: Part, span: Span) -> Result<(), Slip> {
    let word = fold(span.of(line)).replace('’', "'");
    let letters = word.chars().count();
    if letters < SHORTEST || PATTERN_WORDS.contains(&&*word) {
        return Ok(());
    }
    let most = if letters >= LONG { 2 } else { 1 };
    let known = TRADE.iter().filter(|row| part.takes(row.says)).flat_map(|row| row.written);
    let words = known.flat_map(|written| {
        // Two slips lead too far where the word is only one of several.
        let most = if written.contains(' ') { 1 } else { most };
        let least = if written.contains(' ') { SHORTEST + 1 } else { SHORTEST };
        written.split([' ', '-']).filter(move |word| word.len() >= least).map(move |word| (most, word))
    });
    let near = words
        .map(|(most, known)| (slips_between(&word, known), most, known))
        .filter(|(slips, most, known)| (1..=*most).contains(slips) && (*slips == 1 || known.len() >= LONG))
        .min_by_key(|(slips, _, _)| *slips)
        .map(|(slips, _, known)| (slips, known));
    match near {
        Some((_, near)) => Err(Slip::new(
            Code::WordNearMiss,
            span,
            format!("`{}` is nearly `{near}`, which fits here.", span.of(line)),
        )
        .help(format!("write `{near}`, or put the name in quotes"))
        .offer(format!("write `{near}`"), span, near)),
        None => Ok(()),
    }
}

/// Two values where one fits.
pub(super) fn two_readings(line: &str, first: Span, second: Span) -> Slip {
    let (one, other) = (first.of(line), second.of(line));
    Slip::new(
        Code::ReadTwoWays,
        second,
        format!("`{one}` and `{other}` say the same thing of one part."),
    )
    .help(format!("keep `{one}` or `{other}`"))
    .offer(format!("keep `{one}`"), second, "")
    .offer(format!("keep `{other}`"), first, "")
}
