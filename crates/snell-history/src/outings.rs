//! Outings beside the rigs as they were on the day, and what they come to.

use super::file::{Caught, Outed};
use super::line::{Stands, stands};
use crate::story::{Commit, RigStory};
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
    /// Which state of the rig was taken for that of the day.
    pub taken: Taken,
    /// The rig as it was fished.
    pub card: Arc<Card>,
    /// Whether what was changed at the bank could be made to the rig as it was.
    pub fits: bool,
    /// Where it was fished.
    pub water: Option<String>,
    /// What was caught, each with the fly as it was.
    pub caught: Vec<(u32, Option<String>)>,
}

/// Which state of a rig is taken for that of an outing; states are those of the line, as their numbers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Taken {
    /// The outing was written down in this state, on its day.
    OnTheDay(usize),
    /// The outing was written down later; by its author's date this was the last state of that day.
    AsItStood(usize),
    /// The rig itself was written down only later: as it was written first.
    WrittenLater(usize),
    /// The history has no such rig: as the last state has it.
    Unknown,
}

impl Taken {
    /// The state that the rig is taken from; nothing where no state is as old as the outing.
    pub fn commit(self) -> Option<usize> {
        match self {
            Self::OnTheDay(commit) | Self::AsItStood(commit) => Some(commit),
            Self::WrittenLater(_) | Self::Unknown => None,
        }
    }

    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Self::OnTheDay(_) => "written-on-the-day",
            Self::AsItStood(_) => "as-it-stood",
            Self::WrittenLater(_) => "rig-written-later",
            Self::Unknown => "as-it-is-now",
        }
    }
}

/// An outing with the state of the line in which it was written down first.
#[derive(Clone, Debug)]
pub struct Entered {
    /// The outing, as the last state has it.
    pub outing: Outed,
    /// The state, as its number.
    pub commit: usize,
}

/// Makes what was changed at the bank to a rig as it stood in a state: the outing, the state's number, the rig.
pub type Rigged<'r> = dyn FnMut(&Outed, usize, &Card) -> Option<Arc<Card>> + 'r;

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
pub fn fished(
    outings: impl IntoIterator<Item = Entered>,
    stories: &[RigStory],
    commits: &[Commit],
    rigged: &mut Rigged<'_>,
) -> Vec<OnDay> {
    let line = on_line(commits);
    let mut days: Vec<OnDay> = outings
        .into_iter()
        .map(|entered| on_day(entered, stories, commits, &line, rigged))
        .collect();
    days.sort_by(|one, other| {
        (one.outing.day, &one.outing.name).cmp(&(other.outing.day, &other.outing.name))
    });
    days
}

impl Fished {
    /// Sums outings up.
    pub fn of(days: Vec<OnDay>, stories: &[RigStory]) -> Self {
        let rig = |day: &OnDay| {
            day.rig
                .map_or_else(|| day.outing.rig.clone(), |rig| stories[rig].name.clone())
        };
        let fish = |day: &OnDay| day.caught.iter().map(|(count, _)| count).sum::<u32>();
        let unsaid = || UNSAID.to_owned();
        let by_rig = sums(days.iter().map(|day| (rig(day), fish(day))));
        let by_water = sums(
            days.iter()
                .map(|day| (day.water.clone().unwrap_or_else(unsaid), fish(day))),
        );
        let by_fly = sums(days.iter().flat_map(|day| {
            let mut flies: BTreeMap<String, u32> = BTreeMap::new();
            for (count, fly) in &day.caught {
                *flies.entry(fly.clone().unwrap_or_else(unsaid)).or_default() += count;
            }
            flies
        }));
        Self {
            days,
            by_rig,
            by_water,
            by_fly,
        }
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

fn on_day(
    entered: Entered,
    stories: &[RigStory],
    commits: &[Commit],
    line: &[usize],
    rigged: &mut Rigged<'_>,
) -> OnDay {
    let Entered { outing, commit } = entered;
    let rig = story_of(&outing, stories);
    let taken = rig.map_or(Taken::Unknown, |rig| {
        taken(&outing, commit, &stories[rig], commits, line)
    });
    let stood = match (rig, taken) {
        (Some(rig), Taken::OnTheDay(commit) | Taken::AsItStood(commit) | Taken::WrittenLater(commit)) => {
            at(&stories[rig], commit)
        }
        (None, _) | (_, Taken::Unknown) => None,
    };
    let changed = match (&stood, taken) {
        (Some(stood), Taken::OnTheDay(at) | Taken::AsItStood(at) | Taken::WrittenLater(at))
            if outing.edited =>
        {
            rigged(&outing, at, stood)
        }
        (None, _) if outing.edited => Some(outing.fished.clone()),
        _ => None,
    };
    let fits = !outing.edited || changed.as_ref().is_some_and(|card| card.sound);
    let card = changed.or(stood).unwrap_or_else(|| outing.fished.clone());
    let of_card = || {
        card.says
            .iter()
            .find(|says| says.key == "water")
            .map(|says| says.text.clone())
    };
    OnDay {
        rig,
        taken,
        fits,
        water: outing.water.clone().or_else(of_card),
        caught: outing
            .caught
            .iter()
            .map(|caught| (caught.count, fly(caught, &card)))
            .collect(),
        card,
        outing,
    }
}

/// The story of an outing's rig: the one that stands in the rig's own file, else the one that ever had the name.
fn story_of(outing: &Outed, stories: &[RigStory]) -> Option<usize> {
    let name = outing.rig.to_lowercase();
    let named = |story: &RigStory| story.alive && story.name.to_lowercase() == name;
    let once = |story: &RigStory| story.names().iter().any(|other| other.to_lowercase() == name);
    let find = |is: &dyn Fn(&RigStory) -> bool| stories.iter().position(is);
    find(&|story| named(story) && story.file == outing.rig_file)
        .or_else(|| find(&named))
        .or_else(|| find(&once))
}

/// The states of the line, the first one first.
fn on_line(commits: &[Commit]) -> Vec<usize> {
    let all = stands(commits);
    (0..commits.len())
        .filter(|at| all[*at] == Stands::OnLine)
        .collect()
}

fn taken(outing: &Outed, written: usize, story: &RigStory, commits: &[Commit], line: &[usize]) -> Taken {
    let day = outing.day.to_string();
    let Some(first) = story.stood.iter().find(|stood| stood.card.is_some()) else {
        return Taken::Unknown;
    };
    if commits[written].day() == day && first.commit <= written {
        return Taken::OnTheDay(written);
    }
    let by_then = line.iter().filter(|at| commits[**at].day() <= day.as_str());
    let last = by_then.max_by_key(|at| (commits[**at].time, **at)).copied();
    match last.filter(|last| first.commit <= *last) {
        Some(last) => Taken::AsItStood(last),
        None => Taken::WrittenLater(first.commit),
    }
}

/// The rig as it could be found last, up to a state of the line.
fn at(story: &RigStory, commit: usize) -> Option<Arc<Card>> {
    let up_to = story.stood.iter().rev().filter(|stood| stood.commit <= commit);
    up_to.into_iter().find_map(|stood| stood.card.clone())
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
