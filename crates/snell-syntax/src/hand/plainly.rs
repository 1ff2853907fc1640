//! Lines that are strict at a glance: most are, and need not be taken apart a second time.
//!
//! Without it reading a notebook of strict rigs takes 1.4 times as long. What it lets through is only what the longer
//! way would find to be strict, too.

use super::phrases::{Says, TRADE};
use super::trade::{METHODS, Part};
use crate::named::COLOURS;
use crate::tree::{Clause, Expr, Plain, SingleKind};
use crate::vocabulary::Joint;

/// Whether a line is strict at a glance.
pub(super) fn is_strict(plain: &Plain, part: Part) -> bool {
    // `note "…"`
    if part == Part::Note && plain.text.is_some() {
        return only_quotes(plain);
    }
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

/// Whether a line says nothing but what it quotes.
pub(super) fn only_quotes(plain: &Plain) -> bool {
    plain.text.is_some() && plain.items.is_empty() && plain.clauses.is_empty()
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

/// What line is: its X, its diameter, its strength, what it is made of, and its colour, each once or not at all, in the
/// order in which they are written out.
fn line(items: &[Expr]) -> bool {
    let is_x = |expr: &Expr| matches!(single(expr), Some(SingleKind::X(_)));
    let is_thou =
        |kind: &SingleKind| matches!(kind, SingleKind::Number(_, Some(unit)) if &*unit.plain == "thou");
    let is_diameter = |expr: &Expr| single(expr).is_some_and(|kind| is_measured(kind) || is_thou(kind));
    let is_strength =
        |expr: &Expr| matches!(single(expr), Some(SingleKind::Number(_, Some(unit))) if &*unit.plain == "lb");
    let is_stuff = |expr: &Expr| word(expr).is_some_and(|word| is_said(word, Says::Line));
    let is_colour = |expr: &Expr| word(expr).is_some_and(|word| COLOURS.contains(&word));
    let rest = past(past(items, is_x), is_diameter);
    let is_sized = rest.len() < items.len();
    let rest = past(past(past(rest, is_strength), is_stuff), is_colour);
    is_sized && rest.is_empty()
}

/// What stands behind the first item, where it is such.
fn past(items: &[Expr], is_such: impl Fn(&Expr) -> bool) -> &[Expr] {
    match items {
        [first, rest @ ..] if is_such(first) => rest,
        items => items,
    }
}

fn joined(clause: &Clause, part: Part) -> bool {
    match clause.joint {
        Joint::Of => matches!(clause.items.as_slice(), [only] if word(only).is_some()) || line(&clause.items),
        Joint::With => part == Part::Dropper && fly(&clause.items),
        Joint::As | Joint::On => is_one_word(&clause.items),
        Joint::Off | Joint::To | Joint::At | Joint::Over | Joint::After | Joint::Because => false,
    }
}

/// A fly's name, or its hook and then its bead.
fn fly(items: &[Expr]) -> bool {
    let hook = |expr: &Expr| matches!(single(expr), Some(SingleKind::Size(_)));
    let is_mass =
        |kind: &SingleKind| matches!(kind, SingleKind::Number(_, Some(unit)) if &*unit.plain == "g");
    let bead = |expr: &Expr| single(expr).is_some_and(is_measured);
    let mass = |expr: &Expr| single(expr).is_some_and(is_mass);
    match items {
        [only] => word(only).is_some() || hook(only),
        [size, of] => hook(size) && (bead(of) || mass(of)),
        [size, of, stuff] => {
            hook(size) && bead(of) && word(stuff).is_some_and(|word| is_said(word, Says::Bead))
        }
        _ => false,
    }
}

/// Whether a word is the strict one of what it says.
fn is_said(word: &str, says: Says) -> bool {
    let rows = TRADE.iter().skip_while(|row| row.says != says);
    rows.take_while(|row| row.says == says)
        .any(|row| row.strict == word)
}
