//! What is wrong with one block, whatever kind it is.

use crate::answers::Kept;
use snell_finding::Finding;
use snell_rig::faults::Faults;
use snell_rig::project::{BlockRef, LineRef, Project};
use snell_rig::{Evaluation, World};
use snell_rules::{Books, Found, Skipped, Wanted};
use snell_syntax::BlockKind;
use snell_text::Place;

/// What is wrong with one block.
#[derive(Clone, Debug, Default)]
pub(crate) struct OfBlock {
    /// With its lines, where it is no rig.
    pub(crate) read: Vec<Finding>,
    /// With its lines, where it is a rule or a rulebook.
    pub(crate) rule: Vec<Finding>,
    /// With the rig of an outing as it was fished.
    pub(crate) outing: Vec<Finding>,
    /// With its lines, its claims and its rulebooks, where it is a rig.
    pub(crate) rig: Vec<Finding>,
    /// By rules.
    pub(crate) found: Vec<Found>,
    pub(crate) skipped: Vec<Skipped>,
    /// How many values were worked out for it.
    pub(crate) worked: usize,
}

impl OfBlock {
    fn findings_mut(&mut self) -> impl Iterator<Item = &mut Finding> {
        let own = [&mut self.read, &mut self.rule, &mut self.outing, &mut self.rig];
        let found = self.found.iter_mut().map(|found| &mut found.finding);
        own.into_iter().flatten().chain(found)
    }
}

impl Kept for OfBlock {
    fn each_place(&mut self, look: &mut dyn FnMut(&mut Place)) {
        self.findings_mut().for_each(|finding| finding.each_place(look));
        let blamed = self.found.iter_mut().flat_map(|found| &mut found.blame);
        blamed.for_each(look);
    }
}

/// Looks at a block; what is asked of the world is all that the answer comes of.
pub(crate) fn of_block<'p>(
    world: &World<'p>,
    books: &Books<'_, 'p>,
    block: BlockRef<'p>,
    wanted: Wanted,
) -> OfBlock {
    let mut of = OfBlock::default();
    match block.kind() {
        BlockKind::Rig => {
            let faults = Faults::default();
            let rig = snell_rig::read(world, block, &faults);
            let evaluation = Evaluation::new(world, &rig);
            evaluation.run();
            let applied = snell_rules::apply(books, &evaluation, wanted);
            of.worked = evaluation.worked_out() + applied.worked;
            of.rig = faults.into_inner();
            of.rig.extend(evaluation.into_findings());
            of.rig.extend(applied.faults);
            of.found = applied.found;
            of.skipped = applied.skipped;
        }
        BlockKind::Rule => of.rule = books.rule_faults(world, block.id).to_vec(),
        BlockKind::Rulebook => of.rule = books.rulebook_faults(world, block.id),
        BlockKind::Outing => of.outing = of_outing(world, block),
        BlockKind::Rod
        | BlockKind::Water
        | BlockKind::Bed
        | BlockKind::Material
        | BlockKind::Spool
        | BlockKind::Knot
        | BlockKind::Dressing
        | BlockKind::Fly => {}
    }
    if block.kind() != BlockKind::Rig {
        of.read = world.findings(block.id).to_vec();
    }
    for finding in of.findings_mut() {
        for label in finding
            .labels
            .iter_mut()
            .filter(|label| label.place.span.is_empty())
        {
            label.place = line_at(world.project, label.place).unwrap_or(label.place);
        }
    }
    of
}

/// The whole line at a place. A finding points at it where its author left out the words that it is about.
fn line_at(project: &Project, place: Place) -> Option<Place> {
    let block = project.block(project.block_above(place)?);
    let lines = block.head_line().into_iter().chain(block.lines());
    lines.map(LineRef::whole).find(|line| line.span.holds(place.span))
}

/// What is wrong with the rig of an outing as it was fished, and with the flies that the outing names.
fn of_outing<'p>(world: &World<'p>, block: BlockRef<'p>) -> Vec<Finding> {
    let Some(outing) = world.read(block.id).outing() else {
        return Vec::new();
    };
    let faults = Faults::default();
    let rig = snell_rig::read(world, block, &faults);
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
