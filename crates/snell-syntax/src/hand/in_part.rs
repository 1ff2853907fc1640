//! Lines that are understood in part only: the rest is kept as a note, and told.

use super::atoms::{self, Atom, Atoms, Look};
use super::by_place::by_place;
use super::expressions::multiplies;
use super::items;
use super::opening::{Opened, opened, unbullet, without_lead};
use super::phrases::plain;
use super::place::{Piece, Placed, Sorter};
use super::remarks;
use super::spoken::says_value;
use super::within::Within;
use super::write::{self, Written};
use snell_text::Span;

/// A line of which only a part is understood, where that part is what it is there for; the rest is kept as a note.
pub(crate) fn read_in_part(line: &str, within: Within) -> Option<Written> {
    let Atoms {
        mut atoms, comment, ..
    } = atoms::atoms(line).filter(|line| within.is_rig() && line.atoms.len() <= MOST_IN_PART)?;
    unbullet(line, &mut atoms, within);
    without_lead(line, &mut atoms, within);
    let Some(opened) = opened(line, &atoms, false, within) else {
        return remarks::untold(line, &atoms);
    };
    let values = &atoms[opened.atoms..];
    let (key, mut placed) = placed(line, &opened, values).or_else(|| up_to(line, &opened, values))?;
    placed.unread = joined(line, placed.unread);
    write::called(line, key, opened.span, &mut placed);
    Some(write::line(line, key, opened.span, placed, comment).written)
}

/// The places of what is understood, with the key that the line opens with by its place.
fn placed(line: &str, opened: &Opened, values: &[Atom]) -> Option<(&'static str, Placed)> {
    let (items, _) = items::items_in_part(line, values, opened.part);
    let (key, part) = by_place(line, opened, &items);
    let (items, unread) = items::items_in_part(line, values, part);
    let placed = Sorter::new(line, part, items).place_in_part(unread).ok()?;
    Some((key, placed))
}

/// The values up to words at the line's end of which none is a value: `4 mm tungsten. tick bottom or add more`.
fn up_to(line: &str, opened: &Opened, values: &[Atom]) -> Option<(&'static str, Placed)> {
    let is_talk = |atom: &Atom| match atom.look {
        Look::Word => !says_value(&plain(atom.span.of(line)), opened.part),
        Look::Sign(sign) => matches!(
            sign,
            ',' | '.' | ';' | '-' | '–' | '—' | '/' | '+' | '&' | '!' | '?'
        ),
        Look::Number | Look::Text(_) => false,
    };
    let talk = values.iter().rev().take_while(|atom| is_talk(atom)).count();
    let first = values.len() - talk;
    let ends = (first..values.len()).rev().filter(|end| *end > 0);
    for end in ends {
        let (values, rest) = values.split_at(end);
        let (Some(from), Some(to)) = (rest.first(), rest.last()) else {
            continue;
        };
        let words = rest.iter().filter(|atom| atom.look == Look::Word).count();
        if words < FEWEST_TALKED {
            continue;
        }
        if let Some((key, mut placed)) =
            placed(line, opened, values).filter(|(_, placed)| placed.unread.is_empty())
        {
            let span = from.span.to(to.span);
            placed.notes.push(Piece {
                strict: span.of(line).to_owned(),
                span,
            });
            placed.unread.push(span);
            return Some((key, placed));
        }
    }
    None
}

/// Fewer words may be a value that has slipped.
const FEWEST_TALKED: usize = 3;

/// A line that the grammar reads, but whose first word opens none.
pub(super) fn unknown(line: &str) -> Option<Written> {
    let Atoms { atoms, comment, .. } = atoms::atoms(line)?;
    let is_told = comment.is_none() && atoms.len() <= MOST_IN_PART && !multiplies(line, &atoms);
    is_told.then(|| remarks::untold(line, &atoms)).flatten()
}

/// Stretches of a line in their order, those that stand side by side as one.
fn joined(line: &str, mut stretches: Vec<Span>) -> Vec<Span> {
    stretches.sort_by_key(|stretch| stretch.start);
    let mut joined: Vec<Span> = Vec::new();
    let is_beside = |last: &Span, next: Span| {
        let between = line.get(last.end as usize..next.start as usize);
        between.is_none_or(|between| between.trim().is_empty())
    };
    for stretch in stretches {
        match joined.last_mut() {
            Some(last) if is_beside(last, stretch) => *last = last.to(stretch),
            Some(_) | None => joined.push(stretch),
        }
    }
    joined
}

/// A longer line is none that somebody wrote by hand.
const MOST_IN_PART: usize = 80;
