//! What a line opens with: a mark of a list, then a key, and what parts the key from its values.

use super::abbreviated::{Short, is_whole, short_for};
use super::atoms::{Atom, Look, is_dash, is_full_stop};
use super::item::{Item, Kind};
use super::items::items;
use super::phrases::{Says, TRADE, plain};
use super::sentences::is_verb;
use super::trade::{
    ABBREVIATIONS, KEYS, LEADING_WORDS, NUMBERS, OPENING_VERBS, PATTERN_WORDS, Part, RIG_KEYS, SHORT_KEYS,
    SIZE_WORDS, TAKEN,
};
use super::within::Within;
use crate::vocabulary::{BlockKind, OwnKey};
use rustc_hash::{FxHashMap, FxHashSet};
use snell_text::Span;
use snell_units::is_one_slip;
use std::borrow::Cow;
use std::sync::LazyLock;

/// Takes away what only shows that a line is one of a list: `- tippet …`, `2) tippet …`.
pub(super) fn unbullet(line: &str, atoms: &mut Vec<Atom>, within: Within) {
    let is_word = |at: usize| {
        atoms.get(at).is_some_and(|atom| {
            let word = plain(atom.span.of(line));
            let begins = may_begin(&word) || within.is_rig() && may_begin_in_rig(&word);
            atom.look == Look::Word && !atom.glued && begins
        })
    };
    let counts = |atom: &Atom| atom.span.of(line).parse::<u8>().is_ok();
    let bullet = match atoms.first().map(|first| first.look) {
        Some(Look::Sign('-' | '–' | '—' | '*' | '•' | '·' | '+')) if is_word(1) => 1,
        Some(Look::Number)
            if matches!(
                atoms.get(1),
                Some(Atom {
                    look: Look::Sign(')' | '.'),
                    glued: true,
                    ..
                })
            ) && is_word(2) =>
        {
            2
        }
        Some(Look::Number) if is_dash(atoms, 1) && counts(&atoms[0]) && is_word(2) => 2,
        _ => 0,
    };
    atoms.drain(..bullet);
}

/// The key that a line opens with.
pub(super) struct Opened {
    pub(super) key: &'static str,
    pub(super) part: Part,
    pub(super) atoms: usize,
    pub(super) span: Span,
}

/// The keys by how they are written.
static WRITTEN_KEYS: LazyLock<FxHashMap<&'static str, (&'static str, Part)>> = LazyLock::new(|| {
    let rows = KEYS.iter().rev();
    rows.flat_map(|(key, part, written)| written.iter().map(move |written| (*written, (*key, *part))))
        .collect()
});

/// The first words of keys.
static FIRST_WORDS: LazyLock<FxHashSet<&'static str>> = LazyLock::new(|| {
    let written = WRITTEN_KEYS
        .keys()
        .filter_map(|written| written.split(' ').next());
    written
        .chain(SHORT_KEYS.iter().map(|(short, _)| *short))
        .chain(RIG_KEYS.iter().flat_map(|(_, _, written)| *written).copied())
        .collect()
});

pub(super) fn key(word: &str) -> Option<(&'static str, Part)> {
    WRITTEN_KEYS.get(word).copied()
}

/// Whether words open a line of some block, or are one slip from those that do.
pub(super) fn nearly_open(words: &[Cow<'_, str>]) -> bool {
    let blocks = BlockKind::ALL.into_iter().map(BlockKind::word);
    let own = OwnKey::ALL.into_iter().map(OwnKey::word);
    let mut known = blocks.chain(own).chain(WRITTEN_KEYS.keys().copied());
    known.any(|known| {
        let count = known.split(' ').count();
        words.get(..count).is_some_and(|words| {
            let words = words.join(" ");
            words == known || is_one_slip(&words, known)
        })
    })
}

/// The same within a block.
fn key_within(word: &str, within: Within) -> Option<(&'static str, Part)> {
    let of_rig = || {
        let row = RIG_KEYS.iter().find(|(_, _, written)| written.contains(&word))?;
        Some((row.0, row.1))
    };
    key(word).or_else(|| of_rig().filter(|_| within.is_rig()))
}

/// The key that a word is short for: `wtr`, `drp`. What only breaks off may as well be another word, and needs a figure
/// behind it.
fn shortened(word: &str, before_figure: bool) -> Option<(&'static str, Part)> {
    if may_begin(word) || OwnKey::of(word).is_some() || BlockKind::of(word).is_some() || is_whole(word) {
        return None;
    }
    let full = KEYS
        .iter()
        .flat_map(|(key, part, written)| written.iter().map(move |full| (*key, *part, *full)));
    let mut found: Vec<(&str, Part)> = Vec::new();
    for (key, part, full) in full {
        let is_it = match short_for(word, full) {
            Some(Short::Vowels) => true,
            Some(Short::Cut) => before_figure && part != Part::Method && part != Part::Note,
            None => false,
        };
        if is_it && !found.contains(&(key, part)) {
            found.push((key, part));
        }
    }
    match found.as_slice() {
        [only] => Some(*only),
        _ => None,
    }
}

/// Whether a word is short for a key.
pub(super) fn is_shortened(word: &str) -> bool {
    shortened(word, true).is_some()
}

/// Whether a word is the first of a key.
pub(super) fn may_begin(word: &str) -> bool {
    FIRST_WORDS.contains(word)
}

/// Whether a word that is no key may open a line of a rig without one: a number, an article, a fly's name, a sentence.
pub(super) fn may_begin_in_rig(word: &str) -> bool {
    static WORDS: LazyLock<FxHashSet<&str>> = LazyLock::new(|| {
        let numbers = NUMBERS.iter().flat_map(|(written, _)| *written);
        let short = ABBREVIATIONS.iter().map(|(short, _)| short);
        let tables = [LEADING_WORDS, OPENING_VERBS, PATTERN_WORDS, SIZE_WORDS];
        let others = &["caught", "cast", "good"];
        let line = TRADE.iter().filter(|row| row.says == Says::Line);
        let line = line.flat_map(|row| row.written);
        tables
            .into_iter()
            .flatten()
            .chain(numbers)
            .chain(short)
            .chain(others)
            .chain(line)
            .copied()
            .collect()
    });
    WORDS.contains(word)
}

pub(super) fn opened(line: &str, atoms: &[Atom], may_be_head: bool, within: Within) -> Option<Opened> {
    let word = |at: usize| {
        let atom = atoms.get(at).filter(|atom| atom.look == Look::Word)?;
        Some(plain(atom.span.of(line)))
    };
    let first = word(0)?;
    let two = word(1).and_then(|second| key_within(&format!("{first} {second}"), within));
    let pointed = matches!(
        atoms.get(1),
        Some(Atom {
            look: Look::Sign('.'),
            glued: true,
            ..
        })
    );
    let is_sign = |at: usize, signs: &[char]| {
        atoms
            .get(at)
            .is_some_and(|atom| matches!(atom.look, Look::Sign(sign) if signs.contains(&sign)))
    };
    let is_parted = pointed || is_sign(1, &[':', '=']) || is_dash(atoms, 1);
    // `m=ethod` is a word that a sign slipped into.
    let slipped = first.len() == 1 && is_sign(1, &['=']) && atoms[1].glued;
    let short = SHORT_KEYS.iter().filter(|_| !slipped).find(|(short, _)| {
        let is_free = || !TAKEN.contains(short) || within.is_rig() && tells_other(line, atoms, short);
        *short == first && (is_parted || is_free())
    });
    let (count, (key, part)) = match (two, short) {
        (Some(row), _) => (2, row),
        (None, Some((_, full))) => (1 + usize::from(pointed), key(full)?),
        (None, None) => {
            let before_figure = atoms
                .get(1)
                .is_some_and(|next| matches!(next.look, Look::Number | Look::Sign('#' | '~')));
            let short = || shortened(&first, before_figure).filter(|_| within.is_rig());
            (1, key_within(&first, within).or_else(short)?)
        }
    };
    // `dropper 2:` says which by its number.
    let number = atoms.get(count).is_some_and(|atom| {
        atom.look == Look::Number && atom.span.of(line).len() == 1 && is_sign(count + 1, &[':'])
    });
    let count = count + usize::from(number);
    // `tippet to dropper:` says which piece it is.
    let said = atoms[count..]
        .iter()
        .take(LONGEST_WHERE)
        .take_while(|atom| atom.look == Look::Word)
        .count();
    let begins =
        word(count).is_some_and(|first| matches!(&*first, "to" | "from" | "between" | "above" | "below"));
    let count = if begins && is_sign(count + said, &[':']) {
        count + said
    } else {
        count
    };
    let dash = !number && is_dash(atoms, count);
    let colon = is_sign(count, &[':', '=']) || dash || is_full_stop(atoms, count);
    // `cast tuck` says how the flies are laid down, `cast 9 ft …` what they hang on.
    if first == "cast" && atoms.get(count).is_none_or(|atom| atom.look != Look::Number) {
        return None;
    }
    // At the margin a word that opens blocks opens one.
    let heads = BlockKind::of(&first).is_some();
    if may_be_head && heads && !colon {
        return None;
    }
    let span = atoms[0].span.to(atoms[count - 1].span);
    Some(Opened {
        key,
        part,
        atoms: count + usize::from(colon),
        span,
    })
}

/// Whether what stands behind a short key that has another meaning shows which it is: `tip 50 cm 0.14 fc` says what line
/// it is, and `pt 14 hare's ear` which fly.
fn tells_other(line: &str, atoms: &[Atom], short: &str) -> bool {
    let is_piece = short == "tip";
    let part = if is_piece { Part::Piece } else { Part::Fly };
    let values = atoms.get(1..).unwrap_or_default();
    let items = items(line, values, part).unwrap_or_default();
    let opens = |wanted: fn(Kind) -> bool| items.first().is_some_and(|first| wanted(first.kind));
    if is_piece {
        let says_line =
            |item: &Item| matches!(item.kind, Kind::X | Kind::Hundredths) || item.says() == Some(Says::Line);
        opens(|kind| matches!(kind, Kind::Length(_))) && items.iter().any(says_line)
    } else {
        opens(|kind| kind == Kind::Hook) && items.iter().any(|item| item.kind == Kind::Free)
    }
}

/// Takes away what leads to a key: `to the top dropper: …`, `and on the point: …`, `so the butt is …`.
pub(super) fn without_lead(line: &str, atoms: &mut Vec<Atom>, within: Within) {
    let leads = |atom: &&Atom| atom.look == Look::Word && LEADS.contains(&&*plain(atom.span.of(line)));
    let lead = atoms.iter().take_while(leads).count();
    let is_key = opened(line, &atoms[lead..], false, within).is_some_and(|opened| {
        let last = atoms[lead..].get(opened.atoms.wrapping_sub(1));
        let behind = atoms[lead + opened.atoms..].iter().take(LONGEST_WHERE);
        let mut words = behind.take_while(|atom| atom.look == Look::Word);
        last.is_some_and(|last| matches!(last.look, Look::Sign(':' | '-' | '–' | '—')))
            || words.any(|word| is_verb(&plain(word.span.of(line))))
    });
    if lead > 0 && is_key {
        atoms.drain(..lead);
    }
}

/// Words that lead to a key.
const LEADS: &[&str] = &[
    "to", "on", "at", "for", "and", "then", "so", "the", "a", "my", "our", "your", "next", "first", "finally",
];

/// The most words that say between a key and its colon which piece it is.
const LONGEST_WHERE: usize = 5;
