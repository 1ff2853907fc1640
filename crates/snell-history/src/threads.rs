//! The rigs of a history, each a thread of what happened to it.
//!
//! A rig that was written down on two branches is one rig from the state on that
//! joins them.

use super::held::{Files, folded};
use super::line::{Stands, stands};
use crate::stood::Stood;
use crate::story::{Commit, Event, Happened, RigStory, Side};
use snell_view::compare::{Bases, Card, changed};
use std::collections::{BTreeMap, HashMap};
use std::sync::Arc;

/// What is known of one rig so far.
#[derive(Debug, Default)]
pub(super) struct Thread {
    /// On the line and on branches, in the order in which it was told.
    pub events: Vec<Event>,
    /// On the line.
    pub stood: Vec<Stood>,
}

/// All rigs so far.
#[derive(Debug, Default)]
pub(super) struct Threads {
    pub all: Vec<Thread>,
    /// Where each state stands.
    stands: Vec<Stands>,
    /// Which rig turned out to be which other.
    same: HashMap<usize, usize>,
    /// What was noted of the state that is being told: the rig, and the number of its event.
    noted: Vec<(usize, usize)>,
    /// Whether the state that is being told joins others.
    pub merges: bool,
}

impl Threads {
    /// None yet, of a history with these states.
    pub fn of(commits: &[Commit]) -> Self {
        Self {
            stands: stands(commits),
            ..Self::default()
        }
    }

    /// Whether a state is one of the line.
    pub fn on_line(&self, number: usize) -> bool {
        self.stands[number] == Stands::OnLine
    }

    /// Begins with the next state.
    pub fn begin(&mut self, merges: bool) {
        self.noted.clear();
        self.merges = merges;
    }

    pub fn root(&self, mut thread: usize) -> usize {
        while let Some(into) = self.same.get(&thread) {
            thread = *into;
        }
        thread
    }

    /// From now on the one is the other.
    pub fn unite(&mut self, one: usize, other: usize) {
        self.same.insert(one, other);
    }

    pub fn note(&mut self, thread: usize, commit: usize, what: Happened, card: &Arc<Card>) {
        let events = &mut self.all[thread].events;
        self.noted.push((thread, events.len()));
        events.push(Event {
            commit,
            merge: self.merges,
            what,
            card: card.clone(),
        });
    }

    /// Notes how a rig stands in a state, where that is one of the line and the rig is another than before.
    pub fn stand(&mut self, thread: usize, commit: usize, card: Option<&Arc<Card>>) {
        if !self.on_line(commit) {
            return;
        }
        let stood = &mut self.all[thread].stood;
        let before = stood.last().and_then(|stood| stood.card.as_ref());
        let same = match (before, card) {
            (Some(before), Some(card)) => reads_alike(before, card),
            (None, None) => true,
            (Some(_), None) | (None, Some(_)) => false,
        };
        if !same {
            stood.push(Stood {
                commit,
                card: card.cloned(),
            });
        }
    }

    /// A rig of this name that was dropped last, as far as the line knows of it, or a branch of it.
    pub fn dropped(&self, name: &str, on_line: bool) -> Option<usize> {
        let dropped = |thread: &Thread| {
            let mut events = thread.events.iter().rev();
            // A branch does not know of what the line dropped meanwhile, nor the line of a branch.
            let last = events.find(|event| self.on_line(event.commit) == on_line);
            last.is_some_and(|event| matches!(event.what, Happened::Dropped) && folded(&event.card) == name)
        };
        let found = self.all.iter().position(dropped);
        found.filter(|thread| self.root(*thread) == *thread)
    }

    /// Marks what happened to a rig only because it happened to the one that it is made from.
    pub fn follow(&mut self) {
        let now = std::mem::take(&mut self.noted);
        let bases = Bases::of(now.iter().filter_map(|(thread, event)| {
            let event = &self.all[*thread].events[*event];
            let Happened::Changed { changes, .. } = &event.what else {
                return None;
            };
            Some((event.card.shown.name.as_str(), changes.as_slice()))
        }));
        for (thread, event) in now {
            let event = &mut self.all[thread].events[event];
            let base = event.card.shown.from.clone();
            if let Happened::Changed { changes, follows, .. } = &mut event.what {
                *follows = base.filter(|base| bases.lead(base, changes));
            }
        }
    }

    /// The story of every rig, in the order in which they were born.
    pub fn into_stories(mut self, last: &Files, commits: &[Commit]) -> Vec<RigStory> {
        let held = last
            .iter()
            .flat_map(|(path, held)| held.iter().map(move |held| (path, held)));
        let alive: HashMap<usize, String> = held
            .map(|(path, held)| (self.root(held.thread), path.display().to_string()))
            .collect();
        for number in self.same.keys().copied().collect::<Vec<_>>() {
            let into = self.root(number);
            let events = std::mem::take(&mut self.all[number].events);
            self.all[into].events.extend(events);
        }
        let mut stories = Vec::new();
        for (number, thread) in std::mem::take(&mut self.all).into_iter().enumerate() {
            if let Some(story) = self.story(thread, alive.get(&number), commits) {
                stories.push(story);
            }
        }
        stories
    }

    /// A thread parted into the line and its branches; nothing where it was told as part of another.
    fn story(&self, thread: Thread, alive: Option<&String>, commits: &[Commit]) -> Option<RigStory> {
        let mut events: Vec<Event> = Vec::new();
        let mut sides: BTreeMap<usize, Vec<Event>> = BTreeMap::new();
        for event in thread.events {
            match self.stands[event.commit] {
                Stands::OnLine => events.push(event),
                Stands::Beside { joined } => sides.entry(joined).or_default().push(event),
            }
        }
        events.sort_by_key(|event| event.commit);
        let stood = thread.stood;
        let sides: Vec<Side> = sides
            .into_iter()
            .map(|(joined, mut events)| {
                events.sort_by_key(|event| (commits[event.commit].time, event.commit));
                let after = stood.iter().rfind(|stood| stood.commit <= joined);
                let kept = kept(&events, after.and_then(|stood| stood.card.as_deref()));
                Side { joined, kept, events }
            })
            .collect();
        let side = || sides.last().and_then(|side| side.events.last());
        let last = events.last().or_else(side)?.card.clone();
        let now = stood.last().and_then(|stood| stood.card.as_ref());
        Some(RigStory {
            name: now.unwrap_or(&last).shown.name.clone(),
            file: alive.unwrap_or(&last.shown.file).clone(),
            alive: alive.is_some(),
            events,
            sides,
            stood,
            series: Vec::new(),
        })
    }
}

/// Whether a branch's last word on a rig is how the rig came out of the joining.
fn kept(events: &[Event], after: Option<&Card>) -> bool {
    match (events.last(), after) {
        (Some(event), None) => matches!(event.what, Happened::Dropped),
        (Some(event), Some(after)) => {
            !matches!(event.what, Happened::Dropped) && changed(&event.card, after).is_none()
        }
        (None, _) => false,
    }
}

/// Whether all that is told of two readings of a rig is the same; its line in the file is not.
fn reads_alike(one: &Card, other: &Card) -> bool {
    let (was, now) = (&one.shown, &other.shown);
    if one.is_of_one_reading(other) {
        return was.file == now.file;
    }
    let flies = |card: &Card| {
        let flies = card.shown.flies.iter();
        flies.map(|fly| fly.measures.clone()).collect::<Vec<_>>()
    };
    (&was.name, &was.file, &was.title, &was.measures) == (&now.name, &now.file, &now.title, &now.measures)
        && one.sound == other.sound
        && one.pieces == other.pieces
        && one.says == other.says
        && flies(one) == flies(other)
}
