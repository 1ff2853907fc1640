//! What the tests of rules share: what is found in a text, and what its caret lines expect.

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
    for block in project.blocks(id).filter(|block| block.head().is_some_and(|head| head.kind == BlockKind::Rig)) {
        let rig = rig::rig::read(&world, block, &faults);
        let evaluation = Evaluation::new(&world, &rig);
        evaluation.run();
        let applied = rules::apply(&books, &evaluation);
        findings.extend(applied.faults);
        findings.extend(applied.found.into_iter().map(|found| found.finding));
        findings.extend(evaluation.into_findings());
    }
    findings.extend(faults.into_inner());
    findings.sort_by_key(Finding::place);
    findings
}

/// A rule's name and the words that it is found at, by line.
pub type Expected = (u32, String, String);

/// The caret lines of a passage, each about the nearest line above that is none.
pub fn carets(text: &str, lines: &[Span]) -> Vec<Expected> {
    let mut expected = Vec::new();
    let mut above: Option<Span> = None;
    for line in lines {
        let written = line.of(text);
        let Some(start) = written.find('^').filter(|_| written.trim_start().starts_with("//")) else {
            above = Some(*line);
            continue;
        };
        let end = start + written[start..].chars().take_while(|c| *c == '^').count();
        let above = above.expect("a caret line has a line above it");
        let words = above.of(text).get(start..end).expect("carets stand below words");
        expected.push((above.start, written[end..].trim().to_owned(), words.to_owned()));
    }
    expected.sort();
    expected
}

/// Where the line that holds a place begins.
pub fn line_start(text: &str, at: u32) -> u32 {
    text[..at as usize].rfind('\n').map_or(0, |end| end as u32 + 1)
}
