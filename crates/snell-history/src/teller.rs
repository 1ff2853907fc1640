//! Goes through a history once, from its beginning, and writes down what
//! happens to each rig.
//!
//! Each state is held against the states that it was made from. A merge tells
//! only what none of its parents has, so that what was done on a branch is told
//! once, where it was done. A rig that cannot be read is taken to be as it was,
//! until it can be read again.

use super::file::FileRead;
use super::held::{Files, Held, Met, folded, meet};
use crate::story::{Commit, Event, Happened, RigStory};
use snell_view::compare::{Bases, Card, RigChange, changed};
use std::collections::{BTreeMap, HashMap};
use std::path::PathBuf;
use std::sync::Arc;

/// What a state changed, beside the first state that it was made from.
#[derive(Debug, Default)]
pub struct Changed {
    /// Files that read differently, as they read now; nothing where they are gone.
    pub files: BTreeMap<PathBuf, Option<Arc<FileRead>>>,
    /// Files that were renamed: the old path and the new.
    pub renames: Vec<(PathBuf, PathBuf)>,
}

/// A story while it is being told.
#[derive(Debug, Default)]
pub struct Teller {
    threads: Vec<RigStory>,
    /// A rig that was written down on two branches is one rig.
    same: HashMap<usize, usize>,
    states: HashMap<usize, Files>,
    /// What was noted of the state that is being told: the rig, and the number of its event.
    noted: Vec<(usize, usize)>,
    /// How many states are still to be made from each.
    children: Vec<usize>,
    last: usize,
}

impl Teller {
    /// A story of the commits to come; parents stand before what was made from them.
    pub fn of(commits: &[Commit]) -> Self {
        let mut children = vec![0; commits.len()];
        for parent in commits.iter().flat_map(|commit| &commit.parents) {
            children[*parent] += 1;
        }
        Self {
            children,
            ..Self::default()
        }
    }

    /// Tells the next state.
    pub fn tell(&mut self, number: usize, commit: &Commit, changed: &Changed) {
        // Only a merge asks for what all its parents hold.
        let parents: Vec<Files> = match commit.parents.as_slice() {
            [] | [_] => Vec::new(),
            several => several
                .iter()
                .map(|parent| self.states.get(parent).cloned().unwrap_or_default())
                .collect(),
        };
        let mut files = self.first_parent(commit);
        let others: Vec<&Files> = parents.iter().skip(1).collect();
        let (met, gone) = meet(&files, &others, &changed.files, &changed.renames);
        for path in changed.files.keys() {
            files.remove(path);
        }
        self.noted.clear();
        for one in met {
            let path = one.path.clone();
            if let Some(held) = self.met(number, one, &parents) {
                files.entry(path).or_default().push(held);
            }
        }
        for (path, held) in gone {
            self.gone(number, path, held, &others, changed, &mut files);
        }
        self.follow();
        for parent in &commit.parents {
            self.children[*parent] -= 1;
            if self.children[*parent] == 0 {
                self.states.remove(parent);
            }
        }
        self.last = number;
        self.states.insert(number, files);
    }

    /// The state that a commit began from: moved where no other commit is to be made from it, so that a long
    /// history is not copied at each of its steps.
    fn first_parent(&mut self, commit: &Commit) -> Files {
        let Some(parent) = commit.parents.first() else {
            return Files::default();
        };
        let files = if self.children[*parent] == 1 {
            self.states.remove(parent)
        } else {
            self.states.get(parent).cloned()
        };
        files.unwrap_or_default()
    }

    /// The story of every rig, in the order in which they were born.
    pub fn finish(mut self) -> Vec<RigStory> {
        let last = self.states.remove(&self.last).unwrap_or_default();
        let held = last
            .iter()
            .flat_map(|(path, held)| held.iter().map(move |held| (path, held)));
        let alive: HashMap<usize, String> = held
            .map(|(path, held)| (self.root(held.thread), path.display().to_string()))
            .collect();
        for (number, into) in self.same.clone() {
            let into = self.root(into);
            let events = std::mem::take(&mut self.threads[number].events);
            let later = events
                .into_iter()
                .filter(|event| !matches!(event.what, Happened::Born));
            self.threads[into].events.extend(later);
            self.threads[into].events.sort_by_key(|event| event.commit);
        }
        let mut stories = Vec::new();
        for (number, mut thread) in self.threads.into_iter().enumerate() {
            let Some(last) = thread.events.last() else {
                continue;
            };
            thread.name = last.card.shown.name.clone();
            thread.alive = alive.contains_key(&number);
            thread.file = alive.get(&number).unwrap_or(&last.card.shown.file).clone();
            stories.push(thread);
        }
        stories
    }

    fn root(&self, mut thread: usize) -> usize {
        while let Some(into) = self.same.get(&thread) {
            thread = *into;
        }
        thread
    }

    fn note(&mut self, thread: usize, commit: usize, what: Happened, card: &Arc<Card>) {
        let events = &mut self.threads[thread].events;
        self.noted.push((thread, events.len()));
        events.push(Event {
            commit,
            what,
            card: card.clone(),
        });
    }

    /// A rig that is there: new, as it was, or changed. What cannot be read is no new rig until it can.
    fn met(&mut self, number: usize, met: Met, parents: &[Files]) -> Option<Held> {
        let Some(before) = met.before else {
            return met.card.sound.then(|| self.new_thread(number, met.card));
        };
        let thread = self.root(before.thread);
        let others = self.in_others(parents, thread, &met.card);
        if !met.card.sound {
            if before.readable && others.iter().all(|held| held.readable) {
                self.note(thread, number, Happened::Unreadable, &before.card);
            }
            return Some(Held {
                thread,
                card: before.card,
                readable: false,
            });
        }
        let held = Held {
            thread,
            card: met.card.clone(),
            readable: true,
        };
        let known = others
            .iter()
            .any(|other| other.readable && what(&other.card, &met.card).is_none());
        if known {
            return Some(held);
        }
        match what(&before.card, &met.card) {
            Some(happened) => self.note(thread, number, happened, &met.card),
            None if !before.readable => self.note(thread, number, Happened::Mended, &met.card),
            None => {}
        }
        Some(held)
    }

    /// The same rig in every parent of a merge. One of the same name that began elsewhere is from now on the same.
    fn in_others(&mut self, parents: &[Files], thread: usize, card: &Card) -> Vec<Held> {
        if parents.len() < 2 {
            return Vec::new();
        }
        let mut there = Vec::new();
        for files in parents {
            let own = files
                .values()
                .flatten()
                .find(|held| self.root(held.thread) == thread)
                .cloned();
            let named = || {
                files
                    .values()
                    .flatten()
                    .find(|held| folded(&held.card) == folded(card))
                    .cloned()
            };
            let Some(held) = own.or_else(named) else { continue };
            let root = self.root(held.thread);
            if root != thread {
                self.same.insert(root, thread);
            }
            there.push(held);
        }
        there
    }

    fn new_thread(&mut self, number: usize, card: Arc<Card>) -> Held {
        let name = folded(&card);
        let again = self.threads.iter().position(|thread| {
            let last = thread.events.last();
            last.is_some_and(|event| matches!(event.what, Happened::Dropped) && folded(&event.card) == name)
        });
        let thread = again.unwrap_or(self.threads.len());
        let what = if again.is_some() {
            Happened::Returned
        } else {
            self.threads.push(RigStory {
                name: card.shown.name.clone(),
                file: String::new(),
                alive: true,
                events: Vec::new(),
            });
            Happened::Born
        };
        self.note(thread, number, what, &card);
        Held {
            thread,
            card,
            readable: true,
        }
    }

    /// A rig that is not there: hidden by what cannot be read, dropped by another parent already, or dropped here.
    fn gone(
        &mut self,
        number: usize,
        path: PathBuf,
        held: Held,
        others: &[&Files],
        changed: &Changed,
        files: &mut Files,
    ) {
        let thread = self.root(held.thread);
        let renamed = changed
            .renames
            .iter()
            .find(|(old, _)| *old == path)
            .map(|(_, new)| new);
        let now = changed
            .files
            .get(renamed.unwrap_or(&path))
            .and_then(Option::as_ref);
        if now.is_some_and(|read| !read.sound) {
            if held.readable {
                self.note(thread, number, Happened::Unreadable, &held.card);
            }
            let hidden = Held {
                readable: false,
                ..held
            };
            files
                .entry(renamed.unwrap_or(&path).clone())
                .or_default()
                .push(hidden);
            return;
        }
        let dropped_before = self.threads[thread]
            .events
            .iter()
            .any(|event| matches!(event.what, Happened::Dropped));
        let there = |files: &&Files| {
            files
                .values()
                .flatten()
                .any(|other| self.root(other.thread) == thread)
        };
        if others.is_empty() || others.iter().all(there) || !dropped_before {
            self.note(thread, number, Happened::Dropped, &held.card);
        }
    }

    /// Marks what happened to a rig only because it happened to the one that it is made from.
    fn follow(&mut self) {
        let now = std::mem::take(&mut self.noted);
        let bases = Bases::of(now.iter().filter_map(|(thread, event)| {
            let event = &self.threads[*thread].events[*event];
            let Happened::Changed { changes, .. } = &event.what else {
                return None;
            };
            Some((event.card.shown.name.as_str(), changes.as_slice()))
        }));
        for (thread, event) in now {
            let event = &mut self.threads[thread].events[event];
            let base = event.card.shown.from.clone();
            if let Happened::Changed { changes, follows, .. } = &mut event.what {
                *follows = base.filter(|base| bases.lead(base, changes));
            }
        }
    }
}

/// What happened between two states of a rig; nothing where it is the same.
fn what(was: &Card, now: &Card) -> Option<Happened> {
    match changed(was, now)? {
        RigChange::Changed {
            was,
            now,
            changes,
            measures,
            ..
        } => Some(Happened::Changed {
            renamed: (was.name != now.name).then_some(was.name),
            changes,
            measures,
            follows: None,
        }),
        RigChange::Added { .. } | RigChange::Dropped { .. } => None,
    }
}
