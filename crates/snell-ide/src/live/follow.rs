//! From one state of a text to the next: which chunks go, which come, and what
//! hangs on those.
//!
//! It looks at nothing; it only says what has to be looked at.

use super::super::walk::ASKED;
use super::Live;
use super::chunk::{Chunk, ChunkId, cut};
use super::differ::differing;
use rustc_hash::FxHashSet;
use snell_analysis::{Document, Kind};
use snell_syntax::BlockKind;
use snell_text::Span;
use std::sync::Arc;

impl Live {
    /// Follows the text to its next state. `false` where it has to be read anew.
    pub fn follow(&mut self, text: &Arc<str>) -> bool {
        if Arc::ptr_eq(&self.text, text) || *self.text == **text {
            return true;
        }
        let new = match self.kind {
            Kind::Rig => self.rig_file(text),
            Kind::Markdown => self.whole(text),
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
            .any(|chunk| !chunk.uses.is_empty())
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
        self.changed(&gone, first_new..first_new + new_count);
        self.can_be_followed()
    }

    /// Notes what hangs on chunks that went and came.
    fn changed(&mut self, gone: &[Chunk], new: std::ops::Range<usize>) {
        for chunk in gone {
            self.weave.remove(chunk);
            self.seen.remove(&chunk.id);
            self.lenses.remove(&chunk.id);
            self.dirty.remove(&chunk.id);
        }
        for chunk in &self.chunks[new.clone()] {
            self.weave.add(chunk);
        }
        if gone.len() == new.len() {
            self.weave.place(&self.chunks[..new.end], new.start);
        } else {
            self.weave.place(&self.chunks, new.start);
        }
        let came = &self.chunks[new];
        let changed: Vec<&Chunk> = gone.iter().chain(came).collect();
        let hanging = self.weave.hanging(&self.chunks, &changed);
        self.lenses.retain(|id, _| !hanging.contains(id));
        if changed.iter().any(|chunk| chunk.is_rule()) {
            self.rules_changed = true;
            self.dirty.extend(self.chunks.iter().map(|chunk| chunk.id));
            return;
        }
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
        let lines: Vec<Span> = snell_text::lines(piece.of(text))
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
}

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
        uses: Vec::new(),
        rest: Vec::new(),
        findings: Vec::new(),
        words: chunk.words.clone(),
        indented: chunk.indented,
    }
}
