//! The rigs of one state of a history, each with the thread that it belongs to.

use super::file::FileRead;
use snell_view::compare::{Card, alike};
use std::collections::BTreeMap;
use std::path::PathBuf;
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
pub(super) struct Met {
    pub path: PathBuf,
    pub card: Arc<Card>,
    pub before: Option<Held>,
    /// Whether the first parent lacks it, and a merge brings it from another one.
    pub brought: bool,
}

/// Finds for each rig of the changed files what it was before; gives as well what is found nowhere any more.
pub(super) fn meet(
    base: &Files,
    others: &[&Files],
    changed: &BTreeMap<PathBuf, Option<Arc<FileRead>>>,
    renames: &[(PathBuf, PathBuf)],
) -> (Vec<Met>, Vec<(PathBuf, Held)>) {
    let mut gone: Vec<(PathBuf, Held)> = Vec::new();
    for path in changed.keys() {
        let held = base.get(path).into_iter().flatten();
        gone.extend(held.map(|held| (path.clone(), held.clone())));
    }
    let mut met: Vec<Met> = Vec::new();
    for (path, read) in changed {
        let cards = read.iter().flat_map(|read| &read.cards);
        met.extend(cards.map(|card| Met {
            path: path.clone(),
            card: card.clone(),
            before: None,
            brought: false,
        }));
    }
    swapped(&mut met, &mut gone);
    let came_from = |path: &PathBuf| {
        renames
            .iter()
            .find(|(_, new)| new == path)
            .map(|(old, _)| old.clone())
    };
    take(&mut met, &mut gone, |met, path, held| {
        met.path == *path && folded(&met.card) == folded(&held.card)
    });
    take(&mut met, &mut gone, |met, path, held| {
        came_from(&met.path).as_ref() == Some(path) && folded(&met.card) == folded(&held.card)
    });
    take(&mut met, &mut gone, |met, _, held| {
        folded(&met.card) == folded(&held.card)
    });
    from_others(&mut met, &mut gone, others);
    by_likeness(&mut met, &mut gone);
    (met, gone)
}

fn take(met: &mut [Met], gone: &mut Vec<(PathBuf, Held)>, same: impl Fn(&Met, &PathBuf, &Held) -> bool) {
    for one in met.iter_mut().filter(|one| one.before.is_none()) {
        if let Some(at) = gone.iter().position(|(path, held)| same(one, path, held)) {
            one.before = Some(gone.remove(at).1);
        }
    }
}

/// Rigs of one file that took each other's names: both names are still there, and each has just the parts that the
/// other had.
fn swapped(met: &mut [Met], gone: &mut Vec<(PathBuf, Held)>) {
    let is = |one: &Met, path: &PathBuf, held: &Held| one.path == *path && same_parts(&one.card, &held.card);
    let named =
        |one: &Met, path: &PathBuf, held: &Held| one.path == *path && folded(&one.card) == folded(&held.card);
    let mut found: Vec<(usize, usize)> = Vec::new();
    for (to, one) in met.iter().enumerate() {
        let own = gone.iter().find(|(path, held)| named(one, path, held));
        if own.is_none_or(|(path, held)| is(one, path, held)) {
            continue;
        }
        let mut others = gone.iter().enumerate().filter(|(_, (path, held))| {
            let other = met.iter().find(|other| named(other, path, held));
            is(one, path, held) && other.is_some_and(|other| !is(other, path, held))
        });
        if let (Some((at, _)), None) = (others.next(), others.next()) {
            found.push((at, to));
        }
    }
    found.sort_unstable_by(|one, other| other.cmp(one));
    found.dedup_by_key(|(at, _)| *at);
    for (at, to) in found {
        met[to].before = Some(gone.remove(at).1);
    }
}

fn same_parts(one: &Card, other: &Card) -> bool {
    one.sound && other.sound && !one.pieces.is_empty() && one.pieces == other.pieces
}

/// A merge brings rigs that its other parents have.
fn from_others(met: &mut [Met], gone: &mut Vec<(PathBuf, Held)>, others: &[&Files]) {
    for one in met.iter_mut().filter(|one| one.before.is_none()) {
        let name = folded(&one.card);
        let mut there = others.iter().filter_map(|files| {
            let near = files.get(&one.path).into_iter().flatten();
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

fn by_likeness(met: &mut [Met], gone: &mut Vec<(PathBuf, Held)>) {
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
