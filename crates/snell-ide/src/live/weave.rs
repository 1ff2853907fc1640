//! Which chunk names which: what has to be looked at again when some change,
//! and what a look at one needs to see.
//!
//! Every word of a block that is the name of another counts as a mention of
//! it. That is more than need be, and never less.

use super::chunk::{Chunk, ChunkId};
use rustc_hash::{FxHashMap, FxHashSet};
use snell_syntax::BlockKind;
use std::sync::Arc;

/// Names and mentions by word.
#[derive(Default)]
pub struct Weave {
    mentions: FxHashMap<Arc<str>, FxHashSet<ChunkId>>,
    names: FxHashMap<Arc<str>, Vec<ChunkId>>,
    /// Rules and rulebooks, on which every rig hangs.
    rules: FxHashSet<ChunkId>,
    /// Where each chunk stands.
    at: FxHashMap<ChunkId, usize>,
}

impl Weave {
    /// Takes in a chunk.
    pub fn add(&mut self, chunk: &Chunk) {
        for word in &chunk.words {
            self.mentions.entry(word.clone()).or_default().insert(chunk.id);
        }
        if let Some(opening) = chunk.opening() {
            self.names.entry(opening.name.clone()).or_default().push(chunk.id);
        }
        if chunk.is_rule() {
            self.rules.insert(chunk.id);
        }
    }

    /// Forgets a chunk.
    pub fn remove(&mut self, chunk: &Chunk) {
        for word in &chunk.words {
            if let Some(all) = self.mentions.get_mut(word) {
                all.remove(&chunk.id);
                if all.is_empty() {
                    self.mentions.remove(word);
                }
            }
        }
        if let Some(opening) = chunk.opening()
            && let Some(all) = self.names.get_mut(opening.name)
        {
            all.retain(|id| *id != chunk.id);
            if all.is_empty() {
                self.names.remove(opening.name);
            }
        }
        self.rules.remove(&chunk.id);
        self.at.remove(&chunk.id);
    }

    /// Notes where the chunks from one on stand.
    pub fn place(&mut self, chunks: &[Chunk], first: usize) {
        for (index, chunk) in chunks.iter().enumerate().skip(first) {
            self.at.insert(chunk.id, index);
        }
    }

    /// Where a chunk stands.
    pub fn index(&self, id: ChunkId) -> Option<usize> {
        self.at.get(&id).copied()
    }

    /// What hangs on chunks that are changed: those that name them, near and far, and the rigs that those are
    /// made from, whose mends must not harm them.
    pub fn hanging(&self, chunks: &[Chunk], changed: &[&Chunk]) -> FxHashSet<ChunkId> {
        let mut dirty: FxHashSet<ChunkId> = changed.iter().map(|chunk| chunk.id).collect();
        let mut names: Vec<Arc<str>> = Vec::new();
        let mut bases: Vec<Arc<str>> = Vec::new();
        let named = |chunk: &Chunk, names: &mut Vec<Arc<str>>, bases: &mut Vec<Arc<str>>| {
            if let Some(opening) = chunk.opening() {
                names.push(opening.name.clone());
                bases.extend(opening.base.cloned());
            }
        };
        changed
            .iter()
            .for_each(|chunk| named(chunk, &mut names, &mut bases));
        while let Some(name) = names.pop() {
            for id in self.mentions.get(&name).into_iter().flatten() {
                if let (true, Some(index)) = (dirty.insert(*id), self.index(*id)) {
                    named(&chunks[index], &mut names, &mut bases);
                }
            }
        }
        let mut met: FxHashSet<Arc<str>> = FxHashSet::default();
        while let Some(base) = bases.pop() {
            if !met.insert(base.clone()) {
                continue;
            }
            for id in self.names.get(&base).into_iter().flatten() {
                dirty.insert(*id);
                if let Some(index) = self.index(*id) {
                    bases.extend(chunks[index].opening().and_then(|opening| opening.base.cloned()));
                }
            }
        }
        dirty
    }

    /// What must be seen to look at some chunks: all that they name, near and far, the rigs made from them, and
    /// the rules.
    pub fn needed(&self, chunks: &[Chunk], roots: &FxHashSet<ChunkId>) -> FxHashSet<ChunkId> {
        let mut needed: FxHashSet<ChunkId> = FxHashSet::default();
        let mut open: Vec<ChunkId> = roots.iter().chain(&self.rules).copied().collect();
        let mut derived: Vec<ChunkId> = roots.iter().copied().collect();
        let mut met: FxHashSet<ChunkId> = FxHashSet::default();
        while let Some(id) = derived.pop() {
            let Some(index) = self.index(id).filter(|_| met.insert(id)) else {
                continue;
            };
            let Some(opening) = chunks[index]
                .opening()
                .filter(|opening| opening.kind == BlockKind::Rig)
            else {
                continue;
            };
            for other in self.mentions.get(opening.name).into_iter().flatten() {
                let base = self.index(*other).and_then(|index| chunks[index].opening()?.base);
                if base == Some(opening.name) {
                    derived.push(*other);
                    open.push(*other);
                }
            }
        }
        while let Some(id) = open.pop() {
            let Some(index) = self.index(id).filter(|_| needed.insert(id)) else {
                continue;
            };
            for word in &chunks[index].words {
                let named = self.names.get(word).into_iter().flatten();
                open.extend(named.filter(|id| !needed.contains(id)));
            }
        }
        needed
    }
}
