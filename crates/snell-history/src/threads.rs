//! The rigs of a history, each a thread of what happened to it.
//!
//! A rig that was written down on two branches is one rig from the state on that
//! joins them.

use super::held::Files;
use super::line::{Stands, stands};
use crate::stood::{Seen, Stood};
use crate::story::{Commit, Event, Followed, Happened, RigStory, Side};
use snell_view::compare::{Bases, Card, Figure, changed};
use std::collections::{BTreeMap, HashMap};
use std::sync::Arc;

/// What is known of one rig so far.
#[derive(Debug, Default)]
pub(super) struct Thread {
    /// On the line and on branches, in the order in which it was told.
    pub events: Vec<Event>,
    /// On the line.
    pub stood: Vec<Stood>,
    /// How it stands on the line by now.
    now: Option<Arc<Card>>,
    /// Its last word on branches that the line has not joined yet, by the state that joins them.
    open: HashMap<usize, LastWord>,
    /// Whether it came out of a joining as the branch had it, by the state that joined the branch.
    kept: HashMap<usize, bool>,
}

/// The last that happened to a rig on a branch.
#[derive(Debug)]
struct LastWord {
    /// Of which state, by the author's time.
    at: (i64, usize),
    /// The rig from then on; nothing where it was dropped.
    card: Option<Arc<Card>>,
}

impl LastWord {
    /// Whether the rig came out of the joining so.
    fn is_kept(&self, after: Option<&Card>) -> bool {
        match (self.card.as_deref(), after) {
            (None, after) => after.is_none(),
            (Some(_), None) => false,
            (Some(last), Some(after)) => changed(last, after).is_none(),
        }
    }
}

/// All rigs so far.
#[derive(Debug, Default)]
pub(super) struct Threads {
    pub all: Vec<Thread>,
    /// Where each state stands.
    stands: Vec<Stands>,
    /// When each state was made.
    times: Vec<i64>,
    /// The figures that are followed.
    figures: Vec<Figure>,
    /// Whether each change keeps what it did to all measures.
    every_measure: bool,
    /// Which rig turned out to be which other.
    same: HashMap<usize, usize>,
    /// What was noted of the state that is being told: the rig, and the number of its event.
    noted: Vec<(usize, usize)>,
    /// Whether the state that is being told joins others.
    pub merges: bool,
}

impl Threads {
    /// None yet, of a history with these states.
    pub fn of(commits: &[Commit], followed: Followed<'_>) -> Self {
        Self {
            stands: stands(commits),
            times: commits.iter().map(|commit| commit.time).collect(),
            figures: followed.figures.to_vec(),
            every_measure: followed.every_measure,
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
        let told = &mut self.all[thread];
        if let Stands::Beside { joined } = self.stands[commit] {
            let word = LastWord {
                at: (self.times[commit], commit),
                card: (!matches!(what, Happened::Dropped)).then(|| card.clone()),
            };
            if told.open.get(&joined).is_none_or(|last| last.at < word.at) {
                told.open.insert(joined, word);
            }
        }
        self.noted.push((thread, told.events.len()));
        told.events.push(Event {
            commit,
            merge: self.merges,
            what: what.kept(self.every_measure),
            rig: Arc::new(Seen::of(card)),
        });
    }

    /// Settles, for the branches that a state of the line joined, whether their rigs came out of it as they had them.
    pub fn joined(&mut self, commit: usize) {
        if !self.merges || !self.on_line(commit) {
            return;
        }
        let mut last: HashMap<usize, LastWord> = HashMap::new();
        for number in 0..self.all.len() {
            if let Some(word) = self.all[number].open.remove(&commit) {
                let root = self.root(number);
                if last.get(&root).is_none_or(|other| other.at < word.at) {
                    last.insert(root, word);
                }
            }
        }
        for (root, word) in last {
            let thread = &mut self.all[root];
            thread.kept.insert(commit, word.is_kept(thread.now.as_deref()));
        }
    }

    /// Notes how a rig stands in a state, where that is one of the line and the rig is another than before.
    pub fn stand(&mut self, thread: usize, commit: usize, card: Option<&Arc<Card>>) {
        if !self.on_line(commit) {
            return;
        }
        let told = &mut self.all[thread];
        let same = match (told.now.as_ref(), card) {
            (Some(before), Some(card)) => reads_alike(before, card),
            (None, None) => true,
            (Some(_), None) | (None, Some(_)) => false,
        };
        if !same {
            let figures = card.map(|card| self.figures.iter().map(|figure| figure.of(card).cloned()));
            told.stood.push(Stood {
                commit,
                rig: card.map(|card| Arc::new(Seen::of(card))),
                figures: figures.map_or_else(Vec::new, Iterator::collect),
            });
            told.now = card.cloned();
        }
    }

    /// A rig of this name that was dropped last, as far as the line knows of it, or a branch of it.
    pub fn dropped(&self, name: &str, on_line: bool) -> Option<usize> {
        let dropped = |thread: &Thread| {
            let mut events = thread.events.iter().rev();
            // A branch does not know of what the line dropped meanwhile, nor the line of a branch.
            let last = events.find(|event| self.on_line(event.commit) == on_line);
            last.is_some_and(|event| {
                matches!(event.what, Happened::Dropped) && event.rig.called.name.to_lowercase() == name
            })
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
            Some((event.rig.called.name.as_str(), changes.as_slice()))
        }));
        for (thread, event) in now {
            let event = &mut self.all[thread].events[event];
            let base = event.rig.from.clone();
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
                let kept = thread.kept.get(&joined).copied().unwrap_or_default();
                Side { joined, kept, events }
            })
            .collect();
        let side = || sides.last().and_then(|side| side.events.last());
        let last = events.last().or_else(side)?.rig.clone();
        let now = stood.last().and_then(|stood| stood.rig.as_ref());
        Some(RigStory {
            name: now.unwrap_or(&last).called.name.clone(),
            file: alive.unwrap_or(&last.called.file).clone(),
            alive: alive.is_some(),
            events,
            sides,
            stood,
            series: Vec::new(),
        })
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
