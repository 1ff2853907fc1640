//! Lines that are understood in part only: the rest is kept as a note, and told.

use super::atoms::{self, Atoms};
use super::by_place::by_place;
use super::items;
use super::opening::{opened, unbullet, without_lead};
use super::place::Sorter;
use super::remarks;
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
    let (items, _) = items::items_in_part(line, values, opened.part);
    let (key, part) = by_place(line, &opened, &items);
    let (items, unread) = items::items_in_part(line, values, part);
    let mut placed = Sorter::new(line, part, items).place_in_part(unread).ok()?;
    placed.unread = joined(line, placed.unread);
    write::called(line, key, opened.span, &mut placed);
    Some(write::line(line, key, opened.span, placed, comment).written)
}

/// A line whose first word opens none.
pub(super) fn unknown(line: &str) -> Option<Written> {
    let atoms = atoms::atoms(line).filter(|line| line.comment.is_none() && line.atoms.len() <= MOST_IN_PART);
    atoms.and_then(|atoms| remarks::untold(line, &atoms.atoms))
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
