//! `snell check --mend` as a person or a script runs it.

mod program;

use program::{run, run_with};
use std::fs;
use std::path::Path;

const SLIPS: &str = include_str!("data/hasty.rig");
const MENDED: &str = include_str!("data/mended.rig");

/// A folder with one file, and that file's path.
fn one(name: &str, text: &str) -> (tempfile::TempDir, String) {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let path = folder.path().join(name);
    fs::write(&path, text).expect("the folder can be written to");
    let path = path.to_str().expect("the path is text").to_owned();
    (folder, path)
}

fn text(path: &str) -> String {
    fs::read_to_string(path).expect("the file is there")
}

/// A text as a fence in a quote, on a page with slips that are none of its business.
fn page(rig: &str) -> String {
    let lines: String = rig.lines().map(|line| format!("> {line}\n")).collect();
    format!("# A card\n\nIt said hook 14.\n\n> ```rig\n{lines}> ```\n\n```rig bad\nfly a\n  hook 14\n```\n")
}

#[test]
fn what_can_only_mean_one_thing_is_mended_and_the_rest_stays() {
    let (_folder, path) = one("a.rig", SLIPS);
    let ran = run(&["check", "--mend", &path]);
    assert_eq!((ran.status, ran.err.as_str()), (1, ""));
    assert_eq!(text(&path), MENDED);
    assert!(
        ran.out.starts_with(&format!("6 mends in {path}\n\nfault ")),
        "{}",
        ran.out
    );
    // What needs a choice is left and told.
    let left = run(&["check", "--form", "lines", &path]).out;
    let left: Vec<&str> = left.lines().filter_map(|line| line.split(": ").nth(2)).collect();
    assert_eq!(left, ["name-unknown", "unit-missing"]);
    let again = run(&["check", "--mend", "--form", "lines", &path]);
    assert_eq!((text(&path).as_str(), again.err.as_str()), (MENDED, ""));
}

#[test]
fn line_ends_and_margins_stay() {
    let ends = |text: &str| text.replace('\n', "\r\n");
    let (_folder, path) = one("a.rig", &ends(SLIPS));
    run(&["check", "--mend", &path]);
    assert_eq!(text(&path), ends(MENDED));
    let (_folder, path) = one("a.md", &page(SLIPS));
    run(&["check", "--mend", &path]);
    assert_eq!(text(&path), page(MENDED));
    let (_folder, path) = one("a.rig", SLIPS.trim_end());
    run(&["check", "--mend", &path]);
    assert_eq!(text(&path), MENDED.trim_end());
}

#[test]
fn forms_for_programs_are_not_disturbed() {
    let (_folder, path) = one("a.rig", SLIPS);
    let ran = run(&["check", "--mend", "--form", "lines", &path]);
    assert_eq!(ran.err, format!("6 mends in {path}\n\n"));
    assert!(ran.out.lines().all(|line| line.starts_with(&path)), "{}", ran.out);
}

#[test]
fn a_mend_that_would_break_another_rig_is_not_made() {
    let near = "rig near\n  method  tight-line\n  butt    9 ft   of 0.25 mm nylon\n  sighter 30 in  of 0.20 mm nylon, pink\n  \
                ring    2 mm\n  tippet  40 in  of 5X fluoro as upper\n  dropper 8 in   with #16 2 mm tungsten\n  \
                tippet  12 in  of 6X fluoro as lower\n  point   #14 2.8 mm tungsten\n";
    let (_folder, path) = one("a.rig", near);
    run(&["check", "--mend", &path]);
    assert_eq!(text(&path), near.replace("12 in", "20 in"));
    let kept = format!("{near}\nrig short from near\n  expect lower at most 12 in\n");
    let (_folder, path) = one("a.rig", &kept);
    let ran = run(&["check", "--mend", &path]);
    assert_eq!(text(&path), kept);
    assert!(!ran.out.contains("mend in"), "{}", ran.out);
}

#[test]
fn files_that_are_used_are_mended_too() {
    let (folder, path) = one(
        "a.rig",
        "use \"flies.rig\"\nrig a\n  tippet 20 in of 6X fluoro\n  point low\n",
    );
    let flies = folder.path().join("flies.rig");
    fs::write(&flies, "fly low\n  hook 14\n").unwrap();
    let ran = run(&["check", "--mend", &path]);
    assert!(ran.out.starts_with("1 mend in "), "{}", ran.out);
    assert_eq!(fs::read_to_string(&flies).unwrap(), "fly low\n  hook #14\n");
}

#[test]
fn standard_input_is_refused() {
    let ran = run_with(&["check", "--mend", "-"], SLIPS);
    assert_eq!((ran.status, ran.out.as_str()), (2, ""));
    assert!(ran.err.contains("standard input is none"), "{}", ran.err);
}

#[cfg(unix)]
#[test]
fn permissions_stay_and_one_file_in_trouble_does_not_hold_up_the_others() {
    use std::os::unix::fs::PermissionsExt;
    let mode = |path: &Path| fs::metadata(path).unwrap().permissions().mode() & 0o777;
    let (folder, _) = one("a.rig", "fly a\n  hook 14\n");
    let (a, b) = (folder.path().join("a.rig"), folder.path().join("b.rig"));
    fs::write(&b, "fly b\n  hook 16\n").unwrap();
    fs::set_permissions(&a, fs::Permissions::from_mode(0o440)).unwrap();
    fs::set_permissions(&b, fs::Permissions::from_mode(0o640)).unwrap();
    let ran = run(&["check", "--mend", folder.path().to_str().unwrap()]);
    assert_eq!(ran.status, 2);
    assert!(
        ran.err.contains("a.rig` was not written: it may only be read"),
        "{}",
        ran.err
    );
    assert_eq!(fs::read_to_string(&a).unwrap(), "fly a\n  hook 14\n");
    assert_eq!(fs::read_to_string(&b).unwrap(), "fly b\n  hook #16\n");
    assert_eq!((mode(&a), mode(&b)), (0o440, 0o640));
    assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 2);
}
