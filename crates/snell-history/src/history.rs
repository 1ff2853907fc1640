//! A history, gone through once from its beginning: what each state did to the
//! rigs that it was made from.
//!
//! Each state of the line is held against its first parent, so that what is told
//! adds up from the first state to the last; a merge tells what it brought.
//! What happened on a branch is told beside it, once, where it was done. A rig
//! that cannot be read is taken to be as it was, until it can be read again.

use super::file::FileRead;
use super::held::{Files, Held, Met, folded, meet};
use super::threads::{Thread, Threads};
use crate::story::{Commit, Followed, Happened, RigStory};
use snell_view::compare::{Card, RigChange, changed};
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

/// A history while it is gone through.
#[derive(Debug, Default)]
pub struct History {
    threads: Threads,
    states: HashMap<usize, Files>,
    /// How many states are still to be made from each.
    children: Vec<usize>,
    last: usize,
    /// The rigs that a merge that is being told holds already.
    taken: HashSet<usize>,
}

impl History {
    /// A history of the commits to come; parents stand before what was made from them.
    pub fn of(commits: &[Commit], followed: Followed<'_>) -> Self {
        let mut children = vec![0; commits.len()];
        for parent in commits.iter().flat_map(|commit| &commit.parents) {
            children[*parent] += 1;
        }
        Self {
            children,
            threads: Threads::of(commits, followed),
            ..Self::default()
        }
    }

    /// Whether a state is one of the line.
    pub fn on_line(&self, number: usize) -> bool {
        self.threads.on_line(number)
    }

    /// Goes on to the next state.
    pub fn step(&mut self, number: usize, commit: &Commit, changed: &Changed) {
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
        self.threads.begin(commit.parents.len() > 1);
        let met = self.each_once(met, &files);
        for one in met {
            let path = one.path;
            let held = self.met(number, one, &parents);
            match files.get_mut(path) {
                Some(all) => all.push(held),
                None => _ = files.insert(path.to_owned(), vec![held]),
            }
        }
        for (path, held) in gone {
            self.gone(number, path, held, &parents, changed, &mut files);
        }
        self.threads.follow();
        self.threads.joined(number);
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
        self.threads.into_stories(&last, commits)
    }

    /// A state has a rig once. Where a merge keeps one under the name of each side, that of the other side is a copy.
    fn each_once<'c>(&mut self, mut met: Vec<Met<'c>>, kept: &Files) -> Vec<Met<'c>> {
        self.taken.clear();
        if !self.threads.merges {
            return met;
        }
        let kept = kept.values().flatten().map(|held| self.threads.root(held.thread));
        let own = met.iter().filter(|one| !one.brought);
        let own = own.filter_map(|one| Some(self.threads.root(one.before.as_ref()?.thread)));
        let mut taken: HashSet<usize> = kept.chain(own).collect();
        for one in met.iter_mut().filter(|one| one.brought) {
            let thread = one.before.as_ref().map(|held| self.threads.root(held.thread));
            if thread.is_some_and(|thread| !taken.insert(thread)) {
                one.before = None;
                one.brought = false;
            }
        }
        self.taken = taken;
        met
    }

    /// A rig that is there: new, as it was, or changed.
    fn met(&mut self, number: usize, met: Met<'_>, parents: &[Files]) -> Held {
        let card = met.card.clone();
        let held = match met.before.clone() {
            None => self.new_thread(number, met.card),
            Some(before) => self.again(number, met, before, parents),
        };
        let thread = self.threads.root(held.thread);
        self.threads.stand(thread, number, Some(&card));
        held
    }

    /// A rig that a parent has as well.
    fn again(&mut self, number: usize, met: Met<'_>, before: Held, parents: &[Files]) -> Held {
        let (thread, others) = self.in_others(parents, self.threads.root(before.thread), &met.card);
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
            let was_there = self.threads.all[thread].stood.last().is_some();
            let what = if was_there {
                Happened::Returned
            } else {
                Happened::Born
            };
            self.threads.note(thread, number, what, &met.card);
            return held;
        }
        if !readable {
            if before.readable && (line || others.iter().all(|held| held.readable)) {
                self.threads
                    .note(thread, number, Happened::Unreadable, &before.card);
            }
            return held;
        }
        // A branch that joins another tells only what none of them has.
        let known = !line
            && others
                .iter()
                .any(|other| other.readable && what(&other.card, &met.card).is_none());
        if !known {
            match what(&before.card, &met.card) {
                Some(happened) if before.readable || !happened.is_reading_alone() => {
                    self.threads.note(thread, number, happened, &met.card);
                }
                None if before.readable => {}
                Some(_) | None => self.threads.note(thread, number, Happened::Mended, &met.card),
            }
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
            let own = all().find(|held| self.threads.root(held.thread) == thread);
            let named = || all().find(|held| folded(&held.card) == folded(card));
            let Some(held) = own.or_else(named) else { continue };
            let root = self.threads.root(held.thread);
            if root != thread && !self.taken.contains(&root) {
                if self.threads.all[root].stood.is_empty() {
                    self.threads.unite(root, thread);
                } else if self.threads.all[thread].stood.is_empty() {
                    self.threads.unite(thread, root);
                    thread = root;
                }
            }
            there.push(held.clone());
        }
        (thread, there)
    }

    fn new_thread(&mut self, number: usize, card: Arc<Card>) -> Held {
        let name = folded(&card);
        let again = self.threads.dropped(&name, self.on_line(number));
        let (thread, what) = match again {
            Some(thread) => (thread, Happened::Returned),
            None => {
                self.threads.all.push(Thread::default());
                (self.threads.all.len() - 1, Happened::Born)
            }
        };
        self.threads.note(thread, number, what, &card);
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
        let thread = self.threads.root(held.thread);
        self.threads.stand(thread, number, None);
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
                self.threads
                    .note(thread, number, Happened::Unreadable, &held.card);
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
                .any(|other| self.threads.root(other.thread) == thread)
        };
        if self.on_line(number) || parents.iter().all(there) {
            self.threads.note(thread, number, Happened::Dropped, &held.card);
        }
    }
}

/// What happened between two states of a rig; nothing where it is the same.
fn what(was: &Card, now: &Card) -> Option<Happened> {
    let pieces = &now.pieces;
    match changed(was, now)? {
        RigChange::Changed {
            was,
            now,
            changes,
            measures,
            another,
            ..
        } => Some(Happened::Changed {
            renamed: (was.name != now.name).then_some(was.name),
            changes,
            measures,
            another: another.map(|_| pieces.clone()),
            follows: None,
        }),
        RigChange::Added { .. } | RigChange::Dropped { .. } => None,
    }
}
