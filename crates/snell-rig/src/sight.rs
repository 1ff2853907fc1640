//! The names that a file sees, each kind's made when it is first asked for.

use crate::content::ContentId;
use crate::ids::FileId;
use rustc_hash::FxHashMap;
use snell_syntax::BlockKind;
use snell_units::Spellings;
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
        names.sort_unstable();
        names.dedup();
        Self {
            spellings: names.iter().map(|name| &**name).collect(),
            sum: ContentId::of(&names),
            names,
        }
    }
}

/// The sights of a project.
#[derive(Debug, Default)]
pub(crate) struct Sights(Mutex<FxHashMap<(FileId, BlockKind), Arc<Sight>>>);

impl Clone for Sights {
    /// A project is cloned to be changed, and then its sights are others.
    fn clone(&self) -> Self {
        Self::default()
    }
}

impl Sights {
    pub(crate) fn get(&self, file: FileId, kind: BlockKind, make: impl FnOnce() -> Sight) -> Arc<Sight> {
        // A thread that panicked leaves whole sights behind.
        let mut known = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        known
            .entry((file, kind))
            .or_insert_with(|| Arc::new(make()))
            .clone()
    }
}
