//! What is asked of one snapshot of the texts: what is wrong with a block, with
//! a text, with all; and the mends of what was found.
//!
//! Nothing is worked out before it is asked for, and no more of the texts is
//! looked at than the answer hangs on.

use crate::answers::Kept;
use crate::load::Notebook;
use rustc_hash::{FxHashMap, FxHashSet};
use snell_finding::{Code, Finding, Fix, Stage};
use snell_rig::blocks::Read;
use snell_rig::faults::Faults;
use snell_rig::project::BlockRef;
use snell_rig::{BlockId, Evaluation, Lookup, World};
use snell_rules::{Books, Found, Skipped, Wanted};
use snell_syntax::BlockKind;
use snell_text::{Place, TextId};
use std::collections::BTreeMap;
use std::ops::ControlFlow;
use std::thread;

/// Below this many blocks a second thread costs more than it brings.
const WORTH_A_THREAD: usize = 64;

/// Whether nobody wants the answer any more.
pub type Stop<'s> = &'s (dyn Fn() -> bool + Sync);

/// One snapshot that is asked.
pub struct Query<'q, 'n> {
    pub notebook: &'n Notebook,
    pub world: &'q World<'n>,
    pub books: &'q Books<'q, 'n>,
}

/// What is wrong with one block.
#[derive(Clone, Debug, Default)]
pub struct OfBlock {
    /// With its lines, where it is no rig.
    read: Vec<Finding>,
    /// With its lines, where it is a rule or a rulebook.
    rule: Vec<Finding>,
    /// With the rig of an outing as it was fished.
    outing: Vec<Finding>,
    /// With its lines, its claims and its rulebooks, where it is a rig.
    rig: Vec<Finding>,
    /// By rules.
    pub found: Vec<Found>,
    skipped: Vec<Skipped>,
}

impl Kept for OfBlock {
    fn each_place(&mut self, look: &mut dyn FnMut(&mut Place)) {
        let own = [&mut self.read, &mut self.rule, &mut self.outing, &mut self.rig];
        own.into_iter()
            .flatten()
            .for_each(|finding| finding.each_place(look));
        for found in &mut self.found {
            found.finding.each_place(look);
            found.blame.iter_mut().for_each(&mut *look);
        }
    }
}

impl Notebook {
    /// Asks this snapshot.
    pub fn ask<'n, T>(&'n self, ask: impl FnOnce(&Query<'_, 'n>) -> T) -> T {
        let world = World::new(self.project());
        let books = Books::new(&world);
        ask(&Query {
            notebook: self,
            world: &world,
            books: &books,
        })
    }
}

impl<'n> Query<'_, 'n> {
    /// An answer about a block that may be kept: it must come of nothing but what is asked of the world that is
    /// handed over.
    pub fn kept<T: Kept>(&self, block: BlockId, work_out: impl FnOnce(&World<'n>) -> T) -> T {
        self.notebook.answers().of(self.world.project, block, || {
            let world = self.world.noting();
            let answer = work_out(&world);
            (answer, world.noted())
        })
    }

    /// What is wrong with a block; without mends it may have been kept.
    pub fn of_block(&self, block: BlockRef<'n>, wanted: Wanted) -> OfBlock {
        match wanted {
            Wanted::Bare => self.kept(block.id, |world| self.work_out(world, block, wanted)),
            Wanted::Found | Wanted::Skipped => self.work_out(self.world, block, wanted),
        }
    }

    fn work_out(&self, world: &World<'n>, block: BlockRef<'n>, wanted: Wanted) -> OfBlock {
        let mut of = OfBlock::default();
        match block.kind() {
            BlockKind::Rig => {
                let faults = Faults::default();
                let rig = snell_rig::rig::read(world, block, &faults);
                let evaluation = Evaluation::new(world, &rig);
                evaluation.run();
                let applied = snell_rules::apply(self.books, &evaluation, wanted);
                of.rig = faults.into_inner();
                of.rig.extend(evaluation.into_findings());
                of.rig.extend(applied.faults);
                of.found = applied.found;
                of.skipped = applied.skipped;
            }
            kind => {
                of.read = world.findings(block.id).to_vec();
                of.rule = match kind {
                    BlockKind::Rule => self.books.rule_faults(world, block.id).to_vec(),
                    BlockKind::Rulebook => self.books.rulebook_faults(world, block.id),
                    _ => Vec::new(),
                };
                if kind == BlockKind::Outing {
                    of.outing = of_outing(world, block);
                }
            }
        }
        of
    }

    /// Looks for the mends of what rules found of one rig, one finding after the other, until enough is known.
    fn mends(
        &self,
        rig: BlockRef<'n>,
        found: &[Found],
        enough: &mut dyn FnMut(usize, Vec<Fix>) -> ControlFlow<()>,
    ) {
        if found.iter().any(|found| found.mendable) {
            let rig = snell_rig::rig::read(self.world, rig, &Faults::default());
            snell_rules::mends(self.books, &Evaluation::new(self.world, &rig), found, enough);
        }
    }

    /// What is wrong with some blocks, in the order in which a check tells it; nothing if it was stopped.
    pub fn findings(&self, blocks: &[BlockRef<'n>], wanted: Wanted, stop: Stop<'_>) -> Option<Checked> {
        let all = in_threads(blocks, |block| (!stop()).then(|| self.of_block(*block, wanted)));
        if all.len() < blocks.len() {
            return None;
        }
        let mut checked = Checked::default();
        let findings = &mut checked.findings;
        findings.extend(blocks.iter().filter_map(|block| self.world.named_twice(*block)));
        findings.extend(all.iter().flat_map(|of| &of.read).cloned());
        findings.extend(blocks.iter().filter_map(|block| self.world.replaces(*block)));
        let parts: [fn(&OfBlock) -> &Vec<Finding>; 3] = [|of| &of.rule, |of| &of.outing, |of| &of.rig];
        for part in parts {
            findings.extend(all.iter().flat_map(part).cloned());
        }
        let shown = Shown::of(blocks, &all);
        let told: Vec<Vec<Finding>> = blocks
            .iter()
            .zip(&all)
            .map(|(block, of)| self.told(*block, &of.found, &shown, wanted))
            .collect();
        checked.rigs = blocks
            .iter()
            .filter(|block| block.kind() == BlockKind::Rig)
            .count();
        checked.findings.extend(told.into_iter().flatten());
        checked.skipped = all.into_iter().flat_map(|of| of.skipped).collect();
        Some(checked)
    }

    /// What rules found of a rig, without what its bases show.
    fn told(&self, rig: BlockRef<'n>, found: &[Found], shown: &Shown<'_>, wanted: Wanted) -> Vec<Finding> {
        let (own, inherited): (Vec<&Found>, Vec<&Found>) = found.iter().partition(|found| !found.inherited);
        let mut told: Vec<Finding> = own.into_iter().map(|found| found.finding.clone()).collect();
        let mut left = self.not_shown(rig, inherited, shown);
        if wanted >= Wanted::Found {
            let mut all = vec![Vec::new(); left.len()];
            self.mends(rig, &left, &mut |index, mends| {
                all[index] = mends;
                ControlFlow::Continue(())
            });
            for (found, mends) in left.iter_mut().zip(all) {
                found.finding.fixes = mends;
            }
        }
        told.extend(left.into_iter().map(|found| found.finding));
        told
    }

    /// A finding whose every cause lies in a base, and which that base shows, is not repeated.
    fn not_shown(&self, rig: BlockRef<'n>, inherited: Vec<&Found>, shown: &Shown<'_>) -> Vec<Found> {
        if inherited.is_empty() {
            return Vec::new();
        }
        let chain = snell_rig::blocks::lineage(&self.world.names, rig).unwrap_or_default();
        let bases: Vec<BlockRef<'n>> = chain.into_iter().filter(|base| base.id != rig.id).collect();
        let apart = bases.iter().filter(|base| !shown.knows(base.id));
        let apart: Vec<Found> = apart
            .flat_map(|base| self.of_block(*base, Wanted::Bare).found)
            .collect();
        let is_shown = |found: &Found| {
            bases.iter().any(|base| shown.by(base.id, found)) || apart.iter().any(|other| alike(found, other))
        };
        inherited
            .into_iter()
            .filter(|found| !is_shown(found))
            .cloned()
            .collect()
    }

    /// What is wrong with some blocks and with all that they are made from, and with nothing else in their texts.
    pub fn findings_of(&self, blocks: &[BlockRef<'n>]) -> Vec<Finding> {
        let project = self.world.project;
        let mut ids: Vec<BlockId> = blocks.iter().flat_map(|block| self.known_by(*block)).collect();
        ids.sort_unstable();
        ids.dedup();
        let texts: FxHashSet<TextId> = ids.iter().map(|id| project.source(id.file).file.text).collect();
        let concerns = |finding: &&Finding| {
            let place = finding.place();
            let stage = finding.code.known().map(Code::stage);
            let of_text = matches!(stage, Some(Stage::Files | Stage::Articles));
            let within = || {
                project
                    .block_above(place)
                    .is_some_and(|id| ids.binary_search(&id).is_ok())
            };
            texts.contains(&place.text) && (of_text || within())
        };
        let all: Vec<BlockRef<'n>> = ids.iter().map(|id| project.block(*id)).collect();
        let mut findings: Vec<Finding> = self.notebook.reading().iter().filter(concerns).cloned().collect();
        findings.extend(
            self.findings(&all, Wanted::Bare, &|| false)
                .unwrap_or_default()
                .findings,
        );
        capped(ordered(findings))
    }

    /// The blocks that a block is known by: itself, and all that was looked up to say what is wrong with it.
    fn known_by(&self, block: BlockRef<'n>) -> Vec<BlockId> {
        let world = self.world.noting();
        self.work_out(&world, block, Wanted::Bare);
        let blocks = |lookup: Lookup| self.world.project.look_up(&lookup).1.into_iter().flatten();
        let mut known: Vec<BlockId> = world.noted().into_iter().flat_map(blocks).collect();
        known.push(block.id);
        known.retain(|id| !self.world.project.ships(id.file));
        known.sort_unstable();
        known.dedup();
        known
    }

    /// Looks for the mends of findings, rig by rig and one finding of it after the other; with `Break` the next rig's
    /// come.
    pub fn each_mends(&self, findings: &[Finding], look: &mut dyn FnMut(usize, Vec<Fix>) -> ControlFlow<()>) {
        let project = self.world.project;
        let mut by_rig: BTreeMap<BlockId, Vec<usize>> = BTreeMap::new();
        for (index, finding) in findings
            .iter()
            .enumerate()
            .filter(|(_, finding)| finding.rig.is_some())
        {
            if let Some(rig) = project.block_above(finding.place()) {
                by_rig.entry(rig).or_default().push(index);
            }
        }
        for (rig, indices) in by_rig {
            let rig = project.block(rig);
            let of_rig = self.of_block(rig, Wanted::Bare).found;
            let found = |index: &usize| {
                let found = of_rig
                    .iter()
                    .find(|found| same(&found.finding, &findings[*index]))?;
                found.mendable.then(|| (*index, found.clone()))
            };
            let (indices, found): (Vec<usize>, Vec<Found>) = indices.iter().filter_map(found).unzip();
            self.mends(rig, &found, &mut |index, mends| look(indices[index], mends));
        }
    }

    /// Findings with the mends that rules propose.
    pub fn with_mends(&self, findings: Vec<Finding>) -> Vec<Finding> {
        let mut mended = findings.clone();
        self.each_mends(&findings, &mut |index, mends| {
            mended[index].fixes = mends;
            ControlFlow::Continue(())
        });
        mended
    }

    /// What is wrong with one text and no other.
    pub fn findings_in(&self, text: TextId, stop: Stop<'_>) -> Option<Vec<Finding>> {
        let project = self.world.project;
        let own = project
            .own_files()
            .filter(|file| project.source(*file).file.text == text);
        let blocks: Vec<BlockRef<'n>> = own.flat_map(|file| project.blocks(file)).collect();
        let mut findings = self.notebook.reading().to_vec();
        findings.extend(self.findings(&blocks, Wanted::Bare, stop)?.findings);
        findings.retain(|finding| finding.place().text == text);
        Some(capped(ordered(findings)))
    }
}

/// Whether two findings say the same of one place.
fn same(one: &Finding, other: &Finding) -> bool {
    (&one.code, one.place(), &one.message) == (&other.code, other.place(), &other.message)
}

/// Whether two findings are told of the same places by the same rule.
fn alike(one: &Found, other: &Found) -> bool {
    one.finding.code == other.finding.code && one.blame == other.blame
}

/// What rules found of each rig that is looked at.
struct Shown<'a>(FxHashMap<BlockId, FxHashSet<(&'a str, &'a [Place])>>);

impl<'a> Shown<'a> {
    fn of(blocks: &[BlockRef<'_>], all: &'a [OfBlock]) -> Self {
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

    fn knows(&self, rig: BlockId) -> bool {
        self.0.contains_key(&rig)
    }

    fn by(&self, rig: BlockId, found: &Found) -> bool {
        let key = (&*found.finding.code, &*found.blame);
        self.0.get(&rig).is_some_and(|shown| shown.contains(&key))
    }
}

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

/// What is wrong with the rig of an outing as it was fished, and with the flies that the outing names.
fn of_outing<'p>(world: &World<'p>, block: BlockRef<'p>) -> Vec<Finding> {
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

/// What came of each, in their order however many threads work on them; what comes to nothing is left out.
pub fn in_threads<'t, T: Sync, R: Send>(all: &'t [T], one: impl Fn(&'t T) -> Option<R> + Sync) -> Vec<R> {
    let threads = thread::available_parallelism().map_or(1, usize::from);
    in_so_many_threads(threads, all, &one)
}

fn in_so_many_threads<'t, T: Sync, R: Send>(
    threads: usize,
    all: &'t [T],
    one: &(impl Fn(&'t T) -> Option<R> + Sync),
) -> Vec<R> {
    if threads == 1 || all.len() < WORTH_A_THREAD {
        return all.iter().filter_map(one).collect();
    }
    thread::scope(|scope| {
        let shares = all.chunks(all.len().div_ceil(threads));
        let running: Vec<_> = shares
            .map(|share| scope.spawn(move || share.iter().filter_map(one).collect::<Vec<R>>()))
            .collect();
        let joined = running.into_iter().map(thread::ScopedJoinHandle::join);
        joined
            .flat_map(|done| done.unwrap_or_else(|panic| std::panic::resume_unwind(panic)))
            .collect()
    })
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
