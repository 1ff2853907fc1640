//! How many fish there were.

use super::of_rig::{Points, names_rig};
use super::prose::{shows_rig, words};
use crate::hand::atoms::{Atom, Look};
use crate::hand::days::is_fish;
use crate::hand::phrases::plain;
use crate::hand::trade::{FISH_TALK, NUMBERS};

/// `17 fish, biggest maybe 3 lb`, `two 35 cm rainbows`, `7 eats, 3 landed`: it begins with how many, and no line of a rig
/// speaks of fish.
pub(super) fn counts_fish(line: &str, atoms: &[Atom]) -> bool {
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

/// More fish are none of one day.
const MOST_FISH: u8 = 100;

/// So many atoms behind a count the fish stand: `two 35 cm rainbows`.
const NEAR_COUNT: usize = 3;
