//! The README tells the truth: its commands are those that are run for every
//! change, and its rigs are sound. What its commands print is held by
//! `fresh.rs`.

use snell_tests::{readme, top};
use std::fs;

#[test]
fn it_has_a_tour() {
    let page = fs::read_to_string(top().join("README.md")).expect("the README");
    assert!(page.matches(readme::OPEN).count() >= 5, "the README has a tour");
}

#[test]
fn the_two_commands_are_those_that_are_tested() {
    let page = fs::read_to_string(top().join("README.md")).expect("the README");
    for command in [
        "cargo run --release -- show examples/harrow.rig",
        "cargo test --workspace",
    ] {
        assert!(page.contains(command), "the README names `{command}`");
    }
    let build = fs::read_to_string(top().join(".ci/run")).expect("the build's script");
    assert!(
        build.contains("cargo test --workspace"),
        "the build runs the README's test command"
    );
}

#[test]
fn every_rig_fence_of_the_pages_is_sound() {
    for page in ["README.md", "grammar/reference.md"] {
        let path = top().join(page);
        let book = snell_analysis::Notebook::open(&[path], &snell_analysis::LocalDisk).expect("the page");
        let faults: Vec<String> = snell_article::check(&book)
            .into_iter()
            .filter(|finding| finding.level == snell_finding::Level::Fault)
            .map(|finding| format!("{}: {}", finding.code, finding.message))
            .collect();
        assert!(faults.is_empty(), "{page}: {faults:?}");
    }
}
