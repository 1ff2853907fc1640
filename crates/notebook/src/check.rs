//! Every finding of a notebook, in the order of its texts.

use crate::load::Notebook;
use report::Finding;
use rig::blocks::Read;
use rig::project::BlockRef;
use rig::value::Faults;
use rig::{BlockId, Evaluation, World};
use rules::{Books, Found, Skipped, Wanted};
use rustc_hash::{FxHashMap, FxHashSet};
use std::thread;
use syntax::BlockKind;
use text::Place;

/// Below this many rigs a second thread costs more than it brings.
pub(crate) const WORTH_A_THREAD: usize = 64;

/// What a check came to.
#[derive(Debug, Default)]
pub struct Checked {
    /// All findings: of reading, of names, of blocks, of rigs, their claims and their rules.
    pub findings: Vec<Finding>,
    /// Rules that could not be judged.
    pub skipped: Vec<Skipped>,
    /// How many rigs were held against them.
    pub rigs: usize,
}

/// Every finding of a notebook.
pub fn check(notebook: &Notebook) -> Vec<Finding> {
    examine(notebook, Wanted::Found).findings
}

/// Checks every file of a notebook; what could not be told is kept where it is wanted.
pub fn examine(notebook: &Notebook, wanted: Wanted) -> Checked {
    let project = notebook.project();
    let (world, found) = World::new(project);
    let faults = Faults::default();
    let books = Books::read(&world, &faults);
    let rigs = rigs(&world);
    let checked = of_rigs(&books, &rigs, wanted);
    books.check_rulebooks(&faults);
    let mut findings = notebook.reading().to_vec();
    findings.extend(found);
    findings.extend(faults.into_inner());
    let (mut by_rules, mut skipped) = (Vec::new(), Vec::new());
    findings.extend(of_outings(&world));
    findings.extend(crate::article::findings(notebook, &world));
    for one in checked {
        findings.extend(one.findings);
        by_rules.extend(one.found);
        skipped.extend(one.skipped);
    }
    findings.extend(not_repeated(&world, by_rules));
    Checked {
        findings: capped(ordered(findings)),
        skipped,
        rigs: rigs.len(),
    }
}

/// Every rig's block, and lines before any block, which make a rig.
pub(crate) fn rigs<'p>(world: &World<'p>) -> Vec<BlockRef<'p>> {
    let project = world.project;
    let own = project.files().filter(|file| !project.ships(*file));
    let is_rig = |block: &BlockRef<'p>| block.head().is_none_or(|head| head.kind == BlockKind::Rig);
    own.flat_map(|file| project.blocks(file)).filter(is_rig).collect()
}

/// Every outing's block.
pub(crate) fn outings<'p>(world: &World<'p>) -> Vec<BlockRef<'p>> {
    let project = world.project;
    let own = project.files().filter(|file| !project.ships(*file));
    let is_outing = |block: &BlockRef<'p>| block.head().is_some_and(|head| head.kind == BlockKind::Outing);
    own.flat_map(|file| project.blocks(file))
        .filter(is_outing)
        .collect()
}

/// What is wrong with the rigs of outings as they were fished, and with the flies that outings name.
fn of_outings(world: &World<'_>) -> Vec<Finding> {
    let mut findings = Vec::new();
    for block in outings(world) {
        let Read::Outing(outing) = world.read(block.id) else {
            continue;
        };
        let faults = Faults::default();
        let rig = rig::rig::read(world, block, &faults);
        let evaluation = Evaluation::new(world, &rig);
        evaluation.run();
        findings.extend(faults.into_inner());
        findings.extend(evaluation.into_findings());
        if !rig.broken {
            let catches = outing.catches.iter();
            findings
                .extend(catches.filter_map(|catch| catch.fly(world, &rig.layout).err().map(|told| *told)));
        }
    }
    findings
}

/// What one rig came to.
pub(crate) struct OfRig {
    pub(crate) findings: Vec<Finding>,
    pub(crate) found: Vec<Found>,
    skipped: Vec<Skipped>,
}

fn of_rigs<'p>(books: &Books<'_, 'p>, rigs: &[BlockRef<'p>], wanted: Wanted) -> Vec<OfRig> {
    let threads = thread::available_parallelism().map_or(1, usize::from);
    if threads == 1 || rigs.len() < WORTH_A_THREAD {
        return rigs.iter().map(|block| of_rig(books, *block, wanted)).collect();
    }
    let share = rigs.len().div_ceil(threads);
    thread::scope(|scope| {
        let work = |share: &[BlockRef<'p>]| {
            share
                .iter()
                .map(|block| of_rig(books, *block, wanted))
                .collect::<Vec<_>>()
        };
        let running: Vec<_> = rigs
            .chunks(share)
            .map(|share| scope.spawn(move || work(share)))
            .collect();
        let joined = running.into_iter().map(thread::ScopedJoinHandle::join);
        joined
            .flat_map(|done| done.unwrap_or_else(|panic| std::panic::resume_unwind(panic)))
            .collect()
    })
}

pub(crate) fn of_rig<'p>(books: &Books<'_, 'p>, block: BlockRef<'p>, wanted: Wanted) -> OfRig {
    let faults = Faults::default();
    let rig = rig::rig::read(books.world(), block, &faults);
    let evaluation = Evaluation::new(books.world(), &rig);
    evaluation.run();
    let applied = rules::apply(books, &evaluation, wanted);
    let mut findings = faults.into_inner();
    findings.extend(evaluation.into_findings());
    findings.extend(applied.faults);
    OfRig {
        findings,
        found: applied.found,
        skipped: applied.skipped,
    }
}

/// A finding whose every cause lies in the base, and which the base shows, is not repeated.
fn not_repeated(world: &World<'_>, found: Vec<Found>) -> Vec<Finding> {
    let mut shown: FxHashMap<BlockId, FxHashSet<(String, Vec<Place>)>> = FxHashMap::default();
    for one in &found {
        let key = (one.finding.code.to_string(), one.blame.clone());
        shown.entry(one.rig).or_default().insert(key);
    }
    let repeats = |one: &Found| {
        let chain = rig::blocks::chain(world, world.project.block(one.rig)).unwrap_or_default();
        let key = (one.finding.code.to_string(), one.blame.clone());
        let bases = chain.iter().filter(|base| base.id != one.rig);
        one.inherited
            && bases
                .into_iter()
                .any(|base| shown.get(&base.id).is_some_and(|shown| shown.contains(&key)))
    };
    let kept: Vec<bool> = found.iter().map(|one| !repeats(one)).collect();
    found
        .into_iter()
        .zip(kept)
        .filter(|(_, kept)| *kept)
        .map(|(one, _)| one.finding)
        .collect()
}

/// No more findings of one text than a person would read; one tells of those left out.
pub(crate) fn capped(findings: Vec<Finding>) -> Vec<Finding> {
    let mut kept: Vec<Finding> = Vec::with_capacity(findings.len().min(syntax::FINDING_LIMIT + 1));
    let (mut of_text, mut text) = (0, None);
    for finding in findings {
        if text != Some(finding.place().text) {
            (of_text, text) = (0, Some(finding.place().text));
        }
        of_text += 1;
        if of_text <= syntax::FINDING_LIMIT {
            kept.push(finding);
        } else if of_text == syntax::FINDING_LIMIT + 1 {
            let message = "this text has more findings than are told at once; those above are the first";
            let place = finding.place();
            kept.push(
                Finding::fault("findings-left-out", place, message)
                    .help("mend the first ones and check again"),
            );
        }
    }
    kept
}

/// In the order of the texts; what a base and the rigs made from it both report is kept once.
pub(crate) fn ordered(mut findings: Vec<Finding>) -> Vec<Finding> {
    let mut seen: FxHashSet<(String, Place, String)> = FxHashSet::default();
    findings
        .retain(|finding| seen.insert((finding.code.to_string(), finding.place(), finding.message.clone())));
    findings.sort_by_key(Finding::place);
    findings
}
