//! Words that are written short, by leaving letters out: `blk`, `wtr`, `drp`, `fluor`.

use super::trade::{ABBREVIATIONS, LEADING_WORDS, OPENING_VERBS, PATTERN_WORDS, SENTENCE_WORDS, SMALL_WORDS};
use rustc_hash::FxHashSet;
use std::sync::LazyLock;

/// How a word is short for another.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Short {
    /// Only vowels inside are left out: `blk`, `wtr`.
    Vowels,
    /// It breaks off, with its vowels or without: `fluor`, `drp`.
    Cut,
}

/// How one word is short for another, where it is.
pub(super) fn short_for(short: &str, full: &str) -> Option<Short> {
    let is_word = |word: &str| word.bytes().all(|byte| byte.is_ascii_lowercase());
    let same_start = short.bytes().next() == full.bytes().next();
    if short.len() < SHORTEST || short.len() >= full.len() || !same_start || !is_word(short) || !is_word(full)
    {
        return None;
    }
    let (own, whole) = (consonants(short), consonants(full));
    let missing = full.len() - short.len();
    // A single letter that is missing is a slip, but for the last vowel of all.
    let has_no_vowels = own.len() == short.len();
    if own.len() >= FEWEST_CONSONANTS
        && own == whole
        && is_within(short, full)
        && (missing > 1 || has_no_vowels)
    {
        return Some(Short::Vowels);
    }
    let breaks_off =
        full.starts_with(short) || own.len() >= FEWEST_CONSONANTS && has_no_vowels && whole.starts_with(&own);
    (missing > 1 && breaks_off).then_some(Short::Cut)
}

/// Whether all letters of one word stand in another, in their order.
fn is_within(short: &str, full: &str) -> bool {
    let mut letters = full.bytes();
    short.bytes().all(|byte| letters.any(|letter| letter == byte))
}

/// The first letter of a word and its consonants, doubled ones once.
fn consonants(word: &str) -> Vec<u8> {
    let mut found: Vec<u8> = Vec::new();
    for (at, byte) in word.bytes().enumerate() {
        let is_vowel = matches!(byte, b'a' | b'e' | b'i' | b'o' | b'u' | b'y');
        if at == 0 || !is_vowel && found.last() != Some(&byte) {
            found.push(byte);
        }
    }
    found
}

/// Whether a word is one of its own, and short for nothing.
pub(super) fn is_whole(word: &str) -> bool {
    WHOLE.contains(word)
}

static WHOLE: LazyLock<FxHashSet<&str>> = LazyLock::new(|| {
    let tables = [
        LEADING_WORDS,
        OPENING_VERBS,
        PATTERN_WORDS,
        SENTENCE_WORDS,
        SMALL_WORDS,
    ];
    let short = ABBREVIATIONS.iter().map(|(short, _)| *short);
    tables.into_iter().flatten().copied().chain(short).collect()
});

/// Fewer letters stand for too many words.
const SHORTEST: usize = 3;
const FEWEST_CONSONANTS: usize = 3;
