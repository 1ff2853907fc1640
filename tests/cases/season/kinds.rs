//! Repositories of every kind that git has: what is told of each is true of it,
//! or is said not to be all.

use crate::repository::Repository;

fn rig(name: &str, feet: u32) -> String {
    format!("rig {name}\n  tippet {feet} ft of 5X fluoro\n  point #14\n")
}

const OUTING: &str = "use \"inner.rig\"\n\nouting may\n  day 2026-05-03\n  rig inner\n  caught 1 on point\n";

fn with_submodule() -> (Repository, Repository) {
    let inner = Repository::new();
    inner.commit(
        "2026-05-01",
        "inner",
        &[("inner.rig", &rig("inner", 4)), ("days.rig", OUTING)],
    );
    let outer = Repository::new();
    outer.commit("2026-05-01", "outer", &[("outer.rig", &rig("outer", 5))]);
    let source = inner.folder().display().to_string();
    outer.git(&[
        "-c",
        "protocol.file.allow=always",
        "submodule",
        "--quiet",
        "add",
        &source,
        "low",
    ]);
    outer.commit("2026-05-04", "the inner one", &[]);
    (inner, outer)
}

/// What lies in a submodule is not new to the repository around it: another one keeps it.
#[test]
fn a_submodule_is_a_repository_of_its_own() {
    let (inner, outer) = with_submodule();
    let ran = outer.snell(&["compare"]);
    let told = String::from_utf8_lossy(&ran.stdout).into_owned();
    assert_eq!(
        (ran.status.code(), &*told),
        (Some(0), "the rig is the same in both\n")
    );
    let told = outer.told(&["season"]);
    assert!(!told.contains("inner") && told.starts_with("outer\n"), "{told}");
    // Asked of its folder, the submodule tells its own story.
    assert_eq!(outer.told(&["season", "low"]), inner.told(&["season"]));
    std::fs::write(outer.folder().join("low/inner.rig"), rig("inner", 6)).expect("a file");
    assert!(
        outer.told(&["compare"]).contains("the rig is the same in both"),
        "it is the inner one's to tell"
    );
    let told = outer
        .command("snell", &["compare"])
        .current_dir(outer.folder().join("low"))
        .output()
        .expect("snell starts");
    assert!(String::from_utf8_lossy(&told.stdout).contains("tippet is 24 in longer: 6 ft, was 4 ft"));
}

/// git tells the history as the commit has it that stands for another; that is said.
#[test]
fn a_history_with_grafts_says_so() {
    let repository = Repository::new();
    for (day, feet) in [("2026-05-01", 3), ("2026-05-02", 4), ("2026-05-03", 5)] {
        repository.commit(day, "a length", &[("card.rig", &rig("card", feet))]);
    }
    assert!(repository.told(&["season"]).starts_with("card\n"));
    repository.git(&["replace", "--graft", "HEAD~1"]);
    let told = repository.told(&["season"]);
    assert!(
        told.starts_with(
            "Some commits of this history stand for others (`git replace`, or a file of grafts)"
        ),
        "{told}"
    );
    assert!(told.contains("2026-05-02  born"), "{told}");
    assert_eq!(repository.json(&["season", "--form", "json"])["grafted"], true);
}

/// On no branch, the story ends with the commit that is checked out.
#[test]
fn a_detached_head_ends_the_story() {
    let repository = Repository::new();
    for (day, feet) in [("2026-05-01", 3), ("2026-05-02", 4), ("2026-05-03", 5)] {
        repository.commit(day, "a length", &[("card.rig", &rig("card", feet))]);
    }
    repository.git(&["checkout", "-q", "--detach", "HEAD~1"]);
    let told = repository.told(&["season"]);
    assert!(
        told.contains("tippet is 12 in longer: 4 ft, was 3 ft") && !told.contains("5 ft"),
        "{told}"
    );
    assert_eq!(repository.told(&["season", "--until", "main~1"]), told);
}

/// Ids are twice as long there.
#[test]
fn drivers_and_comparisons_work_with_long_ids() {
    let elsewhere = tempfile::tempdir().expect("a folder");
    let folder = elsewhere.path().join("long");
    let repository = Repository::new();
    let place = folder.display().to_string();
    repository.git(&["init", "-q", "-b", "main", "--object-format=sha256", &place]);
    let run = |program: &str, arguments: &[&str]| {
        let ran = repository
            .command(program, arguments)
            .current_dir(&folder)
            .output()
            .expect("it starts");
        String::from_utf8_lossy(&ran.stdout).into_owned()
    };
    run("snell", &["start", ".", "--git"]);
    std::fs::remove_file(folder.join("rigs.rig")).expect("the example");
    for feet in [3, 4] {
        std::fs::write(folder.join("card.rig"), rig("card", feet)).expect("a file");
        run("git", &["add", "-A"]);
        run("git", &["commit", "-q", "-m", "a length"]);
    }
    let wanted = "tippet is 12 in longer: 4 ft, was 3 ft";
    for (program, arguments) in [
        ("git", &["show", "--ext-diff"][..]),
        ("snell", &["compare", "HEAD~1", "HEAD"]),
        ("snell", &["season"]),
    ] {
        let told = run(program, arguments);
        assert!(told.contains(wanted), "{program} {arguments:?}: {told}");
    }
    let told = run("git", &["log", "-p", "-1"]);
    assert!(
        told.contains("-  tippet 3 ft of 5X fluoro") && told.contains("+  tippet 4 ft of 5X fluoro"),
        "{told}"
    );
}
