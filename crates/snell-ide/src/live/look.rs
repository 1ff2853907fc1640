//! A look at some blocks, with only what they need around them: the findings of
//! each, kept by block.

use super::super::walk::ASKED;
use super::chunk::{Chunk, ChunkId, back, each_place, text_of};
use rustc_hash::{FxHashMap, FxHashSet};
use snell_analysis::{WORTH_A_THREAD, of_outing, of_rig};
use snell_finding::{Code, Finding};
use snell_rig::faults::Faults;
use snell_rig::project::{BlockRef, FileId};
use snell_rig::{BlockId, Project, World};
use snell_rules::{Books, Found, Rule, Wanted};
use snell_syntax::BlockKind;
use snell_text::Place;
use std::thread;

/// What was found of one block. Places in the text count from the chunk that they lie in.
#[derive(Debug, Default)]
pub struct Seen {
    /// Of its name: that it stands twice, or before a shipped one.
    pub named: Vec<Finding>,
    /// Of its name where it takes the place of a shipped one.
    pub replaces: Vec<Finding>,
    /// Of its lines, where it is no rig.
    pub read: Vec<Finding>,
    /// Of its lines, where it is a rule.
    pub rule: Vec<Finding>,
    /// Of the rig that an outing fished.
    pub outing: Vec<Finding>,
    /// Of the rig, its claims among them.
    pub rig: Vec<Finding>,
    /// By rules.
    pub found: Vec<Found>,
    /// The rigs of this text that the rig is made from.
    pub bases: Vec<ChunkId>,
    /// The chunks that its findings speak of.
    pub touches: Vec<ChunkId>,
    /// Whether other names in sight might change what is said.
    pub heeds_names: bool,
}

/// What is to be looked at, and what is around.
pub struct Look<'a> {
    /// The blocks to look at.
    pub roots: &'a FxHashSet<ChunkId>,
    /// Every chunk of the text.
    pub chunks: &'a [Chunk],
    /// The project with the blocks that are needed.
    pub project: &'a Project,
    /// The files of the text, and for each the chunks of its blocks in order.
    pub files: &'a [(FileId, Vec<usize>)],
    /// Whether nobody wants it any more.
    pub stop: &'a (dyn Fn() -> bool + Sync),
}

/// Looks. What was stopped is left out. Also what the rulebooks of the text lack.
pub fn look(look: &Look<'_>) -> (Vec<(ChunkId, Seen)>, Vec<Finding>) {
    let (world, by_names) = World::new(look.project);
    let faults = Faults::default();
    let books = Books::read(&world, &faults);
    let mut at_name: FxHashMap<Place, Vec<&Finding>> = FxHashMap::default();
    // The faults that a look at all names tells, at the name of a block.
    let of_names = [Code::NameTwice, Code::ShippedReplaced];
    for finding in by_names
        .iter()
        .filter(|finding| finding.code.known().is_some_and(|code| of_names.contains(&code)))
    {
        at_name.entry(finding.place()).or_default().push(finding);
    }
    let blocks = look.files.iter().flat_map(|(file, indices)| {
        let of = move |(index, chunk): (usize, &usize)| {
            let id = BlockId {
                file: *file,
                index: index as u32,
            };
            (id, *chunk)
        };
        indices.iter().enumerate().map(of)
    });
    let blocks: Vec<(BlockId, usize)> = blocks.collect();
    let chunk_by_block: FxHashMap<BlockId, ChunkId> = blocks
        .iter()
        .map(|(id, index)| (*id, look.chunks[*index].id))
        .collect();
    let wanted: Vec<(BlockRef<'_>, &Chunk)> = blocks
        .iter()
        .filter(|(_, index)| look.roots.contains(&look.chunks[*index].id))
        .map(|(id, index)| (world.project.block(*id), &look.chunks[*index]))
        .collect();
    let seen = in_threads(&wanted, |(block, chunk)| {
        if (look.stop)() {
            return None;
        }
        let mut seen = of_block(&books, *block, &chunk_by_block);
        for finding in at_name.get(&block.name_place()).into_iter().flatten() {
            let list = if finding.code == Code::ShippedReplaced {
                &mut seen.replaces
            } else {
                &mut seen.named
            };
            list.push((*finding).clone());
        }
        seen.finish(look.chunks);
        Some((chunk.id, seen))
    });
    let rulebooks = Faults::default();
    books.check_rulebooks(&rulebooks);
    let mut rulebooks = rulebooks.into_inner();
    rulebooks.iter_mut().for_each(|finding| {
        each_place(finding, &mut |place| relate(place, look.chunks));
    });
    (seen, rulebooks)
}

pub fn in_threads<'t, T: Sync, R: Send>(all: &'t [T], one: impl Fn(&'t T) -> Option<R> + Sync) -> Vec<R> {
    let threads = thread::available_parallelism().map_or(1, usize::from);
    if threads == 1 || all.len() < WORTH_A_THREAD {
        return all.iter().filter_map(one).collect();
    }
    thread::scope(|scope| {
        let one = &one;
        let shares = all.chunks(all.len().div_ceil(threads));
        let running: Vec<_> = shares
            .map(|share| scope.spawn(move || share.iter().filter_map(one).collect::<Vec<R>>()))
            .collect();
        let joined = running.into_iter().map(thread::ScopedJoinHandle::join);
        joined
            .flat_map(|done| done.unwrap_or_else(|panic| std::panic::resume_unwind(panic)))
            .collect()
    })
}

fn of_block<'p>(books: &Books<'_, 'p>, block: BlockRef<'p>, chunks: &FxHashMap<BlockId, ChunkId>) -> Seen {
    let world = books.world();
    let kind = block.head().map_or(BlockKind::Rig, |head| head.kind);
    let mut seen = Seen::default();
    if kind != BlockKind::Rig {
        let faults = Faults::default();
        snell_rig::blocks::read(&world.names, block, &faults);
        seen.read = faults.into_inner();
        if kind == BlockKind::Rule {
            let faults = Faults::default();
            Rule::read(world, block, &faults);
            seen.rule = faults.into_inner();
        }
        if kind == BlockKind::Outing {
            seen.outing = of_outing(world, block);
        }
        return seen;
    }
    let of = of_rig(books, block, Wanted::Found);
    seen.rig = of.findings;
    seen.found = of.found;
    let lineage = snell_rig::blocks::lineage(&world.names, block).unwrap_or_default();
    let bases = lineage.iter().filter(|base| base.id != block.id);
    for base in bases {
        match chunks.get(&base.id) {
            Some(id) => seen.bases.push(*id),
            // A rig of a used file shows what it shows, whatever happens in this text.
            None if seen.found.iter().any(|found| found.inherited) => {
                let shown = of_rig(books, *base, Wanted::Bare).found;
                seen.found
                    .retain(|own| !own.inherited || !shown.iter().any(|other| alike(own, other)));
            }
            None => {}
        }
    }
    seen
}

/// Whether two findings are told of the same places by the same rule.
pub fn alike(one: &Found, other: &Found) -> bool {
    one.finding.code == other.finding.code && one.blame == other.blame
}

impl Seen {
    /// Counts every place from its chunk, and notes what else the findings hang on.
    fn finish(&mut self, chunks: &[Chunk]) {
        let lists = [
            &mut self.named,
            &mut self.replaces,
            &mut self.read,
            &mut self.rule,
            &mut self.outing,
            &mut self.rig,
        ];
        let mut touches: FxHashSet<ChunkId> = FxHashSet::default();
        let mut heeds = false;
        let by_rules = self.found.iter_mut().map(|found| &mut found.finding);
        let own = lists.into_iter().flatten().inspect(|_| heeds = true);
        for finding in own.chain(by_rules) {
            each_place(finding, &mut |place| {
                relate(place, chunks);
                touches.extend(super::chunk::chunk_of(place.text));
            });
        }
        for place in self.found.iter_mut().flat_map(|found| &mut found.blame) {
            relate(place, chunks);
        }
        // A fault may offer the nearest of all names in sight.
        self.heeds_names = heeds;
        self.touches = touches.into_iter().collect();
    }
}

/// Makes a place of the text one of the chunk that it lies in.
fn relate(place: &mut Place, chunks: &[Chunk]) {
    if place.text != ASKED {
        return;
    }
    let index = chunks.partition_point(|chunk| chunk.span.start <= place.span.start);
    if let Some(chunk) = index.checked_sub(1).and_then(|index| chunks.get(index)) {
        *place = Place::new(text_of(chunk.id), back(place.span, chunk.span.start));
    }
}
