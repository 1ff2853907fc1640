//! Goes through a history once, from its beginning, and writes down what
//! happens to each rig.
//!
//! Each state of the line is held against its first parent, so that what is told
//! adds up from the first state to the last; a merge tells what it brought.
//! What happened on a branch is told beside it, once, where it was done. A rig
//! that cannot be read is taken to be as it was, until it can be read again.

use super::file::FileRead;
use super::held::{Files, Held, Met, folded, meet};
use super::line::{Stands, stands};
use crate::stood::Stood;
use crate::story::{Commit, Event, Happened, RigStory, Side};
use snell_view::compare::{Bases, Card, RigChange, changed};
use std::collections::{BTreeMap, HashMap, HashSet};
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

/// What is known of one rig so far.
#[derive(Debug, Default)]
struct Thread {
    /// On the line and on branches, in the order in which it was told.
    events: Vec<Event>,
    /// On the line.
    stood: Vec<Stood>,
}

/// A story while it is being told.
#[derive(Debug, Default)]
pub struct Teller {
    threads: Vec<Thread>,
    /// Where each state stands.
    stands: Vec<Stands>,
    /// A rig that was written down on two branches is one rig.
    same: HashMap<usize, usize>,
    states: HashMap<usize, Files>,
    /// What was noted of the state that is being told: the rig, and the number of its event.
    noted: Vec<(usize, usize)>,
    /// How many states are still to be made from each.
    children: Vec<usize>,
    last: usize,
    /// The rigs that a merge that is being told holds already.
    taken: HashSet<usize>,
    /// Whether the state that is being told joins others.
    merges: bool,
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
            stands: stands(commits),
            ..Self::default()
        }
    }

    /// Whether a state is one of the line.
    pub fn on_line(&self, number: usize) -> bool {
        self.stands[number] == Stands::OnLine
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
        self.merges = commit.parents.len() > 1;
        let met = self.each_once(met, &files);
        for one in met {
            let path = one.path.clone();
            let held = self.met(number, one, &parents);
            files.entry(path).or_default().push(held);
        }
        for (path, held) in gone {
            self.gone(number, path, held, &parents, changed, &mut files);
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
    pub fn finish(mut self, commits: &[Commit]) -> Vec<RigStory> {
        let last = self.states.remove(&self.last).unwrap_or_default();
        let held = last
            .iter()
            .flat_map(|(path, held)| held.iter().map(move |held| (path, held)));
        let alive: HashMap<usize, String> = held
            .map(|(path, held)| (self.root(held.thread), path.display().to_string()))
            .collect();
        for number in self.same.keys().copied().collect::<Vec<_>>() {
            let into = self.root(number);
            let events = std::mem::take(&mut self.threads[number].events);
            self.threads[into].events.extend(events);
        }
        let mut stories = Vec::new();
        for (number, thread) in std::mem::take(&mut self.threads).into_iter().enumerate() {
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
            merge: self.merges,
            what,
            card: card.clone(),
        });
    }

    /// Notes how a rig stands in a state, where that is one of the line and the rig is another than before.
    fn stand(&mut self, thread: usize, commit: usize, card: Option<&Arc<Card>>) {
        if !self.on_line(commit) {
            return;
        }
        let stood = &mut self.threads[thread].stood;
        let before = stood.last().and_then(|stood| stood.card.as_ref());
        let same = match (before, card) {
            (Some(before), Some(card)) => Arc::ptr_eq(before, card) || reads_alike(before, card),
            (None, None) => true,
            _ => false,
        };
        if !same {
            stood.push(Stood {
                commit,
                card: card.cloned(),
            });
        }
    }

    /// A state has a rig once. Where a merge keeps one under the name of each side, that of the other side is a copy.
    fn each_once(&mut self, mut met: Vec<Met>, kept: &Files) -> Vec<Met> {
        self.taken.clear();
        if !self.merges {
            return met;
        }
        let kept = kept.values().flatten().map(|held| self.root(held.thread));
        let own = met.iter().filter(|one| !one.brought);
        let own = own.filter_map(|one| Some(self.root(one.before.as_ref()?.thread)));
        let mut taken: HashSet<usize> = kept.chain(own).collect();
        for one in met.iter_mut().filter(|one| one.brought) {
            let thread = one.before.as_ref().map(|held| self.root(held.thread));
            if thread.is_some_and(|thread| !taken.insert(thread)) {
                one.before = None;
                one.brought = false;
            }
        }
        self.taken = taken;
        met
    }

    /// A rig that is there: new, as it was, or changed.
    fn met(&mut self, number: usize, met: Met, parents: &[Files]) -> Held {
        let card = met.card.clone();
        let held = match met.before.clone() {
            None => self.new_thread(number, met.card),
            Some(before) => self.again(number, met, before, parents),
        };
        let thread = self.root(held.thread);
        self.stand(thread, number, Some(&card));
        held
    }

    /// A rig that a parent has as well.
    fn again(&mut self, number: usize, met: Met, before: Held, parents: &[Files]) -> Held {
        let (thread, others) = self.in_others(parents, self.root(before.thread), &met.card);
        let readable = met.card.sound;
        let held = Held {
            thread,
            // One that never could be read is known as far as it can.
            card: if readable || !before.card.sound {
                met.card.clone()
            } else {
                before.card.clone()
            },
            readable,
        };
        let line = self.on_line(number);
        if line && met.brought {
            let was_there = self.threads[thread].stood.last().is_some();
            let what = if was_there {
                Happened::Returned
            } else {
                Happened::Born
            };
            self.note(thread, number, what, &met.card);
            return held;
        }
        if !readable {
            if before.readable && (line || others.iter().all(|held| held.readable)) {
                self.note(thread, number, Happened::Unreadable, &before.card);
            }
            return held;
        }
        // A branch that joins another tells only what none of them has.
        let known = !line
            && others
                .iter()
                .any(|other| other.readable && what(&other.card, &met.card).is_none());
        match what(&before.card, &met.card) {
            _ if known => {}
            Some(happened) if before.readable || !happened.is_reading_alone() => {
                self.note(thread, number, happened, &met.card);
            }
            None if before.readable => {}
            Some(_) | None => self.note(thread, number, Happened::Mended, &met.card),
        }
        held
    }

    /// The same rig in every parent of a merge. One of the same name that began elsewhere is from now on the same,
    /// unless both have stood on the line. Gives the thread that it goes by.
    fn in_others(&mut self, parents: &[Files], mut thread: usize, card: &Card) -> (usize, Vec<Held>) {
        let mut there = Vec::new();
        if parents.len() < 2 {
            return (thread, there);
        }
        for files in parents {
            let all = || files.values().flatten();
            let own = all().find(|held| self.root(held.thread) == thread);
            let named = || all().find(|held| folded(&held.card) == folded(card));
            let Some(held) = own.or_else(named) else { continue };
            let root = self.root(held.thread);
            if root != thread && !self.taken.contains(&root) {
                if self.threads[root].stood.is_empty() {
                    self.same.insert(root, thread);
                } else if self.threads[thread].stood.is_empty() {
                    self.same.insert(thread, root);
                    thread = root;
                }
            }
            there.push(held.clone());
        }
        (thread, there)
    }

    fn new_thread(&mut self, number: usize, card: Arc<Card>) -> Held {
        let name = folded(&card);
        let line = self.on_line(number);
        let again = self.threads.iter().position(|thread| {
            let mut events = thread.events.iter().rev();
            // A branch does not know of what the line dropped meanwhile, nor the line of a branch.
            let last = events.find(|event| (self.stands[event.commit] == Stands::OnLine) == line);
            last.is_some_and(|event| matches!(event.what, Happened::Dropped) && folded(&event.card) == name)
        });
        let again = again.filter(|thread| self.root(*thread) == *thread);
        let thread = again.unwrap_or(self.threads.len());
        let what = if again.is_some() {
            Happened::Returned
        } else {
            self.threads.push(Thread::default());
            Happened::Born
        };
        self.note(thread, number, what, &card);
        Held {
            thread,
            readable: card.sound,
            card,
        }
    }

    /// A rig that is not there: hidden by what cannot be read, dropped by another parent already, or dropped here.
    fn gone(
        &mut self,
        number: usize,
        path: PathBuf,
        held: Held,
        parents: &[Files],
        changed: &Changed,
        files: &mut Files,
    ) {
        let thread = self.root(held.thread);
        self.stand(thread, number, None);
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
        let there = |files: &Files| {
            files
                .values()
                .flatten()
                .any(|other| self.root(other.thread) == thread)
        };
        if self.on_line(number) || parents.iter().all(there) {
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
