//! Every finding of a notebook, in the order of its texts.

use crate::notebook::Notebook;
use crate::order::{capped, ordered};
use crate::query::Checked;
use snell_finding::Finding;
use snell_rig::World;
use snell_rig::project::BlockRef;
use snell_rules::Wanted;
use snell_syntax::BlockKind;

/// Every finding of a notebook, with mends.
pub fn check(notebook: &Notebook) -> Vec<Finding> {
    examine(notebook, Wanted::Found).findings
}

/// Checks every file of a notebook; what could not be told is kept where it is wanted.
pub fn examine(notebook: &Notebook, wanted: Wanted) -> Checked {
    notebook.ask(|query| {
        let blocks: Vec<BlockRef<'_>> = query.world.project.own_blocks().collect();
        let mut checked = query.findings(&blocks, wanted, &|| false).unwrap_or_default();
        let mut findings = notebook.reading().to_vec();
        findings.append(&mut checked.findings);
        checked.findings = capped(ordered(findings));
        checked
    })
}

/// Every rig's block, and lines before any block, which make a rig.
pub fn rigs<'p>(world: &World<'p>) -> Vec<BlockRef<'p>> {
    of_kind(world, BlockKind::Rig)
}

/// Every outing's block.
pub fn outings<'p>(world: &World<'p>) -> Vec<BlockRef<'p>> {
    of_kind(world, BlockKind::Outing)
}

fn of_kind<'p>(world: &World<'p>, kind: BlockKind) -> Vec<BlockRef<'p>> {
    world
        .project
        .own_blocks()
        .filter(|block| block.kind() == kind)
        .collect()
}
