//! What the tests of rules share: what is found in a text.

use snell_finding::Finding;
use snell_rig::content::File;
use snell_rig::faults::Faults;
use snell_rig::project::Source;
use snell_rig::{Evaluation, World};
use snell_rules::Books;
use snell_syntax::BlockKind;
use snell_text::{Span, TextId};
use std::sync::Arc;

/// What is found in the passages of a text, each rig by itself.
pub fn findings(text: &str, lines: &[Span]) -> Vec<Finding> {
    let mut project = snell_rules::project();
    let file = snell_syntax::read(text, TextId(0), &[lines.to_vec()]);
    let mut findings = file.findings.clone();
    let file = File::new(text, file);
    let id = project.add(Source::new("page", Arc::from(text), file));
    let world = World::new(&project);
    let faults = Faults::default();
    let books = Books::new(&world);
    for block in project.blocks(id) {
        findings.extend(world.named_twice(block));
        findings.extend(world.replaces(block));
        findings.extend_from_slice(world.findings(block.id));
        findings.extend_from_slice(books.rule_faults(&world, block.id));
    }
    for block in project
        .blocks(id)
        .filter(|block| block.head().is_some_and(|head| head.kind == BlockKind::Rig))
    {
        let rig = snell_rig::read(&world, block, &faults);
        let evaluation = Evaluation::new(&world, &rig);
        evaluation.run();
        let applied = snell_rules::apply(&books, &evaluation, snell_rules::Wanted::Found);
        findings.extend(applied.faults);
        findings.extend(applied.found.into_iter().map(|found| found.finding));
        findings.extend(evaluation.into_findings());
    }
    findings.extend(faults.into_inner());
    findings.sort_by_key(Finding::place);
    findings
}
