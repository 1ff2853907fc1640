//! A file with forty different faults among sound rigs: exactly forty are
//! reported, each at the words that are wrong, and the sound rigs still stand.
//!
//! What is expected is written into `data/forty.rig` itself, as carets.

#![allow(clippy::unwrap_used, reason = "a test may stop at what it did not expect")]

use serde_json::Value;
use snell_analysis::{LocalDisk, Notebook};
use snell_finding::{Finding, Level};
use snell_tests::{Build, Run, found, marked, top};
use snell_view::{Units, show};
use std::collections::BTreeSet;
use std::fs;
use tempfile::TempDir;

/// The sound rigs and their totals in metres, worked out by hand: 60 + 15 + 32 + 20 = 127 in; 12 in more; 1 m.
const SOUND: [(&str, f64); 3] = [
    ("first-sound", 127.0 * 0.0254),
    ("second-sound", 139.0 * 0.0254),
    ("last-sound", 1.0),
];

fn forty() -> String {
    fs::read_to_string(top().join("tests/data/forty.rig")).unwrap()
}

/// The text as a file in a folder of its own, where no version control says that the project is larger.
fn alone(text: &str) -> (TempDir, Notebook) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("forty.rig");
    fs::write(&path, text).unwrap();
    let book = Notebook::open(&[path], &LocalDisk)
        .map_err(|(_, why)| why)
        .unwrap();
    (folder, book)
}

/// The faults of a notebook; what rules say about broken rigs is for their own tests.
fn faults(book: &Notebook) -> Vec<Finding> {
    snell_article::check(book)
        .into_iter()
        .filter(|finding| finding.level == Level::Fault)
        .collect()
}

#[track_caller]
fn as_marked(text: &str) {
    let (_folder, book) = alone(text);
    let findings = faults(&book);
    assert_eq!(found(&book, &findings), marked(text));
    assert_eq!(findings.len(), 40);
}

#[test]
fn forty_faults_are_reported_at_their_words() {
    as_marked(&forty());
}

#[test]
fn also_where_lines_end_in_carriage_returns() {
    as_marked(&forty().replace('\n', "\r\n"));
}

#[test]
fn also_behind_a_comment_of_many_bytes() {
    as_marked(&format!("// Fünf Würfe, ½ Stunde, «kühl» 🎣\n{}", forty()));
    as_marked(&format!(
        "\u{FEFF}// Fünf Würfe 🎣\r\n{}",
        forty().replace('\n', "\r\n")
    ));
}

#[test]
fn all_forty_are_different_faults() {
    let (_folder, book) = alone(&forty());
    let findings = faults(&book);
    let names: BTreeSet<&str> = findings.iter().map(|finding| &*finding.code).collect();
    assert_eq!(names.len(), 40);
}

/// A message is one sentence, and something beside it says what to do.
#[test]
fn every_fault_says_a_way_out() {
    let (_folder, book) = alone(&forty());
    for finding in faults(&book) {
        let labelled = finding.labels.iter().any(|label| !label.text.is_empty());
        let told = finding.help.is_some() || !finding.fixes.is_empty() || labelled;
        assert!(told, "{finding:#?}");
        assert!(
            !finding.message.is_empty() && !finding.message.contains('\n'),
            "{finding:#?}"
        );
    }
}

#[test]
fn the_sound_rigs_still_stand() {
    let (_folder, book) = alone(&forty());
    let shown = show(&book, Units::Author, |name, _| {
        SOUND.iter().any(|(sound, _)| *sound == name)
    });
    let totals: Vec<(&str, Option<f64>)> = shown
        .iter()
        .map(|rig| (&*rig.name, rig.measures["total"].value))
        .collect();
    assert_eq!(totals.len(), SOUND.len());
    for ((name, total), (sound, wanted)) in totals.into_iter().zip(SOUND) {
        assert_eq!(name, sound);
        assert!((total.unwrap() - wanted).abs() < 1e-9, "{name}: {total:?}");
    }
}

#[test]
fn the_program_says_the_same() {
    let (folder, _) = alone(&forty());
    let ran = Run::new(Build::AsTests, ["check", "forty.rig", "--form", "json"])
        .within(folder.path())
        .finish();
    assert_eq!(ran.status, Some(1), "{}", ran.err);
    let answer: Value = serde_json::from_str(&ran.out).unwrap();
    let findings = answer["findings"].as_array().unwrap();
    assert_eq!(
        findings
            .iter()
            .filter(|finding| finding["level"] == "fault")
            .count(),
        40
    );
    let lines = Run::new(Build::AsTests, ["check", "forty.rig", "--form", "lines"])
        .within(folder.path())
        .finish();
    assert_eq!(
        lines
            .out
            .lines()
            .filter(|line| line.contains(": fault: "))
            .count(),
        40,
        "{}",
        lines.out
    );
    for (sound, total) in SOUND {
        let rig = format!("forty.rig:{sound}");
        let ran = Run::new(Build::AsTests, ["show", &rig, "--form", "json"])
            .within(folder.path())
            .finish();
        let answer: Value =
            serde_json::from_str(&ran.out).unwrap_or_else(|why| panic!("{sound}: {why}: {}", ran.told()));
        let value = answer["rigs"][0]["measures"]["total"]["value"].as_f64().unwrap();
        assert!((value - total).abs() < 1e-9, "{sound}: {value}");
    }
}
