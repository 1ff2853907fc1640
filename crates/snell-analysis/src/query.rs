//! What is asked of one snapshot of the texts: what is wrong with a block, with
//! a text, with all; and the mends of what was found.
//!
//! Nothing is worked out before it is asked for, and no more of the texts is
//! looked at than the answer hangs on.

use crate::answers::{By, Kept};
use crate::notebook::Notebook;
use crate::of_block::{OfBlock, of_block};
use crate::order::{capped, ordered};
use crate::shown::{Shown, alike, same};
use crate::threads::in_threads;
use rustc_hash::FxHashSet;
use snell_finding::{Code, Finding, Fix, Stage};
use snell_rig::faults::Faults;
use snell_rig::project::BlockRef;
use snell_rig::{BlockId, Evaluation, Lookup, World};
use snell_rules::{Books, Found, Skipped, Wanted};
use snell_syntax::BlockKind;
use snell_text::TextId;
use snell_units::in_order;
use std::collections::BTreeMap;
use std::ops::ControlFlow;

/// Whether nobody wants the answer any more.
pub type Stop<'s> = &'s (dyn Fn() -> bool + Sync);

/// One snapshot that is asked.
pub struct Query<'q, 'n> {
    pub notebook: &'n Notebook,
    pub world: &'q World<'n>,
    pub books: &'q Books<'q, 'n>,
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
        self.made_from(block, work_out).0
    }

    /// The same, with what it was made from.
    fn made_from<T: Kept>(&self, block: BlockId, work_out: impl FnOnce(&World<'n>) -> T) -> (T, By) {
        self.notebook.answers().of(self.world.project, block, || {
            let world = self.world.noting();
            let answer = work_out(&world);
            (answer, world.noted())
        })
    }

    /// What is wrong with a block; without mends it may have been kept.
    fn of_block(&self, block: BlockRef<'n>, wanted: Wanted) -> OfBlock {
        match wanted {
            Wanted::Bare => self.kept(block.id, |world| self.work_out(world, block, wanted)),
            Wanted::Found | Wanted::Skipped => self.work_out(self.world, block, wanted),
        }
    }

    fn work_out(&self, world: &World<'n>, block: BlockRef<'n>, wanted: Wanted) -> OfBlock {
        let of = of_block(world, self.books, block, wanted);
        self.notebook.answers().note_worked(of.worked);
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
            let rig = snell_rig::read(self.world, rig, &Faults::default());
            let evaluation = Evaluation::new(self.world, &rig);
            let worked = snell_rules::mends(self.books, &evaluation, found, enough);
            self.notebook
                .answers()
                .note_worked(evaluation.worked_out() + worked);
        }
    }

    /// What is wrong with some blocks, in the order in which a check tells it; nothing if it was stopped.
    pub fn findings(&self, blocks: &[BlockRef<'n>], wanted: Wanted, stop: Stop<'_>) -> Option<Checked> {
        let mut all = self.of_blocks(blocks, wanted, stop)?;
        let repeated = self.repeated(blocks, &all);
        let mut checked = Checked::default();
        let findings = &mut checked.findings;
        findings.extend(blocks.iter().filter_map(|block| self.world.named_twice(*block)));
        findings.extend(all.iter_mut().flat_map(|of| std::mem::take(&mut of.read)));
        findings.extend(blocks.iter().filter_map(|block| self.world.replaces(*block)));
        let parts: [fn(&mut OfBlock) -> &mut Vec<Finding>; 3] =
            [|of| &mut of.rule, |of| &mut of.outing, |of| &mut of.rig];
        for part in parts {
            findings.extend(all.iter_mut().flat_map(|of| std::mem::take(part(of))));
        }
        for ((block, of), repeated) in blocks.iter().zip(all).zip(repeated) {
            checked.rigs += usize::from(block.kind() == BlockKind::Rig);
            checked.skipped.extend(of.skipped);
            let mut of_bases = Vec::new();
            for (found, repeated) in of.found.into_iter().zip(repeated) {
                match (repeated, found.inherited) {
                    (true, _) => {}
                    (false, true) => of_bases.push(found),
                    (false, false) => checked.findings.push(found.finding),
                }
            }
            if wanted >= Wanted::Found {
                self.mend(*block, &mut of_bases);
            }
            checked
                .findings
                .extend(of_bases.into_iter().map(|found| found.finding));
        }
        Some(checked)
    }

    /// What is wrong with each of some blocks: what is kept first, for which no thread is worth its while.
    fn of_blocks(&self, blocks: &[BlockRef<'n>], wanted: Wanted, stop: Stop<'_>) -> Option<Vec<OfBlock>> {
        let kept = |block: &BlockRef<'n>| match wanted {
            Wanted::Bare => self.notebook.answers().kept(self.world.project, block.id),
            Wanted::Found | Wanted::Skipped => None,
        };
        let known: Vec<Option<OfBlock>> = blocks.iter().map(|block| kept(block).map(|(of, _)| of)).collect();
        let unknown = blocks.iter().zip(&known).filter(|(_, known)| known.is_none());
        let unknown: Vec<BlockRef<'n>> = unknown.map(|(block, _)| *block).collect();
        let new = in_threads(&unknown, |block| (!stop()).then(|| self.of_block(*block, wanted)));
        if new.len() < unknown.len() {
            return None;
        }
        let mut new = new.into_iter();
        known
            .into_iter()
            .map(|known| known.or_else(|| new.next()))
            .collect()
    }

    /// Puts the mends of what rules found of a rig where they belong.
    fn mend(&self, rig: BlockRef<'n>, found: &mut [Found]) {
        let mut all = vec![Vec::new(); found.len()];
        self.mends(rig, found, &mut |index, mends| {
            all[index] = mends;
            ControlFlow::Continue(())
        });
        for (found, mends) in found.iter_mut().zip(all) {
            found.finding.fixes = mends;
        }
    }

    /// Of each finding by rules whether it is not to be told: every cause of it lies in a base, which shows it.
    fn repeated(&self, blocks: &[BlockRef<'n>], all: &[OfBlock]) -> Vec<Vec<bool>> {
        let shown = Shown::of(blocks, all);
        let of_rig = |(rig, of): (&BlockRef<'n>, &OfBlock)| {
            if !of.found.iter().any(|found| found.inherited) {
                return vec![false; of.found.len()];
            }
            let chain = snell_rig::blocks::lineage(&self.world.names, *rig).unwrap_or_default();
            let bases: Vec<BlockRef<'n>> = chain.into_iter().filter(|base| base.id != rig.id).collect();
            let apart = bases.iter().filter(|base| !shown.knows(base.id));
            let apart: Vec<Found> = apart
                .flat_map(|base| self.of_block(*base, Wanted::Bare).found)
                .collect();
            let is_shown = |found: &Found| {
                bases.iter().any(|base| shown.by(base.id, found))
                    || apart.iter().any(|other| alike(found, other))
            };
            of.found
                .iter()
                .map(|found| found.inherited && is_shown(found))
                .collect()
        };
        blocks.iter().zip(all).map(of_rig).collect()
    }

    /// What is wrong with some blocks and with all that they are made from, and with nothing else in their texts.
    pub fn findings_of(&self, blocks: &[BlockRef<'n>]) -> Vec<Finding> {
        let project = self.world.project;
        let known_by = |block: &BlockRef<'n>| {
            let work_out = |world: &World<'n>| self.work_out(world, *block, Wanted::Bare);
            self.made_from(block.id, work_out).1
        };
        let found = |lookup: &Lookup| project.look_up(lookup).1.into_iter().flatten();
        let mut ids: Vec<BlockId> = blocks.iter().map(|block| block.id).collect();
        for by in blocks.iter().map(known_by) {
            ids.extend(by.iter().flat_map(|(lookup, _)| found(lookup)));
        }
        ids.retain(|id| !project.ships(id.file));
        in_order(&mut ids, Ord::cmp);
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
