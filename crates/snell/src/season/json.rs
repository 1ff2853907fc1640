//! A season as JSON: a contract with the programs that read it.

use crate::season::read::{Counted, Season};
use crate::trouble::Trouble;
use schemars::JsonSchema;
use serde::Serialize;
use snell_history::{FishOnDay, Happened, OnDay, RigStory, Said, Suggested, Sum};
use snell_rig::blocks::Came;
use snell_view::compare::{Change, Moved};
use snell_view::{Measures, Written};
use std::collections::BTreeMap;
use std::io::Write;

/// The version of this form.
pub const VERSION: u32 = 1;

#[derive(Serialize, JsonSchema)]
pub struct Told<'s> {
    version: u32,
    read: Counted,
    /// Whether the clone lacks older commits, so that what is told as born may be older.
    cut_short: bool,
    /// Whether commits stand for others that were committed, so that the history is told as they have it.
    grafted: bool,
    rigs: Vec<Rig<'s>>,
    outings: Vec<Outing<'s>>,
    by_rig: &'s [Sum],
    by_water: &'s [Sum],
    by_fly: &'s [Sum],
    by_species: &'s [Sum],
    by_hour: &'s [Sum],
    suggested: &'s [Suggested],
}

#[derive(Serialize, JsonSchema)]
struct Rig<'s> {
    name: &'s str,
    #[serde(skip_serializing_if = "Option::is_none")]
    title: Option<&'s str>,
    file: &'s str,
    alive: bool,
    names: Vec<&'s str>,
    events: Vec<Event<'s>>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    branches: Vec<Branch<'s>>,
    measures: BTreeMap<&'s str, Vec<Figure<'s>>>,
}

/// What happened on a branch.
#[derive(Serialize, JsonSchema)]
struct Branch<'s> {
    /// The commit that joined it.
    joined: &'s str,
    /// Whether the rig came out of the joining as the branch had it.
    kept: bool,
    events: Vec<Event<'s>>,
}

#[derive(Serialize, JsonSchema)]
struct Event<'s> {
    what: &'static str,
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    merge: bool,
    #[serde(flatten)]
    at: At<'s>,
    subject: &'s str,
    name: &'s str,
    file: &'s str,
    #[serde(skip_serializing_if = "Option::is_none")]
    was: Option<&'s str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    follows: Option<&'s str>,
    /// Whether hardly anything stayed as it was.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    another: bool,
    #[serde(skip_serializing_if = "<[Change]>::is_empty")]
    changes: &'s [Change],
    #[serde(skip_serializing_if = "<[Moved]>::is_empty")]
    measures: &'s [Moved],
}

/// A commit; who made it is told where it is asked for.
#[derive(Serialize, JsonSchema)]
struct At<'s> {
    commit: &'s str,
    when: &'s str,
    #[serde(skip_serializing_if = "Option::is_none")]
    who: Option<&'s str>,
}

#[derive(Serialize, JsonSchema)]
struct Figure<'s> {
    #[serde(flatten)]
    at: At<'s>,
    #[serde(skip_serializing_if = "Option::is_none")]
    measure: Option<&'s Written>,
}

#[derive(Serialize, JsonSchema)]
struct Outing<'s> {
    name: &'s str,
    #[serde(skip_serializing_if = "Option::is_none")]
    title: Option<&'s str>,
    day: String,
    rig: &'s str,
    #[serde(skip_serializing_if = "Option::is_none")]
    commit: Option<&'s str>,
    /// Where the rig was that of a branch: the commit that joined it.
    #[serde(skip_serializing_if = "Option::is_none")]
    branch: Option<&'s str>,
    /// Which state of the rig was taken for that of the day.
    taken: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    water: Option<&'s str>,
    changed_at_the_bank: bool,
    /// Whether what was changed at the bank could be made to the rig as it was.
    fits: bool,
    /// The rig's own measures as it was fished.
    measures: &'s Measures,
    caught: Vec<Catch<'s>>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    lost: Vec<Catch<'s>>,
    notes: &'s [String],
}

#[derive(Serialize, JsonSchema)]
struct Catch<'s> {
    fish: u32,
    #[serde(skip_serializing_if = "Option::is_none")]
    fly: Option<&'s str>,
    #[serde(flatten)]
    said: &'s Said,
}

/// Writes it as one value.
///
/// # Errors
/// The output cannot be written.
pub fn write(out: &mut impl Write, season: &Season, who: bool) -> Result<(), Trouble> {
    let told = Told {
        version: VERSION,
        read: season.counted,
        cut_short: season.cut_short,
        grafted: season.grafted,
        rigs: season.rigs.iter().map(|story| rig(season, story, who)).collect(),
        outings: season.fished.days.iter().map(|day| outing(season, day)).collect(),
        by_rig: &season.fished.by_rig,
        by_water: &season.fished.by_water,
        by_fly: &season.fished.by_fly,
        by_species: &season.fished.by_species,
        by_hour: &season.fished.by_hour,
        suggested: &season.suggested,
    };
    serde_json::to_writer_pretty(&mut *out, &told)?;
    Ok(writeln!(out)?)
}

fn at(season: &Season, commit: usize, who: bool) -> At<'_> {
    let commit = &season.commits[commit];
    At {
        commit: &commit.id,
        when: &commit.when,
        who: who.then_some(commit.who.as_str()),
    }
}

fn rig<'s>(season: &'s Season, story: &'s RigStory, who: bool) -> Rig<'s> {
    let moved = story.series.iter().map(|series| {
        let figures = series.points.iter().map(|point| Figure {
            at: at(season, point.commit, who),
            measure: point.written.as_ref(),
        });
        (series.figure.name(), figures.collect())
    });
    Rig {
        name: &story.name,
        title: story.last().and_then(|rig| rig.called.title.as_deref()),
        file: &story.file,
        alive: story.alive,
        names: story.names(),
        events: events(season, &story.events, who),
        branches: story
            .sides
            .iter()
            .map(|side| Branch {
                joined: &season.commits[side.joined].id,
                kept: side.kept,
                events: events(season, &side.events, who),
            })
            .collect(),
        measures: moved.collect(),
    }
}

fn events<'s>(season: &'s Season, events: &'s [snell_history::Event], who: bool) -> Vec<Event<'s>> {
    events.iter().map(|one| event(season, one, who)).collect()
}

fn event<'s>(season: &'s Season, event: &'s snell_history::Event, who: bool) -> Event<'s> {
    let mut told = Event {
        what: event.what.word(),
        merge: event.merge,
        at: at(season, event.commit, who),
        subject: &season.commits[event.commit].subject,
        name: &event.rig.called.name,
        file: &event.rig.called.file,
        was: None,
        follows: None,
        another: false,
        changes: &[],
        measures: &[],
    };
    if let Happened::Changed {
        renamed,
        changes,
        measures,
        follows,
        another,
    } = &event.what
    {
        told.was = renamed.as_deref();
        told.follows = follows.as_deref();
        told.another = another.is_some();
        told.changes = changes;
        told.measures = measures;
    }
    told
}

fn outing<'s>(season: &'s Season, day: &'s OnDay) -> Outing<'s> {
    let catches = |came: Came| {
        let fish = day.fish.iter().filter(move |fish| fish.came == came);
        let catch = |fish: &'s FishOnDay| Catch {
            fish: fish.count,
            fly: fish.fly.as_deref(),
            said: &fish.said,
        };
        fish.map(catch).collect()
    };
    Outing {
        name: &day.outing.name,
        title: day.outing.title.as_deref(),
        day: day.outing.day.to_string(),
        rig: day.rig_name(&season.rigs),
        commit: day
            .taken
            .commit()
            .map(|commit| season.commits[commit].id.as_str()),
        branch: day.branch.map(|joined| season.commits[joined].id.as_str()),
        taken: day.taken.word(),
        water: day.water.as_deref(),
        changed_at_the_bank: day.outing.edited,
        fits: day.fits,
        measures: &day.card.shown.measures,
        caught: catches(Came::ToHand),
        lost: catches(Came::Off),
        notes: &day.outing.notes,
    }
}
