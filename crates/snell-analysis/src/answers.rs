//! Answers about blocks that are kept from one snapshot of the texts to the
//! next, each with all that it was made from.
//!
//! An answer is asked for again by the block's content. It still holds where
//! everything that was looked up to make it has the same answer now. Its places
//! count from the blocks that they lie in, so that it may have moved.

use rustc_hash::FxHashMap;
use snell_rig::project::FileId;
use snell_rig::{Answer, BlockId, ContentId, Lookup, Project};
use snell_text::{Place, Span, TextId};
use std::any::{Any, TypeId};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Arc, Mutex, PoisonError};

/// So many answers are kept before those that nobody asked for meanwhile are let go, where nobody says otherwise: several
/// notebooks' worth.
const GENERATION: usize = 1 << 14;

/// So many answers of one block are kept: of branches of a history that are gone through in turn.
const TURNS: usize = 4;

/// Something that is said of a block, and may be kept.
pub trait Kept: Clone + Send + Sync + 'static {
    /// Looks at every place in it.
    fn each_place(&mut self, look: &mut dyn FnMut(&mut Place));
}

/// The answers that are kept, in two generations.
#[derive(Debug)]
pub(crate) struct Answers {
    kept: Mutex<[FxHashMap<Key, Arc<[Entry]>>; 2]>,
    /// How many of them make a generation.
    generation: AtomicUsize,
    /// How many answers had to be worked out, and how many values for them.
    worked_out: [AtomicUsize; 2],
}

/// The kind of answer, the file that names are looked up from, what the block says, and the name that lines before any
/// block get of their file.
type Key = (TypeId, FileId, ContentId, Option<String>);

#[derive(Clone, Debug)]
struct Entry {
    by: By,
    /// All but the rigs where it was made, if it was made without a look at another rig.
    surroundings: Option<ContentId>,
    /// The lookups whose blocks its places lie in, each with which of them, behind the block itself.
    speaks_of: Arc<[(usize, usize)]>,
    answer: Arc<dyn Any + Send + Sync>,
}

/// What was looked up to make an answer, and what came of that.
pub(crate) type By = Arc<[(Lookup, Answer)]>;

/// Texts with a greater number than this stand for the blocks that an answer speaks of; those that ship are numbered
/// from the top down.
const BLOCKS: u32 = 1 << 30;

impl Default for Answers {
    fn default() -> Self {
        Self {
            kept: Mutex::default(),
            generation: AtomicUsize::new(GENERATION),
            worked_out: Default::default(),
        }
    }
}

impl Answers {
    /// From now on so many answers make a generation.
    pub(crate) fn keep(&self, generation: usize) {
        self.generation.store(generation, Ordering::Relaxed);
    }

    /// An answer about a block that is kept and still holds, and what it was made from.
    pub(crate) fn kept<T: Kept>(&self, project: &Project, block: BlockId) -> Option<(T, By)> {
        let known = self.get(&key::<T>(project, block))?;
        known.iter().find_map(|entry| entry.now(project, block))
    }

    /// An answer about a block, kept or worked out, and what it was made from; `work_out` also says what it looked up.
    pub(crate) fn of<T: Kept>(
        &self,
        project: &Project,
        block: BlockId,
        work_out: impl FnOnce() -> (T, Vec<Lookup>),
    ) -> (T, By) {
        if let Some(known) = self.kept(project, block) {
            return known;
        }
        self.worked_out[0].fetch_add(1, Ordering::Relaxed);
        let (answer, by) = work_out();
        let mut blocks = vec![(block, None)];
        let by = by.into_iter().enumerate().map(|(index, lookup)| {
            let (answer, found) = project.look_up(&lookup);
            let found = found.into_iter().enumerate();
            blocks.extend(found.filter_map(|(which, id)| Some((id?, Some((index, which))))));
            (lookup, answer)
        });
        let by: By = by.collect();
        let mut apart = Apart {
            project,
            blocks: &blocks,
            speaks_of: Vec::new(),
        };
        let mut counted = answer.clone();
        let mut whole = true;
        counted.each_place(&mut |place| match apart.counted(*place) {
            Some(counted) => *place = counted,
            None => whole = false,
        });
        // What speaks of a place in no block that was looked up cannot be told anew when that place moves.
        if whole {
            let alone = !by.iter().any(|(lookup, _)| lookup.is_of_rigs());
            let entry = Entry {
                by: by.clone(),
                surroundings: alone.then(|| project.surroundings()),
                speaks_of: apart.speaks_of.into(),
                answer: Arc::new(counted),
            };
            self.put(key::<T>(project, block), entry);
        }
        (answer, by)
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

    fn put(&self, key: Key, entry: Entry) {
        let mut kept = self.kept.lock().unwrap_or_else(PoisonError::into_inner);
        let [fresh, stale] = &mut *kept;
        if fresh.len() >= self.generation.load(Ordering::Relaxed) {
            *stale = std::mem::take(fresh);
        }
        let others = fresh.get(&key).into_iter().flat_map(|others| others.iter());
        let entries = std::iter::once(&entry).chain(others).take(TURNS);
        let entries = entries.cloned().collect();
        fresh.insert(key, entries);
    }
}

fn key<T: Kept>(project: &Project, block: BlockId) -> Key {
    let shared = &project.placed(block).block;
    let headless = shared.opens.is_none();
    let name = headless.then(|| project.source(block.file).name.clone());
    (TypeId::of::<T>(), block.file, shared.content, name)
}

impl Entry {
    /// The answer with its places as they are now, if it still holds.
    fn now<T: Kept>(&self, project: &Project, block: BlockId) -> Option<(T, By)> {
        let same_around = self
            .surroundings
            .is_some_and(|known| known == project.surroundings());
        let mut by = self.by.iter();
        if !same_around && by.any(|(lookup, known)| project.look_up(lookup).0 != *known) {
            return None;
        }
        let mut blocks = vec![block];
        for (index, which) in self.speaks_of.iter() {
            blocks.push(project.look_up(&self.by[*index].0).1[*which]?);
        }
        let mut answer = self.answer.downcast_ref::<T>()?.clone();
        answer.each_place(&mut |place| *place = placed(project, &blocks, *place));
        Some((answer, self.by.clone()))
    }
}

/// Takes places apart into the block that each lies in and how far from its start.
struct Apart<'a> {
    project: &'a Project,
    /// The blocks that may be spoken of, each with the lookup that brought it.
    blocks: &'a [(BlockId, Option<(usize, usize)>)],
    speaks_of: Vec<(usize, usize)>,
}

impl Apart<'_> {
    /// A place counted from the start of the block that it lies in; places in what ships stay as they are.
    fn counted(&mut self, place: Place) -> Option<Place> {
        if place.text.0 >= BLOCKS {
            return Some(place);
        }
        let holds = |(id, _): &&(BlockId, Option<(usize, usize)>)| {
            let block = self.project.block(*id);
            block.source.file.text == place.text
                && block.start <= place.span.start
                && place.span.end <= block.end()
        };
        let (id, by) = self.blocks.iter().find(holds)?;
        let number = match by {
            None => 0,
            Some(by) => {
                let known = self.speaks_of.iter().position(|known| known == by);
                1 + known.unwrap_or_else(|| {
                    self.speaks_of.push(*by);
                    self.speaks_of.len() - 1
                })
            }
        };
        let start = self.project.placed(*id).start;
        let span = Span::new(place.span.start - start, place.span.end - start);
        Some(Place::new(TextId(BLOCKS + number as u32), span))
    }
}

/// The place where it is now.
fn placed(project: &Project, blocks: &[BlockId], place: Place) -> Place {
    let number = place.text.0.wrapping_sub(BLOCKS) as usize;
    match blocks.get(number) {
        Some(id) => {
            let text = project.source(id.file).file.text;
            Place::new(text, place.span.shifted(project.placed(*id).start))
        }
        None => place,
    }
}
