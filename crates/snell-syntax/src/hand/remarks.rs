//! Lines that are no part of a rig: a sentence, what was on a day, how many fish there were. They are read as notes.
//!
//! A line of a rig that has only slipped must not be taken for one. So a remark holds a word that only sentences do, or no
//! word of a rig's line and nothing that is nearly one.

use super::atoms::{Atom, Look};
use super::days::is_fish;
use super::opening::{Opened, is_full_stop};
use super::phrases::{PHRASES, Row, Says, TRADE, plain};
use super::title;
use super::trade::{
    ABOUT, FISH_TALK, KEYS, MONTHS, NUMBERS, OPENING_VERBS, ORDER_WORDS, PATTERN_WORDS, Part, SENTENCE_WORDS,
    SMALL_WORDS, TOTAL_WORDS,
};
use super::write::Written;
use crate::vocabulary::{BlockKind, OwnKey};
use rustc_hash::FxHashSet;
use snell_text::Span;
use snell_units::{Dimension, slips_between};
use std::sync::LazyLock;

/// A remark in words alone. A line that the grammar reads is one only if it holds a word that no line of any block does.
pub(super) fn remark(line: &str, atoms: &[Atom], comment: Option<Span>, is_sound: bool) -> Option<Written> {
    let words = words(line, atoms);
    let first = words.first()?;
    let opens_other = OwnKey::of(first).is_some() || BlockKind::of(first).is_some();
    let fewest = if is_sound { FEWEST_SOUND } else { FEWEST_WORDS };
    let is_remark = words.len() >= fewest
        && atoms[0].look == Look::Word
        && atoms.iter().all(is_prose)
        && !has_short_key(atoms, first)
        && !words
            .iter()
            .any(|word| word.contains(|letter: char| letter.is_ascii_digit()))
        && (!is_sound || is_spoken(line))
        && !opens_other
        && !PHRASES.contains_key(&**first)
        && !counts_units(&words)
        && !words.iter().all(|word| is_of_fly(word))
        && !is_of_rig(first, SHORTEST_OPENING)
        && !names_rig(&words, Points::Lies);
    if is_remark {
        note(line, atoms, comment)
    } else {
        None
    }
}

/// A short word before a colon may be any key that has slipped.
fn has_short_key(atoms: &[Atom], first: &str) -> bool {
    let colon = atoms.get(1).is_some_and(|next| next.look == Look::Sign(':'));
    colon && first.len() <= SHORTEST_OPENING
}

/// A sentence, or a count of fish: what a rig's card tells beside its rig.
pub(super) fn sentence(line: &str, atoms: &[Atom], comment: Option<Span>) -> Option<Written> {
    let words = words(line, atoms);
    let first = words.first()?;
    if atoms.iter().any(|atom| matches!(atom.look, Look::Text(_))) {
        return None;
    }
    let is_told = opens_sentence(line, atoms, first, &words)
        || tells_cast(line, atoms)
        || counts_fish(line, atoms)
        || is_day_alone(line, atoms);
    if is_told { note(line, atoms, comment) } else { None }
}

/// The sentences that follow what a line says of the rig, which are taken away from it.
pub(super) fn behind(line: &str, opened: &Opened, atoms: &mut Vec<Atom>) -> Option<Span> {
    let stop = (opened.atoms + 1..atoms.len())
        .find(|at| is_full_stop(atoms, *at) && sentence(line, &atoms[at + 1..], None).is_some())?;
    let said = atoms[stop + 1].span.to(atoms[atoms.len() - 1].span);
    atoms.truncate(stop);
    Some(said)
}

/// `keep your tip up`, `it drops off fast`
fn opens_sentence(line: &str, atoms: &[Atom], first: &str, words: &[String]) -> bool {
    let is_command = OPENING_VERBS.contains(&first) && words.len() >= FEWEST_WORDS;
    let spoken = words.iter().filter(|word| SPOKEN.contains(&***word)).count();
    let opens_other = [
        OwnKey::Let,
        OwnKey::Change,
        OwnKey::Expect,
        OwnKey::Use,
        OwnKey::When,
        OwnKey::Unless,
        OwnKey::Limit,
    ]
    .iter()
    .any(|key| key.word() == first);
    let in_words = only_tells(line, atoms) && !counts_units(words);
    !opens_other
        && words.len() >= FEWEST_WORDS
        && (in_words && (spoken > 0 || is_command)
            || is_command && (spoken > 0 || words.len() >= LONG_COMMAND) && !shows_rig(atoms))
}

/// `rod end -> fly`, `approx. 16 ft overall`: how the card is to be read, or what all of it comes to.
pub(super) fn order_or_total(line: &str, atoms: &[Atom], comment: Option<Span>) -> Option<Written> {
    let words = words(line, atoms);
    let first = words.first()?;
    let has = |table: &[&str]| words.iter().any(|word| table.contains(&&**word));
    let is_sign = |signs: &[char]| {
        atoms
            .iter()
            .any(|atom| matches!(atom.look, Look::Sign(sign) if signs.contains(&sign)))
    };
    let figures = atoms.iter().filter(|atom| atom.look == Look::Number).count();
    let is_order = figures == 0
        && words.iter().all(|word| ORDER_WORDS.contains(&&**word))
        && has(&["rod", "reel", "top", "butt"])
        && has(&["fly", "flies", "point", "bottom", "down", "first"])
        && (is_sign(&['>', '→']) || has(&["to", "down", "first", "from"]));
    let is_total = figures == 1
        && has(TOTAL_WORDS)
        && !shows_rig(atoms)
        && atoms[0].look == Look::Word
        && !is_of_rig(first, SHORTEST_OPENING)
        && (ABOUT.contains(&&**first) || TOTAL_WORDS.contains(&&**first) || first == "all");
    if is_order || is_total {
        note(line, atoms, comment)
    } else {
        None
    }
}

/// `cast across, let it sink`: how the flies are laid down, in other words than the table's.
fn tells_cast(line: &str, atoms: &[Atom]) -> bool {
    let [first, rest @ ..] = atoms else { return false };
    plain(first.span.of(line)) == "cast"
        && rest.iter().filter(|atom| atom.look == Look::Word).count() >= FEWEST_DATED
        && rest.first().is_some_and(|next| next.look == Look::Word)
        && rest.iter().all(is_prose)
}

/// `17 fish, biggest maybe 3 lb`, `two 35 cm rainbows`, `7 eats, 3 landed`: it begins with how many, and no line of a rig
/// speaks of fish.
fn counts_fish(line: &str, atoms: &[Atom]) -> bool {
    let counted = |at: usize| {
        let written = plain(atoms[at].span.of(line));
        let whole = written.parse::<u8>().is_ok_and(|count| count < MOST_FISH);
        whole || NUMBERS.iter().any(|(words, _)| words.contains(&&*written))
    };
    let begins_here = |at: usize| {
        let begins = at == 0 || matches!(atoms[at - 1].look, Look::Sign('.' | ',' | ';'));
        begins
            && counted(at)
            && atoms[at + 1..]
                .iter()
                .take(NEAR_COUNT)
                .any(|atom| is_of_fish(line, atom))
    };
    (0..atoms.len()).any(begins_here) && !shows_rig(atoms) && !names_rig(&words(line, atoms), Points::Any)
}

fn is_of_fish(line: &str, atom: &Atom) -> bool {
    let word = plain(atom.span.of(line));
    atom.look == Look::Word && (is_fish(&word) || FISH_TALK.contains(&&*word))
}

/// `17 May, wind south-west, three trout on the bob`, `4/12 - six browns`: what was on a day, in words. No line of a rig
/// begins with a day.
pub(super) fn dated(line: &str, atoms: &[Atom], comment: Option<Span>) -> Option<Written> {
    let day = day(line, atoms)?;
    let next = atoms.get(day.atoms)?;
    let is_dash = matches!(next.look, Look::Sign('-' | '–' | '—'));
    let is_name = next.look == Look::Word && next.span.of(line).starts_with(char::is_uppercase);
    let words = words(line, &atoms[day.atoms..]);
    let tells = words.len() >= FEWEST_DATED;
    // `5/32 tungsten` is a bead, and `8/3 in` a length.
    let is_unit = snell_units::known(next.span.of(line)).is_some();
    let is_day = day.is_sure
        || is_dash && !next.glued
        || !next.glued && !is_unit && (is_name || !shows_rig(atoms) && !names_rig(&words, Points::Any));
    if tells && is_day {
        note(line, atoms, comment)
    } else {
        None
    }
}

/// A day at the start of a line: how many atoms it is, and whether it can be nothing else.
struct Day {
    atoms: usize,
    is_sure: bool,
}

fn day(line: &str, atoms: &[Atom]) -> Option<Day> {
    let [number, rest @ ..] = atoms else { return None };
    if number.look != Look::Number {
        return None;
    }
    let figures = number.span.of(line);
    let is_sign = |at: usize, sign: char| {
        rest.get(at)
            .is_some_and(|atom| atom.look == Look::Sign(sign) && atom.glued)
    };
    let is_year = |at: usize| {
        rest.get(at).is_some_and(|atom| {
            let written = atom.span.of(line);
            atom.glued && matches!(written.len(), 2 | 4) && written.parse::<u16>().is_ok()
        })
    };
    let pair = |mark: char| {
        let (one, other) = figures.split_once(mark)?;
        Some((is_month_or_day(one) && is_month_or_day(other), one, other))
    };
    if let Some((true, ..)) = pair('.') {
        return is_sign(0, '.').then(|| Day {
            atoms: if is_year(1) { 3 } else { 2 },
            is_sure: true,
        });
    }
    if let Some((true, ..)) = pair('/') {
        let with_year = is_sign(0, '/') && is_year(1);
        return Some(Day {
            atoms: if with_year { 3 } else { 1 },
            is_sure: with_year,
        });
    }
    let ending = rest
        .first()
        .is_some_and(|atom| atom.glued && ["st", "nd", "rd", "th"].contains(&&*plain(atom.span.of(line))));
    let month = rest.get(usize::from(ending)).filter(|atom| !atom.glued)?;
    let named = plain(month.span.of(line));
    let names_month = named.len() >= SHORTEST_MONTH && MONTHS.iter().any(|month| month.starts_with(&*named));
    let is_name = month.look == Look::Word && month.span.of(line).starts_with(char::is_uppercase);
    (is_month_or_day(figures) && is_name && names_month).then_some(Day {
        atoms: 2 + usize::from(ending),
        is_sure: true,
    })
}

fn is_month_or_day(figure: &str) -> bool {
    figure.parse::<u8>().is_ok_and(|day| (1..=31).contains(&day))
}

/// `Alderwick Run bend pool, 2 Sept 19:30`: where and when, in words, and no other figure.
fn is_day_alone(line: &str, atoms: &[Atom]) -> bool {
    let has_day = (0..atoms.len()).any(|at| day(line, &atoms[at..]).is_some_and(|day| day.is_sure || at > 0));
    let words = words(line, atoms);
    let first = words
        .first()
        .is_some_and(|first| !is_of_rig(first, SHORTEST_OPENING));
    has_day
        && first
        && atoms[0].look == Look::Word
        && words.len() >= FEWEST_WORDS
        && only_tells(line, atoms)
        && !counts_units(&words)
        && !names_rig(&words, Points::Any)
}

/// Whether all figures of a line are days and times, and all signs those of prose.
fn only_tells(line: &str, atoms: &[Atom]) -> bool {
    let mut at = 0;
    while at < atoms.len() {
        let clock = matches!(
            &atoms[at..],
            [hour, colon, minute, ..] if hour.look == Look::Number && colon.look == Look::Sign(':') && colon.glued
                && minute.look == Look::Number && minute.glued
        );
        at += match atoms[at].look {
            Look::Number if clock => 3,
            Look::Number => match day(line, &atoms[at..]) {
                Some(day) if day.is_sure || at > 0 && atoms.len() == at + day.atoms => day.atoms,
                Some(_) | None => return false,
            },
            Look::Word | Look::Text(_) | Look::Sign(_) if is_prose(&atoms[at]) => 1,
            Look::Word | Look::Text(_) | Look::Sign(_) => return false,
        };
    }
    true
}

fn is_prose(atom: &Atom) -> bool {
    match atom.look {
        Look::Word => true,
        Look::Sign(',' | '.' | ';' | '!' | '?' | '(' | ')' | ':') => true,
        Look::Sign(sign) => ['-', '–', '—', '&', '\'', '’'].contains(&sign) && !atom.glued,
        Look::Number | Look::Text(_) => false,
    }
}

/// Whether a line shows a hook, or an arrow: then it is one of a rig.
fn shows_rig(atoms: &[Atom]) -> bool {
    atoms
        .iter()
        .any(|atom| matches!(atom.look, Look::Sign('#' | '>' | '→' | '"' | '″' | '=')))
}

fn words(line: &str, atoms: &[Atom]) -> Vec<String> {
    let words = atoms.iter().filter(|atom| atom.look == Look::Word);
    words.map(|atom| plain(atom.span.of(line))).collect()
}

fn note(line: &str, atoms: &[Atom], comment: Option<Span>) -> Option<Written> {
    let here = Span::empty(atoms.first()?.span.start);
    let note = title::note(line, here, atoms, comment).ok()?;
    Some(note.written)
}

/// [`SENTENCE_WORDS`], for every line of a file is held against them.
static SPOKEN: LazyLock<FxHashSet<&str>> = LazyLock::new(|| SENTENCE_WORDS.iter().copied().collect());

/// Whether a line holds a word that only whole sentences do.
pub(super) fn is_spoken(line: &str) -> bool {
    let is_word = |word: &str| word == "the" || SPOKEN.contains(word);
    line.split_ascii_whitespace()
        .any(|word| is_word(word.trim_end_matches(',')))
}

/// `six inches`; `six in an hour` are no inches.
fn counts_units(words: &[String]) -> bool {
    words.windows(2).enumerate().any(|(at, pair)| {
        let is_count = NUMBERS.iter().any(|(written, _)| written.contains(&&*pair[0]));
        let goes_on = words
            .get(at + 2)
            .is_some_and(|next| ["a", "an", "the"].contains(&&**next));
        let is_joint = pair[1] == "in" && goes_on;
        let measures = || {
            let unit = snell_units::known(&pair[1]);
            unit.is_some_and(|unit| matches!(unit.dimension, Dimension::LENGTH | Dimension::MASS))
        };
        is_count && !is_joint && measures()
    })
}

/// Whether a word may be all that a line says of a fly.
fn is_of_fly(word: &str) -> bool {
    let is_colour = |row: &&Row| row.says == Says::Colour;
    let says_colour = PHRASES.get(word).is_some_and(|rows| rows.iter().any(is_colour));
    says_colour || PATTERN_WORDS.contains(&word) || SMALL_WORDS.contains(&word)
}

/// Which words only point at a part.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Points {
    /// Those behind an article: `the bob`.
    Any,
    /// Those that say where, too: `in the middle`.
    Lies,
}

/// Whether some words say something of a rig, but for those that only point at a part.
fn names_rig(words: &[String], pointing: Points) -> bool {
    let behind = |at: usize, back: usize, table: &[&str]| {
        at.checked_sub(back)
            .is_some_and(|before| table.contains(&&*words[before]))
    };
    let points = |at: usize| {
        behind(at, 1, &["the", "your", "my", "then"])
            && (pointing == Points::Any || behind(at, 2, &["in", "on", "at", "by", "over", "under"]))
    };
    (0..words.len()).any(|at| !points(at) && words[at] != "then" && is_of_rig(&words[at], SHORTEST_WORD))
}

/// Whether a word opens a line of a rig or is a value of one, or nearly.
fn is_of_rig(word: &str, shortest: usize) -> bool {
    let opens = KEYS
        .iter()
        .filter(|(_, part, _)| is_on_leader(*part))
        .flat_map(|(_, _, written)| *written);
    let values = TRADE
        .iter()
        .filter(|row| {
            matches!(
                row.says,
                Says::Line | Says::Wire | Says::Bead | Says::Slotted | Says::Build | Says::Knot | Says::Fly
            )
        })
        .flat_map(|row| row.written);
    let near = |known: &str| {
        known == word || known.len() >= shortest && word.len() >= shortest && slips_between(word, known) == 1
    };
    opens
        .chain(values)
        .any(|known| !known.contains(' ') && near(known))
}

const fn is_on_leader(part: Part) -> bool {
    match part {
        Part::Piece
        | Part::Line
        | Part::Dropper
        | Part::Fly
        | Part::Float
        | Part::Ring
        | Part::Swivel
        | Part::Shot
        | Part::Knot => true,
        Part::Method
        | Part::Water
        | Part::Bed
        | Part::Rod
        | Part::Note
        | Part::Catch
        | Part::Day
        | Part::Outing => false,
    }
}

/// A shorter remark may be a line that has lost its value.
const FEWEST_WORDS: usize = 3;

const FEWEST_SOUND: usize = 4;
const FEWEST_DATED: usize = 2;
const SHORTEST_MONTH: usize = 3;

/// So long a command may hold figures: `swap the point to 3.5 in the run by the bridge`.
const LONG_COMMAND: usize = 7;

/// More fish are none of one day.
const MOST_FISH: u8 = 100;

/// So many atoms behind a count the fish stand: `two 35 cm rainbows`.
const NEAR_COUNT: usize = 3;

/// Shorter words are too near to too many; the one that a line opens with is more often a key.
const SHORTEST_WORD: usize = 5;
const SHORTEST_OPENING: usize = 4;
