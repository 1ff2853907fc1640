//! Everything under `examples/` is what a reader may copy: it checks without
//! faults and cautions, it is laid out, and its rigs can be shown.

#![allow(clippy::unwrap_used, reason = "a test may stop at what it did not expect")]

use serde_json::Value;
use snell_tests::{Build, Ran, Run, top};
use std::fs;

fn run(arguments: &[&str]) -> Ran {
    Run::new(Build::AsTests, arguments)
        .within(&top().join("examples"))
        .finish()
}

/// The spate of `harrow.rig` is swift on purpose: it shows the caution that a wader should read.
const SWIFT: &str = "wading";

#[test]
fn they_check_without_faults_and_cautions() {
    let ran = run(&["check", ".", "--form", "json"]);
    let answer: Value = serde_json::from_str(&ran.out).unwrap_or_else(|why| panic!("{why}: {}", ran.told()));
    let findings = answer["findings"]
        .as_array()
        .unwrap()
        .iter()
        .filter(|finding| finding["level"] != "advice" && finding["rule"] != SWIFT);
    let told: Vec<String> = findings
        .map(|finding| format!("{}: {}", finding["labels"][0]["file"], finding["message"]))
        .collect();
    assert_eq!(told, Vec::<String>::new());
}

/// Each file also stands by itself: what it uses, it says.
#[test]
fn each_checks_by_itself() {
    for entry in fs::read_dir(top().join("examples")).unwrap() {
        let name = entry.unwrap().file_name().into_string().unwrap();
        // The hook, the workflow and the article's picture hold no rig.
        if [".sh", ".yml", ".svg"]
            .iter()
            .any(|ending| name.ends_with(ending))
        {
            continue;
        }
        let bar = match name.as_str() {
            "harrow.rig" | "for-writers.md" => "fault",
            _ => "caution",
        };
        let ran = run(&["check", "--bar", bar, &name]);
        assert_eq!(ran.status, Some(0), "{name}: {}", ran.told());
    }
}

#[test]
fn they_are_laid_out() {
    let ran = run(&["tidy", "--diff", "."]);
    assert_eq!((ran.status, ran.out.trim()), (Some(0), ""), "{}", ran.err);
    assert_eq!(run(&["tidy", "--check", "."]).status, Some(0));
}

#[test]
fn the_article_shows_its_rigs_as_they_are() {
    let ran = run(&["fill", "--check", "."]);
    assert_eq!(ran.status, Some(0), "{}", ran.told());
    assert!(ran.out.contains("all up to date"), "{}", ran.out);
}

/// At least twelve rigs of several methods, a spool shelf, a fly box and an article.
#[test]
fn they_hold_a_season_of_rigs() {
    let ran = run(&["show", ".", "--form", "json"]);
    assert_eq!(ran.status, Some(0), "{}", ran.told());
    let answer: Value = serde_json::from_str(&ran.out).unwrap();
    let rigs = answer["rigs"].as_array().unwrap();
    let mut methods: Vec<&str> = rigs
        .iter()
        .filter_map(|rig| rig["measures"]["method"]["text"].as_str())
        .collect();
    methods.sort_unstable();
    methods.dedup();
    assert!(rigs.len() >= 12, "{} rigs", rigs.len());
    assert!(methods.len() >= 5, "{methods:?}");
    assert!(
        rigs.iter()
            .any(|rig| rig["file"].as_str().is_some_and(|file| file.ends_with(".md")))
    );
}
