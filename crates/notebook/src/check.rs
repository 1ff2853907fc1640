//! Every finding of a notebook, in the order of its texts.

use crate::load::Notebook;
use report::Finding;
use rig::project::BlockRef;
use rig::value::Faults;
use rig::{Evaluation, World};
use rustc_hash::FxHashSet;
use std::thread;
use syntax::BlockKind;
use text::Place;

/// Below this many rigs a second thread costs more than it brings.
const WORTH_A_THREAD: usize = 64;

/// All findings: of reading, of names, of blocks, of rigs and their claims.
pub fn check(notebook: &Notebook) -> Vec<Finding> {
    let project = notebook.project();
    let (world, found) = World::new(project);
    let mut findings = notebook.reading().to_vec();
    findings.extend(found);
    findings.extend(of_rigs(&world, &rigs(&world)));
    ordered(findings)
}

/// Every rig's block, and lines before any block, which make a rig.
pub(crate) fn rigs<'p>(world: &World<'p>) -> Vec<BlockRef<'p>> {
    let project = world.project;
    let own = project.files().filter(|file| !project.ships(*file));
    let is_rig = |block: &BlockRef<'p>| block.head().is_none_or(|head| head.kind == BlockKind::Rig);
    own.flat_map(|file| project.blocks(file)).filter(is_rig).collect()
}

fn of_rigs(world: &World<'_>, rigs: &[BlockRef<'_>]) -> Vec<Finding> {
    let threads = thread::available_parallelism().map_or(1, usize::from);
    if threads == 1 || rigs.len() < WORTH_A_THREAD {
        return rigs.iter().flat_map(|block| of_rig(world, *block)).collect();
    }
    let share = rigs.len().div_ceil(threads);
    thread::scope(|scope| {
        let work = |share: &'_ [BlockRef<'_>]| -> Vec<Finding> { share.iter().flat_map(|block| of_rig(world, *block)).collect() };
        let running: Vec<_> = rigs.chunks(share).map(|share| scope.spawn(move || work(share))).collect();
        let joined = running.into_iter().map(|thread| thread.join());
        joined.flat_map(|findings| findings.unwrap_or_else(|panic| std::panic::resume_unwind(panic))).collect()
    })
}

fn of_rig(world: &World<'_>, block: BlockRef<'_>) -> Vec<Finding> {
    let faults = Faults::default();
    let rig = rig::rig::read(world, block, &faults);
    let mut findings = faults.into_inner();
    let evaluation = Evaluation::new(world, rig);
    evaluation.run();
    findings.extend(evaluation.into_findings());
    findings
}

/// In the order of the texts; what a base and the rigs made from it both report is kept once.
pub(crate) fn ordered(mut findings: Vec<Finding>) -> Vec<Finding> {
    let mut seen: FxHashSet<(String, Place, Option<String>)> = FxHashSet::default();
    findings.retain(|finding| {
        let rig = finding.rig.clone().filter(|_| finding.code == "expect");
        seen.insert((finding.code.to_string(), finding.place(), rig))
    });
    findings.sort_by_key(Finding::place);
    findings
}
