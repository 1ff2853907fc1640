//! What is asked back: a word that is nearly one of the table, and values that can be read in two ways.

use super::phrases::{Says, TRADE};
use super::trade::{
    ABBREVIATIONS, FLOAT_WORDS, KEYS, METHODS, PATTERN_WORDS, Part, REEL_WORDS, SHADES, WATER_WORDS,
};
use crate::faults::Slip;
use crate::vocabulary::{BlockKind, OwnKey};
use crate::words::fold;
use snell_finding::Code;
use snell_text::Span;
use snell_units::{in_order, is_one_slip, slips_between};
use std::sync::LazyLock;

/// Shorter words are too near to too many; beside the words of a piece of line there are few.
const fn shortest(part: Part) -> usize {
    match part {
        Part::Piece | Part::Line | Part::Water | Part::Bed | Part::Rod | Part::Swivel | Part::Ring => 3,
        Part::Dropper
        | Part::Fly
        | Part::Float
        | Part::Shot
        | Part::Knot
        | Part::Method
        | Part::Note
        | Part::Catch
        | Part::Day
        | Part::Outing => 4,
    }
}

/// Words that are themselves, and no slips of words that look like them.
#[rustfmt::skip]
const ORDINARY: &[&str] = &[
    "a", "along", "an", "back", "bank", "best", "bigger", "bit", "both", "can", "clean", "cold", "cover", "day", "did", "done", "drag", "edge", "end", "faded", "floated",
    "good", "hand", "here", "hold", "just", "keep", "know", "last", "later", "left", "life", "like", "long", "made", "might", "most", "much", "must", "neither", "nice", "night",
    "off", "old", "once", "one", "only", "onto", "out", "over", "own", "pick", "range", "reach", "rest", "right", "rough", "shop", "shore", "short", "show", "sitting",
    "slack", "some", "steady", "tackle", "tags", "than", "that", "there", "thicker", "thing", "thinner", "this", "till", "time", "times", "told", "took", "top", "tried", "trusty",
    "two", "weather", "well", "were", "while", "wide", "wife", "windy", "with", "worse",
];

/// The shortest word of the table that another may be a slip of.
const SHORTEST: usize = 4;

/// From so many letters on two slips are looked for.
const LONG: usize = 7;

/// Whether a free word is a slip of one that the line takes.
pub(super) fn check(line: &str, part: Part, span: Span) -> Result<(), Slip> {
    let word = fold(span.of(line)).replace('’', "'");
    let letters = word.chars().count();
    if PATTERN_WORDS.contains(&&*word) || ORDINARY.contains(&&*word) {
        return Ok(());
    }
    if letters < shortest(part) {
        return turned_about(line, part, span, &word);
    }
    if part.is_fly() {
        check_compound(line, span, &word)?;
    }
    let most = if letters >= LONG { 2 } else { 1 };
    let least = shortest(part);
    let words = WORDS.iter().filter(|word| part.takes(word.says));
    let words = words.filter_map(|word| match word.is_alone {
        true => (word.written.len() >= least).then_some((most, word.written)),
        // Two slips lead too far where the word is only one of several.
        false => (word.written.len() > SHORTEST).then_some((1, word.written)),
    });
    let names: &[&str] = match part {
        Part::Water | Part::Bed => WATER_WORDS,
        Part::Line => REEL_WORDS,
        Part::Float => FLOAT_WORDS,
        Part::Dropper | Part::Fly => PATTERN_WORDS,
        Part::Piece
        | Part::Ring
        | Part::Swivel
        | Part::Shot
        | Part::Knot
        | Part::Method
        | Part::Rod
        | Part::Note
        | Part::Catch
        | Part::Day
        | Part::Outing => &[],
    };
    if names.contains(&&*word) {
        return Ok(());
    }
    let patterns = names.iter().filter(|known| known.len() > SHORTEST);
    let near = |(most, known)| Some((slips_between(&word, known, most)?, known));
    let patterns = patterns.filter_map(|known| near((most, *known)));
    let near = words
        .filter_map(near)
        .chain(patterns.filter(|(_, known)| !is_ended(&word, known)))
        .filter(|(slips, known)| *slips == 1 || *slips == 2 && known.len() >= LONG)
        .min_by_key(|(slips, _)| *slips);
    match near {
        Some((_, near)) => Err(near_miss(line, span, near)),
        None => Ok(()),
    }
}

/// A word of the table, by itself or one of several.
#[derive(PartialEq)]
struct OfTrade {
    says: Says,
    written: &'static str,
    is_alone: bool,
}

/// All words of the table that others may be slips of, each once.
static WORDS: LazyLock<Vec<OfTrade>> = LazyLock::new(|| {
    let mut words = Vec::new();
    for row in TRADE
        .iter()
        .filter(|row| !matches!(row.says, Says::OfWater | Says::OfReel))
    {
        for phrase in row.written {
            words.extend(phrase.split([' ', '-']).map(|written| OfTrade {
                says: row.says,
                written,
                is_alone: !phrase.contains(' '),
            }));
        }
    }
    once(words)
});

/// The words that methods are called by, each once.
static OF_METHODS: LazyLock<Vec<&str>> = LazyLock::new(|| {
    let phrases = METHODS
        .iter()
        .flat_map(|(method, written)| std::iter::once(method).chain(*written));
    once(phrases.flat_map(|phrase| phrase.split([' ', '-'])).collect())
});

/// The first of equals.
fn once<T: PartialEq>(all: Vec<T>) -> Vec<T> {
    let mut found = Vec::new();
    for one in all {
        if !found.contains(&one) {
            found.push(one);
        }
    }
    found
}

/// `blue-wiged`: a word of a pattern's name behind a hyphen that has slipped.
fn check_compound(line: &str, span: Span, word: &str) -> Result<(), Slip> {
    let Some((first, last)) = word.rsplit_once('-') else {
        return Ok(());
    };
    let patterns = PATTERN_WORDS.iter().filter(|known| known.len() > SHORTEST);
    let is_one = PATTERN_WORDS.contains(&last) || last.len() <= SHORTEST;
    let near = patterns
        .filter(|_| !is_one)
        .find(|known| is_one_slip(last, known) && !is_ended(last, known));
    match near {
        Some(near) => Err(near_miss(line, span, &format!("{first}-{near}"))),
        None => Ok(()),
    }
}

/// Whether a short word is one of the table with its letters in another order, or without one: `rde`, `ji`.
fn turned_about(line: &str, part: Part, span: Span, word: &str) -> Result<(), Slip> {
    let sorted = |word: &str| {
        let mut letters: Vec<char> = word.chars().collect();
        in_order(&mut letters, Ord::cmp);
        letters
    };
    let short = TRADE
        .iter()
        .filter(|row| part.takes(row.says) && matches!(row.says, Says::Colour | Says::Fly | Says::Bead));
    let mut written = short.flat_map(|row| row.written).filter(|known| known.len() == 3);
    let turned = |known: &&str| word.len() == 3 && **known != *word && sorted(known) == sorted(word);
    let cut = |known: &&str| word.len() == 2 && part.is_fly() && is_one_slip(word, known);
    match written.find(|known| turned(known) || cut(known)) {
        Some(near) => Err(near_miss(line, span, near)),
        None => Ok(()),
    }
}

fn near_miss(line: &str, span: Span, near: &str) -> Slip {
    Slip::new(
        Code::WordNearMiss,
        span,
        format!("`{}` is nearly `{near}`, which fits here.", span.of(line)),
    )
    .help(format!("write `{near}`, or put the name in quotes"))
    .offer(format!("write `{near}`"), span, near)
}

/// The word of `known` that another is one slip away from, of long words two; nothing where it is one of them.
fn nearest_of<'k>(word: &str, known: impl Iterator<Item = &'k str> + Clone) -> Option<&'k str> {
    let most = if word.chars().count() >= LONG { 2 } else { 1 };
    if word.len() < SHORTEST || known.clone().any(|known| known == word) {
        return None;
    }
    let known = known.filter(|known| known.len() >= SHORTEST);
    let near = known.filter_map(|known| Some((slips_between(word, known, most)?, known)));
    let near = near.filter(|(slips, known)| *slips == 1 || known.len() >= LONG);
    near.min_by_key(|(slips, _)| *slips).map(|(_, known)| known)
}

/// Whether a word beside a method's name is a slip of one that methods are called by.
pub(super) fn check_method(line: &str, span: Span) -> Result<(), Slip> {
    if ORDINARY.contains(&&*fold(span.of(line))) {
        return Ok(());
    }
    let word = fold(span.of(line));
    let near = word
        .split('-')
        .find_map(|word| nearest_of(word, OF_METHODS.iter().copied()));
    match near.filter(|near| !is_ended(&word, near)) {
        Some(near) => Err(near_miss(line, span, near)),
        None => Ok(()),
    }
}

/// Whether the word that a line opens with is a slip of one that lines of a rig open with.
pub(super) fn check_key(line: &str, span: Span) -> Result<(), Slip> {
    let word = fold(span.of(line));
    let written = KEYS.iter().flat_map(|(_, _, written)| *written);
    let words = written
        .filter(|written| !written.contains(' ') && written.len() > SHORTEST)
        .copied();
    let is_key = OwnKey::of(&word).is_some() || BlockKind::of(&word).is_some();
    match nearest_of(&word, words).filter(|_| !is_key) {
        Some(near) => Err(Slip::new(
            Code::WordNearMiss,
            span,
            format!(
                "`{}` is nearly `{near}`, which opens lines of a rig.",
                span.of(line)
            ),
        )
        .help(format!("write `{near}`"))
        .offer(format!("write `{near}`"), span, near)),
        None => Ok(()),
    }
}

/// Whether one is the other with an ending: `beads`, `hackled`.
fn is_ended(one: &str, other: &str) -> bool {
    // `partridg` has lost a letter.
    if other.strip_suffix('e') == Some(one) {
        return false;
    }
    let stem = |word: &str| {
        let ending = ["'s", "ed", "d", "s", "y"]
            .iter()
            .find(|ending| word.ends_with(**ending));
        word[..word.len() - ending.map_or(0, |ending| ending.len())]
            .trim_end_matches('e')
            .to_owned()
    };
    stem(one) == stem(other)
}

/// Whether a word is nearly one that joins, where it stands before a value.
pub(super) fn check_joint(line: &str, span: Span) -> Result<(), Slip> {
    let word = fold(span.of(line));
    if ABBREVIATIONS.iter().any(|(short, _)| *short == word) {
        return Ok(());
    }
    let near = JOINTS
        .iter()
        .find(|joint| is_one_slip(&word, joint) && word.len() + 1 >= joint.len());
    match near {
        Some(near) if word.len() > 1 => Err(near_miss(line, span, near)),
        _ => Ok(()),
    }
}

/// Whether what stands behind two dashes begins with the name of a knot that has slipped: `-- lojp to loop`.
pub(super) fn check_aside(line: &str, aside: Span) -> Result<(), Slip> {
    let said = fold(aside.of(line));
    let words: Vec<&str> = said.split_whitespace().collect();
    let knots = || {
        let rows = TRADE.iter().filter(|row| row.says == Says::Knot);
        rows.flat_map(|row| row.written)
    };
    if knots().any(|written| said.starts_with(*written)) {
        return Ok(());
    }
    let near = knots().find_map(|written| {
        let count = written.split(' ').count();
        let begins = words.get(..count).filter(|_| count > 1)?;
        let phrase = begins.join(" ");
        let near = is_one_slip(&phrase, written) || has_all(&words, written);
        near.then_some((phrase.len(), *written))
    });
    match near {
        Some((length, near)) if said.is_char_boundary(length) && said.len() == aside.of(line).len() => {
            let span = Span::new(aside.start, aside.start + length as u32);
            Err(near_miss(line, span, near))
        }
        Some(_) | None => Ok(()),
    }
}

/// Whether the words of a knot's name stand at the start of others, in another order or with one between.
fn has_all(words: &[&str], written: &str) -> bool {
    let count = written.split(' ').count();
    let mut first: Vec<&str> = words.iter().take(count + 1).copied().collect();
    let is_there = |word: &str| {
        let at = first.iter().position(|first| *first == word);
        at.map(|at| first.remove(at)).is_some()
    };
    count > 2 && words.len() > 2 && written.split(' ').all(is_there)
}

/// Whether a word before a colour is nearly one that shades it: `neo green`.
pub(super) fn check_shade(line: &str, span: Span) -> Result<(), Slip> {
    let word = fold(span.of(line));
    let near = SHADES.iter().find(|shade| {
        shade.len() > 2 && word.len() > 1 && word.len() + 1 >= shade.len() && is_one_slip(&word, shade)
    });
    match near {
        Some(near) if !PATTERN_WORDS.contains(&&*word) => Err(near_miss(line, span, near)),
        Some(_) | None => Ok(()),
    }
}

/// The words that join values on most lines.
const JOINTS: [&str; 6] = ["of", "with", "at", "over", "off", "and"];

/// Whether a word stands only in the name of a knot.
pub(super) fn is_part_of_knot(word: &str) -> bool {
    let is_of_knot = |part: &str| {
        let mut words = WORDS.iter().filter(|known| known.says == Says::Knot);
        words.any(|known| known.written == part)
    };
    word.len() >= SHORTEST && fold(word).split('-').any(is_of_knot)
}

/// A word of a knot's name without the others.
pub(super) fn torn_knot(line: &str, span: Span) -> Slip {
    let word = span.of(line);
    Slip::new(
        Code::WordNearMiss,
        span,
        format!("`{word}` is part of a knot's name, but the whole name does not stand here."),
    )
    .help("write the knot as it is usually called, such as `double surgeon`, or put the words in quotes")
}

/// A whole number before hundredths.
pub(super) fn number_or_two(line: &str, first: Span, second: Span) -> Slip {
    let (one, other) = (first.of(line), second.of(line));
    Slip::new(
        Code::ReadTwoWays,
        first.to(second),
        format!("`{one} {other}` can be read as one number or as two."),
    )
    .help(format!(
        "write the unit behind `{one}`, or the number with a point"
    ))
}

/// A piece of line that does not say which one it is.
pub(super) fn which_piece(said: Span) -> Slip {
    Slip::new(
        Code::KeyMissing,
        said,
        "This is a piece of line, but not which one.",
    )
    .help("write which one before it: `tippet`, `butt`, `taper`, `leader` or `sighter`")
    .offer("write `tippet`", Span::empty(said.start), "tippet ")
}

/// A remark where none is kept: in a knot, a water and their like.
pub(super) fn no_notes(said: Span) -> Slip {
    Slip::new(Code::KeyUnknown, said, "only rigs and outings take notes").offer(
        "write `//` before it",
        Span::empty(said.start),
        "// ",
    )
}

/// A leader that thins toward its tip, and is cut there.
pub(super) fn cut_taper(line: &str, left: Span) -> Slip {
    let left = left.of(line);
    Slip::new(
        Code::ReadTwoWays,
        Span::new(0, line.len() as u32),
        format!("a tapered leader that is cut to `{left}` is thicker at its tip than its label says."),
    )
    .help(format!(
        "measure the tip, and write `leader {left} of 0.20 mm`, with your figure"
    ))
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

/// Why a day has to be asked for.
pub(super) enum Asked {
    NoYear,
    /// `5/9` is two days, by where its author lives.
    DayOrMonth,
}

/// A day that is not said in full.
pub(super) fn day(line: &str, span: Span, asked: Asked) -> Slip {
    let said = span.of(line);
    let (message, help) = match asked {
        Asked::NoYear => (
            format!("`{said}` names no year."),
            format!("write the year behind it: `{said} 2026`, with your own"),
        ),
        Asked::DayOrMonth => (
            format!("`{said}` is two days, as the day or the month comes first."),
            "write the month as a word: `9 May 2026`".to_owned(),
        ),
    };
    Slip::new(Code::ReadTwoWays, span, message).help(help)
}
