//! `snell tidy` as a person or a script runs it.

mod program;

use program::{run, run_with};
use std::fs;

const LOOSE: &str = "rig a\n tippet 20in of 6X   fluoro\n point #14 2.8mm tungsten\n";
const LAID_OUT: &str = "rig a\n  tippet  20 in  of 6X fluoro\n  point   #14 2.8 mm tungsten\n";

#[test]
fn files_are_laid_out_in_place_once() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("a.rig");
    let name = path.to_str().unwrap();
    fs::write(&path, LOOSE).unwrap();
    let check = run(&["tidy", "--check", name]);
    assert_eq!((check.status, check.out), (1, format!("{name}\n")));
    let diff = run(&["tidy", "--diff", name]);
    assert_eq!(diff.status, 0);
    assert!(
        diff.out.contains("\n- tippet 20in of 6X   fluoro\n"),
        "{}",
        diff.out
    );
    assert_eq!(run(&["tidy", "--diff", "--check", name]).status, 1);
    assert_eq!(fs::read_to_string(&path).unwrap(), LOOSE);
    let ran = run(&["tidy", name]);
    assert_eq!(
        (ran.status, ran.out),
        (0, format!("laid out {name}\n1 of 1 file laid out\n"))
    );
    assert_eq!(fs::read_to_string(&path).unwrap(), LAID_OUT);
    assert_eq!(run(&["tidy", name]).out, "1 file, nothing to lay out\n");
    assert_eq!(run(&["tidy", "--check", name]).status, 0);
}

#[test]
fn standard_input_goes_to_standard_output() {
    let ran = run_with(&["tidy", "-"], LOOSE);
    assert_eq!((ran.status, ran.out.as_str()), (0, LAID_OUT));
    let page = format!("# A\n\n```rig\n{LOOSE}```\n\n *text*\n");
    let ran = run_with(&["tidy", "-", "--stdin-name", "a.md"], &page);
    assert_eq!(ran.out, page.replace(LOOSE, LAID_OUT));
}

#[test]
fn one_file_in_trouble_does_not_hold_up_the_others() {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("a.rig"), b"rig \xff\n").unwrap();
    fs::write(folder.path().join("b.rig"), LOOSE).unwrap();
    let ran = run(&["tidy", folder.path().to_str().unwrap()]);
    assert_eq!(ran.status, 2);
    assert!(
        ran.err.contains("a.rig` was not read: it is not text in UTF-8"),
        "{}",
        ran.err
    );
    assert_eq!(fs::read_to_string(folder.path().join("b.rig")).unwrap(), LAID_OUT);
}
