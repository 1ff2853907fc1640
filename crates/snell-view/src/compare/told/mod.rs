//! Each change as one sentence, as one angler would tell it to another.

mod moved;
mod phrases;
mod pieces;
mod words;

pub use moved::{figures, for_people, moved as told_moved};
use words::{and, count};

use super::change::Change;
use super::pieces::{Piece, Trait, TraitKind};
use pieces::{as_label, definite, with_article};
use snell_rig::keywords::PartKind;
use snell_units::{Dimension, Quantity, System};

/// A change in words, without a full stop.
pub fn told(change: &Change) -> String {
    match change {
        Change::Says { key, was, now } => says(key, was.as_deref(), now.as_deref()),
        Change::Added { part, below } => {
            let place = place_below(below.as_deref());
            if part.role == PartKind::Point {
                format!("the point is {}", part.described())
            } else {
                format!("{} goes in {place}{}", with_article(part), as_label(part))
            }
        }
        Change::Removed { part } => format!("{} is left out", definite(part)),
        Change::Moved {
            part,
            was_below,
            now_below,
        } => {
            format!(
                "{part} moves: it sits {} now, was {}",
                place_below(now_below.as_deref()),
                place_below(was_below.as_deref())
            )
        }
        Change::Split { part, into } => split(part, into),
        Change::Joined { parts, into } => {
            let lengths: Vec<String> = parts.iter().map(length_of).collect();
            let names: Vec<&str> = parts.iter().map(|part| part.name.as_str()).collect();
            let mut told = format!(
                "{}, {}, are one piece of {} now{}",
                and(&names),
                and(&lengths.iter().map(String::as_str).collect::<Vec<_>>()),
                length_of(into),
                into.label
                    .as_ref()
                    .map_or_else(String::new, |label| format!(", `{label}`"))
            );
            told.push_str(&uneven(parts, std::slice::from_ref(into)));
            told
        }
        Change::Role { part, was, now } => format!("{part} counts as a {now} now, was a {was}"),
        Change::Label { part, was, now } => match (was, now) {
            (_, Some(now)) => format!("{part} is called `{now}` now"),
            (Some(_), None) | (None, None) => format!("{part} has no name of its own any more"),
        },
        Change::Altered {
            part,
            role,
            side,
            was,
            now,
        } => altered(part, *role, *side, was.as_ref(), now.as_ref()),
    }
}

/// Where a part sits, by what stands above it.
pub fn place_below(above: Option<&str>) -> String {
    above.map_or_else(|| "at the top".to_owned(), |above| format!("below {above}"))
}

fn says(key: &str, was: Option<&str>, now: Option<&str>) -> String {
    match (key, was, now) {
        ("note", None, Some(now)) => format!("a note is added: {now}"),
        ("note", Some(was), None) => format!("a note is gone: {was}"),
        ("from", Some(was), Some(now)) => format!("it is made from {now} now, was from {was}"),
        ("from", None, Some(now)) => format!("it is made from {now} now"),
        ("from", Some(was), None) => format!("it stands by itself now, was made from {was}"),
        ("expect", None, Some(now)) => format!("it now claims {now}"),
        ("expect", Some(was), None) => format!("it no longer claims {was}"),
        ("allow", None, Some(now)) => format!("it now allows {now}"),
        ("allow", Some(was), None) => format!("it no longer allows {was}"),
        (_, Some(was), Some(now)) => format!("{} {now} now, was {was}", it_is(key)),
        (_, None, Some(now)) => format!("{} {now} now; that was not said before", it_is(key)),
        (_, Some(was), None) => format!("the {key} is not said any more; it was {was}"),
        (_, None, None) => key.to_owned(),
    }
}

/// How a setting is spoken of, with its verb.
fn it_is(key: &str) -> String {
    match key {
        "drift" => "it drifts".to_owned(),
        "rules" => "it keeps to".to_owned(),
        "tip" => "the rod's tip is held at".to_owned(),
        "off-bed" => "its point is to ride off the bed by".to_owned(),
        "let" => "it has".to_owned(),
        _ => format!("the {key} is"),
    }
}

fn altered(part: &str, role: PartKind, side: TraitKind, was: Option<&Trait>, now: Option<&Trait>) -> String {
    let text = |one: Option<&Trait>| one.map_or_else(|| "not said".to_owned(), |one| one.text.clone());
    let (before, after) = (text(was), text(now));
    let tied = matches!(role, PartKind::Dropper | PartKind::Inline | PartKind::Point);
    let subject = if tied {
        format!("the {part}")
    } else {
        part.to_owned()
    };
    match side {
        TraitKind::Length => match by_how_much(was, now) {
            Some((much, longer)) => {
                let word = if longer { "longer" } else { "shorter" };
                format!("{subject} is {much} {word}: {after}, was {before}")
            }
            None => format!("{subject} is {after} long now, was {before}"),
        },
        TraitKind::Stuff | TraitKind::Fly if before == after => details(&subject, &after, was, now),
        TraitKind::Stuff => format!("{subject} is {after} now, was {before}{}", gauge(was, now)),
        TraitKind::Fly => {
            let carries = if role == PartKind::Dropper {
                "carries"
            } else {
                "is"
            };
            format!("{subject} {carries} {after} now, was {before}")
        }
        TraitKind::FlyKnot => {
            format!("{subject}'s fly is tied on with the {after} knot now, was the {before}")
        }
        TraitKind::Knot => match (before.as_str(), after.as_str()) {
            (_, "through") => format!("no knot below {part} now, was the {before}"),
            ("through", _) => format!("the {after} knot below {part} now, was none"),
            _ => format!("the knot below {part} is the {after} now, was the {before}"),
        },
        TraitKind::Tags => format!("the ends of the knot below {part} are {after} now, was {before}"),
        TraitKind::Size => format!(
            "{} is {after} now, was {before}",
            if tied { &subject } else { part }
        ),
    }
}

/// How much longer or shorter, in its author's units.
fn by_how_much(was: Option<&Trait>, now: Option<&Trait>) -> Option<(String, bool)> {
    let now = now?;
    let by = now.value? - was?.value?;
    let quantity = Quantity {
        si: by.abs(),
        dimension: Dimension::LENGTH,
    };
    Some((
        snell_units::write(quantity, now.system.unwrap_or(System::Metric)),
        by > 0.0,
    ))
}

/// What a thing of the same name comes to now.
fn details(subject: &str, what: &str, was: Option<&Trait>, now: Option<&Trait>) -> String {
    let empty = Vec::new();
    let (before, after) = (
        was.map_or(&empty, |one| &one.details),
        now.map_or(&empty, |one| &one.details),
    );
    let find = |all: &[super::pieces::Detail], name: &str| {
        let one = all.iter().find(|one| one.name == name);
        one.map(|one| one.text.clone())
    };
    let names = after.iter().chain(
        before
            .iter()
            .filter(|one| !after.iter().any(|other| other.name == one.name)),
    );
    let other = names.filter(|one| {
        let same = |all: &[super::pieces::Detail]| all.iter().any(|there| there == *one);
        !(same(before) && same(after))
    });
    // A bead goes with what it is made of.
    let bead = |all: &[super::pieces::Detail]| {
        let size = find(all, "bead")?;
        Some(find(all, "bead material").map_or(size.clone(), |material| format!("{size} {material}")))
    };
    let beads = (bead(before), bead(after));
    let of_bead = match &beads {
        (Some(was), None) => Some(format!("has no bead any more; it was {was}")),
        (None, Some(now)) => Some(format!("has a bead of {now} now")),
        (Some(_), Some(_)) | (None, None) => None,
    };
    let is_lost = beads.1.is_none();
    let is_told = |name: &str| {
        of_bead.is_some() && (matches!(name, "bead" | "bead material") || is_lost && name == "bead shape")
    };
    let others = other.filter(|one| !is_told(one.name)).map(|one| {
        let its = match one.name {
            "rated" => "it is rated".to_owned(),
            "bead material" => "its bead is".to_owned(),
            name => format!("its {name} is"),
        };
        match (find(before, one.name), find(after, one.name)) {
            (Some(was), Some(now)) => format!("{its} {now}, was {was}"),
            (None, Some(now)) => format!("{its} {now}, which was not said before"),
            (Some(was), None) => format!("{its} not said any more; it was {was}"),
            (None, None) => its,
        }
    });
    let said: Vec<String> = of_bead.iter().cloned().chain(others).collect();
    format!("{subject} is still {what}, but {}", said.join("; "))
}

fn gauge(was: Option<&Trait>, now: Option<&Trait>) -> &'static str {
    let diameter = |one: Option<&Trait>| one?.details.iter().find(|one| one.name == "diameter")?.number();
    match diameter(was).zip(diameter(now)) {
        Some((was, now)) if now < was => ": finer",
        Some((was, now)) if now > was => ": stouter",
        _ => "",
    }
}

fn length_of(piece: &Piece) -> String {
    piece
        .get(TraitKind::Length)
        .map_or_else(|| "unknown length".to_owned(), |one| one.text.clone())
}

fn split(part: &Piece, into: &[Piece]) -> String {
    let pieces: Vec<String> = into
        .iter()
        .map(|piece| match &piece.label {
            Some(label) => format!("{} (`{label}`)", length_of(piece)),
            None => length_of(piece),
        })
        .collect();
    let pieces: Vec<&str> = pieces.iter().map(String::as_str).collect();
    let uneven = uneven(std::slice::from_ref(part), into);
    format!(
        "{}, {}, is cut in {}: {}{uneven}",
        part.name,
        length_of(part),
        count(into.len()),
        and(&pieces)
    )
}

/// What is gained or lost where pieces do not add up.
fn uneven(was: &[Piece], now: &[Piece]) -> String {
    let sum = |pieces: &[Piece]| pieces.iter().filter_map(Piece::length).sum::<f64>();
    let by = sum(now) - sum(was);
    if by.abs() <= 1e-6 * sum(was) {
        return String::new();
    }
    let system = now.iter().find_map(|piece| piece.get(TraitKind::Length)?.system);
    let quantity = Quantity {
        si: by.abs(),
        dimension: Dimension::LENGTH,
    };
    let word = if by > 0.0 { "more" } else { "less" };
    format!(
        ", {} {word} in all",
        snell_units::write(quantity, system.unwrap_or(System::Metric))
    )
}
