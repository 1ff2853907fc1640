//! Outings beside the rigs as they were on the day.

use super::file::{Caught, Outed};
use super::said::Said;
use super::taken::{States, Taken};
use crate::stood::Seen;
use crate::story::{Commit, RigStory};
use snell_rig::blocks::Came;
use snell_view::compare::{Card, Piece, TraitKind};
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
    /// Where the rig was that of a branch: the state that joined it.
    pub branch: Option<usize>,
    /// What was caught and what was lost.
    pub fish: Vec<FishOnDay>,
}

/// Fish of a day.
#[derive(Clone, Debug)]
pub struct FishOnDay {
    /// How many.
    pub count: u32,
    /// Whether they were caught or lost.
    pub came: Came,
    /// The fly as it was that day, as people call it.
    pub fly: Option<String>,
    /// What is said of them.
    pub said: Said,
}

impl OnDay {
    /// The name of the rig: that of today, where the history has it.
    pub fn rig_name<'s>(&'s self, stories: &'s [RigStory]) -> &'s str {
        self.rig.map_or(&self.outing.rig, |rig| &stories[rig].name)
    }

    /// How many fish were caught.
    pub fn caught(&self) -> u32 {
        self.count(|fish| fish.came == Came::ToHand)
    }

    /// How many fish were lost.
    pub fn lost(&self) -> u32 {
        self.count(|fish| fish.came == Came::Off)
    }

    /// How many fish were caught on a fly.
    pub fn caught_on(&self, fly: &str) -> u32 {
        self.count(|fish| fish.came == Came::ToHand && fish.fly.as_deref() == Some(fly))
    }

    fn count(&self, which: impl Fn(&FishOnDay) -> bool) -> u32 {
        let fish = self.fish.iter().filter(|fish| which(fish));
        fish.map(|fish| fish.count).sum()
    }
}

/// An outing with the state in which it was written down first.
#[derive(Clone, Debug)]
pub struct Entered {
    /// The outing, as the last state has it.
    pub outing: Outed,
    /// The state, as its number.
    pub commit: usize,
    /// What it called its rig there.
    pub called: String,
    /// The file that its rig stood in there.
    pub stood_in: String,
}

/// Works out the rigs of days from the states of a history, which are known by their numbers.
pub trait RigsOfDays {
    /// A rig as the state has it that it was read in.
    fn stood(&mut self, commit: usize, rig: &Seen) -> Option<Arc<Card>>;

    /// The rig with what was changed at the bank, by the files of the state that the day is taken to have fished.
    fn edited(&mut self, outing: &Outed, commit: usize, rig: &Seen) -> Option<Arc<Card>>;
}

/// Joins outings with the rigs as they were on their days.
pub fn fished(
    outings: impl IntoIterator<Item = Entered>,
    stories: &[RigStory],
    commits: &[Commit],
    rigged: &mut dyn RigsOfDays,
) -> Vec<OnDay> {
    let states = States::of(commits);
    let on_day = |entered| on_day(entered, stories, &states, rigged);
    let mut days: Vec<OnDay> = outings.into_iter().map(on_day).collect();
    days.sort_by(|one, other| {
        (one.outing.day, &one.outing.name).cmp(&(other.outing.day, &other.outing.name))
    });
    days
}

fn on_day(entered: Entered, stories: &[RigStory], states: &States<'_>, rigged: &mut dyn RigsOfDays) -> OnDay {
    let Entered {
        outing,
        commit,
        called,
        stood_in,
    } = entered;
    // Rigs may have taken each other's names since. Where the outing says what it always said, it means the rig that
    // was called so then.
    let stood = |story: &RigStory, in_its_file: bool| {
        let rig = states.rig(story, commit);
        rig.is_some_and(|(_, rig)| {
            let same_file = rig.called.file == stood_in;
            rig.called.name.to_lowercase() == called.to_lowercase() && (same_file || !in_its_file)
        })
    };
    let find = |in_its_file| stories.iter().position(|story| stood(story, in_its_file));
    let kept_word = called.to_lowercase() == outing.rig.to_lowercase();
    let then = kept_word.then(|| find(true).or_else(|| find(false))).flatten();
    let rig = then.or_else(|| story_of(&outing, stories));
    let taken = rig.map_or(Taken::Unknown, |rig| {
        states.taken(outing.day, commit, &stories[rig])
    });
    let stood = rig
        .zip(taken.state())
        .and_then(|(rig, at)| states.rig(&stories[rig], at));
    let changed = match (stood, taken.state()) {
        (Some((_, stood)), Some(at)) if outing.edited => rigged.edited(&outing, at, stood),
        (None, _) if outing.edited => Some(outing.fished.clone()),
        (Some(_) | None, _) => None,
    };
    let fits = !outing.edited || changed.as_ref().is_some_and(|card| card.sound);
    let as_it_stood = || stood.and_then(|(commit, rig)| rigged.stood(commit, rig));
    let card = changed.or_else(as_it_stood);
    let card = card.unwrap_or_else(|| outing.fished.clone());
    let of_card = || {
        let water = card.says.iter().find(|says| says.key == "water");
        water.map(|says| says.text.clone())
    };
    let fish = outing.caught.iter().map(|caught| FishOnDay {
        count: caught.count,
        came: caught.came,
        fly: fly(caught, &card),
        said: caught.said.clone(),
    });
    OnDay {
        rig,
        branch: taken.commit().and_then(|commit| states.joined(commit)),
        taken,
        fits,
        water: outing.water.clone().or_else(of_card),
        fish: fish.collect(),
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
