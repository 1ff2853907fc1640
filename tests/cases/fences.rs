//! A page's rigs are those that its renderer takes for such, dialect by dialect. What the renderers answer is recorded
//! beside the pages; `tests/tools/fences.sh` asks them again.

#![allow(clippy::unwrap_used, reason = "a test may stop at what it did not expect")]

use snell_analysis::{Document, Kind};
use snell_tests::top;
use snell_text::TextId;
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

/// The texts of a page's fences, the order left out: some renderers put notes at the end.
fn fences(name: &str, text: &str) -> Vec<String> {
    let kind = Kind::of(Path::new(name)).unwrap();
    let document = Document::new(TextId(0), name.into(), kind, text.into());
    let cut = |fence: &snell_text::Fence| {
        let lines: Vec<&str> = fence.lines.iter().map(|line| line.of(text)).collect();
        lines.join("\n").trim_end_matches('\n').to_owned()
    };
    let mut found: Vec<String> = document.page().fences.iter().map(cut).collect();
    found.sort();
    found
}

#[test]
fn every_fence_that_a_renderer_takes_for_a_rig_and_no_other() {
    let folder = top().join("tests/data/pages");
    let answers = fs::read_to_string(folder.join("answers.json")).unwrap();
    let answers: BTreeMap<String, Vec<String>> = serde_json::from_str(&answers).unwrap();
    assert!(answers.len() >= 40);
    let mut differing = Vec::new();
    for (name, mut expected) in answers {
        expected.sort();
        let page = fs::read_to_string(folder.join(&name)).unwrap();
        let found = fences(&name, &page);
        if found != expected {
            differing.push(format!(
                "{name}\n  the renderer: {expected:#?}\n  snell: {found:#?}"
            ));
        }
    }
    assert!(differing.is_empty(), "{}", differing.join("\n"));
}
