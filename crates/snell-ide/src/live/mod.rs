//! A text that is being typed in: after each change only the blocks that hang
//! on it are looked at again.
//!
//! What it says is what a check of the whole text says; a test types at random
//! and compares. Where a text is too odd to be followed, the whole is checked.

mod chunk;
mod differ;
mod follow;
mod gather;
mod look;
mod shown;
mod weave;

use super::hints::Lens;
use super::walk::ASKED;
use chunk::{Chunk, ChunkId, MOST_CHUNKS, cut};
use look::{Look, Seen, look};
use rustc_hash::{FxHashMap, FxHashSet};
use snell_analysis::Notebook;
use snell_analysis::{Document, Kind};
use snell_finding::Finding;
use snell_rig::Project;
use snell_rig::project::{FileId, Source};
use snell_syntax::{Block, File, Reader};
use snell_text::Place;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use weave::Weave;

pub use shown::Others;

/// A text with more blocks is no notebook, and is not followed.
const MOST_BLOCKS: usize = 10_000;

/// The longest block that is followed, in lines.
const MOST_LINES: usize = 1_000;

/// A text that is followed.
pub struct Live {
    path: PathBuf,
    real: Option<PathBuf>,
    kind: Kind,
    text: Arc<str>,
    chunks: Vec<Chunk>,
    /// The files in the text.
    files: Vec<Own>,
    /// The files that are used, by anyone, in their order.
    used: Vec<Arc<Source>>,
    /// The texts of the used files.
    documents: Vec<Document>,
    missed: Vec<PathBuf>,
    /// Findings of `use` lines.
    of_uses: Vec<Finding>,
    reader: Reader,
    next: ChunkId,
    weave: Weave,
    seen: FxHashMap<ChunkId, Seen>,
    /// The totals of rigs, as far as they are known, each placed from its chunk's start.
    lenses: FxHashMap<ChunkId, Option<Lens>>,
    rulebooks: Vec<Finding>,
    /// What has still to be looked at.
    dirty: FxHashSet<ChunkId>,
    /// Whether a rule changed, so that the rulebooks are to be looked at.
    rules_changed: bool,
}

/// A file in the text, without what stands in it.
struct Own {
    name: String,
    /// The files that it uses, each with the number of its `use` line.
    uses: Vec<(FileId, usize)>,
}

/// Whether nobody wants the work any more.
pub type Stop<'s> = &'s (dyn Fn() -> bool + Sync);

impl Live {
    /// Reads a text; nothing is looked at yet. `None` where it cannot be followed.
    pub fn read(path: &Path, kind: Kind, text: &Arc<str>, notebook: &Notebook) -> Option<Self> {
        let project = notebook.project();
        let own: Vec<FileId> = project.files().filter(|file| !project.ships(*file)).collect();
        // One that was too large to be read is not followed either.
        let document = notebook
            .document(ASKED)
            .filter(|document| document.text.len() == text.len())?;
        let passages = document.files();
        let mut live = Self {
            path: path.to_owned(),
            real: document.real.clone(),
            kind,
            text: text.clone(),
            chunks: Vec::new(),
            files: Vec::new(),
            used: Vec::new(),
            documents: notebook.documents().iter().skip(1).map(Document::again).collect(),
            missed: notebook.missed().to_vec(),
            of_uses: Vec::new(),
            reader: Reader::new(),
            next: 0,
            weave: Weave::default(),
            seen: FxHashMap::default(),
            lenses: FxHashMap::default(),
            rulebooks: Vec::new(),
            dirty: FxHashSet::default(),
            rules_changed: true,
        };
        for id in own {
            let source = project.shared(id);
            if source.file.text != ASKED {
                live.used.push(source);
                continue;
            }
            let file = File {
                text: ASKED,
                uses: source.file.uses.clone(),
                blocks: source.file.blocks.clone(),
                rest: source.file.rest.clone(),
                ..File::default()
            };
            let number = live.files.len();
            live.files.push(Own {
                name: source.name.clone(),
                uses: source.uses.clone(),
            });
            live.chunks
                .extend(cut(text, number, file, passages.get(number)?, &mut live.next));
        }
        live.chunks.sort_by_key(|chunk| chunk.span.start);
        live.take_findings(notebook);
        for chunk in &live.chunks {
            live.weave.add(chunk);
        }
        live.weave.place(&live.chunks, 0);
        live.dirty = live.chunks.iter().map(|chunk| chunk.id).collect();
        live.can_be_followed().then_some(live)
    }

    /// What was found in reading goes to the chunks; what `use` lines lack is kept apart.
    fn take_findings(&mut self, notebook: &Notebook) {
        let of_syntax: FxHashSet<&str> = snell_syntax::FAULTS.iter().map(|(name, _)| *name).collect();
        for finding in notebook
            .reading()
            .iter()
            .filter(|finding| finding.place().text == ASKED)
        {
            let mut finding = finding.clone();
            let at = finding.place().span.start;
            let index = self.chunks.partition_point(|chunk| chunk.span.start <= at);
            let Some(chunk) = index.checked_sub(1).map(|index| &mut self.chunks[index]) else {
                continue;
            };
            let own = of_syntax.contains(&*finding.code);
            let start = chunk.span.start;
            let text = if own { ASKED } else { chunk::text_of(chunk.id) };
            chunk::each_place(&mut finding, &mut |place| {
                *place = Place::new(text, chunk::back(place.span, start));
            });
            let list = if own {
                &mut chunk.findings
            } else {
                &mut self.of_uses
            };
            list.push(finding);
        }
    }

    fn can_be_followed(&self) -> bool {
        let faults: usize = self.chunks.iter().map(|chunk| chunk.findings.len()).sum();
        let lines = |chunk: &Chunk| chunk.block.as_ref().map_or(0, |block| block.body.len());
        self.next < MOST_CHUNKS
            && self.chunks.len() < MOST_BLOCKS
            && faults < gather::MOST_FINDINGS
            && self.chunks.iter().all(|chunk| lines(chunk) < MOST_LINES)
    }

    /// What is found in the text. `None` if it was stopped; the rest is looked at the next time.
    pub fn findings(&mut self, stop: Stop<'_>) -> Option<Vec<Finding>> {
        if !self.dirty.is_empty() || self.rules_changed {
            self.look_at_dirty(stop);
            if !self.dirty.is_empty() {
                return None;
            }
        }
        Some(gather::gather(self))
    }

    fn look_at_dirty(&mut self, stop: Stop<'_>) {
        let dirty = std::mem::take(&mut self.dirty);
        let all = dirty.len() == self.chunks.len();
        let needed = if all {
            dirty.clone()
        } else {
            self.weave.needed(&self.chunks, &dirty)
        };
        let (seen, rulebooks) = self.look(&dirty, &needed, None, stop);
        if self.rules_changed {
            self.rulebooks = rulebooks;
            self.rules_changed = false;
        }
        let mut left = dirty;
        let mut heeding = FxHashSet::default();
        for (id, seen) in seen {
            left.remove(&id);
            if seen.heeds_names && !all {
                heeding.insert(id);
            }
            self.seen.insert(id, seen);
        }
        left.retain(|id| {
            self.weave
                .index(*id)
                .is_some_and(|index| self.chunks[index].block.is_some())
        });
        self.dirty = left;
        if heeding.is_empty() {
            return;
        }
        // What is said of a name that is not there hangs on all that are.
        let rigs = heeding
            .iter()
            .filter_map(|id| self.weave.index(*id))
            .any(|index| {
                let chunk = &self.chunks[index];
                chunk.is_rig() && chunk.opening().is_some_and(|opening| opening.base.is_some())
            });
        let needed = self.weave.needed(&self.chunks, &heeding);
        let (seen, _) = self.look(&heeding, &needed, Some(rigs), stop);
        for (id, seen) in seen {
            heeding.remove(&id);
            self.seen.insert(id, seen);
        }
        self.dirty.extend(heeding);
    }

    /// Looks at `roots` in a project of the `needed` blocks; with `names`, also the heads of all others are
    /// there, those of rigs only if they matter.
    fn look(
        &self,
        roots: &FxHashSet<ChunkId>,
        needed: &FxHashSet<ChunkId>,
        names: Option<bool>,
        stop: Stop<'_>,
    ) -> (Vec<(ChunkId, Seen)>, Vec<Finding>) {
        let (project, files) = self.project(|chunk| match names {
            _ if needed.contains(&chunk.id) => chunk.placed(),
            Some(rigs) if rigs || !chunk.is_rig() => chunk.stub(),
            _ => None,
        });
        look(&Look {
            roots,
            chunks: &self.chunks,
            project: &project,
            files: &files,
            stop,
        })
    }

    /// The text as a notebook, out of what is read of it already. What was found in reading is not in it.
    pub fn notebook(&self) -> Notebook {
        self.notebook_of(Chunk::placed)
    }

    fn notebook_of(&self, wanted: impl Fn(&Chunk) -> Option<Block>) -> Notebook {
        let mut own = Document::new(ASKED, self.path.clone(), self.kind, self.text.clone());
        own.real.clone_from(&self.real);
        let used = self.documents.iter().map(Document::again);
        let (project, _) = self.project(wanted);
        Notebook::of_read(std::iter::once(own).chain(used).collect(), project)
    }

    /// A project of some blocks, and for each file of the text the chunks of its blocks in order.
    fn project(&self, wanted: impl Fn(&Chunk) -> Option<Block>) -> (Project, Vec<(FileId, Vec<usize>)>) {
        let mut files: Vec<(File, Vec<usize>)> = vec![Default::default(); self.files.len()];
        for (index, chunk) in self.chunks.iter().enumerate() {
            let Some((file, indices)) = files.get_mut(chunk.file) else {
                continue;
            };
            file.uses.extend(chunk.placed_uses());
            file.rest.extend(chunk.placed_rest());
            if let Some(block) = wanted(chunk) {
                file.blocks.push(block);
                indices.push(index);
            }
        }
        let mut project: Project = snell_rules::project();
        let mut numbered = Vec::with_capacity(files.len());
        for (own, (file, indices)) in self.files.iter().zip(files) {
            let id = project.add(Source {
                name: own.name.clone(),
                text: self.text.clone(),
                file: File { text: ASKED, ..file },
                uses: own.uses.clone(),
            });
            numbered.push((id, indices));
        }
        for used in &self.used {
            project.add_shared(used.clone());
        }
        (project, numbered)
    }

    /// The paths of files that were to be used and could not be read.
    pub fn missed(&self) -> &[PathBuf] {
        &self.missed
    }

    /// The texts of the used files.
    pub fn used(&self) -> &[Document] {
        &self.documents
    }
}
