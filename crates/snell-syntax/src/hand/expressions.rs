//! Signs that may compute, and may as well part phrases: a full stop, a plus, a stroke, a bracket.

use super::atoms::{Atom, Look, is_full_stop};
use super::item;
use super::items;
use super::phrases::{self, plain};
use super::trade::{Part, QUALITIES};
use crate::token::{Token, TokenKind};
use snell_text::Span;
use snell_units::Dimension;

/// Whether the grammar reads an expression here.
pub(super) fn computes(line: &str, tokens: &[Token], atoms: &[Atom], part: Part, is_sound: bool) -> bool {
    tokens.iter().any(|token| {
        token.kind == TokenKind::Dot
            && !parts_as_full_stop(token.span, atoms)
            && !is_of_number(token.span, atoms)
            || token.kind == TokenKind::Open
                && !holds_words(line, token.span, atoms)
                && !stands_behind_unit(line, token.span, atoms)
                && !tells_beside(line, token.span, atoms)
            || token.kind == TokenKind::Operator
                && !parts_phrases(line, token.span, atoms)
                && !parts_words(line, token.span, atoms, part, is_sound)
                && !parts_by_plus(line, token.span, atoms, is_sound)
                && !parts_by_thickness(line, token.span, atoms)
                && !joins_unit(line, token.span, atoms)
    })
}

/// Whether a full stop parts phrases.
fn parts_as_full_stop(stop: Span, atoms: &[Atom]) -> bool {
    let at = atoms.iter().position(|atom| atom.span == stop);
    at.is_some_and(|at| is_full_stop(atoms, at))
}

/// `.009`: the point of a number.
fn is_of_number(point: Span, atoms: &[Atom]) -> bool {
    let mut numbers = atoms.iter().filter(|atom| atom.look == Look::Number);
    numbers.any(|number| number.span.holds(point))
}

/// Whether a bracket holds nothing but words of the trade: `(silver)`.
fn holds_words(line: &str, open: Span, atoms: &[Atom]) -> bool {
    let inner = atoms
        .iter()
        .skip_while(|atom| atom.span.start <= open.start)
        .take_while(|atom| atom.look != Look::Sign(')'));
    let of_trade = |atom: &Atom| {
        let word = plain(atom.span.of(line));
        let named = |row: &phrases::Row| {
            matches!(
                row.says,
                phrases::Says::Colour | phrases::Says::Fly | phrases::Says::Bead
            ) && row.written.contains(&&*word)
        };
        atom.look == Look::Word && phrases::TRADE.iter().any(named)
    };
    inner.clone().count() > 0 && inner.clone().all(of_trade)
}

/// `15 ft (4.5 m)`: what is between the brackets is told beside a quantity, and is no part of a sum.
fn stands_behind_unit(line: &str, open: Span, atoms: &[Atom]) -> bool {
    let at = atoms.iter().position(|atom| atom.span == open);
    let before = at.filter(|at| !atoms[*at].glued).and_then(|at| at.checked_sub(1));
    before.is_some_and(|before| snell_units::known(atoms[before].span.of(line)).is_some())
}

/// Whether it is a plus between spaces that parts phrases: no sum makes sense before a hook or behind a material.
fn parts_by_plus(line: &str, sign: Span, atoms: &[Atom], is_sound: bool) -> bool {
    let Some(at) = atoms.iter().position(|atom| atom.span == sign) else {
        return false;
    };
    let spaced = !atoms[at].glued && atoms.get(at + 1).is_some_and(|next| !next.glued);
    let before_hook = atoms.get(at + 1).is_some_and(|next| next.look == Look::Sign('#'));
    let behind_bead = || {
        let before = at.checked_sub(1).map(|before| plain(atoms[before].span.of(line)));
        before.is_some_and(|word| {
            let named = |row: &phrases::Row| row.says == phrases::Says::Bead && row.written.contains(&&*word);
            phrases::TRADE.iter().any(named)
        })
    };
    sign.of(line) == "+" && spaced && (!is_sound || before_hook || behind_bead())
}

/// `2.40 m x 0.22 mm`: how long and how thick, for nobody multiplies two lengths.
fn parts_by_thickness(line: &str, sign: Span, atoms: &[Atom]) -> bool {
    let Some(at) = atoms.iter().position(|atom| atom.span == sign) else {
        return false;
    };
    let is_length = |at: usize| {
        let unit = atoms.get(at).map(|atom| snell_units::known(atom.span.of(line)));
        unit.flatten()
            .is_some_and(|unit| unit.dimension == Dimension::LENGTH)
    };
    let behind = atoms.get(at + 1).is_some_and(|next| next.look == Look::Number);
    let before =
        at > 0 && (is_length(at - 1) || atoms[at - 1].look == Look::Number && is_thin(line, &atoms[at - 1]));
    matches!(sign.of(line), "x" | "X" | "×" | "*")
        && before
        && behind
        && (is_length(at + 2) || is_thin(line, &atoms[at + 1]))
}

/// `.020` behind a length: so thin a figure is how thick line is, in inches or millimetres.
fn is_thin(line: &str, number: &Atom) -> bool {
    let written = number.span.of(line);
    written.trim_start_matches('0').starts_with(['.', ','])
}

/// `10-pound`, `6-inch`: a hyphen between a number and its unit.
fn joins_unit(line: &str, sign: Span, atoms: &[Atom]) -> bool {
    let Some(at) = atoms.iter().position(|atom| atom.span == sign) else {
        return false;
    };
    let [before, hyphen, behind] = atoms.get(at.saturating_sub(1)..at + 2).unwrap_or_default() else {
        return false;
    };
    before.look == Look::Number
        && hyphen.glued
        && behind.glued
        && behind.look == Look::Word
        && snell_units::known(behind.span.of(line)).is_some()
}

/// `.009 (2X)`, `dropper (top)`: a bracket apart from the word before it, in which nothing is computed.
fn tells_beside(line: &str, open: Span, atoms: &[Atom]) -> bool {
    let Some(at) = atoms.iter().position(|atom| atom.span == open) else {
        return false;
    };
    let inner = atoms[at + 1..]
        .iter()
        .take_while(|atom| atom.look != Look::Sign(')'));
    let computes = |atom: &Atom| match atom.look {
        Look::Sign(sign) => matches!(sign, '+' | '-' | '–' | '—' | '−' | '*' | '×' | '/' | '÷' | '('),
        Look::Word => !atom.glued && ["times", "x"].contains(&&*plain(atom.span.of(line))),
        Look::Number | Look::Text(_) => false,
    };
    !atoms[at].glued && !inner.clone().any(computes)
}

/// `olive - heavy one`, `15 cm - #16`: a dash between two words, where more words follow than a sum could hold, or before
/// a hook. `tippet whole - gap of 6X` is a sum: pieces of line have no pattern.
fn parts_words(line: &str, dash: Span, atoms: &[Atom], part: Part, is_sound: bool) -> bool {
    let Some(at) = atoms.iter().position(|atom| atom.span == dash) else {
        return false;
    };
    let is_word = |at: usize| atoms.get(at).is_some_and(|atom| atom.look == Look::Word);
    let before_hook = atoms.get(at + 1).is_some_and(|next| next.look == Look::Sign('#'));
    let spaced = !atoms[at].glued && atoms.get(at + 1).is_some_and(|next| !next.glued);
    let lists = atoms.iter().any(|atom| atom.look == Look::Sign(','));
    let is_of = || {
        atoms
            .get(at + 2)
            .is_some_and(|atom| plain(atom.span.of(line)) == "of")
    };
    let goes_on = is_word(at + 2) && !(part == Part::Piece && is_of());
    let joins_words = at > 0 && is_word(at - 1) && is_word(at + 1) && (!is_sound || lists || goes_on);
    matches!(atoms[at].look, Look::Sign('-' | '–' | '—')) && spaced && (before_hook || joins_words)
}

/// Whether an oblique stroke between spaces parts phrases: behind one that divides stands a plain number.
fn parts_phrases(line: &str, stroke: Span, atoms: &[Atom]) -> bool {
    let Some(at) = atoms.iter().position(|atom| atom.span == stroke) else {
        return false;
    };
    let spaced = !atoms[at].glued && atoms.get(at + 1).is_some_and(|next| !next.glued);
    let plain = atoms.get(at + 1).is_some_and(|next| next.look == Look::Number)
        && atoms
            .get(at + 2)
            .is_none_or(|next| !matches!(next.look, Look::Word | Look::Sign('"' | '\'' | '#')));
    stroke.of(line) == "/" && spaced && !plain
}

/// `min (`: what is called stands close to what it is called with.
pub(super) fn calls(line: &str, atoms: &[Atom]) -> bool {
    atoms.windows(2).any(|pair| {
        let call = ["min", "max"]
            .iter()
            .any(|call| pair[0].span.of(line).eq_ignore_ascii_case(call));
        call && pair[1].look == Look::Sign('(')
    })
}

/// Whether a word multiplies, as `*` does: `is tippet times tippet`.
pub(super) fn multiplies(line: &str, atoms: &[Atom]) -> bool {
    atoms.iter().any(|atom| plain(atom.span.of(line)) == "times")
}

pub(super) fn has_other_words(line: &str, values: &[Atom], part: Part) -> bool {
    let items = items::items(line, values, part);
    items.is_none_or(|items| {
        let counted = items.iter().any(|item| item.kind == item::Kind::Count);
        !counted
            && items.iter().any(|item| {
                let times = item.span.of(line).eq_ignore_ascii_case("times");
                let called = ["min", "max"]
                    .iter()
                    .any(|call| item.span.of(line).eq_ignore_ascii_case(call));
                // `colored mono, orange + yellow` works nothing out.
                let is_quality = QUALITIES.contains(&&*plain(item.span.of(line)));
                times
                    || called
                    || matches!(item.kind, item::Kind::Free | item::Kind::Note)
                        && !is_quality
                        && part != Part::Water
                        && part != Part::Method
            })
    })
}
