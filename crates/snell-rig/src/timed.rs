//! The flies that a file sees and that were timed in still water: what they tell holds for others of their dressing.

use crate::content::ContentId;
use crate::ids::{BlockId, FileId};
use crate::keywords::{FlyKey, Key};
use crate::project::{BlockRef, LineRef, Project};
use crate::sight::TimedFlies;
use snell_syntax::{BlockKind, Form};
use std::sync::Arc;

impl Project {
    /// The flies that a file sees whose own blocks say how fast they sank, found once.
    pub(crate) fn timed_flies(&self, file: FileId) -> Arc<TimedFlies> {
        let names = self.sight(file, BlockKind::Fly);
        self.sights.timed(file, || {
            let seen = names.names.iter();
            let flies = seen.filter_map(|name| self.find(file, BlockKind::Fly, name).block());
            let flies: Vec<BlockId> = flies.filter(|fly| is_timed(self.block(*fly))).collect();
            let told = flies
                .iter()
                .map(|fly| (fly.file, self.placed(*fly).block.content));
            TimedFlies {
                sum: ContentId::of(&told.collect::<Vec<_>>()),
                flies,
            }
        })
    }
}

/// Whether a fly's own lines say how fast it sank. What it has from another fly was timed on that one, and would count twice.
fn is_timed(fly: BlockRef<'_>) -> bool {
    fly.lines().any(says_how_fast)
}

fn says_how_fast(line: LineRef<'_>) -> bool {
    match &*line.line.form {
        Form::Plain(plain) => FlyKey::of(&plain.key.folded) == Some(FlyKey::Sinks),
        Form::Bind(_) | Form::Claim(_) | Form::Change(_) | Form::Use(_) | Form::Block(_) => false,
    }
}
