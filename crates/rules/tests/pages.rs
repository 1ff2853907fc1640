//! Every page of the book is a test: its good fences stay silent for its rule,
//! its bad ones find exactly what their caret lines say.

use report::{Finding, Level};
use rig::project::Source;
use rig::value::Faults;
use rig::{Evaluation, World};
use rules::Books;
use std::sync::Arc;
use syntax::BlockKind;
use text::{FenceTag, Span, TextId};

/// What is found in one fence of a page.
fn findings(text: &str, lines: &[Span]) -> Vec<Finding> {
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
type Expected = (u32, String, String);

/// The caret lines of a fence, each about the nearest line above that is none.
fn carets(text: &str, lines: &[Span]) -> Vec<Expected> {
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

fn line_start(text: &str, at: u32) -> u32 {
    text[..at as usize].rfind('\n').map_or(0, |end| end as u32 + 1)
}

#[test]
fn every_page_keeps_its_word() {
    let mut wrong = Vec::new();
    for page in rules::pages() {
        let fences = text::fences(page.text);
        for tag in [FenceTag::Good, FenceTag::Bad] {
            let is_rule = page.name != page.folder;
            if is_rule && !fences.iter().any(|fence| fence.tag == tag) {
                wrong.push(format!("{}: no {tag:?} fence", page.name));
            }
        }
        for fence in &fences {
            let found = findings(page.text, &fence.lines);
            let own = |finding: &&Finding| *finding.code == *page.name;
            match fence.tag {
                FenceTag::Good => wrong.extend(found.iter().filter(own).map(|finding| format!("{}: good, yet: {}", page.name, finding.message))),
                FenceTag::Bad => {
                    let heavy = found.iter().filter(|finding| own(finding) || finding.level >= Level::Caution);
                    let mut actual: Vec<Expected> = heavy
                        .map(|finding| {
                            let span = finding.place().span;
                            (line_start(page.text, span.start), finding.code.to_string(), span.of(page.text).to_owned())
                        })
                        .collect();
                    actual.sort();
                    let expected = carets(page.text, &fence.lines);
                    if actual != expected {
                        wrong.push(format!("{}: bad\n  expected {expected:?}\n  found    {actual:?}", page.name));
                    }
                }
                FenceTag::Shared => {
                    let faults = found.iter().filter(|finding| finding.level == Level::Fault);
                    wrong.extend(faults.map(|finding| format!("{}: {}: {}", page.name, finding.code, finding.message)));
                }
                FenceTag::Alone => {}
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn every_rule_that_ships_has_its_reason_and_its_source() {
    let project = rules::project();
    let (world, found) = World::new(&project);
    assert!(found.is_empty(), "{found:?}");
    let faults = Faults::default();
    let _ = Books::read(&world, &faults);
    let found = faults.into_inner();
    assert!(found.is_empty(), "{found:?}");
    let mut rules = 0;
    for block in project.files().flat_map(|file| project.blocks(file)) {
        if block.head().is_some_and(|head| head.kind == BlockKind::Rule) {
            let rule = rules::Rule::read(&world, block, &Faults::default()).expect("a whole rule");
            assert!(rule.source.is_some_and(|source| !source.trim().is_empty()), "{} has no source", rule.name);
            assert!(rule.about.is_some_and(|about| !about.trim().is_empty()), "{} has no reason", rule.name);
            rules += 1;
        }
    }
    assert!(rules > 0);
}
