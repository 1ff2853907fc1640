//! Lines in their author's own hand, read as the strict lines that they stand for.
//!
//! A line of a rig is a key and a bag of values, told apart by their look. What is read is written as a strict line,
//! and that is read by the grammar like any other: there is one tree, and `tidy` shows what was understood. A line that
//! is strict already is none of this module's business, and neither is one that only the strict reading can fault.

mod abbreviated;
mod aside;
mod atoms;
mod by_place;
mod called;
mod counted;
mod days;
mod expressions;
mod feet;
mod fill;
mod in_part;
mod item;
mod items;
mod keyless;
mod known;
mod opening;
mod phrases;
mod place;
mod plainly;
mod quantity;
mod reader;
mod remarks;
mod seat;
mod sentences;
mod several;
mod shot;
mod signs;
mod slip;
mod spoken;
mod spread;
mod title;
mod trade;
mod water_units;
mod within;
mod words;
mod write;

use crate::faults::Slip;
use crate::parse::Entry;
use crate::token::{Token, TokenKind};
use crate::tree::Form;
use aside::behind_knot;
use atoms::{Atom, Atoms, Look};
use by_place::by_place;
pub use days::species;
use expressions::{calls, computes, has_other_words, multiplies};
pub(crate) use in_part::read_in_part;
use keyless::Unopened;
use opening::{Opened, key, may_begin, may_begin_in_rig, opened, unbullet};
use phrases::plain;
use place::{Sorter, Unplaced};
pub(crate) use several::parts as several_parts;
use snell_text::Span;
use std::sync::Arc;
use trade::{Part, TELLS_WARMTH};
pub(crate) use within::Within;
pub(crate) use write::Written;
use write::{Strict, squeezed};

/// What a line is to this module.
pub(crate) enum Hand {
    /// Strict, or for the strict reading to fault.
    Strict,
    Read(Written),
    /// It can be read in two ways, or nearly.
    Asks(Slip),
}

/// Reads a line. `form` is what the grammar makes of it, if it makes sense to it.
pub(crate) fn read(line: &str, tokens: &[Token], form: Option<&Form>, entry: Entry, within: Within) -> Hand {
    let begins = match form {
        None => true,
        Some(Form::Plain(plain)) => {
            let opens = entry == Entry::Margin && title::names_in_words(&plain.key.folded);
            let word = &*plain.key.folded;
            let strict = match key(word) {
                Some((key, part)) => key == word && !line.contains("/100") && plainly::is_strict(plain, part),
                // `source "…"`, in a block whose lines have keys of their own.
                None => within == Within::Other && entry == Entry::Body && plainly::only_quotes(plain),
            };
            opens
                || within == Within::Top && entry == Entry::Margin
                || may_begin(&plain.key.folded) && !strict
                || keyless::may_begin(&plain.key.folded) && !strict
                || within.is_rig() && (may_begin_in_rig(word) || opening::is_shortened(word))
                || !strict && remarks::is_spoken(line)
        }
        Some(Form::Use(_) | Form::Block(_) | Form::Change(_) | Form::Bind(_) | Form::Claim(_)) => false,
    };
    if !begins {
        return match form {
            Some(Form::Plain(plain)) if within.is_rig() && key(&plain.key.folded).is_none() => {
                in_part::unknown(line).map_or(Hand::Strict, Hand::Read)
            }
            Some(_) | None => Hand::Strict,
        };
    }
    let Some(Atoms {
        mut atoms,
        mut comment,
        is_aside,
    }) = atoms::atoms(line)
    else {
        return Hand::Strict;
    };
    if form.is_none() {
        unbullet(line, &mut atoms, within);
    }
    if entry == Entry::Margin
        && let Some(head) = title::head(line, &atoms, comment)
    {
        return Hand::Read(head);
    }
    if (entry == Entry::Body || form.is_some())
        && let Some(method) = keyless::method(line, &atoms, comment)
    {
        return Hand::Read(method);
    }
    if entry == Entry::Margin
        && within == Within::Top
        && let Some(titled) = title::alone(line, &atoms, comment)
    {
        return Hand::Read(titled);
    }
    if entry == Entry::Body && form.is_none() {
        if let Some(timed) = days::timed(line, &atoms) {
            return Hand::Read(timed);
        }
        if let Some(caught) = days::keyless_catch(line, &atoms, comment, within) {
            return Hand::Read(caught);
        }
    }
    if form.is_none() && within.is_rig() {
        opening::without_lead(line, &mut atoms, within);
    }
    if within.is_rig()
        && let Some(told) = remarks::order_or_total(line, &atoms, comment)
    {
        return Hand::Read(told);
    }
    let Some(opened) = opened(line, &atoms, entry == Entry::Margin && form.is_none(), within) else {
        return without_key(line, &atoms, comment, form, entry, within);
    };
    if let Some(aside) = comment.filter(|_| is_aside) {
        if let Err(slip) = slip::check_aside(line, aside) {
            return Hand::Asks(slip);
        }
        comment = behind_knot(line, aside, &opened, &mut atoms);
    }
    if within.is_rig() && comment.is_none() {
        comment = remarks::behind(line, &opened, &mut atoms);
    }
    let values = &atoms[opened.atoms..];
    let computes = computes(line, tokens, &atoms, opened.part, form.is_some());
    if (computes || calls(line, &atoms)) && has_other_words(line, values, opened.part) {
        return Hand::Strict;
    }
    if let Some(pair) = values.windows(2).find(|pair| is_hundredths(line, pair)) {
        return Hand::Asks(slip::number_or_two(line, pair[0].span, pair[1].span));
    }
    match whole(line, &opened, values, comment, within) {
        Ok(written) if form.is_some() && squeezed(&written.compared) == squeezed(&line[..end(&atoms)]) => {
            Hand::Strict
        }
        Ok(written) => Hand::Read(written.written),
        Err(Unplaced::Other) => Hand::Strict,
        // A word may be a name of the file's own, which the strict reading knows.
        Err(Unplaced::Asks(_)) if form.is_some() && may_name(line, values, &opened) => Hand::Strict,
        Err(Unplaced::Asks(slip)) => Hand::Asks(slip),
    }
}

/// A line that opens with no key.
fn without_key(
    line: &str,
    atoms: &[Atom],
    comment: Option<Span>,
    form: Option<&Form>,
    entry: Entry,
    within: Within,
) -> Hand {
    let is_product = form.is_some() && multiplies(line, atoms);
    if within.is_rig()
        && !is_product
        && let Some(said) = remarks::sentence(line, atoms, comment)
    {
        return Hand::Read(said);
    }
    let misspelt = atoms
        .first()
        .filter(|first| first.look == Look::Word && form.is_none());
    if let Some(slip) = misspelt.and_then(|first| slip::check_key(line, first.span).err()) {
        return Hand::Asks(slip);
    }
    if entry == Entry::Margin && form.is_none() {
        return Hand::Strict;
    }
    let dated = || remarks::dated(line, atoms, comment).filter(|_| form.is_none());
    if let Some(note) = remarks::remark(line, atoms, comment, form.is_some()).or_else(dated) {
        let start = atoms.first().map_or(0, |first| first.span.start);
        return match within {
            Within::Other => Hand::Asks(slip::no_notes(Span::new(start, end(atoms) as u32))),
            Within::Top | Within::Rig | Within::RodEnd | Within::Outing => Hand::Read(note),
        };
    }
    match keyless::part(line, atoms, within) {
        Some(Unopened::Part(opened, values)) => match whole(line, &opened, &values, comment, within) {
            Ok(strict) => Hand::Read(strict.written),
            Err(Unplaced::Other) => Hand::Strict,
            Err(Unplaced::Asks(slip)) => Hand::Asks(slip),
        },
        Some(Unopened::Asks(slip)) => Hand::Asks(slip),
        None if form.is_some() && within.is_rig() => in_part::unknown(line).map_or(Hand::Strict, Hand::Read),
        None => Hand::Strict,
    }
}

/// `60 26/100`, which is one number to the grammar, and two to who counts in hundredths.
fn is_hundredths(line: &str, pair: &[Atom]) -> bool {
    let numbers = pair.iter().all(|atom| atom.look == Look::Number);
    numbers && pair[1].span.of(line).ends_with("/100")
}

/// Where the last atom ends.
fn end(atoms: &[Atom]) -> usize {
    atoms.last().map_or(0, |atom| atom.span.end as usize)
}

/// Whether a free word may be a name of the file's own: nothing beside it says already what the thing is, and the
/// line opens with a strict key.
fn may_name(line: &str, values: &[Atom], opened: &Opened) -> bool {
    let says_what = |item: &item::Item| match item.kind {
        item::Kind::Hook | item::Kind::X | item::Kind::Hundredths => true,
        item::Kind::Word(row) => matches!(row.says, phrases::Says::Line | phrases::Says::Bead),
        item::Kind::Length(_)
        | item::Kind::Mass(_)
        | item::Kind::Speed
        | item::Kind::Temperature
        | item::Kind::Weight
        | item::Kind::Count
        | item::Kind::Bare
        | item::Kind::Seat(_)
        | item::Kind::Free
        | item::Kind::Text
        | item::Kind::Joining(_)
        | item::Kind::And
        | item::Kind::Note
        | item::Kind::Comma => false,
    };
    let items = items::items(line, values, opened.part).unwrap_or_default();
    let is_strict_key = plain(opened.span.of(line)) == opened.key;
    !matches!(opened.part, Part::Method | Part::Day) && is_strict_key && !items.iter().any(says_what)
}

/// The colon behind a key of a rig's line, where there is one.
pub(crate) fn colon(line: &str) -> Option<Span> {
    let mut atoms = atoms::atoms(line)?.atoms;
    let written = atoms.len();
    unbullet(line, &mut atoms, Within::Other);
    if atoms.len() < written {
        return None;
    }
    let opened = opened(line, &atoms, false, Within::Other)?;
    let last = atoms.get(opened.atoms.checked_sub(1)?)?;
    (last.look == Look::Sign(':')).then_some(last.span)
}

/// The strict line for a line whose key is known.
fn whole(
    line: &str,
    opened: &Opened,
    values: &[Atom],
    comment: Option<Span>,
    within: Within,
) -> Result<Strict, Unplaced> {
    match opened.part {
        Part::Method => return title::method(line, opened.span, values, comment),
        // Only an outing counts what was caught, and on which day.
        Part::Note | Part::Catch | Part::Day if within.is_rig() => {
            return title::note(line, opened.span, values, comment);
        }
        Part::Note => return days::lost_or_note(line, opened.span, values, comment),
        Part::Catch => return days::catch(line, opened.span, values, comment),
        Part::Day => return days::day(line, opened.span, values, comment),
        Part::Piece
        | Part::Line
        | Part::Dropper
        | Part::Fly
        | Part::Float
        | Part::Ring
        | Part::Swivel
        | Part::Shot
        | Part::Knot
        | Part::Water
        | Part::Bed
        | Part::Rod
        | Part::Outing => {}
    }
    // `ring: none` puts no ring on the line.
    if let [only] = values
        && only.look == Look::Word
        && ["none", "no", "nil"].contains(&&*plain(only.span.of(line)))
    {
        return title::note(line, opened.span, values, comment);
    }
    if let Some(said) = remarks::of_small(line, opened, values) {
        return Ok(write::line(line, opened.key, opened.span, said, comment));
    }
    // `loop braided`: how the leader hangs on the line, and no knot that the table holds.
    let names_knot = || {
        let items = items::items(line, values, opened.part);
        items.is_some_and(|items| items.iter().any(|item| item.says() == Some(phrases::Says::Knot)))
    };
    if plain(opened.span.of(line)) == "loop" && !names_knot() {
        return title::note(line, opened.span, values, comment);
    }
    // `fly: bob 6 in` has its key in two pieces.
    let is_key = |word: &str| key(word).is_some_and(|(key, _)| matches!(key, "dropper" | "point"));
    let torn = values
        .first()
        .is_some_and(|first| is_key(&plain(first.span.of(line))));
    if torn && plain(opened.span.of(line)) == "fly" && values.len() > 1 {
        return Err(Unplaced::Other);
    }
    let mut items = items::items(line, values, opened.part).ok_or(Unplaced::Other)?;
    // `middle: size 12 red tag, 5 in`, `bottom hare's ear #14`
    if (opened.key == "taper" || opened.part == Part::Bed)
        && let Some(of_fly) = items::items(line, values, Part::Dropper)
        && of_fly.iter().any(|item| item.kind == item::Kind::Hook)
    {
        items = of_fly;
    }
    // `temp falling`, `temperature 8-10 C`: in words alone.
    let has_temperature = items.iter().any(|item| item.kind == item::Kind::Temperature);
    if TELLS_WARMTH.contains(&&*plain(opened.span.of(line))) && !has_temperature {
        return title::note(line, opened.span, values, comment);
    }
    let (key, part) = by_place(line, opened, &items);
    let items = if part == opened.part {
        items
    } else {
        items::items(line, values, part).ok_or(Unplaced::Other)?
    };
    let sorted = |word_alone| Sorter::new(line, part, items.clone()).place(word_alone);
    // One word may be a name of the file's own, where the strict line has such.
    if let Ok(placed) = sorted(true) {
        let strict = write::line(line, key, opened.span, placed, comment);
        let words = values.last().map_or(opened.span.end, |last| last.span.end);
        if squeezed(&strict.compared) == squeezed(&line[..words as usize]) {
            return Ok(strict);
        }
    }
    let placed = sorted(false);
    // `water high, dirty`: in words alone.
    let tells_water = |item: &item::Item| {
        item.is_quantity() || matches!(item.says(), Some(phrases::Says::Depth | phrases::Says::Bed))
    };
    let tells = items.iter().any(tells_water);
    if part == Part::Water && !tells && values.len() > 1 && matches!(placed, Err(Unplaced::Other)) {
        return title::note(line, opened.span, values, comment);
    }
    let mut placed = placed?;
    write::called(line, key, opened.span, &mut placed);
    Ok(write::line(line, key, opened.span, placed, comment))
}

/// The tokens of a line as it is written, each with what it was read as.
pub(crate) fn coloured(written: &[Token], strict: &[Token], stretches: &[(Span, Span)]) -> Arc<[Token]> {
    let read_as = |token: &Token| {
        let (own, _) = stretches.iter().find(|(_, place)| place.holds(token.span))?;
        let inside = strict.iter().filter(|other| own.holds(other.span));
        let kinds: Vec<TokenKind> = inside.map(|other| other.kind).collect();
        match (token.kind, kinds.as_slice()) {
            (TokenKind::Space | TokenKind::Comma | TokenKind::Number | TokenKind::X, _) => None,
            (_, [only]) => Some(*only),
            (TokenKind::Word, [.., last]) if *last == TokenKind::Unit => Some(*last),
            _ => None,
        }
    };
    let coloured = written.iter().map(|token| Token {
        kind: read_as(token).unwrap_or(token.kind),
        span: token.span,
    });
    coloured.collect()
}
