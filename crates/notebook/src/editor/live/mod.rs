//! A text that is being typed in: after each change only the blocks that hang
//! on it are looked at again.
//!
//! What it says is what a check of the whole text says; a test types at random
//! and compares. Where a text is too odd to be followed, the whole is checked.

mod chunk;
mod differ;
mod gather;
mod look;
mod weave;

use super::overlay::real_of;
use super::walk::ASKED;
use crate::document::{Document, Kind};
use crate::load::Notebook;
use chunk::{Chunk, ChunkId, cut};
use differ::differing;
use look::{Look, Seen, look};
use report::Finding;
use rig::Project;
use rig::project::{FileId, Source};
use rustc_hash::{FxHashMap, FxHashSet};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use syntax::{BlockKind, File, Reader};
use text::{Place, Span, TextId};
use weave::Weave;

/// A text with more blocks is no notebook, and is not followed.
const MOST_BLOCKS: usize = 10_000;

/// A text that is followed.
pub struct Live {
    path: PathBuf,
    kind: Kind,
    text: Arc<str>,
    chunks: Vec<Chunk>,
    /// The files in the text, without their blocks.
    files: Vec<Source>,
    /// The files that are used, by anyone, in their order.
    used: Vec<Arc<Source>>,
    /// The texts of the used files.
    documents: Vec<Document>,
    /// Findings of `use` lines.
    of_uses: Vec<Finding>,
    reader: Reader,
    next: ChunkId,
    weave: Weave,
    seen: FxHashMap<ChunkId, Seen>,
    rulebooks: Vec<Finding>,
    /// What has still to be looked at.
    dirty: FxHashSet<ChunkId>,
    /// Whether a rule changed, so that the rulebooks are to be looked at.
    rules_changed: bool,
}

/// Whether nobody wants the work any more.
pub type Stop<'s> = &'s (dyn Fn() -> bool + Sync);

impl Live {
    /// Reads a text; nothing is looked at yet. `None` where it cannot be followed.
    pub fn read(path: &Path, kind: Kind, text: &Arc<str>, notebook: &Notebook) -> Option<Self> {
        let project = notebook.project();
        let own: Vec<FileId> = project.files().filter(|file| !project.ships(*file)).collect();
        let document = notebook.document(ASKED)?;
        let passages = document.files();
        let mut live = Self {
            path: path.to_owned(),
            kind,
            text: text.clone(),
            chunks: Vec::new(),
            files: Vec::new(),
            used: Vec::new(),
            documents: notebook.documents().iter().skip(1).map(Document::again).collect(),
            of_uses: Vec::new(),
            reader: Reader::new(),
            next: 0,
            weave: Weave::default(),
            seen: FxHashMap::default(),
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
                findings: Vec::new(),
            };
            let number = live.files.len();
            live.files.push(Source {
                name: source.name.clone(),
                text: text.clone(),
                file: File {
                    text: ASKED,
                    uses: source.file.uses.clone(),
                    ..File::default()
                },
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
        live.weave.place(&live.chunks);
        live.dirty = live.chunks.iter().map(|chunk| chunk.id).collect();
        live.can_be_followed().then_some(live)
    }

    /// What was found in reading goes to the chunks; what `use` lines lack is kept apart.
    fn take_findings(&mut self, notebook: &Notebook) {
        let of_syntax: FxHashSet<&str> = syntax::FAULTS.iter().map(|(name, _)| *name).collect();
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
        self.chunks.len() < MOST_BLOCKS
            && faults < gather::MOST_FINDINGS
            && self.chunks.iter().all(|chunk| lines(chunk) < MOST_LINES)
    }

    /// Follows the text to its next state. `false` where it has to be read anew.
    pub fn follow(&mut self, text: &Arc<str>) -> bool {
        if *self.text == **text {
            return true;
        }
        let new = match self.kind {
            Kind::Rig => self.rig_file(text),
            Kind::Markdown => self.page(text),
        };
        let Some(Change { at, old, mut new }) = new else {
            return false;
        };
        let moved = text.len() as i64 - self.text.len() as i64;
        // Chunks that read as before keep their number, and so what was found of them.
        let same = |one: &Chunk, other: &Chunk| {
            one.file == other.file
                && one.span.of(&self.text) == other.span.of(text)
                && reads_alike(one, other)
        };
        let removed = &self.chunks[at.clone()];
        let ahead = removed
            .iter()
            .zip(&new)
            .take_while(|(one, other)| same(one, other))
            .count();
        let rest = removed.len().min(new.len()) - ahead;
        let pairs = removed.iter().rev().zip(new.iter().rev());
        let behind = pairs
            .take(rest)
            .take_while(|(one, other)| same(one, other))
            .count();
        let count = new.len();
        for (index, chunk) in new.iter_mut().enumerate() {
            if index < ahead {
                chunk.id = removed[index].id;
            } else if index >= count - behind {
                chunk.id = removed[removed.len() + index - count].id;
            }
        }
        let kept = ahead..count - behind;
        let gone_at = at.start + ahead..at.end - behind;
        if self.chunks[gone_at.clone()]
            .iter()
            .chain(&new[kept.clone()])
            .any(|chunk| chunk.uses)
        {
            return false;
        }
        if old == Behind::Moves {
            for chunk in &mut self.chunks[at.end..] {
                chunk.span = Span::new(shifted(chunk.span.start, moved), shifted(chunk.span.end, moved));
            }
        }
        let first_new = at.start + kept.start;
        let new_count = kept.len();
        let gone: Vec<Chunk> = self.chunks[gone_at].iter().map(twin).collect();
        self.chunks.splice(at, new);
        self.text = text.clone();
        for source in &mut self.files {
            source.text = text.clone();
        }
        self.changed(&gone, first_new..first_new + new_count);
        self.can_be_followed()
    }

    /// Notes what hangs on chunks that went and came.
    fn changed(&mut self, gone: &[Chunk], new: std::ops::Range<usize>) {
        for chunk in gone {
            self.weave.remove(chunk);
            self.seen.remove(&chunk.id);
            self.dirty.remove(&chunk.id);
        }
        for chunk in &self.chunks[new.clone()] {
            self.weave.add(chunk);
        }
        self.weave.place(&self.chunks);
        let came = &self.chunks[new];
        let changed: Vec<&Chunk> = gone.iter().chain(came).collect();
        if changed.iter().any(|chunk| chunk.is_rule()) {
            self.rules_changed = true;
            self.dirty.extend(self.chunks.iter().map(|chunk| chunk.id));
            return;
        }
        let hanging = self.weave.hanging(&self.chunks, &changed);
        self.dirty
            .extend(hanging.into_iter().filter(|id| self.weave.index(*id).is_some()));
        let names = |chunks: &[Chunk]| -> FxHashSet<(BlockKind, Arc<str>)> {
            let named = chunks.iter().filter_map(Chunk::opening);
            named
                .map(|opening| (opening.kind, opening.name.clone()))
                .collect()
        };
        let renamed = names(gone) != names(came);
        let gone: FxHashSet<ChunkId> = gone.iter().map(|chunk| chunk.id).collect();
        let stale = self.seen.iter().filter(|(_, seen)| {
            (renamed && seen.heeds_names) || seen.touches.iter().any(|id| gone.contains(id))
        });
        self.dirty.extend(stale.map(|(id, _)| *id));
    }

    /// The chunks of a file of its own that change: those around the bytes that differ.
    fn rig_file(&mut self, text: &Arc<str>) -> Option<Change> {
        let lost = |chunks: &[Chunk]| !chunks.iter().any(|chunk| chunk.indented);
        let (from, to) = differing(&self.text, text);
        let touched = |chunk: &Chunk| chunk.span.start <= to && from <= chunk.span.end;
        let first = self.chunks.iter().position(touched);
        let last = self.chunks.iter().rposition(touched);
        let (Some(first), Some(last)) = (first, last) else {
            return self.whole(text);
        };
        if lost(&self.chunks) {
            return self.whole(text);
        }
        // A line that opened a block may not do so any more: then its lines fall to the block above.
        let at = first.saturating_sub(1)..last + 1;
        let start = self.chunks[at.start].span.start;
        let moved = text.len() as i64 - self.text.len() as i64;
        let end = shifted(self.chunks[last].span.end, moved);
        let piece = Span::new(start, end);
        let lines: Vec<Span> = text::lines(piece.of(text))
            .map(|line| line.shifted(start))
            .collect();
        let file = self.reader.read_part(text, ASKED, &lines);
        let new = cut(text, 0, file, &[lines], &mut self.next);
        if lost(&self.chunks[..at.start]) && lost(&self.chunks[at.end..]) && lost(&new) {
            return self.whole(text);
        }
        Some(Change {
            at,
            old: Behind::Moves,
            new,
        })
    }

    /// A page is read again; lines that are known are not.
    fn page(&mut self, text: &Arc<str>) -> Option<Change> {
        self.whole(text)
    }

    fn whole(&mut self, text: &Arc<str>) -> Option<Change> {
        let document = Document::new(ASKED, self.path.clone(), self.kind, text.clone());
        let files = document.files();
        if files.len() != self.files.len() {
            return None;
        }
        let mut new = Vec::new();
        for (number, passages) in files.iter().enumerate() {
            let file = self.reader.read(text, ASKED, passages);
            new.extend(cut(text, number, file, passages, &mut self.next));
        }
        new.sort_by_key(|chunk| chunk.span.start);
        Some(Change {
            at: 0..self.chunks.len(),
            old: Behind::Nothing,
            new,
        })
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
        let mut project: Project = rules::project();
        let mut files = Vec::new();
        for (number, own) in self.files.iter().enumerate() {
            let mut blocks = Vec::new();
            let mut indices = Vec::new();
            for (index, chunk) in self
                .chunks
                .iter()
                .enumerate()
                .filter(|(_, chunk)| chunk.file == number)
            {
                let block = match names {
                    _ if needed.contains(&chunk.id) => chunk.placed(),
                    Some(rigs) if rigs || !chunk.is_rig() => chunk.stub(),
                    _ => None,
                };
                if let Some(block) = block {
                    blocks.push(block);
                    indices.push(index);
                }
            }
            let id = project.add(Source {
                name: own.name.clone(),
                text: own.text.clone(),
                file: File {
                    text: ASKED,
                    uses: own.file.uses.clone(),
                    blocks,
                    findings: Vec::new(),
                },
                uses: own.uses.clone(),
            });
            files.push((id, indices));
        }
        for used in &self.used {
            project.add_shared(used.clone());
        }
        look(&Look {
            roots,
            chunks: &self.chunks,
            project: &project,
            files: &files,
            stop,
        })
    }

    /// Whether a change of a file may change what is said of this text: it is used, or a file is missing.
    pub fn hangs_on(&self, real: &Path) -> bool {
        !self.of_uses.is_empty() || self.documents.iter().any(|used| real_of(&used.path) == real)
    }

    /// The text of a used file.
    pub fn document(&self, id: TextId) -> Option<&Document> {
        self.documents.iter().find(|document| document.id == id)
    }
}

/// The longest block that is followed, in lines.
const MOST_LINES: usize = 1_000;

/// Chunks that take the place of others.
struct Change {
    at: std::ops::Range<usize>,
    old: Behind,
    new: Vec<Chunk>,
}

/// What becomes of the chunks behind those that change.
#[derive(PartialEq, Eq)]
enum Behind {
    Moves,
    Nothing,
}

fn shifted(at: u32, by: i64) -> u32 {
    (i64::from(at) + by) as u32
}

/// Whether two chunks of the same text were read alike: where a text has lost its indent, they may not be.
fn reads_alike(one: &Chunk, other: &Chunk) -> bool {
    let lines = |chunk: &Chunk| {
        let block = chunk.block.as_ref();
        block.map(|block| (block.head.is_some(), block.broken, block.offset, block.body.len()))
    };
    lines(one) == lines(other)
        && one.findings == other.findings
        && match (&one.block, &other.block) {
            (Some(one), Some(other)) => one
                .body
                .iter()
                .zip(&other.body)
                .all(|(one, other)| one.form == other.form),
            _ => true,
        }
}

/// What is still to be known of a chunk that is gone.
fn twin(chunk: &Chunk) -> Chunk {
    Chunk {
        id: chunk.id,
        file: chunk.file,
        span: chunk.span,
        block: chunk.block.clone(),
        uses: chunk.uses,
        findings: Vec::new(),
        words: chunk.words.clone(),
        indented: chunk.indented,
    }
}
