//! The text of a rig to copy: its own lines, and those of all that it uses and
//! that does not ship, so that it stands by itself wherever it is put.

use crate::verdict::verdict;
use crate::written::Units;
use snell_rig::faults::Faults;
use snell_rig::project::BlockRef;
use snell_rig::{BlockId, Evaluation, Lookup, World};
use snell_rules::Books;
use snell_syntax::BlockKind;
use snell_text::TextId;
use std::collections::BTreeSet;

/// The text of a rig with what it uses: the rig first, laid out as `tidy` has it. Comments are left out.
pub fn text_of(world: &World<'_>, block: BlockRef<'_>) -> String {
    let mut all = BTreeSet::new();
    let mut open = vec![block.id];
    while let Some(id) = open.pop() {
        // What a rig takes over from another hangs on what that one uses.
        let new: Vec<BlockId> = used(world, id).into_iter().filter(|id| all.insert(*id)).collect();
        let is_rig = |id: &BlockId| world.project.block(*id).kind() == BlockKind::Rig;
        open.extend(new.into_iter().filter(is_rig));
    }
    let others = all.into_iter().filter(|id| *id != block.id);
    let texts: Vec<String> = std::iter::once(block.id)
        .chain(others)
        .map(|id| lines(world.project.block(id)))
        .collect();
    laid_out(&texts.join("\n"))
}

/// The blocks that a rig hangs on, without those that ship.
fn used(world: &World<'_>, id: BlockId) -> BTreeSet<BlockId> {
    let noting = world.noting();
    {
        let mut rig = snell_rig::read(&noting, world.project.block(id), &Faults::default());
        rig.settings.takes_usual = true;
        let evaluation = Evaluation::new(&noting, &rig);
        evaluation.run();
        // The verdict asks the rules, which a rulebook of the rig's own may hold.
        verdict(&Books::new(&noting), &evaluation, Units::Author);
    }
    let found = noting.noted().into_iter().filter_map(|lookup| match lookup {
        Lookup::Name(file, kind, name) | Lookup::Outside(file, kind, name) => {
            world.find(file, kind, &name).block()
        }
        Lookup::Names(..) | Lookup::Timed(_) => None,
    });
    found.filter(|id| !world.project.ships(id.file)).collect()
}

fn lines(block: BlockRef<'_>) -> String {
    let head = block
        .head_line()
        .map(|line| format!("{}\n", line.as_written().trim()));
    let body = block
        .lines()
        .map(|line| format!("  {}\n", line.as_written().trim()));
    head.into_iter().chain(body).collect()
}

fn laid_out(text: &str) -> String {
    let id = TextId::default();
    let edits = snell_syntax::tidy(text, id, &snell_syntax::whole(text));
    snell_finding::apply(text, edits.into_iter().map(|edit| (edit.place.span, edit.new)))
}
