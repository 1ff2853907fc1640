//! Outings beside the rigs as they were on the day, and what they come to.

use super::file::{Caught, Outed};
use crate::story::{Commit, Happened, RigStory};
use serde::Serialize;
use snell_view::compare::{Card, Piece, TraitKind};
use std::collections::BTreeMap;
use std::sync::Arc;

/// An outing and the rig as it was on that day.
#[derive(Clone, Debug)]
pub struct OnDay {
    /// The outing.
    pub outing: Outed,
    /// The rig's story, as its number; nothing where the history has no such rig.
    pub rig: Option<usize>,
    /// The state of the history whose rig it was; nothing where the rig was written down only later.
    pub commit: Option<usize>,
    /// The rig as it was.
    pub card: Arc<Card>,
    /// Where it was fished.
    pub water: Option<String>,
    /// What was caught, each with the fly as it was.
    pub caught: Vec<(u32, Option<String>)>,
}

/// What outings come to for one rig, water or fly.
#[derive(Clone, Debug, Serialize, PartialEq, Eq)]
pub struct Sum {
    /// Its name.
    pub name: String,
    /// How many outings.
    pub outings: u32,
    /// How many fish.
    pub fish: u32,
}

/// All outings, and their sums.
#[derive(Clone, Debug, Default)]
pub struct Fished {
    /// In the order of their days.
    pub days: Vec<OnDay>,
    /// By rig.
    pub by_rig: Vec<Sum>,
    /// By water.
    pub by_water: Vec<Sum>,
    /// By fly.
    pub by_fly: Vec<Sum>,
}

/// What stands for what nobody wrote down.
const UNSAID: &str = "not said";

/// Joins outings with the rigs as they were on their days.
pub fn fished(outings: impl IntoIterator<Item = Outed>, stories: &[RigStory], commits: &[Commit]) -> Fished {
    let mut days: Vec<OnDay> = outings
        .into_iter()
        .map(|outing| on_day(outing, stories, commits))
        .collect();
    days.sort_by(|one, other| {
        (one.outing.day, &one.outing.name).cmp(&(other.outing.day, &other.outing.name))
    });
    let rig = |day: &OnDay| {
        day.rig
            .map_or_else(|| day.outing.rig.clone(), |rig| stories[rig].name.clone())
    };
    let fish = |day: &OnDay| day.caught.iter().map(|(count, _)| count).sum::<u32>();
    let by_rig = sums(days.iter().map(|day| (rig(day), fish(day))));
    let by_water = sums(
        days.iter()
            .map(|day| (day.water.clone().unwrap_or_else(|| UNSAID.to_owned()), fish(day))),
    );
    let by_fly = sums(days.iter().flat_map(|day| {
        let mut flies: BTreeMap<String, u32> = BTreeMap::new();
        for (count, fly) in &day.caught {
            *flies
                .entry(fly.clone().unwrap_or_else(|| UNSAID.to_owned()))
                .or_default() += count;
        }
        flies
    }));
    Fished {
        days,
        by_rig,
        by_water,
        by_fly,
    }
}

/// One outing a pair; the most fish first.
fn sums(all: impl Iterator<Item = (String, u32)>) -> Vec<Sum> {
    let mut sums: Vec<Sum> = Vec::new();
    for (name, fish) in all {
        match sums.iter_mut().find(|sum| sum.name == name) {
            Some(sum) => {
                sum.outings += 1;
                sum.fish += fish;
            }
            None => sums.push(Sum {
                name,
                outings: 1,
                fish,
            }),
        }
    }
    sums.sort_by(|one, other| other.fish.cmp(&one.fish).then_with(|| one.name.cmp(&other.name)));
    sums
}

fn on_day(outing: Outed, stories: &[RigStory], commits: &[Commit]) -> OnDay {
    let name = outing.rig.to_lowercase();
    let now = stories
        .iter()
        .position(|story| story.alive && story.name.to_lowercase() == name);
    let once = || {
        let had = |story: &RigStory| story.names().iter().any(|other| other.to_lowercase() == name);
        stories.iter().position(had)
    };
    let rig = now.or_else(once);
    let day = outing.day.to_string();
    let event = rig.and_then(|rig| {
        let events = stories[rig].events.iter();
        events
            .filter(|event| !matches!(event.what, Happened::Dropped | Happened::Unreadable))
            .filter(|event| commits[event.commit].day() <= day.as_str())
            .max_by_key(|event| (commits[event.commit].day().to_owned(), event.commit))
    });
    // A rig that was written down only after the day is taken as it was written first.
    let written = event.or_else(|| stories[rig?].events.first());
    let card = written.map_or_else(|| outing.fished.clone(), |event| event.card.clone());
    let of_card = || {
        card.says
            .iter()
            .find(|says| says.key == "water")
            .map(|says| says.text.clone())
    };
    let water = outing.water.clone().or_else(of_card);
    let rigged = if outing.edited { &outing.fished } else { &card };
    let caught = outing
        .caught
        .iter()
        .map(|caught| (caught.count, fly(caught, rigged)))
        .collect();
    OnDay {
        rig,
        commit: event.map(|event| event.commit),
        water,
        caught,
        card,
        outing,
    }
}

/// The fly that a catch names, as people call it.
fn fly(caught: &Caught, card: &Card) -> Option<String> {
    let (word, number) = caught.on.as_ref()?;
    let named = |piece: &&Piece| {
        let label = piece
            .label
            .as_ref()
            .is_some_and(|label| label.to_lowercase() == *word);
        let fly = piece.get(TraitKind::Fly);
        let details = fly.map_or(&[][..], |fly| &fly.details);
        let name = details.iter().any(|one| one.name == "fly" && one.text == *word);
        number.is_none() && (label || name) || piece.role.word() == word
    };
    let mut flies = card
        .pieces
        .iter()
        .filter(|piece| piece.get(TraitKind::Fly).is_some())
        .filter(named);
    let piece = flies.nth(usize::from(number.unwrap_or(1)).saturating_sub(1));
    // What the rig of that day does not have goes by what was written.
    Some(
        piece
            .and_then(|piece| piece.get(TraitKind::Fly))
            .map_or_else(|| word.clone(), |fly| fly.text.clone()),
    )
}
