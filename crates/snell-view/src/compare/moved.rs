//! How the measures of a rig moved from one state to another, and whether by
//! more than an estimate may be off by.

use super::align::Step;
use super::cards::Card;
use super::change::moves;
use super::pieces::Piece;
use crate::shown::Measures;
use crate::written::{Range, Written};
use schemars::JsonSchema;
use serde::Serialize;
use snell_rig::measure::{self, Kind};
use snell_units::{Dimension, Quantity};

/// A measure that moved.
#[derive(Clone, Debug, Serialize, JsonSchema, PartialEq)]
pub struct Moved {
    /// Its name in the table.
    pub measure: &'static str,
    /// What it is of.
    #[serde(rename = "of", serialize_with = "word")]
    #[schemars(with = "String")]
    pub kind: Kind,
    /// The gap or fly that it is of; a fly that was changed for another goes by its place. The whole rig where
    /// there is none.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub part: Option<String>,
    /// As it was; nothing where it was unknown.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub was: Option<Written>,
    /// As it is.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub now: Option<Written>,
    /// By how much it moved; less than nothing where it is less now.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub by: Option<By>,
    /// Whether it moved by less than it may be off by.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub within_error: bool,
}

/// By how much a measure moved.
#[derive(Clone, Debug, Serialize, JsonSchema, PartialEq)]
pub struct By {
    /// In its SI unit.
    pub value: f64,
    /// For people, without its sign.
    pub text: String,
}

/// Serde asks for a reference.
#[allow(clippy::trivially_copy_pass_by_ref)]
fn word<S: serde::Serializer>(kind: &Kind, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_str(kind.word())
}

impl Moved {
    /// Between what an estimate lies: of the two states, the wider.
    pub fn between(&self) -> Option<&Range> {
        let states = [&self.was, &self.now].into_iter().flatten();
        let ranges = states.filter_map(|written| written.between.as_ref());
        ranges.max_by(|one, other| one.told_to.total_cmp(&other.told_to))
    }

    pub(super) fn dimension(&self) -> Dimension {
        dimension(self.kind, self.measure)
    }

    fn of(
        (kind, measure): (Kind, &'static str),
        part: Option<&str>,
        was: Option<&Written>,
        now: Option<&Written>,
    ) -> Self {
        let mut moved = Self {
            measure,
            kind,
            part: part.map(str::to_owned),
            was: was.cloned(),
            now: now.cloned(),
            by: by(kind, measure, was, now),
            within_error: false,
        };
        let off = moved.between().map(|range| range.told_to);
        let by = moved.by.as_ref().map(|by| by.value.abs());
        moved.within_error = by.zip(off).is_some_and(|(by, off)| by < off);
        moved
    }
}

/// The dimension of a measure; plain numbers have none.
pub(super) fn dimension(kind: Kind, measure: &str) -> Dimension {
    measure::of(kind, measure).map_or(Dimension::NONE, |measure| measure.dimension)
}

fn by(kind: Kind, measure: &str, was: Option<&Written>, now: Option<&Written>) -> Option<By> {
    let (was, now) = (was?, now?);
    let value = now.value? - was.value?;
    let text = snell_units::write(Quantity::new(value.abs(), dimension(kind, measure)), now.system);
    Some(By { value, text })
}

/// The measures of the rig, of its gaps and of its flies that moved, in the order of the table.
pub(super) fn moved(was: &Card, now: &Card, steps: &[Step]) -> Vec<Moved> {
    let (one, other) = (&was.shown, &now.shown);
    let mut all = figures(Kind::Rig, None, &one.measures, &other.measures);
    let flies = flies(&was.pieces, &now.pieces, steps);
    for (above, below) in flies.iter().zip(flies.iter().skip(1)) {
        // The gap below a fly counts like the fly above it.
        let next = below.was == above.was + 1 && below.now == above.now + 1;
        if let (true, Some(was), Some(now)) = (next, one.gaps.get(above.was), other.gaps.get(above.now)) {
            all.extend(figures(Kind::Gap, Some(&now.name), &was.measures, &now.measures));
        }
    }
    for fly in &flies {
        if let (Some(was), Some(now)) = (one.flies.get(fly.was), other.flies.get(fly.now)) {
            let name = if was.name == now.name {
                &now.name
            } else {
                fly.place
            };
            all.extend(figures(Kind::Fly, Some(name), &was.measures, &now.measures));
        }
    }
    all
}

/// A fly's place that both rigs have, with its number among the flies of each.
struct Place<'p> {
    was: usize,
    now: usize,
    place: &'p str,
}

fn flies<'p>(was: &[Piece], now: &'p [Piece], steps: &[Step]) -> Vec<Place<'p>> {
    let number = |pieces: &[Piece], at: usize| pieces[..at].iter().filter(|piece| piece.is_tied()).count();
    let kept = steps.iter().filter_map(|step| match step {
        Step::Kept(at, to) => Some((*at, *to)),
        Step::Gone(_) | Step::New(_) | Step::Split(..) | Step::Joined(..) => None,
    });
    let mut flies: Vec<Place<'_>> = kept
        .chain(moves(was, now, steps))
        .filter(|(at, to)| was[*at].is_tied() && now[*to].is_tied())
        .map(|(at, to)| Place {
            was: number(was, at),
            now: number(now, to),
            place: &now[to].name,
        })
        .collect();
    flies.sort_by_cached_key(|fly| fly.now);
    flies
}

fn figures(kind: Kind, part: Option<&str>, was: &Measures, now: &Measures) -> Vec<Moved> {
    let names = measure::all_of(kind).map(|measure| measure.name);
    let moved = names.filter_map(|name| {
        let (before, after) = (was.get(name), now.get(name));
        let figure = [before, after].iter().flatten().any(|one| one.value.is_some());
        (figure && !equal(before, after)).then(|| Moved::of((kind, name), part, before, after))
    });
    moved.collect()
}

fn equal(one: Option<&Written>, other: Option<&Written>) -> bool {
    match (one.and_then(|one| one.value), other.and_then(|other| other.value)) {
        (Some(one), Some(other)) => (one - other).abs() <= 1e-9 * one.abs().max(other.abs()),
        (one, other) => one.is_some() == other.is_some(),
    }
}
