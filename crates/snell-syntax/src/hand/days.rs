//! What an outing says in its author's own hand: the day, what was caught, and lines that begin with a time.

use super::atoms::{Atom, Look};
use super::phrases::plain;
use super::place::Unplaced;
use super::slip::{self, Asked};
use super::title;
use super::trade::{FISH, KEYS, MONTHS, NUMBERS, Part};
use super::within::Within;
use super::write::{Strict, Writer, Written};
use crate::words::fold;
use snell_text::Span;

type Result<T> = std::result::Result<T, Unplaced>;

/// `caught 2 grayling, 31 and 34 cm, on the dropper`: how many, on which fly, and the rest as it is written.
pub(super) fn catch(line: &str, key: Span, values: &[Atom], comment: Option<Span>) -> Result<Strict> {
    hooked("caught", line, key, values, comment)
}

/// `lost 1 on the dropper`, `lost two browns`: fish that got off. What else was lost, such as flies on a snag, is a note.
pub(super) fn lost_or_note(line: &str, key: Span, values: &[Atom], comment: Option<Span>) -> Result<Strict> {
    let is_of_fish = values.get(1).is_none_or(|next| {
        let word = fold(next.span.of(line));
        word == "on" || row_of_fish(&word).is_some()
    });
    if key.of(line).eq_ignore_ascii_case("lost")
        && is_of_fish
        && let Ok(lost) = hooked("lost", line, key, values, comment)
    {
        return Ok(lost);
    }
    title::note(line, key, values, comment)
}

fn hooked(
    word: &'static str,
    line: &str,
    key: Span,
    values: &[Atom],
    comment: Option<Span>,
) -> Result<Strict> {
    let (first, rest) = values.split_first().ok_or(Unplaced::Other)?;
    if values.iter().any(|atom| matches!(atom.look, Look::Text(_))) {
        return Err(Unplaced::Other);
    }
    let count = count(first.span.of(line)).ok_or(Unplaced::Other)?;
    let fly = (0..rest.len()).find_map(|at| on_fly(line, &rest[at..]).map(|fly| (at, fly)));
    let (before, after) = match &fly {
        Some((at, fly)) => (&rest[..*at], &rest[at + fly.atoms..]),
        None => (rest, &rest[rest.len()..]),
    };
    let said: Vec<Span> = [before, after].iter().filter_map(|part| words(part)).collect();
    let mut writer = Writer::default();
    writer.add(word, key);
    writer.add(&count, first.span);
    if let Some((at, fly)) = &fly {
        writer.add("on", rest[*at].span);
        writer.add(&fly.strict, rest[at + 1].span.to(rest[at + fly.atoms - 1].span));
    }
    if let (Some(start), Some(end)) = (said.first(), said.last()) {
        let text: Vec<&str> = said.iter().map(|span| span.of(line)).collect();
        writer.add(
            &format!("\"{}\"", text.join(", ").replace('"', " in")),
            start.to(*end),
        );
    }
    let note = comment.map(|comment| comment.of(line).to_owned());
    Ok(writer.done(note.as_slice(), false))
}

/// `1 brown 38 cm on the dropper`: a catch that begins with its number.
pub(super) fn keyless_catch(
    line: &str,
    atoms: &[Atom],
    comment: Option<Span>,
    within: Within,
) -> Option<Written> {
    let [count, fish, ..] = atoms else {
        return None;
    };
    let fish = fold(fish.span.of(line));
    if count.look != Look::Number || row_of_fish(&fish).is_none() {
        return None;
    }
    let key = Span::empty(count.span.start);
    let read = match within {
        Within::Rig | Within::RodEnd => title::note(line, key, atoms, comment),
        Within::Top | Within::Outing | Within::Other => catch(line, key, atoms, comment),
    };
    read.ok().map(|strict| strict.written)
}

fn row_of_fish(folded: &str) -> Option<&'static (&'static str, Option<&'static str>)> {
    let one = folded.strip_suffix("ies").map(|stem| format!("{stem}ie"));
    let one = one.as_deref().unwrap_or_else(|| folded.trim_end_matches('s'));
    FISH.iter().find(|(word, _)| *word == one)
}

/// Whether a word is the usual name of a fish, of one or of several.
pub(super) fn is_fish(folded: &str) -> bool {
    row_of_fish(folded).is_some()
}

/// What fish of a usual name are counted as: `brown trout` of `browns`. Nothing where the word does not say which.
pub fn species(word: &str) -> Option<&'static str> {
    row_of_fish(&fold(word))?.1
}

/// The words of some atoms, without the commas around them.
fn words(atoms: &[Atom]) -> Option<Span> {
    let is_word = |atom: &&Atom| !matches!(atom.look, Look::Sign(',' | ';' | '.' | '-' | '–'));
    let (first, last) = (atoms.iter().find(is_word)?, atoms.iter().rfind(is_word)?);
    Some(first.span.to(last.span))
}

/// How many: `2`, `two`, `a`.
fn count(written: &str) -> Option<String> {
    if written.parse::<u16>().is_ok() {
        return Some(written.to_owned());
    }
    let word = fold(written);
    let row = NUMBERS.iter().find(|(words, _)| words.contains(&&*word));
    row.map(|(_, count)| count.to_string())
}

/// A fly by its place, and how many atoms `on` and it are.
struct OnFly {
    strict: String,
    atoms: usize,
}

/// `on the point`, `on dropper 2`, `on the bob`, `on slate`.
fn on_fly(line: &str, atoms: &[Atom]) -> Option<OnFly> {
    let word = |at: usize| {
        let atom = atoms.get(at).filter(|atom| atom.look == Look::Word)?;
        Some(plain(atom.span.of(line)))
    };
    if word(0)? != "on" {
        return None;
    }
    let article = usize::from(word(1).is_some_and(|word| matches!(&*word, "the" | "a" | "an" | "my")));
    let start = 1 + article;
    let one = word(start)?;
    let two = word(start + 1).map(|second| format!("{one} {second}"));
    let place = |written: &str| {
        let row = KEYS
            .iter()
            .find(|(_, part, words)| matches!(part, Part::Fly | Part::Dropper) && words.contains(&written));
        row.map(|(key, _, _)| *key)
    };
    let (key, written, length) = match two.as_deref().and_then(|two| Some((place(two)?, two))) {
        Some((key, two)) => (key.to_owned(), two.to_owned(), 2),
        None => match place(&one) {
            Some(key) => (key.to_owned(), one.to_string(), 1),
            // A name of one word; several are told in words.
            None if word(start + 1).is_none() => (atoms[start].span.of(line).to_owned(), one.to_string(), 1),
            None => return None,
        },
    };
    let number = atoms.get(start + length).filter(|atom| atom.look == Look::Number);
    let number = number.filter(|_| key == "dropper");
    let strict = match (&*key, &*written, number) {
        (_, _, Some(number)) => format!("{key} {}", number.span.of(line)),
        ("dropper", "second dropper" | "middle dropper" | "middle fly", None) => format!("{key} 2"),
        // Which one that is depends on how many there are.
        ("dropper", "bottom dropper", None) => return None,
        _ => key,
    };
    Some(OnFly {
        strict,
        atoms: start + length + usize::from(number.is_some()),
    })
}

/// `10:30 change point to …`: the line behind the time, with the time for a comment.
pub(super) fn timed(line: &str, atoms: &[Atom]) -> Option<Written> {
    let [hour, colon, minute, rest @ ..] = atoms else {
        return None;
    };
    let clock = |atom: &Atom, most: u8| {
        let written = atom.span.of(line);
        written.len() <= 2 && written.parse::<u8>().is_ok_and(|figure| figure < most)
    };
    let is_time =
        colon.look == Look::Sign(':') && colon.glued && minute.glued && clock(hour, 24) && clock(minute, 60);
    let start = rest.first()?.span.start;
    if !is_time {
        return None;
    }
    let time = hour.span.to(minute.span).of(line);
    let rest = line.get(start as usize..)?.trim_end();
    let mut writer = Writer::default();
    writer.add(rest, Span::from(start as usize..start as usize + rest.len()));
    let mut written = writer.done(&[], false).written;
    let behind = if rest.contains("//") { "; " } else { " // " };
    written.strict.push_str(&format!("{behind}{time}"));
    Some(written)
}

/// `9 May 2026`, `9.5.2026`, `May 9, 2026`: the day as the calendar has it.
pub(super) fn day(line: &str, key: Span, values: &[Atom], comment: Option<Span>) -> Result<Strict> {
    let said = words(values).ok_or(Unplaced::Other)?;
    let written = said.of(line);
    let figures: Vec<String> = written
        .split(|letter: char| !letter.is_alphanumeric())
        .filter(|part| !part.is_empty())
        .map(|part| fold(part).into_owned())
        .collect();
    let is_iso = figures.first().is_some_and(|first| first.len() == 4);
    if is_iso || values.iter().any(|atom| matches!(atom.look, Look::Text(_))) {
        return Err(Unplaced::Other);
    }
    let Some(named) = named(&figures, written.contains('/')) else {
        return Err(Unplaced::Other);
    };
    let day = named.map_err(|asked| Unplaced::Asks(slip::day(line, said, asked)))?;
    let mut writer = Writer::default();
    writer.add("day", key);
    writer.add(&day, said);
    let note = comment.map(|comment| comment.of(line).to_owned());
    Ok(writer.done(note.as_slice(), false))
}

/// The day that some words name; nothing where they name none.
fn named(words: &[String], slashed: bool) -> Option<std::result::Result<String, Asked>> {
    let month = |word: &str| {
        let at = MONTHS
            .iter()
            .position(|month| word.len() >= 3 && month.starts_with(word.trim_end_matches('.')));
        at.map(|at| at + 1)
    };
    let number = |word: &str| {
        let digits = word.trim_end_matches(|letter: char| letter.is_ascii_alphabetic());
        let ending = &word[digits.len()..];
        let whole = ["", "st", "nd", "rd", "th"].contains(&ending);
        whole.then(|| digits.parse::<usize>().ok()).flatten()
    };
    let words: Vec<&str> = words
        .iter()
        .map(String::as_str)
        .filter(|word| *word != "of")
        .collect();
    let (day, month, year) = match words.as_slice() {
        [one, two, year @ ..] if year.len() <= 1 => match (month(one), month(two)) {
            (None, Some(month)) => (number(one)?, month, year.first()),
            (Some(month), None) => (number(two)?, month, year.first()),
            (Some(_), Some(_)) => return None,
            (None, None) => {
                let (one, two) = (number(one)?, number(two)?);
                match (slashed, one > 12, two > 12) {
                    (true, false, false) if one != two => return Some(Err(Asked::DayOrMonth)),
                    (true, false, true) => (two, one, year.first()),
                    _ => (one, two, year.first()),
                }
            }
        },
        _ => return None,
    };
    let Some(year) = year else {
        return Some(Err(Asked::NoYear));
    };
    let year = match (year.len(), year.parse::<usize>().ok()?) {
        (2, short) => 2000 + short,
        (4, year) => year,
        _ => return None,
    };
    Some(Ok(format!("{year:04}-{month:02}-{day:02}")))
}
