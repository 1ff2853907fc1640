//! The hooks and the workflow that notebooks can take: their commands are run
//! as they are written.

use crate::repository::Repository;
use snell_tests::top;
use std::fs;
use std::process::Output;

const SOUND: &str = "rig sound\n  tippet  4 ft  of 5X fluoro\n  point   #14\n";
const ILL: &str = "rig ill\n  tippet  4     of 5X fluoro\n  point   #14\n";

fn read(path: &str) -> String {
    fs::read_to_string(top().join(path)).unwrap_or_else(|error| panic!("{path}: {error}"))
}

/// The values of a key in one of these small YAML files.
fn values<'t>(text: &'t str, key: &str) -> Vec<&'t str> {
    let lines = text
        .lines()
        .map(str::trim_start)
        .map(|line| line.trim_start_matches("- "));
    lines
        .filter_map(|line| line.strip_prefix(key)?.strip_prefix(": "))
        .collect()
}

fn shell(repository: &Repository, line: &str) -> Output {
    repository
        .command("sh", &["-c", line])
        .output()
        .expect("a shell starts")
}

/// The framework itself runs them in `tests/tools/hooks.sh`.
#[test]
fn the_hooks_of_the_framework_name_commands_that_work() {
    let hooks = read(".pre-commit-hooks.yaml");
    assert_eq!(values(&hooks, "id"), ["snell-check", "snell-tidy"]);
    assert_eq!(values(&hooks, "entry"), ["snell check", "snell tidy"]);
    assert_eq!(values(&hooks, "args"), ["[.]"], "all of a notebook is checked");
    let repository = Repository::new();
    repository.commit("2026-04-01", "sound", &[("sound.rig", SOUND)]);
    let ended = |line: &str| shell(&repository, line).status.code();
    assert_eq!(ended("snell check ."), Some(0));
    assert_eq!(ended("snell tidy sound.rig"), Some(0));
    repository.commit("2026-04-02", "ill", &[("ill.rig", ILL)]);
    assert_eq!(ended("snell check ."), Some(1));
}

/// What is staged counts: a file that was mended only in the working tree stops the commit.
#[test]
fn the_plain_hook_stops_a_commit_that_is_ill() {
    let repository = Repository::new();
    let hook = repository.folder().join(".git/hooks/pre-commit");
    fs::copy(top().join("examples/pre-commit.sh"), &hook).expect("a hook");
    repository.commit(
        "2026-04-01",
        "sound",
        &[
            ("sound.rig", SOUND),
            ("uses/shared.rig", "use \"../sound.rig\"\n"),
        ],
    );
    fs::write(repository.folder().join("ill.rig"), ILL).expect("a file");
    repository.git(&["add", "-A"]);
    fs::write(repository.folder().join("ill.rig"), SOUND).expect("a file");
    let ran = repository
        .command("git", &["commit", "-m", "ill"])
        .output()
        .expect("git starts");
    assert!(!ran.status.success(), "the commit is refused");
    let told = format!(
        "{}{}",
        String::from_utf8_lossy(&ran.stdout),
        String::from_utf8_lossy(&ran.stderr)
    );
    assert!(told.contains("`4` has no unit"), "{told}");
    repository.git(&["add", "-A"]);
    repository.git(&["commit", "-q", "-m", "mended"]);
}

#[test]
fn the_workflow_writes_what_it_uploads() {
    let workflow = read("examples/check-rigs.yml");
    let runs = values(&workflow, "run");
    assert_eq!(runs.len(), 1);
    let repository = Repository::new();
    repository.commit("2026-04-01", "two", &[("sound.rig", SOUND), ("ill.rig", ILL)]);
    assert_eq!(shell(&repository, runs[0]).status.code(), Some(1));
    let file = values(&workflow, "sarif_file")[0];
    let sarif = fs::read_to_string(repository.folder().join(file)).expect("it was written");
    let sarif: serde_json::Value = serde_json::from_str(&sarif).expect("it is JSON");
    assert_eq!(sarif["version"], "2.1.0");
    let results = sarif["runs"][0]["results"].as_array().expect("results");
    assert!(
        results.iter().any(|result| result["ruleId"] == "unit-missing"),
        "{results:?}"
    );
}
