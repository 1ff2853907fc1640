//! Lines without a key that say by themselves what they are: a method's name, a piece of line that its quantity
//! opens, a remark.

use super::atoms::{Atom, Look};
use super::item::Kind;
use super::items::items;
use super::opening::{Opened, key};
use super::phrases::{PHRASES, Says, TRADE, plain};
use super::slip;
use super::title::{self, is_method};
use super::trade::{KEYS, METHODS, MONTHS, NUMBERS, PATTERN_WORDS, Part, SMALL_WORDS};
use super::write::Written;
use crate::faults::Slip;
use crate::vocabulary::{BlockKind, OwnKey};
use rustc_hash::FxHashSet;
use snell_text::Span;
use snell_units::slips_between;
use std::sync::LazyLock;

/// Whether a word that is no key may open such a line: it begins a method's name, or `off the bend`.
pub(super) fn may_begin(word: &str) -> bool {
    FIRST_OF_METHODS.contains(word) || word == "off"
}

/// The first words of methods' names.
static FIRST_OF_METHODS: LazyLock<FxHashSet<&'static str>> = LazyLock::new(|| {
    let names = METHODS.iter().flat_map(|(_, written)| *written);
    names.filter_map(|name| name.split(' ').next()).collect()
});

/// `tight line`: the whole line is a method's usual name, and no key.
pub(super) fn method(line: &str, atoms: &[Atom], comment: Option<Span>) -> Option<Written> {
    let (first, last) = (atoms.first()?, atoms.last()?);
    let is_key = || key(&plain(first.span.to(last.span).of(line))).is_some();
    if atoms.len() < 2 || !is_method(line, atoms) || is_key() {
        return None;
    }
    let written = title::method(line, Span::empty(first.span.start), atoms, comment).ok()?;
    Some(written.written)
}

/// What a line is whose part does not stand first.
pub(super) enum Unopened {
    Part(Opened, Vec<Atom>),
    /// A piece of line that does not say which one it is.
    Asks(Slip),
}

/// `8 ft 20 lb mono butt`, `20 in of 5X to the point`, `off the bend 30 in of 5X`.
pub(super) fn piece(line: &str, atoms: &[Atom]) -> Option<Unopened> {
    let (first, last) = (atoms.first()?, atoms.last()?);
    let here = Span::empty(first.span.start);
    let said = items(line, atoms, Part::Piece)?;
    let is_bend = said.first()?.says() == Some(Says::Bend);
    let is_length = |kind: Kind| matches!(kind, Kind::Length(si) if si >= SHORTEST);
    let has_length = said.iter().any(|item| is_length(item.kind));
    let is_line = said.iter().any(|item| {
        matches!(item.kind, Kind::X | Kind::Mass(_) | Kind::Hundredths) || item.says() == Some(Says::Line)
    });
    if !has_length || !(said.first()?.is_quantity() || is_bend) {
        return None;
    }
    match named(line, atoms).as_slice() {
        [one] => {
            let words = &atoms[one.at..one.at + one.words];
            let rest = [&atoms[..one.at], &atoms[one.at + one.words..]].concat();
            let opened = Opened {
                key: one.key,
                part: one.part,
                atoms: 0,
                span: words.first()?.span.to(words.last()?.span),
            };
            Some(Unopened::Part(opened, rest))
        }
        [] if is_line && (is_bend || leads_to_fly(line, atoms)) => {
            let opened = Opened {
                key: "tippet",
                part: Part::Piece,
                atoms: 0,
                span: here,
            };
            Some(Unopened::Part(opened, atoms.to_vec()))
        }
        [] if is_line => Some(Unopened::Asks(slip::which_piece(first.span.to(last.span)))),
        _ => None,
    }
}

/// A part that is named inside of a line.
struct NamedPart {
    key: &'static str,
    part: Part,
    at: usize,
    words: usize,
}

/// The parts that a line names, but for those that it only leads to or lies beside.
fn named(line: &str, atoms: &[Atom]) -> Vec<NamedPart> {
    let word = |at: usize| {
        let atom = atoms.get(at).filter(|atom| atom.look == Look::Word)?;
        Some(plain(atom.span.of(line)))
    };
    let of = |at: usize| {
        let two = word(at + 1).and_then(|second| Some((key(&format!("{} {second}", word(at)?))?, 2)));
        let ((key, part), words) = two.or_else(|| Some((key(&word(at)?)?, 1)))?;
        matches!(part, Part::Piece | Part::Dropper).then_some(NamedPart { key, part, at, words })
    };
    let mut found: Vec<NamedPart> = Vec::new();
    let mut at = 0;
    while at < atoms.len() {
        let before = at.checked_sub(1).and_then(word);
        let lies_elsewhere = before.is_some_and(|before| ELSEWHERE.contains(&&*before));
        let is_joined = at.checked_sub(1).is_some_and(|before| joins(&atoms[before]));
        match of(at).filter(|_| !lies_elsewhere && !is_joined) {
            Some(named) => {
                at += named.words;
                found.push(named);
            }
            None => at += 1,
        }
    }
    found
}

/// Whether a sign goes on to what stands behind it, and may not meet another value.
const fn joins(atom: &Atom) -> bool {
    match atom.look {
        Look::Sign(sign) => !matches!(
            sign,
            '"' | '\'' | '”' | '’' | '″' | '′' | ',' | ';' | ')' | '.' | '#'
        ),
        Look::Word | Look::Number | Look::Text(_) => false,
    }
}

/// `… to the point`: what ends at a fly is tippet.
fn leads_to_fly(line: &str, atoms: &[Atom]) -> bool {
    let words = atoms.iter().map(|atom| match atom.look {
        Look::Word => plain(atom.span.of(line)),
        Look::Number | Look::Text(_) | Look::Sign(_) => String::new(),
    });
    let words: Vec<String> = words.collect();
    let Some(to) = words.iter().rposition(|word| word == "to") else {
        return false;
    };
    let place: Vec<&str> = words[to + 1..]
        .iter()
        .map(String::as_str)
        .filter(|word| *word != "the")
        .collect();
    key(&place.join(" ")).is_some_and(|(_, part)| part.is_fly())
}

/// A remark in words alone, read as a note. It holds no word of a rig's line and nothing that is nearly one, so that
/// no line of a rig is taken for it that has only slipped. A line that the grammar reads is one only if it holds a word
/// that no line of any block does.
pub(super) fn remark(line: &str, atoms: &[Atom], comment: Option<Span>, is_sound: bool) -> Option<Written> {
    let words: Vec<String> = atoms
        .iter()
        .filter(|atom| atom.look == Look::Word)
        .map(|atom| plain(atom.span.of(line)))
        .collect();
    let is_prose = |atom: &Atom| match atom.look {
        Look::Word => true,
        Look::Sign(',' | '.' | ';' | '!' | '?' | '(' | ')') => true,
        Look::Sign(sign) => ['-', '–', '—'].contains(&sign) && !atom.glued,
        Look::Number | Look::Text(_) => false,
    };
    let first = words.first()?;
    let opens_other = OwnKey::of(first).is_some() || BlockKind::of(first).is_some();
    let fewest = if is_sound { FEWEST_SOUND } else { FEWEST_WORDS };
    let is_remark = words.len() >= fewest
        && atoms[0].look == Look::Word
        && atoms.iter().all(is_prose)
        && (!is_sound || is_spoken(line))
        && !opens_other
        && !PHRASES.contains_key(&**first)
        && !counts_units(&words)
        && !words.iter().all(|word| is_of_fly(word))
        && !is_of_rig(first, SHORTEST_OPENING)
        && !words.iter().any(|word| is_of_rig(word, SHORTEST_WORD));
    if !is_remark {
        return None;
    }
    let here = Span::empty(atoms[0].span.start);
    let note = title::note(line, here, atoms, comment).ok()?;
    Some(note.written)
}

/// `17 May, wind south-west, three trout on the bob`, `4/12 - six browns`: what was on a day, in words. No line of a rig
/// begins with a day.
pub(super) fn dated(line: &str, atoms: &[Atom], comment: Option<Span>) -> Option<Written> {
    let [number, next, rest @ ..] = atoms else {
        return None;
    };
    let figures = number.span.of(line);
    let is_day = |day: &str| day.parse::<u8>().is_ok_and(|day| (1..=31).contains(&day));
    let slashed = figures
        .split_once('/')
        .is_some_and(|(one, other)| is_day(one) && is_day(other));
    let month = plain(next.span.of(line));
    let names_month =
        month.len() >= SHORTEST_MONTH && MONTHS.iter().any(|written| written.starts_with(&*month));
    let is_name = next.look == Look::Word && next.span.of(line).starts_with(char::is_uppercase);
    let is_dash = matches!(next.look, Look::Sign('-' | '–' | '—'));
    let is_dated = number.look == Look::Number
        && !next.glued
        && (slashed && (is_name || is_dash) || is_day(figures) && is_name && names_month);
    let words = rest.iter().filter(|atom| atom.look == Look::Word).count();
    if !is_dated || words < FEWEST_DATED {
        return None;
    }
    let note = title::note(line, Span::empty(number.span.start), atoms, comment).ok()?;
    Some(note.written)
}

/// Whether a line holds a word that only whole sentences do.
pub(super) fn is_spoken(line: &str) -> bool {
    line.split_ascii_whitespace()
        .any(|word| SPOKEN.contains(&word.trim_end_matches(',')))
}

/// `six inches`
fn counts_units(words: &[String]) -> bool {
    words.windows(2).any(|pair| {
        let is_count = NUMBERS.iter().any(|(written, _)| written.contains(&&*pair[0]));
        is_count && snell_units::known(&pair[1]).is_some()
    })
}

/// Whether a word may be all that a line says of a fly.
fn is_of_fly(word: &str) -> bool {
    let is_colour = |row: &&super::phrases::Row| row.says == Says::Colour;
    let says_colour = PHRASES.get(word).is_some_and(|rows| rows.iter().any(is_colour));
    says_colour || PATTERN_WORDS.contains(&word) || SMALL_WORDS.contains(&word)
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
        Part::Method | Part::Water | Part::Rod | Part::Note | Part::Catch | Part::Day | Part::Outing => false,
    }
}

/// Words behind which a part is only what the line leads to, or lies beside.
const ELSEWHERE: &[&str] = &[
    "to", "the", "from", "above", "below", "between", "off", "on", "at", "under", "and",
];

/// A shorter remark may be a line that has lost its value.
const FEWEST_WORDS: usize = 3;

const FEWEST_SOUND: usize = 4;
const FEWEST_DATED: usize = 2;
const SHORTEST_MONTH: usize = 3;

/// Words of sentences that no line of a block holds.
const SPOKEN: &[&str] = &["it", "my", "the", "them", "they", "was", "we", "were"];

/// Shorter words are too near to too many; the one that a line opens with is more often a key.
const SHORTEST_WORD: usize = 5;
const SHORTEST_OPENING: usize = 4;

/// A shorter length on a piece of line is its diameter, in metres.
const SHORTEST: f64 = 0.01;
