//! Words that say something of a rig, or nearly.

use crate::hand::phrases::{PHRASES, Row, Says, TRADE};
use crate::hand::trade::{KEYS, PATTERN_WORDS, Part, SMALL_WORDS};
use snell_units::is_one_slip;
use std::borrow::Cow;

/// Whether a word may be all that a line says of a fly.
pub(super) fn is_of_fly(word: &str) -> bool {
    let is_colour = |row: &&Row| row.says == Says::Colour;
    let says_colour = PHRASES.get(word).is_some_and(|rows| rows.iter().any(is_colour));
    says_colour || PATTERN_WORDS.contains(&word) || SMALL_WORDS.contains(&word)
}

/// Which words only point at a part.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Points {
    /// Those behind an article: `the bob`.
    Any,
    /// Those that say where, too: `in the middle`.
    Lies,
}

/// Whether some words say something of a rig, but for those that only point at a part.
pub(super) fn names_rig(words: &[Cow<'_, str>], pointing: Points) -> bool {
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
pub(super) fn is_of_rig(word: &str, shortest: usize) -> bool {
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
        known == word || known.len() >= shortest && word.len() >= shortest && is_one_slip(word, known)
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

/// Shorter words are too near to too many; the one that a line opens with is more often a key.
const SHORTEST_WORD: usize = 5;
pub(super) const SHORTEST_OPENING: usize = 4;
