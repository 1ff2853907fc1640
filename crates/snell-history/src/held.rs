//! The rigs of one state of a history, each with the thread that it belongs to.

use super::file::FileRead;
use snell_view::compare::{Card, alike};
use std::collections::{BTreeMap, HashMap, VecDeque};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// A rig of a state.
#[derive(Clone, Debug)]
pub(super) struct Held {
    /// Which rig of the story it is.
    pub thread: usize,
    /// As it could be read last; where it never could, as far as it can.
    pub card: Arc<Card>,
    /// Whether it can be read now.
    pub readable: bool,
}

/// The rigs of a state by file.
pub(super) type Files = BTreeMap<PathBuf, Vec<Held>>;

pub(super) fn folded(card: &Card) -> String {
    card.shown.name.to_lowercase()
}

/// A rig of a changed file, and what it was before.
#[derive(Debug)]
pub(super) struct Met<'c> {
    pub path: &'c Path,
    pub card: Arc<Card>,
    pub before: Option<Held>,
    /// Whether the first parent lacks it, and a merge brings it from another one.
    pub brought: bool,
}

/// Finds for each rig of the changed files what it was before; gives as well what is found nowhere any more.
pub(super) fn meet<'c>(
    base: &Files,
    others: &[&Files],
    changed: &'c BTreeMap<PathBuf, Option<Arc<FileRead>>>,
    renames: &[(PathBuf, PathBuf)],
) -> (Vec<Met<'c>>, Vec<(PathBuf, Held)>) {
    let mut gone = Gone::default();
    let mut met: Vec<Met<'_>> = Vec::new();
    for (path, read) in changed {
        let held = base.get(path).map_or(&[][..], Vec::as_slice);
        let cards = read.as_ref().map_or(&[][..], |read| read.cards.as_slice());
        let stayed = stayed(held, cards);
        gone.add(path, stayed.changed(held));
        met.extend(cards.iter().enumerate().map(|(at, card)| Met {
            path,
            card: card.clone(),
            before: stayed.before(held, at, cards.len()).cloned(),
            brought: false,
        }));
    }
    called_by_others(&mut met, &mut gone, others);
    swapped(&mut met, &mut gone);
    for one in met.iter_mut().filter(|one| one.before.is_none()) {
        one.before = gone.named(one.path, &one.card).and_then(|at| gone.take(at));
    }
    let mut gone = gone.rest();
    let came_from = |path: &Path| {
        renames
            .iter()
            .find(|(_, new)| new == path)
            .map(|(old, _)| old.clone())
    };
    take(&mut met, &mut gone, |met, path, held| {
        came_from(met.path).as_ref() == Some(path) && folded(&met.card) == folded(&held.card)
    });
    take(&mut met, &mut gone, |met, _, held| {
        folded(&met.card) == folded(&held.card)
    });
    from_others(&mut met, &mut gone, others);
    by_likeness(&mut met, &mut gone);
    (met, gone)
}

fn take(
    met: &mut [Met<'_>],
    gone: &mut Vec<(PathBuf, Held)>,
    same: impl Fn(&Met<'_>, &PathBuf, &Held) -> bool,
) {
    for one in met.iter_mut().filter(|one| one.before.is_none()) {
        if let Some(at) = gone.iter().position(|(path, held)| same(one, path, held)) {
            one.before = Some(gone.remove(at).1);
        }
    }
}

/// The rigs of the files that changed, as they stood before, until each is found again.
#[derive(Default)]
struct Gone {
    all: Vec<Option<(PathBuf, Held)>>,
    /// Their numbers by file and name: a notebook of a thousand rigs changes in one of them.
    by_name: HashMap<(PathBuf, String), VecDeque<usize>>,
}

/// How many rigs of a file, from its first and from its last, are the very same readings as before: what a step of a
/// history changes stands at one place as a rule.
struct Stayed {
    front: usize,
    back: usize,
}

fn stayed(held: &[Held], cards: &[Arc<Card>]) -> Stayed {
    let same = |(held, card): &(&Held, &Arc<Card>)| held.card.is_of_one_reading(card);
    let front = held.iter().zip(cards).take_while(same).count();
    let rest = held[front..].iter().rev().zip(cards[front..].iter().rev());
    Stayed {
        front,
        back: rest.take_while(same).count(),
    }
}

impl Stayed {
    fn changed<'h>(&self, held: &'h [Held]) -> &'h [Held] {
        &held[self.front..held.len() - self.back]
    }

    /// What the card of a number, of so many, was before.
    fn before<'h>(&self, held: &'h [Held], at: usize, cards: usize) -> Option<&'h Held> {
        let behind = cards - at;
        if at < self.front {
            Some(&held[at])
        } else if behind <= self.back {
            Some(&held[held.len() - behind])
        } else {
            None
        }
    }
}

impl Gone {
    fn add(&mut self, path: &Path, held: &[Held]) {
        for held in held {
            let key = (path.to_owned(), folded(&held.card));
            self.by_name.entry(key).or_default().push_back(self.all.len());
            self.all.push(Some((path.to_owned(), held.clone())));
        }
    }

    /// The first of a card's name in a file.
    fn named(&self, path: &Path, card: &Card) -> Option<usize> {
        self.by_name
            .get(&(path.to_owned(), folded(card)))?
            .front()
            .copied()
    }

    fn take(&mut self, at: usize) -> Option<Held> {
        let (path, held) = self.all[at].take()?;
        if let Some(named) = self.by_name.get_mut(&(path, folded(&held.card))) {
            named.retain(|other| *other != at);
        }
        Some(held)
    }

    fn rest(self) -> Vec<(PathBuf, Held)> {
        self.all.into_iter().flatten().collect()
    }
}

/// A merge takes a rig just as another parent has it, which goes by another name in the first one: its name comes from
/// there as well, also where a third rig had it.
fn called_by_others(met: &mut [Met<'_>], gone: &mut Gone, others: &[&Files]) {
    for one in met.iter_mut().filter(|one| one.before.is_none()) {
        let name = folded(&one.card);
        let theirs = others.iter().find_map(|files| {
            let mut held = files.get(one.path)?.iter();
            held.find(|held| folded(&held.card) == name && same_parts(&one.card, &held.card))
        });
        one.before = theirs.and_then(|theirs| {
            let at = gone.all.iter().position(|there| {
                let held = there.as_ref().map(|(_, held)| held);
                held.is_some_and(|held| held.thread == theirs.thread && folded(&held.card) != name)
            });
            gone.take(at?)
        });
    }
}

/// Rigs of one file that took each other's names: both names are still there, and each has just the parts that the
/// other had.
fn swapped(met: &mut [Met<'_>], gone: &mut Gone) {
    let mut found: Vec<(usize, usize)> = Vec::new();
    let changed = met.iter().filter(|one| one.before.is_none());
    let now: HashMap<(&Path, String), &Met<'_>> = changed
        .clone()
        .rev()
        .map(|one| ((one.path, folded(&one.card)), one))
        .collect();
    let held = |at: usize| gone.all[at].as_ref().map(|(_, held)| held);
    for (to, one) in met.iter().enumerate().filter(|(_, one)| one.before.is_none()) {
        let own = gone.named(one.path, &one.card).and_then(held);
        if own.is_none_or(|held| same_parts(&one.card, &held.card)) {
            continue;
        }
        let mut others = gone.all.iter().enumerate().filter(|(_, there)| {
            let Some((path, held)) = there else { return false };
            let is = |one: &Met<'_>| one.path == path && same_parts(&one.card, &held.card);
            let other = now.get(&(path.as_path(), folded(&held.card)));
            is(one) && other.is_some_and(|other| !is(other))
        });
        if let (Some((at, _)), None) = (others.next(), others.next()) {
            found.push((at, to));
        }
    }
    found.sort_unstable_by(|one, other| other.cmp(one));
    found.dedup_by_key(|(at, _)| *at);
    for (at, to) in found {
        met[to].before = gone.take(at);
    }
}

fn same_parts(one: &Card, other: &Card) -> bool {
    one.sound
        && other.sound
        && !one.pieces.is_empty()
        && (one.is_of_one_reading(other) || one.pieces == other.pieces)
}

/// A merge brings rigs that its other parents have.
fn from_others(met: &mut [Met<'_>], gone: &mut Vec<(PathBuf, Held)>, others: &[&Files]) {
    for one in met.iter_mut().filter(|one| one.before.is_none()) {
        let name = folded(&one.card);
        let mut there = others.iter().filter_map(|files| {
            let near = files.get(one.path).into_iter().flatten();
            near.chain(files.values().flatten())
                .find(|held| folded(&held.card) == name)
        });
        if let Some(held) = there.next() {
            // It may be the same rig as one that goes by another name in the first parent.
            let here = gone.iter().position(|(_, other)| other.thread == held.thread);
            one.brought = here.is_none();
            one.before = Some(here.map_or_else(|| held.clone(), |at| gone.remove(at).1));
        }
    }
}

fn by_likeness(met: &mut [Met<'_>], gone: &mut Vec<(PathBuf, Held)>) {
    let new: Vec<usize> = (0..met.len()).filter(|at| met[*at].before.is_none()).collect();
    let (was, now): (Vec<&Card>, Vec<&Card>) = (
        gone.iter().map(|(_, held)| &*held.card).collect(),
        new.iter().map(|at| &*met[*at].card).collect(),
    );
    let mut alike = alike(&was, &now);
    // From the last, so that the numbers of those before it stay.
    alike.sort_by(|one, other| other.cmp(one));
    for (at, to) in alike {
        met[new[to]].before = Some(gone.remove(at).1);
    }
}
