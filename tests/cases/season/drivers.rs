//! git itself, set up by `snell start --git`, shows rigs in their own terms.

use crate::repository::Repository;
use std::fs;

fn notebook() -> Repository {
    let repository = Repository::new();
    let told = repository.told(&["start", ".", "--git"]);
    assert!(told.contains("set `diff.rig.command`"), "{told}");
    repository.commit("2026-04-01", "a notebook", &[]);
    repository
}

fn edit(repository: &Repository, old: &str, new: &str) {
    let path = repository.folder().join("rigs.rig");
    let text = fs::read_to_string(&path).expect("the rigs");
    assert!(text.contains(old), "{old} in {text}");
    fs::write(&path, text.replace(old, new)).expect("the rigs");
}

#[test]
fn git_shows_what_changed_in_a_rigs_own_terms() {
    let repository = notebook();
    edit(
        &repository,
        "fly slate \"slate spider\"\n  hook    #16",
        "fly slate \"slate spider\"\n  hook    #14",
    );
    let told = repository.git(&["diff"]);
    assert!(told.starts_with("--- rigs.rig\nstones-pair"), "{told}");
    assert!(
        told.contains("the dropper is still slate spider, but its hook is #14, was #16"),
        "{told}"
    );
    assert!(told.contains("fly slate changed\n  hook #14, was #16"), "{told}");
    let lines = repository.git(&["diff", "--no-ext-diff"]);
    assert!(lines.contains("\n-  hook #16\n+  hook #14\n"), "{lines}");
    repository.commit("2026-04-02", "a smaller hook", &[]);
    for arguments in [["log", "-p", "-1"], ["show", "HEAD", "--"]] {
        let told = repository.git(&arguments);
        assert!(
            told.contains("\n-  hook #16\n+  hook #14\n"),
            "{arguments:?}: {told}"
        );
    }
    let told = repository.git(&["log", "-p", "-1", "--ext-diff"]);
    assert!(told.contains("its hook is #14, was #16"), "{told}");
}

#[test]
fn new_gone_renamed_and_relaid_files_are_told_as_such() {
    let repository = notebook();
    edit(&repository, "  hook    #16", "  hook #16 // as bought");
    let told = repository.git(&["diff"]);
    assert!(
        told.contains("only the writing changed; every rig is the same"),
        "{told}"
    );
    repository.git(&["checkout", "-q", "rigs.rig"]);
    repository.git(&["mv", "rigs.rig", "beck.rig"]);
    let told = repository.git(&["diff", "--cached", "-M"]);
    assert!(told.contains("--- beck.rig (was rigs.rig)"), "{told}");
    repository.git(&["reset", "-q", "--hard"]);
    repository.git(&["rm", "-q", "rigs.rig"]);
    let told = repository.git(&["diff", "--cached"]);
    assert!(
        told.contains("--- rigs.rig (file removed)\nstones-pair")
            && told.contains("not in the book any more"),
        "{told}"
    );
    repository.commit("2026-04-03", "gone", &[]);
    repository.commit(
        "2026-04-04",
        "here",
        &[("new.rig", "rig new\n  tippet 4 ft of 5X fluoro\n  point #14\n")],
    );
    let told = repository.git(&["diff", "HEAD~1"]);
    assert!(
        told.contains("--- new.rig (new file)\nnew\n  a new rig:\n  tippet 4 ft of 5X fluoro; point #14\n"),
        "{told}"
    );
}

#[test]
fn unmerged_files_and_broken_ones_do_not_stop_git() {
    let repository = notebook();
    repository.git(&["checkout", "-q", "-b", "side"]);
    edit(&repository, "  hook    #16", "  hook    #14");
    repository.commit("2026-04-02", "side", &[]);
    repository.git(&["checkout", "-q", "main"]);
    edit(&repository, "  hook    #16", "  hook    #18");
    repository.commit("2026-04-02", "main", &[]);
    let merge = repository
        .command("git", &["merge", "-q", "side"])
        .output()
        .expect("git starts");
    assert!(!merge.status.success(), "the two differ");
    assert!(repository.git(&["diff"]).contains("rigs.rig"));
    // What git calls an external diff with for such a file. Source: git(1), GIT_EXTERNAL_DIFF.
    assert_eq!(
        repository.told(&["compare", "--git-diff", "rigs.rig"]),
        "rigs.rig: not merged yet\n"
    );
    repository.commit("2026-04-03", "with its marks", &[]);
    let told = repository.git(&["show", "--ext-diff", "--first-parent"]);
    assert!(told.contains("not all of it can be read now"), "{told}");
}

#[test]
fn set_up_is_never_silent_and_never_twice() {
    let repository = Repository::new();
    let told = repository.told(&["start", "."]);
    assert!(
        told.contains("`snell start --git` makes `git diff` tell"),
        "{told}"
    );
    assert!(!repository.folder().join(".gitattributes").exists());
    let config = repository.git(&["config", "--local", "--list"]);
    assert!(!config.contains("diff.rig"), "{config}");
    fs::write(repository.folder().join(".gitattributes"), "*.png binary").expect("a file");
    let told = repository.told(&["start", "--git"]);
    assert_eq!(told.lines().count(), 4, "{told}");
    let attributes = fs::read_to_string(repository.folder().join(".gitattributes")).expect("a file");
    assert_eq!(attributes, "*.png binary\n*.rig diff=rig\n");
    assert_eq!(repository.told(&["start", "--git"]), "git is set up already\n");
    let elsewhere = tempfile::tempdir().expect("a folder");
    let ran = repository.snell(&["start", elsewhere.path().to_str().expect("a path"), "--git"]);
    assert_eq!(ran.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&ran.stderr).contains("lies in no git repository"));
}

#[test]
fn revisions_folders_and_the_working_tree_are_compared() {
    let repository = notebook();
    let same = repository.told(&["compare"]);
    assert_eq!(same, "all 2 rigs are the same in both\n");
    edit(&repository, "  hook    #16", "  hook    #14");
    let wanted = "its hook is #14, was #16";
    for arguments in [
        &["compare"][..],
        &["compare", "rigs.rig"],
        &["compare", "HEAD"],
        &["compare", "HEAD:rigs.rig", "rigs.rig"],
        &["compare", "HEAD:rigs.rig:stones-pair", "rigs.rig:stones-pair"],
        &["compare", "HEAD", "."],
    ] {
        let ran = repository.snell(arguments);
        let told = String::from_utf8_lossy(&ran.stdout).into_owned();
        assert_eq!(
            ran.status.code(),
            Some(1),
            "{arguments:?}: {}",
            String::from_utf8_lossy(&ran.stderr)
        );
        assert!(told.contains(wanted), "{arguments:?}: {told}");
    }
    // Used files are those of the same revision: there the spool still is what it was.
    repository.commit("2026-04-02", "a smaller hook", &[]);
    assert!(repository.told(&["compare", "HEAD~1", "HEAD"]).contains(wanted));
    for word in ["nowhere", "HEAD:nowhere.rig", "HEAD~9", "HEAD:rigs.rig:nobody"] {
        let ran = repository.snell(&["compare", word, "rigs.rig"]);
        assert_eq!(ran.status.code(), Some(2), "{word}");
    }
    let ran = repository.snell(&["compare", "--git-diff", "rigs.rig", "rigs.rig", "0"]);
    assert_eq!(ran.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&ran.stderr).contains("is called by git itself"));
}

const SHARED: &str = "spool fine \"6X\"\n  size 6X\n  material fluoro\n";

fn card(spool: &str, upper: u32) -> String {
    format!(
        "use \"spools.rig\"\n\nrig card\n  butt 9 ft of 0.25 mm nylon\n  tippet {upper} in of {spool} as upper\n  \
         dropper 8 in with #16\n  tippet 20 in of {spool}\n  point #14\n"
    )
}

/// The spool had another name in the first commit: each commit is shown with the spools of its own.
#[test]
fn old_commits_are_shown_with_the_files_that_they_used() {
    let repository = Repository::new();
    repository.told(&["start", ".", "--git"]);
    fs::remove_file(repository.folder().join("rigs.rig")).expect("the example");
    let first = card("fine", 32);
    repository.commit(
        "2026-04-01",
        "first",
        &[
            ("spools.rig", SHARED),
            ("low/spools.rig", SHARED),
            ("card.rig", &first),
        ],
    );
    let renamed = SHARED.replace("spool fine", "spool six");
    let second = card("six", 32);
    repository.commit(
        "2026-04-02",
        "renamed",
        &[("spools.rig", &renamed), ("card.rig", &second)],
    );
    // A second file of the name, so that a name alone says nothing.
    repository.commit("2026-04-03", "low", &[("low/card.rig", &card("fine", 40))]);
    for arguments in [
        &["show", "HEAD~2", "--", "card.rig"][..],
        &["log", "-p", "--reverse", "--", "card.rig"],
        &["show", "--ext-diff", "HEAD~2", "--", "card.rig"],
        &["log", "-p", "--ext-diff", "--", "card.rig"],
        &["diff", "HEAD~2", "HEAD~1", "--", "card.rig"],
    ] {
        let told = repository.git(arguments);
        assert!(
            !told.contains("not all of it") && !told.contains("no commit"),
            "{arguments:?}: {told}"
        );
    }
    let told = repository.git(&["show", "HEAD~2", "--", "card.rig"]);
    assert!(
        told.contains("\n+  tippet 32 in of fine as upper\n") && told.contains("\n+  = tippet 52 in\n"),
        "{told}"
    );
    let low = repository.git(&["show", "HEAD", "--", "low/card.rig"]);
    assert!(low.contains("40 in") && !low.contains("not all of it"), "{low}");
    // Only the spool's name changed, and every rig is as it was.
    let told = repository.git(&["show", "--ext-diff", "HEAD~1", "--", "card.rig"]);
    assert!(!told.contains("tippet is"), "{told}");
    // What is staged is read with what is staged.
    fs::write(repository.folder().join("spools.rig"), SHARED).expect("a file");
    fs::write(repository.folder().join("card.rig"), card("fine", 36)).expect("a file");
    repository.git(&["add", "-A"]);
    fs::write(repository.folder().join("spools.rig"), "").expect("a file");
    let told = repository.git(&["diff", "--cached", "--", "card.rig"]);
    assert!(
        told.contains("4 in longer: 36 in, was 32 in") && !told.contains("not all of it"),
        "{told}"
    );
}

/// One text stood beside two states of a file that it uses: which of them is meant cannot be known, and is said.
#[test]
fn a_text_that_stood_beside_different_files_is_told_with_the_doubt() {
    let repository = Repository::new();
    repository.told(&["start", ".", "--git"]);
    repository.commit(
        "2026-04-01",
        "first",
        &[("spools.rig", SHARED), ("card.rig", &card("fine", 32))],
    );
    repository.commit(
        "2026-04-02",
        "weaker",
        &[("spools.rig", &SHARED.replace("6X", "7X"))],
    );
    repository.commit("2026-04-03", "longer", &[("card.rig", &card("fine", 40))]);
    let told = repository.git(&["show", "HEAD", "--", "card.rig"]);
    assert!(told.contains("the same text stood beside others too"), "{told}");
    // The external diff is told both texts, and one commit made the one into the other.
    let told = repository.git(&["show", "--ext-diff", "HEAD", "--", "card.rig"]);
    assert!(!told.contains("beside others"), "{told}");
}

/// Two folders with a fly and a rig of one name each: each is held against its own.
#[test]
fn blocks_and_rigs_of_two_folders_are_not_mixed_up() {
    let repository = Repository::new();
    let rig = |bead: &str, upper: u32| {
        format!(
            "fly n\n  hook #14\n  bead {bead} mm tungsten\n\nrig card\n  tippet {upper} in of 6X fluoro\n  point n\n"
        )
    };
    let (one, other) = (rig("2.8", 40), rig("3.3", 60));
    repository.commit(
        "2026-04-01",
        "both",
        &[("beck/card.rig", &one), ("weir/card.rig", &other)],
    );
    for arguments in [
        &["compare"][..],
        &["compare", "HEAD"],
        &["compare", "HEAD", "."],
        &["compare", "--staged"],
    ] {
        assert_eq!(
            repository.told(arguments),
            "all 2 rigs are the same in both\n",
            "{arguments:?}"
        );
    }
    // Two folders that hold alike files are held against each other file by file.
    repository.commit(
        "2026-04-02",
        "a copy",
        &[("old/beck/card.rig", &one), ("old/weir/card.rig", &other)],
    );
    for name in ["beck", "weir"] {
        let told = repository.told(&["compare", &format!("old/{name}"), name]);
        assert_eq!(told, "the rig is the same in both\n");
    }
    fs::write(repository.folder().join("weir/card.rig"), rig("3.3", 64)).expect("a file");
    let compared = repository.json(&["compare", "--form", "json"]);
    let changed = &compared["rigs"][0];
    assert_eq!(
        (&changed["was"]["file"], &changed["now"]["file"]),
        (&"weir/card.rig".into(), &"weir/card.rig".into())
    );
    let compared = repository.json(&["compare", "HEAD", "--form", "json"]);
    assert_eq!(
        compared["rigs"][0]["now"]["file"], "weir/card.rig",
        "no path of this machine"
    );
}

#[test]
fn what_is_staged_and_ranges_are_compared() {
    let repository = Repository::new();
    let rig = |upper: u32| format!("rig card\n  tippet {upper} in of 6X fluoro\n  point #14\n");
    repository.commit("2026-04-01", "first", &[("card.rig", &rig(40))]);
    repository.git(&["checkout", "-q", "-b", "side"]);
    repository.commit("2026-04-02", "longer", &[("card.rig", &rig(44))]);
    repository.git(&["checkout", "-q", "main"]);
    repository.commit("2026-04-03", "longer still", &[("card.rig", &rig(50))]);
    let told = |arguments: &[&str]| repository.told(arguments);
    assert!(told(&["compare", "main..side"]).contains("6 in shorter: 44 in, was 50 in"));
    assert!(told(&["compare", "main...side"]).contains("4 in longer: 44 in, was 40 in"));
    assert!(told(&["compare", "..side"]).contains("44 in, was 50 in"));
    assert_eq!(
        repository.snell(&["compare", "main..nowhere"]).status.code(),
        Some(2)
    );
    fs::write(repository.folder().join("card.rig"), rig(52)).expect("a file");
    repository.git(&["add", "-A"]);
    fs::write(repository.folder().join("card.rig"), rig(60)).expect("a file");
    assert!(told(&["compare", "--staged"]).contains("2 in longer: 52 in, was 50 in"));
    assert!(told(&["compare", "--staged", "side"]).contains("8 in longer: 52 in, was 44 in"));
    assert!(told(&["compare", "--staged", "card.rig"]).contains("52 in, was 50 in"));
    assert!(told(&["compare"]).contains("60 in, was 50 in"));
}
