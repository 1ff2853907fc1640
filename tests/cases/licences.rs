//! What the program is made of: no unsafe code of our own, only packages that
//! may be given on, from one place, once each, and with their notices.

#![allow(clippy::unwrap_used, reason = "a test may stop at what it did not expect")]

use snell_tests::dependencies::{self, Dependency, REGISTRY};
use snell_tests::licences::{TWICE, taken};
use snell_tests::notices::NOTICES;
use snell_tests::top;
use std::collections::BTreeMap;
use std::fs;
use std::path::PathBuf;

fn locked() -> Vec<Dependency> {
    let found = dependencies::locked().unwrap();
    assert!(found.len() > 100, "only {} dependencies are told", found.len());
    found
}

/// The manifests of our crates, and of the tests.
fn manifests() -> Vec<PathBuf> {
    let crates = fs::read_dir(top().join("crates")).unwrap();
    let mut found: Vec<PathBuf> = crates
        .map(|folder| folder.unwrap().path().join("Cargo.toml"))
        .collect();
    assert!(found.len() > 10);
    found.push(top().join("tests/Cargo.toml"));
    found
}

/// Forbidding cannot be taken back further down, as `deny` could.
#[test]
fn no_crate_of_ours_may_hold_unsafe_code() {
    let workspace = fs::read_to_string(top().join("Cargo.toml")).unwrap();
    let (_, lints) = workspace.split_once("[workspace.lints.rust]").unwrap();
    let lints = lints.split("\n[").next().unwrap();
    assert!(lints.contains("\nunsafe_code = \"forbid\""), "{lints}");
    for manifest in manifests() {
        let text = fs::read_to_string(&manifest).unwrap();
        assert!(
            text.contains("[lints]\nworkspace = true"),
            "{} does not take the workspace's lints",
            manifest.display()
        );
    }
}

#[test]
fn every_dependency_comes_under_a_licence_that_is_taken() {
    for dependency in locked() {
        if let Err(error) = taken(&dependency.licence) {
            panic!(
                "{} {} comes under `{}`: {error}",
                dependency.name, dependency.version, dependency.licence
            );
        }
    }
}

#[test]
fn licences_that_ask_for_more_are_not_taken() {
    let names = |expression| {
        let taken = taken(expression).ok()?;
        Some(taken.iter().map(|licence| licence.name).collect::<Vec<_>>())
    };
    assert_eq!(names("MIT/Apache-2.0"), Some(vec!["MIT"]));
    assert_eq!(names("MIT OR GPL-3.0-only"), Some(vec!["MIT"]));
    assert_eq!(
        names("(MIT OR Apache-2.0) AND Unicode-3.0"),
        Some(vec!["MIT", "Unicode-3.0"])
    );
    for refused in [
        "GPL-3.0-only",
        "MIT AND MPL-2.0",
        "LGPL-2.1-or-later",
        "",
        "as it pleases",
    ] {
        assert_eq!(names(refused), None, "{refused}");
    }
}

/// `cargo deny` holds the same; this needs nothing but cargo.
#[test]
fn every_dependency_comes_from_the_registry() {
    for dependency in locked() {
        assert_eq!(dependency.source, REGISTRY, "{}", dependency.name);
    }
}

#[test]
fn no_dependency_is_there_twice_without_a_reason() {
    let mut versions: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for dependency in locked() {
        versions
            .entry(dependency.name)
            .or_default()
            .push(dependency.version);
    }
    versions.retain(|_, versions| versions.len() > 1);
    let known: Vec<&str> = TWICE.iter().map(|twice| twice.name).collect();
    let found: Vec<&str> = versions.keys().map(String::as_str).collect();
    assert_eq!(found, known, "{versions:?}");
    assert!(
        versions.values().all(|versions| versions.len() == 2),
        "{versions:?}"
    );
}

/// The test of all files that are made holds that they are fresh.
#[test]
fn the_notices_hold_what_the_program_carries() {
    let notices = fs::read_to_string(top().join(NOTICES)).unwrap();
    for part in [
        "DejaVu",
        "UNICODE LICENSE V3",
        "Redistributions in binary form must reproduce",
        "Apache License",
        "tokio ",
        "pest ",
    ] {
        assert!(notices.contains(part), "the notices lack `{part}`");
    }
    // Only tests need these; the program holds nothing of them.
    for foreign in ["proptest ", "criterion ", "insta "] {
        assert!(!notices.contains(foreign), "the notices tell of `{foreign}`");
    }
    for dependency in dependencies::shipped().unwrap() {
        let named = format!("{} {}", dependency.name, dependency.version);
        assert!(notices.contains(&named), "the notices lack {named}");
    }
}
