//! Lines that are strict at a glance: most are, and need not be taken apart a second time.
//!
//! Without it reading a notebook of strict rigs takes 1.4 times as long. What it lets through is only what the longer
//! way would find to be strict, too.

use super::phrases::{Says, TRADE};
use super::trade::{METHODS, Part};
use crate::tree::{Clause, Expr, Plain, SingleKind};
use crate::vocabulary::Joint;

/// Whether a line is strict at a glance.
pub(super) fn is_strict(plain: &Plain, part: Part) -> bool {
    plain.text.is_none()
        && plain.clauses.iter().all(|clause| clause.text.is_none())
        && match part {
            Part::Piece | Part::Line => {
                length(&plain.items, part == Part::Line)
                    && plain.clauses.iter().all(|clause| joined(clause, part))
            }
            Part::Dropper => {
                length(&plain.items, false) && plain.clauses.iter().all(|clause| joined(clause, part))
            }
            Part::Fly => fly(&plain.items) && plain.clauses.iter().all(|clause| joined(clause, part)),
            Part::Water | Part::Rod => is_one_word(&plain.items) && plain.clauses.is_empty(),
            Part::Method => is_method(&plain.items) && plain.clauses.is_empty(),
            Part::Ring => length(&plain.items, true) && plain.clauses.is_empty(),
            Part::Outing => true,
            Part::Knot => is_one_word(&plain.items) && plain.clauses.is_empty(),
            Part::Bed | Part::Float | Part::Swivel | Part::Shot | Part::Note | Part::Catch | Part::Day => {
                false
            }
        }
}

/// A number with one of the units that lines are measured in, and not with the word behind it.
fn is_measured(kind: &SingleKind) -> bool {
    match kind {
        SingleKind::Number(_, Some(unit)) => ["mm", "cm", "m", "in", "ft", "\"", "'"].contains(&&*unit.plain),
        SingleKind::Feet(..) => true,
        SingleKind::X(_)
        | SingleKind::Size(_)
        | SingleKind::Pounds(..)
        | SingleKind::Day
        | SingleKind::Number(_, None) => false,
    }
}

fn word(expr: &Expr) -> Option<&str> {
    expr.path()
        .filter(|words| words.len() == 1)
        .map(|words| &*words[0].folded)
}

fn is_one_word(items: &[Expr]) -> bool {
    matches!(items, [only] if word(only).is_some())
}

fn is_method(items: &[Expr]) -> bool {
    let named = |word: &str| METHODS.iter().any(|(method, _)| *method == word);
    matches!(items, [only] if word(only).is_some_and(named))
}

/// One length in its own unit.
fn length(items: &[Expr], may_lack: bool) -> bool {
    match items {
        [] => may_lack,
        [only] => single(only).is_some_and(is_measured),
        _ => false,
    }
}

fn single(expr: &Expr) -> Option<&SingleKind> {
    expr.single().map(|single| &single.kind)
}

fn is_size(expr: &Expr) -> bool {
    single(expr).is_some_and(|kind| matches!(kind, SingleKind::X(_)) || is_measured(kind))
}

fn joined(clause: &Clause, part: Part) -> bool {
    match clause.joint {
        Joint::Of => match clause.items.as_slice() {
            [only] => word(only).is_some() || is_size(only),
            [size, stuff] => is_size(size) && word(stuff).is_some_and(is_line),
            _ => false,
        },
        Joint::With => part == Part::Dropper && fly(&clause.items),
        Joint::As | Joint::On => is_one_word(&clause.items),
        Joint::Off | Joint::To | Joint::At | Joint::Over | Joint::After | Joint::Because => false,
    }
}

/// A fly's name, or its hook and then its bead.
fn fly(items: &[Expr]) -> bool {
    let hook = |expr: &Expr| matches!(single(expr), Some(SingleKind::Size(_)));
    let bead = |expr: &Expr| single(expr).is_some_and(is_measured);
    match items {
        [only] => word(only).is_some() || hook(only),
        [size, of] => hook(size) && bead(of),
        [size, of, stuff] => hook(size) && bead(of) && word(stuff).is_some_and(is_bead),
        _ => false,
    }
}

fn is_line(word: &str) -> bool {
    TRADE
        .iter()
        .take_while(|row| row.says == Says::Line)
        .any(|row| row.strict == word)
}

fn is_bead(word: &str) -> bool {
    let beads = TRADE.iter().skip_while(|row| row.says != Says::Bead);
    beads
        .take_while(|row| row.says == Says::Bead)
        .any(|row| row.strict == word)
}
