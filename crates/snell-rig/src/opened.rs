//! The blocks that a file defines, by name.

use crate::content::Placed;
use rustc_hash::FxHashMap;
use snell_syntax::BlockKind;
use std::sync::Arc;

/// The blocks that a file defines, by kind and name.
#[derive(Debug, Default)]
pub(crate) struct Opened {
    by_kind: [FxHashMap<Arc<str>, u32>; BlockKind::ALL.len()],
    /// Blocks whose name another one before them has, each with that one.
    twice: Vec<(u32, u32)>,
}

impl Opened {
    /// Of some blocks; of two with one name the first stands.
    pub(crate) fn of(blocks: &[Placed]) -> Self {
        let mut opened = Self::default();
        for (index, placed) in blocks.iter().enumerate() {
            let Some((kind, name)) = &placed.block.opens else {
                continue;
            };
            let names = &mut opened.by_kind[space(*kind) as usize];
            match names.get(name) {
                Some(first) => opened.twice.push((index as u32, *first)),
                None => _ = names.insert(name.clone(), index as u32),
            }
        }
        opened
    }

    pub(crate) fn get(&self, kind: BlockKind, name: &str) -> Option<u32> {
        self.by_kind[space(kind) as usize].get(name).copied()
    }

    /// The names of a kind.
    pub(crate) fn names(&self, kind: BlockKind) -> impl Iterator<Item = &Arc<str>> {
        self.by_kind[space(kind) as usize].keys()
    }

    /// The block before this one that has its name.
    pub(crate) fn first(&self, index: u32) -> Option<u32> {
        let at = self
            .twice
            .binary_search_by_key(&index, |(second, _)| *second)
            .ok()?;
        Some(self.twice[at].1)
    }
}

/// Rules and rulebooks share one name space.
pub(crate) fn space(kind: BlockKind) -> BlockKind {
    match kind {
        BlockKind::Rulebook => BlockKind::Rule,
        other => other,
    }
}
