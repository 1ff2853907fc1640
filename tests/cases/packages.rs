//! What packages and releases are made of: versions that agree, workflows that run only what was looked at, and what has to be
//! filled in before a first release. The packages themselves are tried by `tests/tools/dist.sh`.

#![allow(clippy::unwrap_used, reason = "a test may stop at what it did not expect")]

use serde_json::Value;
use snell_tests::top;
use std::fs;

fn text(path: &str) -> String {
    fs::read_to_string(top().join(path)).unwrap_or_else(|why| panic!("{path}: {why}"))
}

#[test]
fn all_packages_have_one_version() {
    let version = env!("CARGO_PKG_VERSION");
    for file in [
        "editors/vscode/package.json",
        "editors/vscode/package-lock.json",
        "crates/snell-web/page/package.json",
    ] {
        let package: Value = serde_json::from_str(&text(file)).unwrap();
        assert_eq!(package["version"], version, "{file}");
    }
    for file in ["editors/zed/extension.toml", "editors/zed/Cargo.toml"] {
        assert!(
            text(file).contains(&format!("\nversion = \"{version}\"")),
            "{file}"
        );
    }
    let crates = text("Cargo.toml");
    let own: Vec<&str> = crates
        .lines()
        .filter(|line| line.contains("path = \"crates/"))
        .collect();
    assert!(own.len() > 10, "{own:?}");
    for line in own {
        assert!(line.contains(&format!("version = \"{version}\"")), "{line}");
    }
}

/// Each is named by its commit, whose name cannot be given to another one.
#[test]
fn workflows_run_pinned_actions_with_the_least_rights() {
    let mut actions = 0;
    for entry in fs::read_dir(top().join(".github/workflows")).unwrap() {
        let path = entry.unwrap().path();
        let workflow = fs::read_to_string(&path).unwrap();
        assert!(
            workflow.contains("\npermissions:"),
            "{} takes every right",
            path.display()
        );
        for line in workflow.lines().filter_map(|line| line.split_once("uses:")) {
            let (action, version) = line.1.split_once(" # ").unwrap_or((line.1, ""));
            let commit = action.rsplit('@').next().unwrap().trim();
            let pinned = commit.len() == 40 && commit.bytes().all(|byte| byte.is_ascii_hexdigit());
            assert!(
                pinned && version.starts_with('v'),
                "{}: {}",
                path.display(),
                line.1
            );
            actions += 1;
        }
    }
    assert!(actions >= 4, "{actions} actions");
}

/// Where the project will be kept is not settled. Whoever settles it takes the row away here.
#[test]
fn what_is_still_open_is_named_for_whoever_releases() {
    let open = [
        ("editors/vscode/package.json", "repository.example"),
        (".ci/packages/tools.sh", "snell@valley.example"),
        ("editors/zed/extension.toml", "repository.example"),
    ];
    let page = text(".github/RELEASING.md");
    for (file, stand_in) in open {
        assert!(text(file).contains(stand_in), "{file} no longer says {stand_in}");
        assert!(
            page.contains(file) && page.contains(stand_in),
            "RELEASING.md does not name {stand_in} in {file}"
        );
    }
}

/// A row of the table of systems that lacks a word would be packed wrongly.
#[test]
fn every_system_has_a_whole_row() {
    let table = text(".ci/packages/targets");
    let rows: Vec<Vec<&str>> = table
        .lines()
        .filter(|line| !line.starts_with('#') && !line.is_empty())
        .map(|line| line.split_whitespace().collect())
        .collect();
    assert!(rows.len() >= 5, "{rows:?}");
    let workflow = text(".github/workflows/release.yml");
    for row in rows {
        let [_, label, linker, _, npm, _, _] = row[..] else {
            panic!("{row:?}");
        };
        assert!(["rust", "zig", "own"].contains(&linker), "{row:?}");
        assert!(npm.split('/').count() == 2, "{row:?}");
        assert!(workflow.contains(label), "the workflow makes nothing for {label}");
    }
}
