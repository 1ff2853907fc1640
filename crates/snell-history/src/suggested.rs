//! What the outings of a season suggest, each with how sure that is.
//!
//! Ways to fish are held against each other only where they were fished alike
//! otherwise: at the same water with the same fly, or on the same rig at the
//! same time. How likely chance alone would set them as far apart is counted
//! exactly (`exact`).

use super::exact::{Stratum, chance};
use super::outings::OnDay;
use schemars::JsonSchema;
use serde::Serialize;
use snell_view::compare::TraitKind;
use std::collections::{BTreeMap, BTreeSet};

/// What differs between two ways to fish.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Differs {
    /// The line that the point hangs on; the water and the point are the same.
    Tippet,
    /// The fly on the point; the water and the line that it hangs on are the same.
    Point,
    /// Two flies of one rig, on the same outings.
    Fly,
}

/// One of two ways to fish.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Way {
    /// What it is called.
    pub name: String,
    /// How many outings were fished in it, of those that can be held against the other.
    pub outings: u32,
    /// How many fish those brought.
    pub fish: u32,
}

/// How sure it is that one caught more.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Sure {
    /// However the fish had come, so few outings could not have told it.
    TooFew,
    /// Chance would set them as far apart too often.
    NoDifference,
    /// The first caught more.
    More,
}

/// What some outings suggest.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Suggested {
    /// What differs.
    pub differs: Differs,
    /// The way that brought more fish an outing.
    pub more: Way,
    /// The other one.
    pub less: Way,
    /// How sure that is.
    pub sure: Sure,
    /// How likely chance alone would set the two as far apart, between nought and one.
    pub by_chance: f64,
}

/// Chance must be less likely than this. A season holds many things against each other, so that one in twenty would
/// tell of something nearly every year. Source: by judgement.
const LEVEL: f64 = 0.01;
/// So many ways of one kind are held against each other: those fished most often.
const MOST_WAYS: usize = 6;
/// So much is told.
const MOST_TOLD: usize = 6;

/// What outings suggest; the surest first.
pub fn suggested(days: &[OnDay]) -> Vec<Suggested> {
    let mut all = Vec::new();
    for differs in [Differs::Tippet, Differs::Point, Differs::Fly] {
        let fished = fished(days, differs);
        let ways = ways(&fished);
        for (at, one) in ways.iter().enumerate() {
            all.extend(
                ways[at + 1..]
                    .iter()
                    .filter_map(|other| pair(&fished, differs, one, other)),
            );
        }
    }
    let rank = |one: &Suggested| (one.sure != Sure::More, one.by_chance);
    all.sort_by(|one, other| {
        let ((one, by), (other, than)) = (rank(one), rank(other));
        one.cmp(&other).then(by.total_cmp(&than))
    });
    all.truncate(MOST_TOLD);
    all
}

/// Fish of one outing and way.
struct FishedOnce {
    way: String,
    /// What is alike where two are held against each other.
    alike: String,
    fish: u32,
}

fn fished(days: &[OnDay], differs: Differs) -> Vec<FishedOnce> {
    let mut all = Vec::new();
    for (number, day) in days.iter().enumerate() {
        let (Some(water), Some(point), Some(tippet)) = (day.water.as_ref(), point(day), tippet(day)) else {
            continue;
        };
        let fish = day.caught();
        let mut push = |way: String, alike: String, fish| all.push(FishedOnce { way, alike, fish });
        match differs {
            Differs::Tippet => push(tippet, format!("{water}\n{point}"), fish),
            Differs::Point => push(point, format!("{water}\n{tippet}"), fish),
            Differs::Fly => {
                for fly in flies(day) {
                    let fish = day.caught_on(&fly);
                    push(fly, number.to_string(), fish);
                }
            }
        }
    }
    all
}

fn ways(fished: &[FishedOnce]) -> Vec<String> {
    let mut often: BTreeMap<&str, usize> = BTreeMap::new();
    for once in fished {
        *often.entry(&once.way).or_default() += 1;
    }
    let mut ways: Vec<(&str, usize)> = often.into_iter().collect();
    ways.sort_by_key(|(_, often)| std::cmp::Reverse(*often));
    let ways = ways.into_iter().take(MOST_WAYS);
    ways.map(|(way, _)| way.to_owned()).collect()
}

fn pair(fished: &[FishedOnce], differs: Differs, one: &str, other: &str) -> Option<Suggested> {
    let mut strata: BTreeMap<&str, Stratum> = BTreeMap::new();
    for once in fished {
        if once.way == one || once.way == other {
            let stratum = strata.entry(&once.alike).or_default();
            stratum.push((once.fish, once.way == one));
        }
    }
    let both = |stratum: &Stratum| {
        [true, false]
            .iter()
            .all(|way| stratum.iter().any(|(_, is)| is == way))
    };
    let strata: Vec<Stratum> = strata.into_values().filter(both).collect();
    let chance = chance(&strata)?;
    let way = |name: &str, first: bool| {
        let of = strata.iter().flatten().filter(|(_, is)| *is == first);
        Way {
            name: name.to_owned(),
            outings: of.clone().count() as u32,
            fish: of.map(|(fish, _)| fish).sum(),
        }
    };
    let (mut more, mut less) = (way(one, true), way(other, false));
    let sure = if chance.least > LEVEL {
        Sure::TooFew
    } else if chance.by_lot > LEVEL {
        Sure::NoDifference
    } else {
        Sure::More
    };
    // What the waters would have brought anyway is taken off, so the sums alone do not say which it was.
    if excess(&strata) < 0.0 {
        std::mem::swap(&mut more, &mut less);
    }
    Some(Suggested {
        differs,
        more,
        less,
        sure,
        by_chance: chance.by_lot,
    })
}

/// By how many fish the first way brought more than its share of each stratum.
fn excess(strata: &[Stratum]) -> f64 {
    let of = |stratum: &Stratum| {
        let fish: u32 = stratum.iter().map(|(fish, _)| fish).sum();
        let first = stratum.iter().filter(|(_, first)| *first);
        let many = first.clone().count() as f64;
        let own: u32 = first.map(|(fish, _)| fish).sum();
        f64::from(own) - f64::from(fish) * many / stratum.len() as f64
    };
    strata.iter().map(of).sum()
}

/// The flies of the rig that day, each name once.
fn flies(day: &OnDay) -> BTreeSet<String> {
    let tied = day.card.pieces.iter().filter(|piece| piece.is_tied());
    tied.filter_map(|piece| Some(piece.get(TraitKind::Fly)?.text.clone()))
        .collect()
}

fn point(day: &OnDay) -> Option<String> {
    let last = day.card.pieces.iter().rfind(|piece| piece.is_tied())?;
    Some(last.get(TraitKind::Fly)?.text.clone())
}

fn tippet(day: &OnDay) -> Option<String> {
    let last = day.card.pieces.iter().rfind(|piece| piece.is_section())?;
    Some(last.get(TraitKind::Stuff)?.text.clone())
}
