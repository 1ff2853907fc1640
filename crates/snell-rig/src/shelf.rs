//! What ships: pages in this language. Their blocks are known by name at once,
//! and each is read when something first needs it.

use crate::content::{File, Placed, SharedBlock};
use crate::opened::space;
use crate::project::{BlockId, FileId, Project, Shelf, Source};
use snell_syntax::BlockKind;
use snell_text::{FenceTag, Span, TextId};
use std::sync::{Arc, LazyLock};

/// The pages that ship with this crate, by name.
const PAGES: &[(&str, &str)] = &[
    ("materials", include_str!("../shelf/materials.md")),
    ("knots", include_str!("../shelf/knots.md")),
    ("beds", include_str!("../shelf/beds.md")),
    ("dressings", include_str!("../shelf/dressings.md")),
];

impl Shelf {
    /// The pages of this crate, which every other shelf begins with.
    pub fn new() -> Self {
        let mut shelf = Self::default();
        for (index, (name, page)) in PAGES.iter().enumerate() {
            let shared = snell_text::fences(page)
                .into_iter()
                .filter(|fence| fence.tag == FenceTag::Shared);
            let passages: Vec<Vec<Span>> = shared.map(|fence| fence.lines).collect();
            shelf.add(name, page, text_id(index), &passages);
        }
        shelf
    }

    /// Adds a page by the lines of its fences.
    pub fn add(&mut self, name: &str, page: &'static str, text: TextId, passages: &[Vec<Span>]) {
        let file = FileId(self.sources.len() as u32);
        let mut blocks = Vec::new();
        for (opens, lines) in passages.iter().flat_map(|lines| blocks_of(page, lines)) {
            let index = blocks.len() as u32;
            self.names[space(opens.0) as usize].insert(opens.1.clone(), BlockId { file, index });
            blocks.push(Placed {
                start: 0,
                block: Arc::new(SharedBlock::shipped(page, opens, lines)),
            });
        }
        let read = File {
            text,
            blocks,
            ..File::default()
        };
        self.sources
            .push(Arc::new(Source::new(name, Arc::from(page), read)));
    }
}

/// What opens a block, and its lines with that one.
type Listed = ((BlockKind, Arc<str>), Vec<Span>);

/// The blocks in the lines of a fence. Pages that ship are plain: a block opens with its kind and its name at the
/// margin. A test reads them all and compares.
fn blocks_of(page: &str, lines: &[Span]) -> Vec<Listed> {
    let mut blocks: Vec<Listed> = Vec::new();
    for line in lines {
        let mut words = line.of(page).split(' ');
        let opens = words.next().and_then(BlockKind::of).zip(words.next());
        match (opens, blocks.last_mut()) {
            (Some((kind, name)), _) => blocks.push(((kind, Arc::from(name.trim())), vec![*line])),
            (None, Some((_, lines))) => lines.push(*line),
            (None, None) => {}
        }
    }
    blocks
}

/// Shipped texts are numbered from the top down, those of a notebook from the bottom up.
fn text_id(index: usize) -> TextId {
    TextId(u32::MAX - index as u32)
}

/// The shelf of this crate alone.
pub(crate) fn own() -> &'static Shelf {
    static OWN: LazyLock<Shelf> = LazyLock::new(Shelf::new);
    &OWN
}

impl Default for Project {
    fn default() -> Self {
        Self::on(own())
    }
}

/// The name and text of a shipped page, for reports that point into it.
pub fn page(text: TextId) -> Option<(&'static str, &'static str)> {
    PAGES.get((u32::MAX - text.0) as usize).copied()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_listed_is_what_is_read() {
        for (name, page) in PAGES {
            let shared = snell_text::fences(page)
                .into_iter()
                .filter(|fence| fence.tag == FenceTag::Shared);
            let passages: Vec<Vec<Span>> = shared.map(|fence| fence.lines).collect();
            let read = snell_syntax::read(page, TextId::default(), &passages);
            assert_eq!(read.findings, [], "{name}");
            let read = File::new(page, read);
            let heads = read.blocks.iter().map(|placed| placed.block.opens.clone());
            let listed = passages.iter().flat_map(|lines| blocks_of(page, lines));
            let listed: Vec<_> = listed.map(|(opens, _)| Some(opens)).collect();
            assert_eq!(listed, heads.collect::<Vec<_>>(), "{name}");
        }
    }
}
