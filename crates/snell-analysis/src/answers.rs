//! Answers about blocks that are kept from one snapshot of the texts to the
//! next, each with all that it was made from.
//!
//! An answer is asked for again by the block's content. It still holds where
//! everything that was looked up to make it has the same answer now. Its places
//! count from the blocks that they lie in, so that it may have moved.

use rustc_hash::FxHashMap;
use snell_finding::Finding;
use snell_rig::project::{BlockRef, FileId};
use snell_rig::{Answer, BlockId, ContentId, Lookup, Project};
use snell_text::{Place, Span, TextId};
use std::any::{Any, TypeId};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Arc, Mutex, PoisonError};

/// So many answers are kept before those that nobody asked for meanwhile are let go: several notebooks' worth.
const GENERATION: usize = 1 << 14;

/// So many answers of one block are kept: of branches of a history that are gone through in turn.
const TURNS: usize = 4;

/// Something that is said of a block, and may be kept.
pub trait Kept: Clone + Send + Sync + 'static {
    /// Looks at every place in it.
    fn each_place(&mut self, look: &mut dyn FnMut(&mut Place));
}

/// The answers that are kept, in two generations.
#[derive(Debug, Default)]
pub(crate) struct Answers {
    kept: Mutex<[FxHashMap<Key, Arc<[Entry]>>; 2]>,
    /// How many answers had to be worked out, and how many values for them.
    worked_out: [AtomicUsize; 2],
}

/// The kind of answer, the file that names are looked up from, what the block says, and the name that lines before any
/// block get of their file.
type Key = (TypeId, FileId, ContentId, Option<String>);

#[derive(Clone, Debug)]
struct Entry {
    by: Arc<[(Lookup, Answer)]>,
    answer: Arc<dyn Any + Send + Sync>,
}

/// Texts with a greater number than this stand for the blocks that an answer speaks of; those that ship are numbered
/// from the top down.
const BLOCKS: u32 = 1 << 30;

impl Answers {
    /// An answer about a block, kept or worked out, and the blocks that it was made from; `work_out` also says what it
    /// looked up.
    pub(crate) fn of<T: Kept>(
        &self,
        project: &Project,
        block: BlockId,
        work_out: impl FnOnce() -> (T, Vec<Lookup>),
    ) -> (T, Vec<BlockId>) {
        let shared = &project.placed(block).block;
        let headless = shared.opens.is_none();
        let name = headless.then(|| project.source(block.file).name.clone());
        let key = (TypeId::of::<T>(), block.file, shared.content, name);
        let known = self.get(&key).unwrap_or_default();
        if let Some(answer) = known.iter().find_map(|entry| entry.now(project, block)) {
            return answer;
        }
        self.worked_out[0].fetch_add(1, Ordering::Relaxed);
        let (answer, by) = work_out();
        let mut blocks = Blocks::of(project, block);
        let by = by.into_iter().map(|lookup| {
            let (answer, found) = project.look_up(&lookup);
            blocks.extend(found);
            (lookup, answer)
        });
        let by = by.collect();
        let mut apart = answer.clone();
        let mut whole = true;
        apart.each_place(&mut |place| match blocks.apart(*place) {
            Some(counted) => *place = counted,
            None => whole = false,
        });
        // What speaks of a place in no block that was looked up cannot be told anew when that place moves.
        if whole {
            let answer = Arc::new(apart);
            let others = known.iter().take(TURNS - 1).cloned();
            self.put(key, std::iter::once(Entry { by, answer }).chain(others).collect());
        }
        (answer, blocks.blocks)
    }

    /// Notes that some values were worked out.
    pub(crate) fn note_worked(&self, values: usize) {
        self.worked_out[1].fetch_add(values, Ordering::Relaxed);
    }

    /// How many answers had to be worked out so far.
    pub(crate) fn worked_out(&self) -> usize {
        self.worked_out[0].load(Ordering::Relaxed)
    }

    /// How many values were worked out for them, and for mends.
    pub(crate) fn values_worked_out(&self) -> usize {
        self.worked_out[1].load(Ordering::Relaxed)
    }

    fn get(&self, key: &Key) -> Option<Arc<[Entry]>> {
        // A thread that panicked leaves maps of whole entries.
        let mut kept = self.kept.lock().unwrap_or_else(PoisonError::into_inner);
        let [fresh, stale] = &mut *kept;
        if let Some(known) = fresh.get(key) {
            return Some(known.clone());
        }
        let (key, known) = stale.remove_entry(key)?;
        fresh.insert(key, known.clone());
        Some(known)
    }

    fn put(&self, key: Key, entries: Arc<[Entry]>) {
        let mut kept = self.kept.lock().unwrap_or_else(PoisonError::into_inner);
        if kept[0].len() >= GENERATION {
            kept[1] = std::mem::take(&mut kept[0]);
        }
        kept[0].insert(key, entries);
    }
}

impl Entry {
    /// The answer with its places as they are now, if it still holds.
    fn now<T: Kept>(&self, project: &Project, block: BlockId) -> Option<(T, Vec<BlockId>)> {
        let mut blocks = Blocks::of(project, block);
        for (lookup, known) in self.by.iter() {
            let (answer, found) = project.look_up(lookup);
            if answer != *known {
                return None;
            }
            blocks.extend(found);
        }
        let mut answer = self.answer.downcast_ref::<T>()?.clone();
        answer.each_place(&mut |place| *place = blocks.placed(*place));
        Some((answer, blocks.blocks))
    }
}

/// The blocks that an answer may speak of, in the order in which they were looked up.
struct Blocks<'p> {
    project: &'p Project,
    blocks: Vec<BlockId>,
}

impl<'p> Blocks<'p> {
    fn of(project: &'p Project, block: BlockId) -> Self {
        Self {
            project,
            blocks: vec![block],
        }
    }

    fn extend(&mut self, found: [Option<BlockId>; 2]) {
        self.blocks.extend(found.into_iter().flatten());
    }

    fn spans(&self) -> impl Iterator<Item = BlockRef<'p>> {
        self.blocks.iter().map(|id| self.project.block(*id))
    }

    /// A place counted from the start of the block that it lies in; places in what ships stay as they are.
    fn apart(&self, place: Place) -> Option<Place> {
        if place.text.0 >= BLOCKS {
            return Some(place);
        }
        let holds = |block: BlockRef<'_>| {
            block.source.file.text == place.text
                && block.start <= place.span.start
                && place.span.end <= block.end()
        };
        let index = self.spans().position(holds)?;
        let start = self.project.placed(self.blocks[index]).start;
        let span = Span::new(place.span.start - start, place.span.end - start);
        Some(Place::new(TextId(BLOCKS + index as u32), span))
    }

    /// The place where it is now.
    fn placed(&self, place: Place) -> Place {
        let index = place.text.0.wrapping_sub(BLOCKS) as usize;
        match self.blocks.get(index) {
            Some(id) => {
                let text = self.project.source(id.file).file.text;
                Place::new(text, place.span.shifted(self.project.placed(*id).start))
            }
            None => place,
        }
    }
}

impl Kept for Vec<Finding> {
    fn each_place(&mut self, look: &mut dyn FnMut(&mut Place)) {
        self.iter_mut().for_each(|finding| finding.each_place(look));
    }
}
