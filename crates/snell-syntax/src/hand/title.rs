//! Lines whose values are words: the head of a rig, its method, a note.

use super::atoms::{Atom, Look};
use super::opening;
use super::phrases::plain;
use super::place::Unplaced;
use super::sentences::is_verb;
use super::slip;
use super::trade::{BROAD_METHODS, METHODS, MONTHS, NUMBERS};
use super::write::{Strict, Writer, Written};
use crate::vocabulary::{BlockKind, Link, is_joining};
use crate::words::fold;
use rustc_hash::FxHashMap;
use snell_finding::Code;
use snell_text::Span;
use std::borrow::Cow;
use std::sync::LazyLock;

type Result<T> = std::result::Result<T, Unplaced>;

/// Whether a block of this kind may be named by several words.
pub(super) fn names_in_words(kind: &str) -> bool {
    matches!(BlockKind::of(kind), Some(BlockKind::Rig | BlockKind::Outing))
}

/// `rig evening riffle`: a name made of the words, and the words as the title.
pub(super) fn head(line: &str, atoms: &[Atom], comment: Option<Span>) -> Option<Written> {
    let word = |at: usize| {
        let atom = atoms.get(at).filter(|atom: &&Atom| atom.look == Look::Word)?;
        Some(fold(atom.span.of(line)))
    };
    let kind = word(0)?;
    if !names_in_words(&kind) {
        return None;
    }
    let colon = usize::from(atoms.get(1).is_some_and(|atom| atom.look == Look::Sign(':')));
    let words = atoms.get(1 + colon..)?;
    // A title in quotes is strict, and so is what the strict reading mends.
    let spoken = |look| match look {
        Look::Word | Look::Number => true,
        Look::Sign(sign) => matches!(
            sign,
            ',' | ';'
                | '.'
                | '-'
                | '–'
                | '&'
                | '+'
                | '/'
                | '\''
                | '’'
                | '('
                | ')'
                | '#'
                | '!'
                | '?'
                | '@'
                | '|'
        ),
        Look::Text(_) => false,
    };
    if words.is_empty() || !words.iter().all(|atom| spoken(atom.look)) {
        return None;
    }
    if words[0].span.of(line).eq_ignore_ascii_case("from") {
        return None;
    }
    let from = words
        .len()
        .checked_sub(2)
        .filter(|at| *at > 0 && words[*at].look == Look::Word && fold(words[*at].span.of(line)) == "from");
    // `the one from saturday`
    let tells_day = |at: &usize| {
        let word = fold(words[*at + 1].span.of(line));
        DAYS.contains(&&*word) || MONTHS.contains(&&*word)
    };
    let from = from.filter(|at| !tells_day(at));
    let titled = &words[..from.unwrap_or(words.len())];
    let span = titled.first()?.span.to(titled.last()?.span);
    let title = span.of(line);
    if is_joining(title) {
        return None;
    }
    let name = slug(title, &kind);
    let mut writer = Writer::default();
    writer.add(&kind, atoms[0].span);
    writer.add(&name, span);
    if let Some(at) = from {
        writer.add("from", words[at].span);
        writer.add(words[at + 1].span.of(line), words[at + 1].span);
    }
    if title != name {
        writer.add(&format!("\"{title}\""), span);
    }
    let note = comment.map(|comment| comment.of(line).to_owned());
    Some(writer.done(note.as_slice(), true).written)
}

/// Days that a rig may be from.
const DAYS: &[&str] = &[
    "monday",
    "tuesday",
    "wednesday",
    "thursday",
    "friday",
    "saturday",
    "sunday",
    "yesterday",
    "today",
    "spring",
    "summer",
    "autumn",
    "winter",
    "memory",
    "scratch",
    "home",
];

/// `Winter leader for the Beck` above all other lines: a rig of that title. No word of it is what a line opens with, nor
/// nearly, so that no line is taken for a title that has only slipped.
pub(super) fn alone(line: &str, atoms: &[Atom], comment: Option<Span>) -> Option<Written> {
    const FEWEST_WORDS: usize = 2;
    let titled = match atoms {
        [titled @ .., colon] if colon.look == Look::Sign(':') => titled,
        titled => titled,
    };
    let is_title = |atom: &Atom| match atom.look {
        Look::Word => true,
        Look::Sign(sign) => [',', '-', '–', '—', '&', '\'', '’', '(', ')', '!', '?'].contains(&sign),
        Look::Number | Look::Text(_) => false,
    };
    let words: Vec<Cow<'_, str>> = titled
        .iter()
        .filter(|atom| atom.look == Look::Word)
        .map(|atom| fold(atom.span.of(line)))
        .collect();
    let (first, last) = (titled.first()?, titled.last()?);
    let is_titled = words.len() >= FEWEST_WORDS
        && first.look == Look::Word
        && titled.iter().all(is_title)
        && !opening::nearly_open(&words);
    if !is_titled {
        return None;
    }
    let span = first.span.to(last.span);
    let title = span.of(line);
    let mut writer = Writer::default();
    writer.add(BlockKind::Rig.word(), Span::empty(first.span.start));
    writer.add(&slug(title, BlockKind::Rig.word()), span);
    writer.add(&format!("\"{title}\""), span);
    let note = comment.map(|comment| comment.of(line).to_owned());
    Some(writer.done(note.as_slice(), true).written)
}

/// A name made of a title: its letters and digits, with hyphens between the words.
fn slug(title: &str, kind: &str) -> String {
    let mut slug = String::new();
    for letter in fold(title).chars() {
        if letter.is_alphanumeric() {
            slug.push(letter);
        } else if !slug.ends_with('-') && !matches!(letter, '\'' | '’') {
            slug.push('-');
        }
    }
    let slug = slug.trim_matches('-');
    if slug.starts_with(char::is_alphabetic) && !is_joining(slug) {
        slug.to_owned()
    } else {
        format!("{kind}-{slug}")
    }
}

/// `method wet fly swing, 2 flies`: the method, and the words as they are written.
pub(super) fn method(line: &str, key: Span, values: &[Atom], comment: Option<Span>) -> Result<Strict> {
    let values = match values {
        [values @ .., last] if last.look == Look::Sign('.') => values,
        values => values,
    };
    let (first, last) = (
        values.first().ok_or(Unplaced::Other)?,
        values.last().ok_or(Unplaced::Other)?,
    );
    let said = first.span.to(last.span);
    let values = behind_verb(line, values);
    let first = values.first().ok_or(Unplaced::Other)?;
    if values.iter().any(|atom| matches!(atom.look, Look::Text(_))) {
        return Err(Unplaced::Other);
    }
    let mut phrases = values.split(|atom| matches!(atom.look, Look::Sign(',' | ';' | '(' | '|')));
    let mut named = phrases
        .next()
        .map(|first| all_in(line, first))
        .unwrap_or_default();
    // `under the bung` is a name, `under 3` is not.
    let is_link = Link::of(&fold(first.span.of(line))).is_some();
    if is_link
        && named
            .first()
            .is_none_or(|named| named.span.start != first.span.start)
    {
        return Err(Unplaced::Other);
    }
    for phrase in phrases {
        named.extend(whole_phrase(line, phrase, named.is_empty()));
    }
    // `nymphing under an indicator`: what is broad says nothing beside what is not.
    let narrow = named.iter().any(|found| !found.broad);
    let said_by: Vec<Span> = named.iter().map(|found| found.span).collect();
    named.retain(|found| !narrow || !found.broad);
    let Some(&Named { method, span, .. }) = named.first() else {
        return in_words(line, key, values, comment);
    };
    if let Some(other) = named.iter().find(|other| other.method != method) {
        let (one, two) = (span.of(line), other.span.of(line));
        let slip = crate::faults::Slip::new(
            Code::ReadTwoWays,
            other.span,
            format!("`{one}` and `{two}` are two methods."),
        );
        return Err(Unplaced::Asks(slip.help(format!("keep `{one}` or `{two}`"))));
    }
    // `dropper dry` is no dry fly.
    let first = values
        .split(|atom| matches!(atom.look, Look::Sign(',' | ';' | '(' | '|')))
        .next()
        .unwrap_or_default();
    let beside = |atom: &&Atom| atom.look == Look::Word && !said_by.iter().any(|said| said.holds(atom.span));
    let other = first.iter().filter(beside).find(|atom| {
        let word = plain(atom.span.of(line));
        word.len() > SHORT && !OF_NONE.contains(&&*word) && of_others(&word, method)
    });
    if let Some(other) = other {
        let slip = crate::faults::Slip::new(
            Code::ReadTwoWays,
            other.span,
            format!(
                "`{}` belongs to another method than `{}`.",
                other.span.of(line),
                span.of(line)
            ),
        );
        return Err(Unplaced::Asks(slip.help(
            "write the method by one of its usual names, such as `dry dropper`",
        )));
    }
    // `dry droper` is no dry fly. Where all words of the first phrase name one, the others may say what they like.
    let is_named = !first.iter().any(|atom| beside(&atom));
    for phrase in values.split(|atom| matches!(atom.look, Look::Sign(',' | ';' | '(' | '|'))) {
        // What goes on for long is told in words.
        let own = phrase.iter().any(|atom| span.holds(atom.span));
        if !own && (phrase.len() > LONGEST_NAME || is_named) {
            continue;
        }
        for atom in phrase.iter().filter(|atom| atom.look == Look::Word) {
            slip::check_method(line, atom.span).map_err(Unplaced::Asks)?;
        }
    }
    let mut writer = Writer::default();
    writer.add("method", key);
    writer.add(method, span);
    let words = said.of(line);
    if fold(words) != method {
        writer.add(&format!("\"{words}\""), said);
    }
    let note = comment.map(|comment| comment.of(line).to_owned());
    Ok(writer.done(note.as_slice(), false))
}

/// `is euro nymphing because it is deep`: the words that may name the method.
fn behind_verb<'a>(line: &str, values: &'a [Atom]) -> &'a [Atom] {
    let is =
        |atom: &Atom, told: fn(&str) -> bool| atom.look == Look::Word && told(&plain(atom.span.of(line)));
    let verb = values
        .iter()
        .take(LONGEST_NAME)
        .position(|atom| is(atom, is_verb));
    let values = verb.map_or(values, |verb| &values[verb + 1..]);
    let end = values
        .iter()
        .position(|atom| is(atom, |word| TELLS_WHY.contains(&word)));
    end.map_or(values, |end| &values[..end])
}

/// Words behind which it is told why a method is fished.
const TELLS_WHY: &[&str] = &["because", "since", "so", "when", "while"];

/// `slow pull off the drift`: a way to fish that the table does not hold, told in words.
fn in_words(line: &str, key: Span, values: &[Atom], comment: Option<Span>) -> Result<Strict> {
    let words = values.iter().filter(|atom| atom.look == Look::Word);
    let whole = words.clone().filter(|atom| atom.span.len() >= SHORT as u32);
    if whole.count() < FEWEST_WORDS {
        return Err(Unplaced::Other);
    }
    let counts = |atom: &&Atom| {
        let word = plain(atom.span.of(line));
        NUMBERS.iter().any(|(written, _)| written.contains(&&*word))
    };
    for atom in words.filter(|atom| !counts(atom)) {
        slip::check_method(line, atom.span).map_err(Unplaced::Asks)?;
    }
    note(line, key, values, comment)
}

/// A single word is a method's name that has slipped, and shorter ones are what a slip left of it.
const FEWEST_WORDS: usize = 2;

/// The most words that a method's name is taken to have.
const LONGEST_NAME: usize = 3;

/// Shorter words are of no one method.
const SHORT: usize = 3;

/// Words of methods' names that say nothing of the method.
const OF_NONE: &[&str] = &[
    "flies",
    "with",
    "under",
    "style",
    "fishing",
    "across",
    "down",
    "leader",
    "static",
    "country",
    "north",
    "shot",
    "pulling",
    "stripping",
];

/// Whether a word stands in names of other methods only.
fn of_others(word: &str, method: &str) -> bool {
    let has = |names: &[&str]| {
        names
            .iter()
            .any(|name| name.split([' ', '-', '/']).any(|part| part == word))
    };
    let own = METHODS
        .iter()
        .any(|(known, names)| *known == method && (has(names) || has(&[*known])));
    !own && METHODS
        .iter()
        .any(|(known, names)| *known != method && has(names))
}

/// The methods by all their names, each as [`plain`] writes it.
static METHOD_OF: LazyLock<FxHashMap<String, &'static str>> = LazyLock::new(|| {
    let mut methods = FxHashMap::default();
    for (method, written) in METHODS {
        let names = written.iter().map(|name| (*name).to_owned());
        for name in std::iter::once(plain(method).into_owned()).chain(names) {
            methods.entry(name).or_insert(*method);
        }
    }
    methods
});

/// A method that some words name.
struct Named {
    method: &'static str,
    /// Whether it is the name of a way to fish that several methods have.
    broad: bool,
    span: Span,
}

/// No name of a method has more atoms: the words of the longest, and `style`, each with a sign behind it.
static MOST_ATOMS: LazyLock<usize> = LazyLock::new(|| {
    let words = METHOD_OF.keys().map(|name| name.split([' ', '/']).count() + 1);
    2 * words.max().unwrap_or(0)
});

/// The methods that a phrase names, from the left, each by the longest of its names.
fn all_in(line: &str, phrase: &[Atom]) -> Vec<Named> {
    let mut found = Vec::new();
    let mut at = 0;
    while at < phrase.len() {
        let longest = (at + 1..=phrase.len().min(at + *MOST_ATOMS)).rev();
        let mut counted = longest.filter_map(|end| Some((end, whole_phrase(line, &phrase[at..end], false)?)));
        match counted.next() {
            Some((end, named)) => {
                found.push(named);
                at = end;
            }
            None => at += 1,
        }
    }
    found
}

/// Whether the whole of a phrase is a method's name.
pub(super) fn is_method(line: &str, phrase: &[Atom]) -> bool {
    whole_phrase(line, phrase, false).is_some()
}

/// The method that the whole of a phrase names; where `is_first`, that it names anywhere.
fn whole_phrase(line: &str, phrase: &[Atom], is_first: bool) -> Option<Named> {
    if is_first {
        return all_in(line, phrase).into_iter().next();
    }
    let span = phrase.first()?.span.to(phrase.last()?.span);
    let plain_words = plain(span.of(line));
    let words: Vec<&str> = plain_words.split_whitespace().collect();
    let said = words.join(" ");
    let styled = said.trim_end_matches(" style");
    let method = METHOD_OF.get(&*said).or_else(|| METHOD_OF.get(styled)).copied()?;
    Some(Named {
        method,
        broad: BROAD_METHODS.contains(&&*said),
        span,
    })
}

/// `notes: wade with care`
pub(super) fn note(line: &str, key: Span, values: &[Atom], comment: Option<Span>) -> Result<Strict> {
    let (first, last) = (
        values.first().ok_or(Unplaced::Other)?,
        values.last().ok_or(Unplaced::Other)?,
    );
    if values.iter().any(|atom| matches!(atom.look, Look::Text(_))) {
        return Err(Unplaced::Other);
    }
    // `lost 2` is one thing said, `note lost 2` another word for it.
    let is_key = plain(key.of(line)).starts_with("note");
    let said = first.span.to(last.span);
    let said = if is_key { said } else { key.to(said) };
    let mut writer = Writer::default();
    writer.add("note", key);
    writer.add(&format!("\"{}\"", said.of(line).replace('"', " in")), said);
    let note = comment.map(|comment| comment.of(line).to_owned());
    Ok(writer.done(note.as_slice(), false))
}
