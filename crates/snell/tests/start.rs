//! `snell start` and the commands that explain the program itself.

mod program;

use program::run;
use std::fs;

#[test]
fn a_first_notebook_checks_clean_and_is_never_written_over() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("first");
    let path = path.to_str().unwrap();
    let ran = run(&["start", path]);
    assert_eq!((ran.status, ran.err.as_str()), (0, ""), "{}", ran.out);
    let checked = run(&["check", path, "--bar", "advice"]);
    assert_eq!(
        (checked.status, checked.out.as_str()),
        (0, "2 rigs in 2 files, nothing to mend\n")
    );
    assert_eq!(run(&["tidy", "--check", path]).status, 0);
    assert_eq!(run(&["show", "stones-pair", "--in", path]).status, 0);
    let (rigs, spools) = (
        folder.path().join("first/rigs.rig"),
        folder.path().join("first/spools.rig"),
    );
    let whole = fs::read_to_string(&rigs).unwrap();
    fs::remove_file(&rigs).unwrap();
    // A start that was ended before its end is gone on with.
    assert_eq!(run(&["start", path]).status, 0);
    assert_eq!(fs::read_to_string(&rigs).unwrap(), whole);
    fs::remove_file(&rigs).unwrap();
    fs::write(&spools, "spool mine\n").unwrap();
    let again = run(&["start", path]);
    assert_eq!((again.status, again.out.as_str()), (2, ""));
    assert!(
        again.err.contains("spools.rig` is there already"),
        "{}",
        again.err
    );
    assert!(!folder.path().join("first/rigs.rig").exists());
}

#[test]
fn words_are_explained() {
    insta::assert_snapshot!("blood", run(&["why", "blood"]).out);
    insta::assert_snapshot!("size", run(&["why", "6X"]).out);
    let ran = run(&["why", "blod"]);
    assert_eq!((ran.status, ran.out.as_str()), (2, ""));
    assert!(ran.err.contains("did you mean `blood`?"), "{}", ran.err);
}

#[test]
fn completions_and_pages_are_made() {
    for shell in ["bash", "zsh", "fish", "elvish", "powershell"] {
        let ran = run(&["shell", shell]);
        assert!(ran.status == 0 && ran.out.contains("snell"), "{shell}");
    }
    assert!(run(&["manual"]).out.contains(".TH snell"));
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().to_str().unwrap();
    assert_eq!(run(&["manual", path]).status, 0);
    assert!(folder.path().join("snell-check.1").exists());
}
