//! The house keeps its own rules: which crate may know which, how long a file
//! may get, what a page must say, and what lies at the top.

#![allow(clippy::unwrap_used, reason = "a test may stop at what it did not expect")]

use serde_json::Value;
use snell_rig::{Project, World};
use snell_syntax::BlockKind;
use snell_tests::top;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

/// Which crates each may know. An arrow may also pass over a crate: what may be known by way of another may be
/// known at once.
const ARROWS: &[(&str, &[&str])] = &[
    ("snell-text", &[]),
    ("snell-units", &[]),
    ("snell-finding", &["snell-text"]),
    ("snell-syntax", &["snell-text", "snell-units", "snell-finding"]),
    ("snell-water", &["snell-units"]),
    ("snell-rig", &["snell-syntax", "snell-water"]),
    ("snell-rules", &["snell-rig"]),
    ("snell-analysis", &["snell-rules"]),
    ("snell-picture", &["snell-rig"]),
    ("snell-view", &["snell-analysis", "snell-picture"]),
    ("snell-article", &["snell-view"]),
    ("snell-history", &["snell-view"]),
    ("snell-ide", &["snell-article"]),
    ("snell-server", &["snell-ide"]),
    ("snell-web", &["snell-ide"]),
    ("snell", &["snell-server", "snell-history"]),
];

/// May know every crate.
const TESTS: &str = "snell-tests";

/// A longer file of Rust says at its top why.
const LONGEST: usize = 500;

fn below(name: &str) -> BTreeSet<&'static str> {
    let direct = ARROWS
        .iter()
        .find(|(from, _)| *from == name)
        .map_or(&[][..], |(_, to)| to);
    direct
        .iter()
        .flat_map(|to| below(to).into_iter().chain([*to]))
        .collect()
}

/// Every package of the workspace with what it depends on.
fn packages() -> BTreeMap<String, Vec<String>> {
    let cargo = std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into());
    let told = Command::new(cargo)
        .args(["metadata", "--no-deps", "--offline", "--format-version", "1"])
        .current_dir(top())
        .output()
        .unwrap();
    assert!(told.status.success(), "{}", String::from_utf8_lossy(&told.stderr));
    let metadata: Value = serde_json::from_slice(&told.stdout).unwrap();
    let name = |of: &Value| of["name"].as_str().unwrap().to_owned();
    let packages = metadata["packages"].as_array().unwrap().iter();
    packages
        .map(|package| {
            (
                name(package),
                package["dependencies"]
                    .as_array()
                    .unwrap()
                    .iter()
                    .map(name)
                    .collect(),
            )
        })
        .collect()
}

#[test]
fn arrows_between_crates_only_point_down() {
    let packages = packages();
    assert!(packages.len() >= 8, "{packages:?}");
    for (name, needs) in packages.iter().filter(|(name, _)| *name != TESTS) {
        assert!(
            ARROWS.iter().any(|(known, _)| known == name),
            "the crate `{name}` has no place in the list of arrows"
        );
        let allowed = below(name);
        for need in needs.iter().filter(|need| packages.contains_key(*need)) {
            assert!(allowed.contains(&**need), "`{name}` must not know `{need}`");
        }
    }
}

/// The parser stays behind `syntax`, the editor protocol behind `serve`.
#[test]
fn parser_and_protocol_stay_in_their_crates() {
    let homes = [
        ("pest", "snell-syntax"),
        ("pest_derive", "snell-syntax"),
        ("tower-lsp-server", "snell-server"),
        ("lsp-types", "snell-server"),
    ];
    for (name, needs) in packages().iter().filter(|(name, _)| *name != TESTS) {
        for (library, home) in homes {
            assert!(
                name == home || !needs.iter().any(|need| need == library),
                "`{name}` must not know `{library}`"
            );
        }
    }
    let offered = public_items("crates/snell-syntax/src");
    assert!(offered.len() > 20, "the tree is public");
    for (path, item) in offered {
        let foreign = ["pest", "Pair<", "Pairs<", "Rule::", ": Rule", "-> Rule"]
            .into_iter()
            .find(|word| item.contains(word));
        assert_eq!(foreign, None, "{}: {item}", path.display());
    }
}

/// What a folder's files offer beyond their crate: each `pub` item or field up to its body or end.
fn public_items(folder: &str) -> Vec<(PathBuf, String)> {
    let mut items = Vec::new();
    for (path, text) in rust(&top().join(folder)) {
        for (at, _) in text.match_indices("pub ") {
            let line_start = text[..at].rfind('\n').map_or(0, |end| end + 1);
            if text[line_start..at].trim().is_empty() {
                let rest = &text[at..];
                let end = rest
                    .find(['{', ';', '='])
                    .or(rest.find(",\n"))
                    .unwrap_or(rest.len());
                items.push((path.clone(), rest[..end].to_owned()));
            }
        }
    }
    items
}

/// Every file of Rust below a folder, with its text.
fn rust(folder: &Path) -> Vec<(PathBuf, String)> {
    let mut found = Vec::new();
    for path in files(folder) {
        if path.extension().is_some_and(|ending| ending == "rs") {
            let text = fs::read_to_string(&path).unwrap();
            found.push((path, text));
        }
    }
    found
}

fn files(folder: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            found.extend(files(&path));
        } else {
            found.push(path);
        }
    }
    found.sort();
    found
}

fn all_rust() -> Vec<(PathBuf, String)> {
    let all: Vec<_> = ["crates", "tests"]
        .into_iter()
        .flat_map(|folder| rust(&top().join(folder)))
        .collect();
    assert!(all.len() > 60, "the files of Rust are found");
    all
}

#[test]
fn long_files_say_why() {
    for (path, text) in all_rust() {
        let lines = text.lines().count();
        let reason = text
            .lines()
            .take(12)
            .any(|line| line.starts_with("//!") && line.contains("long"));
        assert!(
            lines <= LONGEST || reason,
            "{} has {lines} lines and no reason at its top",
            path.display()
        );
    }
}

#[test]
fn every_file_says_what_it_is() {
    for (path, text) in all_rust() {
        let opening = text.lines().take_while(|line| line.starts_with("//!")).count();
        assert!(
            (1..=12).contains(&opening),
            "{} opens with {opening} lines of `//!`",
            path.display()
        );
    }
}

/// Files, git and the terminal are each reached through one place. Source: DEVELOPERS.md, "Who may say what".
#[test]
fn the_outside_is_reached_through_its_doors_alone() {
    let doors: [(&str, &[&str]); 6] = [
        // What the system answers is made a key in one place: Windows answers in its own way.
        ("canonicalize", &["snell-analysis/src/real.rs"]),
        ("Command::new", &["snell/src/git/program.rs"]),
        ("println!", &[]),
        (
            "stdout()",
            &[
                "snell/src/screen.rs",
                "snell/src/terminal.rs",
                "snell-server/src/lib.rs",
                "snell/src/commands/start.rs",
            ],
        ),
        (
            "File::open",
            &[
                "snell/src/write.rs",
                "snell/src/write/stray.rs",
                "snell-analysis/src/disk.rs",
            ],
        ),
        (
            "fs::",
            &[
                "snell/src/write.rs",
                "snell/src/write/stray.rs",
                "snell-analysis/src/disk.rs",
            ],
        ),
    ];
    // Folders may be made anywhere; a name of theirs is not a text.
    let harmless = ["fs::create_dir_all", "use std::fs"];
    for (path, text) in rust(&top().join("crates")) {
        let (path, own) = (
            path.to_string_lossy().replace('\\', "/"),
            text.split("#[cfg(test)]").next().unwrap(),
        );
        if !path.contains("/src/") || path.ends_with("tests.rs") {
            continue;
        }
        let code = own.lines().filter(|line| !line.trim_start().starts_with("//"));
        for line in code.filter(|line| !harmless.iter().any(|word| line.contains(word))) {
            for (word, homes) in doors {
                let there = line.match_indices(word).any(|(at, _)| {
                    !line[..at].ends_with(|before: char| before.is_ascii_alphanumeric() || before == '_')
                });
                assert!(
                    !there || homes.iter().any(|home| path.ends_with(home)),
                    "{path}: {line}"
                );
            }
        }
    }
}

#[test]
fn every_shipped_block_has_a_source() {
    let project = Project::default();
    let world = World::new(&project);
    let mut count = 0;
    for block in project.files().flat_map(|file| project.blocks(file)) {
        let head = block.head().expect("a shipped block has a head");
        let faults = snell_rig::faults::Faults::default();
        snell_rig::blocks::read(&world.names, block, &faults);
        assert_eq!(faults.into_inner(), [], "{}", head.name.folded);
        let bases = snell_rig::blocks::lineage(&world.names, block).unwrap();
        let lines = snell_rig::blocks::merged(&bases, &snell_rig::faults::Faults::default());
        let said = lines
            .iter()
            .any(|line| snell_rig::blocks::line_key(*line).0 == "source");
        assert!(
            said,
            "the shipped {} `{}` names no source",
            head.kind.word(),
            head.name.folded
        );
        count += 1;
    }
    assert!(count >= 30, "only {count} blocks ship");
    for kind in [
        BlockKind::Material,
        BlockKind::Knot,
        BlockKind::Bed,
        BlockKind::Dressing,
    ] {
        let ships = project
            .files()
            .flat_map(|file| project.blocks(file))
            .any(|block| block.head().is_some_and(|head| head.kind == kind));
        assert!(ships, "no {} ships", kind.word());
    }
}

#[test]
fn every_rule_page_shows_both_sides() {
    let pages: Vec<PathBuf> = files(&top().join("crates/snell-rules/book"))
        .into_iter()
        .filter(|path| path.extension().is_some_and(|ending| ending == "md"))
        .collect();
    let mut rules = 0;
    for path in pages {
        let page = fs::read_to_string(&path).unwrap();
        let Some(rule) = page.lines().find(|line| line.trim_start().starts_with("rule ")) else {
            continue;
        };
        for fence in ["```rig good", "```rig bad"] {
            assert!(page.contains(fence), "{} has no {fence}", path.display());
        }
        let inherits = rule.contains(" from ");
        assert!(
            inherits || page.contains("  source"),
            "{} names no source",
            path.display()
        );
        rules += 1;
    }
    assert!(rules > 0, "the pages of rules are found");
}

#[test]
fn the_top_holds_what_a_newcomer_reads() {
    let known = [
        "Cargo.toml",
        "Cargo.lock",
        "README.md",
        "DEVELOPERS.md",
        "CHANGELOG.md",
        "grammar",
        "crates",
        "editors",
        "tests",
        "examples",
    ];
    // Read by their tools under these names; `target` is where cargo builds.
    let tools = ["clippy.toml", "deny.toml", "rustfmt.toml", "target"];
    for entry in fs::read_dir(top()).unwrap() {
        let name = entry.unwrap().file_name().into_string().unwrap();
        let fits = known.contains(&&*name)
            || tools.contains(&&*name)
            || name.starts_with('.')
            || name.starts_with("LICENSE");
        assert!(fits, "`{name}` lies at the top of the project");
    }
    for name in known {
        assert!(top().join(name).exists(), "{name} is missing");
    }
}

/// What people are told to run is what is run for every change.
#[test]
fn the_test_command_of_the_readme_is_the_one_that_is_run() {
    let command = "cargo test --workspace";
    for page in ["README.md", ".ci/run"] {
        let text = fs::read_to_string(top().join(page)).unwrap();
        assert!(
            text.lines().any(|line| line.trim() == command),
            "{page} does not run `{command}`"
        );
    }
}
