//! Every page of the book is a test: its good fences stay silent for its rule,
//! its bad ones find exactly what their caret lines say.

mod carets;
mod common;

use carets::{Expected, carets, line_start};
use common::findings;
use snell_finding::{Finding, Level};
use snell_rig::World;
use snell_rig::faults::Faults;
use snell_syntax::BlockKind;
use snell_text::FenceTag;

#[test]
fn every_page_keeps_its_word() {
    let mut wrong = Vec::new();
    for page in snell_rules::pages() {
        let fences = snell_text::fences(page.text);
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
                FenceTag::Good => wrong.extend(
                    found
                        .iter()
                        .filter(own)
                        .map(|finding| format!("{}: good, yet: {}", page.name, finding.message)),
                ),
                FenceTag::Bad => {
                    let heavy = found
                        .iter()
                        .filter(|finding| own(finding) || finding.level >= Level::Caution);
                    let mut actual: Vec<Expected> = heavy
                        .map(|finding| {
                            let span = finding.place().span;
                            (
                                line_start(page.text, span.start),
                                finding.code.to_string(),
                                span.of(page.text).to_owned(),
                            )
                        })
                        .collect();
                    actual.sort();
                    let expected = carets(page.text, &fence.lines);
                    if actual != expected {
                        wrong.push(format!(
                            "{}: bad\n  expected {expected:?}\n  found    {actual:?}",
                            page.name
                        ));
                    }
                }
                FenceTag::Shared => {
                    let faults = found.iter().filter(|finding| finding.level == Level::Fault);
                    wrong.extend(
                        faults.map(|finding| format!("{}: {}: {}", page.name, finding.code, finding.message)),
                    );
                }
                FenceTag::Alone => {}
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn every_rule_that_ships_has_its_reason_and_its_source() {
    let project = snell_rules::project();
    let world = World::new(&project);
    let mut rules = 0;
    for block in project.files().flat_map(|file| project.blocks(file)) {
        let head = block.head().map(|head| (head.kind, head.name.folded.clone()));
        let listed = &project.placed(block.id).block.opens;
        assert_eq!(head, *listed, "what is listed of a page is what is read of it");
        if block.kind() == BlockKind::Rule {
            let faults = Faults::default();
            let rule = snell_rules::Rule::read(&world, block, &faults).expect("a whole rule");
            assert_eq!(faults.into_inner(), [], "{}", rule.name);
            assert!(
                rule.source.is_some_and(|source| !source.trim().is_empty()),
                "{} has no source",
                rule.name
            );
            assert!(
                rule.about.is_some_and(|about| !about.trim().is_empty()),
                "{} has no reason",
                rule.name
            );
            rules += 1;
        }
    }
    assert!(rules > 0);
}
