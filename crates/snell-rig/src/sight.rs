//! What a file sees: the names of each kind, and the flies that were timed, each made when it is first asked for.

use crate::content::ContentId;
use crate::ids::{BlockId, FileId};
use rustc_hash::FxHashMap;
use snell_syntax::BlockKind;
use snell_units::{Spellings, in_order};
use std::hash::Hash;
use std::sync::{Arc, Mutex, PoisonError};

/// Every name of a kind that a file sees.
#[derive(Debug)]
pub(crate) struct Sight {
    /// Sorted, each once.
    pub(crate) names: Vec<Arc<str>>,
    /// Tells sets of names apart.
    pub(crate) sum: ContentId,
    /// The same, to find the one that a misspelt word was meant to be.
    pub(crate) spellings: Spellings,
}

impl Sight {
    pub(crate) fn of(names: impl Iterator<Item = Arc<str>>) -> Self {
        let mut names: Vec<Arc<str>> = names.collect();
        in_order(&mut names, Ord::cmp);
        names.dedup();
        Self {
            spellings: names.iter().map(|name| &**name).collect(),
            sum: ContentId::of(&names),
            names,
        }
    }
}

/// The flies that a file sees whose own blocks say how fast they sank.
#[derive(Debug)]
pub(crate) struct TimedFlies {
    /// In the order of their names.
    pub(crate) flies: Vec<BlockId>,
    /// Tells sets of flies apart by what their blocks say.
    pub(crate) sum: ContentId,
}

/// The sights of a project.
#[derive(Debug, Default)]
pub(crate) struct Sights {
    names: Mutex<FxHashMap<(FileId, BlockKind), Arc<Sight>>>,
    timed: Mutex<FxHashMap<FileId, Arc<TimedFlies>>>,
}

impl Clone for Sights {
    /// A project is cloned to be changed, and then its sights are others.
    fn clone(&self) -> Self {
        Self::default()
    }
}

impl Sights {
    pub(crate) fn get(&self, file: FileId, kind: BlockKind, make: impl FnOnce() -> Sight) -> Arc<Sight> {
        once(&self.names, (file, kind), make)
    }

    pub(crate) fn timed(&self, file: FileId, make: impl FnOnce() -> TimedFlies) -> Arc<TimedFlies> {
        once(&self.timed, file, make)
    }
}

fn once<K: Eq + Hash, T>(all: &Mutex<FxHashMap<K, Arc<T>>>, key: K, make: impl FnOnce() -> T) -> Arc<T> {
    // A thread that panicked leaves whole sights behind.
    let mut known = all.lock().unwrap_or_else(PoisonError::into_inner);
    known.entry(key).or_insert_with(|| Arc::new(make())).clone()
}
