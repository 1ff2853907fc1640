//! What was on a day, in words, and what only says when and where.

use super::of_rig::{Points, SHORTEST_OPENING, is_of_rig, names_rig};
use super::prose::{counts_units, is_prose, note, shows_rig, words};
use crate::hand::atoms::{Atom, Look};
use crate::hand::phrases::plain;
use crate::hand::trade::MONTHS;
use crate::hand::write::Written;
use snell_text::Span;

/// `17 May, wind south-west, three trout on the bob`, `4/12 - six browns`: what was on a day, in words. No line of a rig
/// begins with a day.
pub(in crate::hand) fn dated(line: &str, atoms: &[Atom], comment: Option<Span>) -> Option<Written> {
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
        // `1/2` is a half, as `½` is.
        if !with_year && is_part_of_one(figures) {
            return None;
        }
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

fn is_part_of_one(figures: &str) -> bool {
    ["1/2", "1/3", "2/3", "1/4", "3/4", "1/8", "3/8", "5/8", "7/8"].contains(&figures)
}

fn is_month_or_day(figure: &str) -> bool {
    figure.parse::<u8>().is_ok_and(|day| (1..=31).contains(&day))
}

/// `Alderwick Run bend pool, 2 Sept 19:30`: where and when, in words, and no other figure.
pub(super) fn is_day_alone(line: &str, atoms: &[Atom]) -> bool {
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
pub(super) fn only_tells(line: &str, atoms: &[Atom]) -> bool {
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

const FEWEST_WORDS: usize = 3;
const FEWEST_DATED: usize = 2;
const SHORTEST_MONTH: usize = 3;
