//! Lines that are no part of a rig: a sentence, what was on a day, how many fish there were. They are read as notes.
//!
//! A line of a rig that has only slipped must not be taken for one. So a remark holds a word that only sentences do, or no
//! word of a rig's line and nothing that is nearly one.

mod day;
mod fish;
mod of_rig;
mod prose;

use super::atoms::{Atom, Look, is_full_stop};
use super::opening::Opened;
use super::phrases::{PHRASES, Says, plain};
use super::place::{Piece, Placed};
use super::slip;
use super::trade::{ABOUT, OPENING_VERBS, ORDER_WORDS, Part, SMALL_WORDS, STRICT_KEYS, TOTAL_WORDS, joint};
use super::write::Written;
use crate::vocabulary::{BlockKind, Joint, OwnKey};
pub(super) use day::dated;
use day::{is_day_alone, only_tells};
use fish::counts_fish;
use of_rig::{Points, SHORTEST_OPENING, is_of_fly, is_of_rig, names_rig};
pub(super) use prose::is_spoken;
use prose::{SPOKEN, counts_units, is_prose, note, shows_rig, words};
use snell_text::Span;
use snell_units::is_one_slip;
use std::borrow::Cow;

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

/// `ring already on the end`, `swivel smallest to hand`: what is told of a ring or a swivel in words alone.
pub(super) fn of_small(line: &str, opened: &Opened, values: &[Atom]) -> Option<Placed> {
    let (first, last) = (values.first()?, values.last()?);
    let is_said = |atom: &Atom| {
        let word = plain(atom.span.of(line));
        let mut rows = PHRASES.get(&*word).into_iter().flatten();
        rows.any(|row| opened.part.takes(row.says))
            || joint(&word) == Some(Joint::As)
            || slip::check(line, opened.part, atom.span).is_err()
    };
    let mut spoken = values.iter().filter(|atom| atom.look == Look::Word);
    let is_told = matches!(opened.part, Part::Ring | Part::Swivel)
        && values.len() > 1
        && values.iter().all(is_prose)
        && !spoken.any(is_said);
    let span = first.span.to(last.span);
    let note = Piece {
        strict: span.of(line).to_owned(),
        span,
    };
    is_told.then(|| Placed {
        notes: vec![note],
        ..Placed::default()
    })
}

/// A line that nothing can be made of, and that shows nothing of a rig's line: it is kept as a note, and told.
pub(super) fn untold(line: &str, atoms: &[Atom]) -> Option<Written> {
    let words = words(line, atoms);
    let first = words.first()?;
    let is_strict = |key: &&str| *key == first || is_one_slip(first, key);
    let opens_other =
        OwnKey::of(first).is_some() || BlockKind::of(first).is_some() || STRICT_KEYS.iter().any(is_strict);
    let figures = atoms.iter().filter(|atom| atom.look == Look::Number).count();
    let is_value = |word: &Cow<'_, str>| {
        let rows = PHRASES.get(&**word).into_iter().flatten();
        let mut rows =
            rows.filter(|row| matches!(row.says, Says::Line | Says::Wire | Says::Bead | Says::Build));
        matches!(&**word, "x" | "size") || rows.next().is_some()
    };
    let has_path = atoms
        .windows(2)
        .any(|pair| pair[0].look == Look::Sign('.') && pair[0].glued && pair[1].glued);
    let is_untold = words.len() >= FEWEST_UNTOLD
        && !has_path
        && words.len() > 2 * figures
        && !atoms
            .iter()
            .any(|atom| matches!(atom.look, Look::Text(_) | Look::Sign('#' | '=' | '>' | ':')))
        && !opens_other
        && !words.iter().any(is_value)
        && !counts_units(&words)
        && !is_of_rig(first, SHORTEST_OPENING)
        && !PHRASES.contains_key(&**first)
        && !words
            .iter()
            .any(|word| is_of_fly(word) && !SMALL_WORDS.contains(&&**word))
        && !names_rig(&words, Points::Any)
        && slip::check_key(line, atoms.iter().find(|atom| atom.look == Look::Word)?.span).is_ok();
    let mut written = is_untold.then(|| note(line, atoms, None)).flatten()?;
    let (first, last) = (atoms.first()?, atoms.last()?);
    written.unread = vec![first.span.to(last.span)];
    Some(written)
}

/// A shorter line may be one of a rig that has lost its values.
const FEWEST_UNTOLD: usize = 4;

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
fn opens_sentence(line: &str, atoms: &[Atom], first: &str, words: &[Cow<'_, str>]) -> bool {
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
    let opens_total = TOTAL_WORDS.contains(&&**first) && words.len() <= FEWEST_WORDS;
    let is_total = (figures == 1 && !shows_rig(atoms) || opens_total && figures > 0)
        && has(TOTAL_WORDS)
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
        && rest.iter().filter(|atom| atom.look == Look::Word).count() >= FEWEST_CAST
        && rest.first().is_some_and(|next| next.look == Look::Word)
        && rest.iter().all(is_prose)
}

/// A shorter remark may be a line that has lost its value.
const FEWEST_WORDS: usize = 3;

const FEWEST_SOUND: usize = 4;

/// A shorter line tells of no cast.
const FEWEST_CAST: usize = 2;

/// So long a command may hold figures: `swap the point to 3.5 in the run by the bridge`.
const LONG_COMMAND: usize = 7;
