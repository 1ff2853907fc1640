//! The made-up notebook is what the benchmark takes it for: as long as it
//! says, sound, and as varied as a notebook that a person wrote.

use snell_analysis::{Kind, LocalDisk, Notebook};
use std::collections::HashSet;
use std::path::Path;

/// The size that the benchmark and the comparison with other checkers use.
const RIGS: usize = 700;

fn generated(rigs: usize) -> Notebook {
    let text = snell_tests::generated_notebook(rigs);
    Notebook::of_text(Path::new("generated.rig"), Kind::Rig, text, &LocalDisk)
}

#[test]
fn seven_hundred_rigs_have_ten_thousand_five_hundred_lines() {
    let text = snell_tests::generated_notebook(RIGS);
    assert_eq!(text.lines().count(), 10_500);
    assert_eq!(snell_view::names(&generated(RIGS)).len(), RIGS);
}

#[test]
fn lines_come_out_even_from_the_fewest_rigs_on() {
    for rigs in snell_tests::FEWEST_RIGS..snell_tests::FEWEST_RIGS + 40 {
        let lines = snell_tests::generated_notebook(rigs).lines().count();
        assert_eq!(lines, rigs * snell_tests::LINES_A_RIG, "{rigs} rigs");
    }
}

/// Rules may have their say: its figures are made by chance, and nobody fished with it.
#[test]
fn it_has_no_fault() {
    let book = generated(RIGS);
    let findings = snell_article::check(&book);
    let faults = findings
        .iter()
        .filter(|finding| finding.level == snell_finding::Level::Fault);
    let told: Vec<_> = faults
        .map(|finding| (&finding.message, finding.place()))
        .collect();
    assert!(told.is_empty(), "{told:#?}");
}

/// Of the lines of the examples, written by hand, three in four stand once; a notebook twenty times as long
/// repeats its short lines (`method tight-line`, `ring 2 mm`) more often. Blank lines are left out.
#[test]
fn two_lines_in_five_stand_once() {
    let text = snell_tests::generated_notebook(RIGS);
    let lines: Vec<&str> = text.lines().filter(|line| !line.is_empty()).collect();
    let different: HashSet<&str> = lines.iter().copied().collect();
    assert!(
        different.len() * 5 > lines.len() * 2,
        "{} of {} lines differ",
        different.len(),
        lines.len()
    );
}

#[test]
fn it_is_the_same_on_every_run() {
    assert_eq!(
        snell_tests::generated_notebook(50),
        snell_tests::generated_notebook(50)
    );
}
