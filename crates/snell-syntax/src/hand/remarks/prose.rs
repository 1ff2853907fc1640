//! What lines of prose show: words that only sentences hold, and no sign of a rig.

use crate::hand::atoms::{Atom, Look};
use crate::hand::phrases::plain;
use crate::hand::title;
use crate::hand::trade::{NUMBERS, SENTENCE_WORDS};
use crate::hand::write::Written;
use rustc_hash::FxHashSet;
use snell_text::Span;
use snell_units::Dimension;
use std::borrow::Cow;
use std::sync::LazyLock;

pub(super) fn is_prose(atom: &Atom) -> bool {
    match atom.look {
        Look::Word => true,
        Look::Sign(',' | '.' | ';' | '!' | '?' | '(' | ')' | ':') => true,
        Look::Sign(sign) => ['-', '–', '—', '&', '\'', '’'].contains(&sign) && !atom.glued,
        Look::Number | Look::Text(_) => false,
    }
}

/// Whether a line shows a hook, or an arrow: then it is one of a rig.
pub(super) fn shows_rig(atoms: &[Atom]) -> bool {
    atoms
        .iter()
        .any(|atom| matches!(atom.look, Look::Sign('#' | '>' | '→' | '"' | '″' | '=')))
}

pub(super) fn words<'a>(line: &'a str, atoms: &[Atom]) -> Vec<Cow<'a, str>> {
    let words = atoms.iter().filter(|atom| atom.look == Look::Word);
    words.map(|atom| plain(atom.span.of(line))).collect()
}

pub(super) fn note(line: &str, atoms: &[Atom], comment: Option<Span>) -> Option<Written> {
    let here = Span::empty(atoms.first()?.span.start);
    let note = title::note(line, here, atoms, comment).ok()?;
    Some(note.written)
}

/// [`SENTENCE_WORDS`], for every line of a file is held against them.
pub(super) static SPOKEN: LazyLock<FxHashSet<&str>> =
    LazyLock::new(|| SENTENCE_WORDS.iter().copied().collect());

/// Whether a line holds a word that only whole sentences do.
pub(in crate::hand) fn is_spoken(line: &str) -> bool {
    let is_word = |word: &str| word == "the" || SPOKEN.contains(word);
    // `not//` ends in a comment.
    line.split(|letter: char| letter.is_ascii_whitespace() || letter == '/')
        .any(|word| is_word(word.trim_end_matches([',', '.'])))
}

/// `six inches`; `six in an hour` are no inches.
pub(super) fn counts_units(words: &[Cow<'_, str>]) -> bool {
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
