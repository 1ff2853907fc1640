//! Lines without a key that say by themselves what they are: a method's name, a piece of line that its quantity
//! opens, a remark.

use super::atoms::{Atom, Look};
use super::item::{Item, Kind};
use super::items::items;
use super::opening::{Opened, key};
use super::phrases::{Says, plain};
use super::slip;
use super::title::{self, is_method};
use super::trade::{LEADING_WORDS, METHODS, Part};
use super::within::Within;
use super::write::Written;
use crate::faults::Slip;
use rustc_hash::FxHashSet;
use snell_text::Span;
use std::borrow::Cow;
use std::sync::LazyLock;

/// Whether a word that is no key may open such a line: it begins a method's name, or `off the bend`.
pub(super) fn may_begin(word: &str) -> bool {
    FIRST_OF_METHODS.contains(word) || word == "off"
}

/// The first words of methods' names.
static FIRST_OF_METHODS: LazyLock<FxHashSet<&'static str>> = LazyLock::new(|| {
    let names = METHODS.iter().flat_map(|(_, written)| *written);
    names.filter_map(|name| name.split(' ').next()).collect()
});

/// `tight line`: the whole line is a method's usual name, and no key.
pub(super) fn method(line: &str, atoms: &[Atom], comment: Option<Span>) -> Option<Written> {
    let (first, last) = (atoms.first()?, atoms.last()?);
    // A fly of which nothing is said is none, but the way it is fished.
    let said = plain(first.span.to(last.span).of(line));
    let is_key = || said != "dry fly" && key(&said).is_some();
    if atoms.len() < 2 || !is_method(line, atoms) || is_key() {
        return None;
    }
    let written = title::method(line, Span::empty(first.span.start), atoms, comment).ok()?;
    Some(written.written)
}

/// What a line is whose part does not stand first.
pub(super) enum Unopened {
    Part(Opened, Vec<Atom>),
    /// A piece of line that does not say which one it is.
    Asks(Slip),
}

/// A line that names its part further on, or not at all.
pub(super) fn part(line: &str, atoms: &[Atom], within: Within) -> Option<Unopened> {
    let leads = |atom: &&Atom| {
        within.is_rig() && atom.look == Look::Word && LEADING_WORDS.contains(&&*plain(atom.span.of(line)))
    };
    let leading = atoms.iter().take_while(leads).count();
    let atoms = &atoms[leading..];
    let here = Span::empty(atoms.first()?.span.start);
    match within {
        Within::Rig | Within::RodEnd => piece(line, atoms, here, within)
            .or_else(|| water(line, atoms))
            .or_else(|| fly(line, atoms, here)),
        Within::Top | Within::Outing | Within::Other => piece(line, atoms, here, within),
    }
}

/// `8 ft 20 lb mono butt`, `20 in of 5X to the point`, `off the bend 30 in of 5X`.
fn piece(line: &str, atoms: &[Atom], here: Span, within: Within) -> Option<Unopened> {
    let (first, last) = (atoms.first()?, atoms.last()?);
    let said = items(line, atoms, Part::Piece)?;
    let is_bend = said.first()?.says() == Some(Says::Bend);
    let opens_with_stuff =
        said.first()?.says() == Some(Says::Line) && said.get(1).is_some_and(Item::is_quantity);
    let is_length = |kind: Kind| matches!(kind, Kind::Length(si) if si >= SHORTEST);
    let has_length = said.iter().any(|item| is_length(item.kind));
    let is_line = said.iter().any(|item| {
        matches!(item.kind, Kind::X | Kind::Mass(_) | Kind::Hundredths) || item.says() == Some(Says::Line)
    });
    if !has_length || !(said.first()?.is_quantity() || is_bend || opens_with_stuff) {
        return None;
    }
    let tippet = Opened {
        key: "tippet",
        part: Part::Piece,
        atoms: 0,
        span: here,
    };
    match named(line, atoms).as_slice() {
        [one] => Some(Unopened::Part(one.opened(atoms), one.others(atoms))),
        [] if is_line && (is_bend || leads_to_fly(line, atoms)) => {
            Some(Unopened::Part(tippet, atoms.to_vec()))
        }
        [] if is_line && within.is_rig() && is_fine(&said) => Some(Unopened::Part(tippet, atoms.to_vec())),
        [] if is_line && within == Within::RodEnd => Some(Unopened::Part(
            Opened {
                key: "butt",
                ..tippet
            },
            atoms.to_vec(),
        )),
        // `nylon 4 ft of 8 lb`: what a line opens with is a piece of it, and a long one is the butt.
        [] if opens_with_stuff && within.is_rig() => {
            let is_long = said
                .iter()
                .any(|item| matches!(item.kind, Kind::Length(si) if si > LONGEST_TIPPET));
            let key = if is_long { "butt" } else { "tippet" };
            // `mono 15 ft of 8 lb nylon`: the first only opens the line.
            let is_named_again = said[1..].iter().any(|item| item.says() == Some(Says::Line));
            let (span, values) = match is_named_again {
                true => (first.span, &atoms[1..]),
                false => (here, atoms),
            };
            Some(Unopened::Part(Opened { key, span, ..tippet }, values.to_vec()))
        }
        [] if is_line => Some(Unopened::Asks(slip::which_piece(first.span.to(last.span)))),
        _ => None,
    }
}

/// Whether a piece is so fine or weak that it can only be tippet, and carries no colour, as sighters do.
fn is_fine(said: &[Item]) -> bool {
    let coloured = said
        .iter()
        .any(|item| matches!(item.says(), Some(Says::Colour | Says::Build)));
    let fine = |item: &Item| match item.kind {
        Kind::X => item
            .strict
            .trim_end_matches(['X', 'x'])
            .parse::<f64>()
            .is_ok_and(|size| size >= STOUTEST_X && !item.strict.starts_with('0')),
        Kind::Mass(kg) => kg <= STRONGEST,
        Kind::Length(_)
        | Kind::Hundredths
        | Kind::Speed
        | Kind::Temperature
        | Kind::Weight
        | Kind::Hook
        | Kind::Count
        | Kind::Bare
        | Kind::Seat(_)
        | Kind::Word(_)
        | Kind::Free
        | Kind::Text
        | Kind::Joining(_)
        | Kind::And
        | Kind::Note
        | Kind::Comma => false,
    };
    !coloured && said.iter().any(fine)
}

/// `good steady water, 2-3 ft over gravel`
fn water(line: &str, atoms: &[Atom]) -> Option<Unopened> {
    let at = atoms
        .iter()
        .position(|atom| atom.look == Look::Word && plain(atom.span.of(line)) == "water")?;
    let before = atoms[..at].iter().all(|atom| atom.look == Look::Word);
    let others = [&atoms[..at], &atoms[at + 1..]].concat();
    let said = items(line, &others, Part::Water)?;
    let has = |wanted: fn(&Item) -> bool| said.iter().any(wanted);
    let is_water = has(|item| matches!(item.kind, Kind::Length(_)))
        && has(|item| item.kind == Kind::Speed || matches!(item.says(), Some(Says::Bed | Says::Pace)));
    (before && is_water).then(|| {
        let opened = Opened {
            key: "water",
            part: Part::Water,
            atoms: 0,
            span: atoms[at].span,
        };
        Unopened::Part(opened, others)
    })
}

/// `#14 perdigon, 2.8 mm tungsten`, `on the point a size 14 hare's ear`: nothing but a fly has a hook.
fn fly(line: &str, atoms: &[Atom], here: Span) -> Option<Unopened> {
    let place = place_of_fly(line, atoms);
    let (opened, others) = match &place {
        Some(place) => (place.opened(atoms), place.others(atoms)),
        None => {
            let opened = Opened {
                key: "fly",
                part: Part::Fly,
                atoms: 0,
                span: here,
            };
            (opened, atoms.to_vec())
        }
    };
    // `hook #14` is said in the block of a fly, and behind `taih fly:` stands a key that has slipped.
    let keyed = atoms.iter().any(|atom| atom.look == Look::Sign(':'));
    if keyed || plain(atoms.first()?.span.of(line)) == "hook" {
        return None;
    }
    let said = items(line, &others, Part::Fly)?;
    let is_hook = |item: &&Item| {
        let bare = item.span.of(line).bytes().all(|byte| byte.is_ascii_digit());
        item.kind == Kind::Hook && !bare
    };
    let is_long = |item: &Item| matches!(item.kind, Kind::Length(si) if si >= SHORTEST);
    let is_fly = said.iter().filter(is_hook).count() == 1 && !said.iter().any(is_long);
    is_fly.then_some(Unopened::Part(opened, others))
}

/// `on the point`, `on the end`: where a fly sits, anywhere in its line.
fn place_of_fly(line: &str, atoms: &[Atom]) -> Option<NamedPart> {
    let word = |at: usize| {
        let atom = atoms.get(at).filter(|atom| atom.look == Look::Word)?;
        Some(plain(atom.span.of(line)))
    };
    (0..atoms.len()).find_map(|at| {
        word(at).filter(|word| ["on", "for", "at"].contains(&&**word))?;
        word(at + 1).filter(|word| ["the", "my"].contains(&&**word))?;
        let place = word(at + 2)?;
        let (key, part) = match &*place {
            "end" => ("point", Part::Fly),
            place => key(place).filter(|(key, _)| *key == "point")?,
        };
        Some(NamedPart {
            key,
            part,
            at,
            words: 3,
        })
    })
}

/// A part that is named inside of a line.
struct NamedPart {
    key: &'static str,
    part: Part,
    at: usize,
    words: usize,
}

impl NamedPart {
    fn opened(&self, atoms: &[Atom]) -> Opened {
        let words = &atoms[self.at..self.at + self.words];
        let span = words[0].span.to(words[self.words - 1].span);
        Opened {
            key: self.key,
            part: self.part,
            atoms: 0,
            span,
        }
    }

    fn others(&self, atoms: &[Atom]) -> Vec<Atom> {
        [&atoms[..self.at], &atoms[self.at + self.words..]].concat()
    }
}

/// The parts that a line names, but for those that it only leads to or lies beside.
fn named(line: &str, atoms: &[Atom]) -> Vec<NamedPart> {
    let word = |at: usize| {
        let atom = atoms.get(at).filter(|atom| atom.look == Look::Word)?;
        Some(plain(atom.span.of(line)))
    };
    let of = |at: usize| {
        let two = word(at + 1).and_then(|second| Some((key(&format!("{} {second}", word(at)?))?, 2)));
        let ((key, part), words) = two.or_else(|| Some((key(&word(at)?)?, 1)))?;
        matches!(part, Part::Piece | Part::Dropper).then_some(NamedPart { key, part, at, words })
    };
    let mut found: Vec<NamedPart> = Vec::new();
    let mut at = 0;
    while at < atoms.len() {
        let before = at.checked_sub(1).and_then(word);
        let lies_elsewhere = before.is_some_and(|before| ELSEWHERE.contains(&&*before));
        let is_joined = at.checked_sub(1).is_some_and(|before| joins(&atoms[before]));
        match of(at).filter(|_| !lies_elsewhere && !is_joined) {
            Some(named) => {
                at += named.words;
                found.push(named);
            }
            None => at += 1,
        }
    }
    found
}

/// Whether a sign goes on to what stands behind it, and may not meet another value.
const fn joins(atom: &Atom) -> bool {
    match atom.look {
        Look::Sign(sign) => !matches!(
            sign,
            '"' | '\'' | '”' | '’' | '″' | '′' | ',' | ';' | ')' | '.' | '#'
        ),
        Look::Word | Look::Number | Look::Text(_) => false,
    }
}

/// `… to the point`: what ends at a fly is tippet.
fn leads_to_fly(line: &str, atoms: &[Atom]) -> bool {
    let words = atoms.iter().map(|atom| match atom.look {
        Look::Word => plain(atom.span.of(line)),
        Look::Number | Look::Text(_) | Look::Sign(_) => Cow::Borrowed(""),
    });
    let words: Vec<Cow<'_, str>> = words.collect();
    let Some(to) = words.iter().rposition(|word| word == "to") else {
        return false;
    };
    let place: Vec<&str> = words[to + 1..]
        .iter()
        .map(|word| &**word)
        .filter(|word| *word != "the")
        .collect();
    key(&place.join(" ")).is_some_and(|(_, part)| part.is_fly())
}

/// Words behind which a part is only what the line leads to, or lies beside.
const ELSEWHERE: &[&str] = &[
    "to", "the", "from", "above", "below", "between", "off", "on", "at", "under", "and",
];

/// A shorter length on a piece of line is its diameter, in metres.
const SHORTEST: f64 = 0.01;

/// In metres. Source: common practice, no source.
const LONGEST_TIPPET: f64 = 2.0;

/// What is stouter may be a piece of a leader as well. Source: common practice, no source.
const STOUTEST_X: f64 = 4.0;
/// The same of its strength, in kg: six pounds.
const STRONGEST: f64 = 2.75;
