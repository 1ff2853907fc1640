//! What a rig's bases show already, and need not be told of it again.

use crate::of_block::OfBlock;
use rustc_hash::{FxHashMap, FxHashSet};
use snell_finding::Finding;
use snell_rig::BlockId;
use snell_rig::project::BlockRef;
use snell_rules::Found;
use snell_text::Place;

/// Whether two findings say the same of one place.
pub(crate) fn same(one: &Finding, other: &Finding) -> bool {
    (&one.code, one.place(), &one.message) == (&other.code, other.place(), &other.message)
}

/// Whether two findings are told of the same places by the same rule.
pub(crate) fn alike(one: &Found, other: &Found) -> bool {
    one.finding.code == other.finding.code && one.blame == other.blame
}

/// What rules found of each rig that is looked at.
pub(crate) struct Shown<'a>(FxHashMap<BlockId, FxHashSet<(&'a str, &'a [Place])>>);

impl<'a> Shown<'a> {
    pub(crate) fn of(blocks: &[BlockRef<'_>], all: &'a [OfBlock]) -> Self {
        if !all.iter().flat_map(|of| &of.found).any(|found| found.inherited) {
            return Self(FxHashMap::default());
        }
        let found = |of: &'a OfBlock| {
            of.found
                .iter()
                .map(|found| (&*found.finding.code, &*found.blame))
                .collect()
        };
        Self(
            blocks
                .iter()
                .map(|block| block.id)
                .zip(all.iter().map(found))
                .collect(),
        )
    }

    pub(crate) fn knows(&self, rig: BlockId) -> bool {
        self.0.contains_key(&rig)
    }

    pub(crate) fn by(&self, rig: BlockId, found: &Found) -> bool {
        let key = (&*found.finding.code, &*found.blame);
        self.0.get(&rig).is_some_and(|shown| shown.contains(&key))
    }
}
