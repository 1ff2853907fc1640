//! What the tests of rules share: what is found in a text.

use report::Finding;
use rig::project::Source;
use rig::value::Faults;
use rig::{Evaluation, World};
use rules::Books;
use std::sync::Arc;
use syntax::BlockKind;
use text::{Span, TextId};

/// What is found in the passages of a text, each rig by itself.
pub fn findings(text: &str, lines: &[Span]) -> Vec<Finding> {
    let mut project = rules::project();
    let file = syntax::read(text, TextId(0), &[lines.to_vec()]);
    let mut findings = file.findings.clone();
    let id = project.add(Source {
        name: "page".to_owned(),
        text: Arc::from(text),
        file,
        uses: Vec::new(),
    });
    let (world, found) = World::new(&project);
    findings.extend(found);
    let faults = Faults::default();
    let books = Books::read(&world, &faults);
    for block in project
        .blocks(id)
        .filter(|block| block.head().is_some_and(|head| head.kind == BlockKind::Rig))
    {
        let rig = rig::rig::read(&world, block, &faults);
        let evaluation = Evaluation::new(&world, &rig);
        evaluation.run();
        let applied = rules::apply(&books, &evaluation, rules::Wanted::Found);
        findings.extend(applied.faults);
        findings.extend(applied.found.into_iter().map(|found| found.finding));
        findings.extend(evaluation.into_findings());
    }
    findings.extend(faults.into_inner());
    findings.sort_by_key(Finding::place);
    findings
}
