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
    /// As it could be read last.
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
        }));
    }
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
            gone.retain(|(_, other)| other.thread != held.thread);
            one.before = Some(held.clone());
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
