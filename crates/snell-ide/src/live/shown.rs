//! What is shown of a text besides its findings, out of as few of its blocks as
//! will do: those near the place that is asked about, or those that changed.

use super::super::hints::{Lens, totals};
use super::super::told::with_rig;
use super::Live;
use super::chunk::{Chunk, ChunkId, back};
use super::look::in_threads;
use rustc_hash::FxHashSet;
use snell_analysis::Notebook;
use snell_rig::project::BlockRef;
use snell_rig::{BlockId, World};
use snell_text::Span;

/// What is to be seen of the blocks on which nothing near the place hangs.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Others {
    /// Nothing.
    Unseen,
    /// Rigs as they are, which costs nothing as long as they are not evaluated; of all else the heads.
    Named,
}

impl Live {
    /// A notebook of the blocks that touch a span and all that those hang on.
    pub fn near(&self, within: Span, others: Others) -> Notebook {
        let near = |chunk: &&Chunk| chunk.span.start <= within.end && within.start <= chunk.span.end;
        let roots = self.chunks.iter().filter(near).map(|chunk| chunk.id).collect();
        let needed = self.weave.needed(&self.chunks, &roots);
        self.notebook_of(|chunk| match others {
            _ if needed.contains(&chunk.id) => chunk.placed(),
            Others::Named if chunk.is_rig() => chunk.placed(),
            Others::Named => chunk.stub(),
            Others::Unseen => None,
        })
    }

    /// The totals of every rig, worked out anew only where something that they hang on changed.
    pub fn lenses(&mut self) -> Vec<Lens> {
        let unknown = |chunk: &&Chunk| chunk.is_rig() && !self.lenses.contains_key(&chunk.id);
        let unknown = self.chunks.iter().filter(unknown).map(|chunk| chunk.id);
        let unknown: FxHashSet<ChunkId> = unknown.collect();
        if !unknown.is_empty() {
            let found = self.lenses_of(&unknown);
            self.lenses.extend(found);
        }
        let mut order: Vec<&Chunk> = self.chunks.iter().collect();
        order.sort_by_key(|chunk| chunk.file);
        let known = order.into_iter().filter_map(|chunk| {
            let lens = self.lenses.get(&chunk.id)?.as_ref()?;
            Some(Lens {
                place: lens.place.shifted(chunk.span.start),
                text: lens.text.clone(),
            })
        });
        known.collect()
    }

    /// The totals of some rigs, each placed from its chunk's start.
    fn lenses_of(&self, rigs: &FxHashSet<ChunkId>) -> Vec<(ChunkId, Option<Lens>)> {
        let needed = self.weave.needed(&self.chunks, rigs);
        let wanted = |chunk: &Chunk| Some(chunk).filter(|chunk| needed.contains(&chunk.id))?.placed();
        let (project, files) = self.project(wanted);
        let (world, _) = World::new(&project);
        let mut blocks: Vec<(BlockRef<'_>, &Chunk)> = Vec::new();
        for (file, indices) in &files {
            for (number, index) in indices.iter().enumerate() {
                let id = BlockId {
                    file: *file,
                    index: number as u32,
                };
                blocks.push((project.block(id), &self.chunks[*index]));
            }
        }
        blocks.retain(|(_, chunk)| rigs.contains(&chunk.id));
        in_threads(&blocks, |(block, chunk)| {
            let lens = with_rig(&world, *block, totals).map(|text| Lens {
                place: back(block.name_place().span, chunk.span.start),
                text,
            });
            Some((chunk.id, lens))
        })
    }
}
