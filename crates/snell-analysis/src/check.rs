//! Every finding of a notebook, in the order of its texts.

use crate::load::Notebook;
use rustc_hash::{FxHashMap, FxHashSet};
use snell_finding::{Code, Finding};
use snell_rig::blocks::Read;
use snell_rig::faults::Faults;
use snell_rig::project::BlockRef;
use snell_rig::{BlockId, Evaluation, World};
use snell_rules::{Books, Found, Skipped, Wanted};
use snell_syntax::BlockKind;
use snell_text::Place;
use std::thread;

/// Below this many rigs a second thread costs more than it brings.
pub const WORTH_A_THREAD: usize = 64;

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
    let threads = thread::available_parallelism().map_or(1, usize::from);
    examine_by(notebook, wanted, threads)
}

fn examine_by(notebook: &Notebook, wanted: Wanted, threads: usize) -> Checked {
    let project = notebook.project();
    let (world, found) = World::new(project);
    let faults = Faults::default();
    let books = Books::read(&world, &faults);
    let rigs = rigs(&world);
    let checked = of_rigs(&books, &rigs, wanted, threads);
    books.check_rulebooks(&faults);
    let mut findings = notebook.reading().to_vec();
    findings.extend(found);
    findings.extend(faults.into_inner());
    let (mut by_rules, mut skipped) = (Vec::new(), Vec::new());
    findings.extend(
        outings(&world)
            .into_iter()
            .flat_map(|block| of_outing(&world, block)),
    );
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
pub fn rigs<'p>(world: &World<'p>) -> Vec<BlockRef<'p>> {
    let project = world.project;
    let own = project.files().filter(|file| !project.ships(*file));
    let is_rig = |block: &BlockRef<'p>| block.head().is_none_or(|head| head.kind == BlockKind::Rig);
    own.flat_map(|file| project.blocks(file)).filter(is_rig).collect()
}

/// Every outing's block.
pub fn outings<'p>(world: &World<'p>) -> Vec<BlockRef<'p>> {
    let project = world.project;
    let own = project.files().filter(|file| !project.ships(*file));
    let is_outing = |block: &BlockRef<'p>| block.head().is_some_and(|head| head.kind == BlockKind::Outing);
    own.flat_map(|file| project.blocks(file))
        .filter(is_outing)
        .collect()
}

/// What is wrong with the rig of an outing as it was fished, and with the flies that the outing names.
pub fn of_outing<'p>(world: &World<'p>, block: BlockRef<'p>) -> Vec<Finding> {
    let Read::Outing(outing) = world.read(block.id) else {
        return Vec::new();
    };
    let faults = Faults::default();
    let rig = snell_rig::rig::read(world, block, &faults);
    let evaluation = Evaluation::new(world, &rig);
    evaluation.run();
    let mut findings = faults.into_inner();
    findings.extend(evaluation.into_findings());
    if !rig.broken {
        let catches = outing.catches.iter();
        findings.extend(catches.filter_map(|catch| catch.fly(world, &rig.chain).err().map(|told| *told)));
    }
    findings
}

/// What one rig came to.
pub struct OfRig {
    pub findings: Vec<Finding>,
    pub found: Vec<Found>,
    skipped: Vec<Skipped>,
}

/// What each rig came to, in the order of the rigs however many threads work on them.
fn of_rigs<'p>(books: &Books<'_, 'p>, rigs: &[BlockRef<'p>], wanted: Wanted, threads: usize) -> Vec<OfRig> {
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

pub fn of_rig<'p>(books: &Books<'_, 'p>, block: BlockRef<'p>, wanted: Wanted) -> OfRig {
    let faults = Faults::default();
    let rig = snell_rig::rig::read(books.world(), block, &faults);
    let evaluation = Evaluation::new(books.world(), &rig);
    evaluation.run();
    let applied = snell_rules::apply(books, &evaluation, wanted);
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
        let block = world.project.block(one.rig);
        let lineage = snell_rig::blocks::lineage(&world.names, block).unwrap_or_default();
        let key = (one.finding.code.to_string(), one.blame.clone());
        let bases = lineage.iter().filter(|base| base.id != one.rig);
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
pub fn capped(findings: Vec<Finding>) -> Vec<Finding> {
    let mut kept: Vec<Finding> = Vec::with_capacity(findings.len().min(snell_syntax::FINDING_LIMIT + 1));
    let (mut of_text, mut text) = (0, None);
    for finding in findings {
        if text != Some(finding.place().text) {
            (of_text, text) = (0, Some(finding.place().text));
        }
        of_text += 1;
        if of_text <= snell_syntax::FINDING_LIMIT {
            kept.push(finding);
        } else if of_text == snell_syntax::FINDING_LIMIT + 1 {
            let message = "this text has more findings than are told at once; those above are the first";
            let place = finding.place();
            kept.push(
                Finding::fault(Code::FindingsLeftOut, place, message)
                    .help("mend the first ones and check again"),
            );
        }
    }
    kept
}

/// In the order of the texts; what a base and the rigs made from it both report is kept once.
pub fn ordered(mut findings: Vec<Finding>) -> Vec<Finding> {
    let mut seen: FxHashSet<(&str, Place, &str)> = FxHashSet::default();
    let of = findings
        .iter()
        .map(|finding| (&*finding.code, finding.place(), &*finding.message));
    let firsts: Vec<bool> = of.map(|of| seen.insert(of)).collect();
    let mut firsts = firsts.into_iter();
    findings.retain(|_| firsts.next().unwrap_or(true));
    findings.sort_by_key(Finding::place);
    findings
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Kind, LocalDisk};
    use std::fmt::Write;
    use std::path::Path;

    /// A water and rigs in it, some of which are made from others, and most of which break a rule.
    fn book() -> Notebook {
        let mut text = String::from("water run\n  depth 50 cm\n  surface 1.4 m/s\n  bed cobble\n\n");
        for number in 0..2 * WORTH_A_THREAD {
            let written = match number % 4 {
                3 => write!(
                    text,
                    "rig r{number} from r{}\n  change tippet to {} cm\n\n",
                    number - 1,
                    40 + number
                ),
                _ => write!(
                    text,
                    "rig r{number}\n  method tight-line\n  water run\n  sighter 40 cm of 0.20 mm nylon\n  \
                     ring 2 mm\n  tippet {} cm of 6X fluoro\n  point #14 2.8 mm tungsten\n\n",
                    30 + number
                ),
            };
            written.expect("a String takes all that is written to it");
        }
        Notebook::of_text(Path::new("many.rig"), Kind::Rig, text, &LocalDisk)
    }

    #[test]
    fn any_number_of_threads_finds_the_same_in_the_same_order() {
        let book = book();
        let one = examine_by(&book, Wanted::Skipped, 1);
        assert!(
            one.findings.len() > WORTH_A_THREAD,
            "{} findings",
            one.findings.len()
        );
        for threads in [2, 3, 7] {
            let many = examine_by(&book, Wanted::Skipped, threads);
            assert_eq!(many.findings, one.findings, "{threads} threads");
            assert_eq!(many.skipped, one.skipped, "{threads} threads");
            assert_eq!(many.rigs, one.rigs, "{threads} threads");
        }
    }
}
