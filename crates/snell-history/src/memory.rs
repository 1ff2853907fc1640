//! Rigs that were worked out, by all that they were worked out from. What one
//! step of a history changes in a file seldom touches more than one of its rigs;
//! the others are as they were.

use rustc_hash::FxHashMap;
use snell_analysis::Notebook;
use snell_rig::World;
use snell_rig::blocks::lineage;
use snell_rig::project::BlockRef;
use snell_syntax::BlockKind;
use snell_view::compare::{Card, card_of};
use std::fmt::Write;
use std::sync::Arc;

/// What was worked out so far.
#[derive(Debug, Default)]
pub struct Memory {
    /// What rigs may stand on, each with a number.
    grounds: FxHashMap<String, usize>,
    /// Rigs by the number of their ground and their own lines.
    cards: FxHashMap<(usize, String), Arc<Card>>,
    worked_out: usize,
}

impl Memory {
    /// How many rigs had to be worked out.
    pub fn worked_out(&self) -> usize {
        self.worked_out
    }

    /// The number of what the rigs of a notebook stand on.
    pub(super) fn ground(&mut self, world: &World<'_>) -> usize {
        let next = self.grounds.len();
        *self.grounds.entry(ground(world)).or_insert(next)
    }

    /// The rig of a block, or of an outing as it was fished. `base` is the rig that an outing was fished with.
    pub(super) fn card(
        &mut self,
        notebook: &Notebook,
        world: &World<'_>,
        ground: usize,
        (block, base): (BlockRef<'_>, Option<BlockRef<'_>>),
    ) -> Option<Arc<Card>> {
        let Some(key) = key(world, block, base) else {
            self.worked_out += 1;
            return card_of(notebook, world, block).map(Arc::new);
        };
        let document = notebook.document(block.source.file.text)?;
        let file = document.path.display().to_string();
        let line = document
            .index()
            .line_column(&document.text, block.name_place().span.start)
            .line;
        if let Some(known) = self.cards.get(&(ground, key.clone())) {
            let there = (known.shown.file == file) && known.shown.line == line;
            return Some(if there {
                known.clone()
            } else {
                let mut moved = Card::clone(known);
                (moved.shown.file, moved.shown.line) = (file, line);
                Arc::new(moved)
            });
        }
        self.worked_out += 1;
        let card = Arc::new(card_of(notebook, world, block)?);
        self.cards.insert((ground, key), card.clone());
        Some(card)
    }
}

/// A rig's name, and its lines and those of its bases, each block with the file that its names are looked up from;
/// nothing where a base is not to be found.
fn key(world: &World<'_>, block: BlockRef<'_>, base: Option<BlockRef<'_>>) -> Option<String> {
    let mut key = snell_rig::rig::name(block);
    for block in [Some(block), base].into_iter().flatten() {
        for block in lineage(&world.names, block).ok()? {
            // A string takes whatever is written to it.
            let _ = write!(key, "\n{}", block.id.file.0);
            lines(&mut key, block);
        }
    }
    Some(key)
}

/// Everything but rigs and outings in the files of a notebook, and which file uses which.
fn ground(world: &World<'_>) -> String {
    let project = world.project;
    let mut ground = String::new();
    for file in project.files().filter(|file| !project.ships(*file)) {
        // A string takes whatever is written to it.
        let _ = writeln!(ground, "file {} {:?}", file.0, project.source(file).uses);
        let kind = |block: &BlockRef<'_>| block.head().map_or(BlockKind::Rig, |head| head.kind);
        let others = project
            .blocks(file)
            .filter(|block| !matches!(kind(block), BlockKind::Rig | BlockKind::Outing));
        others.for_each(|block| lines(&mut ground, block));
    }
    ground
}

/// The lines of a block that could be read, and whether that is all.
fn lines(text: &mut String, block: BlockRef<'_>) {
    for line in block.head_line().into_iter().chain(block.lines()) {
        text.push('\n');
        text.push_str(line.written(line.line.span));
    }
    text.push_str(if block.block.broken { "\nbroken\n" } else { "\n\n" });
}
