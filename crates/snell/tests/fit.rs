//! `snell fit` as a person runs it; its ways are judged in the notebook's tests.

mod program;

use program::{run, run_with, snell, top};
use serde_json::Value;
use std::fs;
use std::path::{Path, PathBuf};
use tempfile::TempDir;

const DEEPER: [&str; 2] = ["--depth", "4 ft to 5 ft"];

fn fit(arguments: &[&str]) -> program::Ran {
    let mut all = vec!["fit"];
    all.extend(arguments);
    run(&all)
}

/// A copy of an example, with its text changed, in a folder of its own.
fn copied(example: &str, change: impl Fn(String) -> String) -> (TempDir, PathBuf) {
    let folder = tempfile::tempdir().expect("there is room");
    let text = fs::read_to_string(top().join("examples").join(example)).expect("it is there");
    let path = folder.path().join(example);
    fs::write(&path, change(text)).expect("it can be written");
    (folder, path)
}

fn added(path: &Path, rig: &str, more: &[&str]) -> program::Ran {
    let path = path.to_str().expect("it is plain");
    let mut all = vec![rig, "--in", path, "--write"];
    all.extend(more);
    fit(&all)
}

/// The names of what is found above advice of a rig in a file.
fn found(path: &Path, rig: &str) -> Vec<String> {
    let ran = run(&["check", path.to_str().expect("it is plain"), "--form", "json"]);
    let read: Value = serde_json::from_str(&ran.out).expect("it is JSON");
    let findings = read["findings"].as_array().expect("they are listed");
    let heavy = findings.iter().filter(|finding| finding["level"] != "advice");
    let of_it = heavy.filter(|finding| finding["rig"] == rig || finding["rig"].is_null());
    of_it.map(|finding| finding["rule"].to_string()).collect()
}

#[test]
fn the_ways_are_told() {
    let ran = fit(&[
        "harrow-low",
        "--in",
        "examples/harrow.rig",
        "--all",
        DEEPER[0],
        DEEPER[1],
    ]);
    assert_eq!((ran.status, ran.err.as_str()), (0, ""));
    insta::assert_snapshot!("ways", ran.out);
}

#[test]
fn on_a_phone() {
    let output = snell(&["fit", "weir-deep", "--water", "stones", "--in", "examples"])
        .env("COLUMNS", "40")
        .output()
        .expect("it starts");
    let out = String::from_utf8(output.stdout).expect("it writes UTF-8");
    assert!(out.lines().all(|line| line.chars().count() <= 40), "{out}");
}

#[test]
fn a_program_reads_the_ways() {
    let ran = fit(&["opening", "--depth", "5 ft", "--in", "examples", "--form", "json"]);
    let read: Value = serde_json::from_str(&ran.out).expect("it is JSON");
    let rig = &read["rigs"][0];
    assert_eq!((&read["version"], &rig["outcome"]), (&1.into(), &"ways".into()));
    assert_eq!(rig["against"][0]["rule"], "expect");
    assert_eq!(rig["ways"][0]["verdict"]["fishes"]["yes"], true);
    let way = &rig["ways"][0];
    assert!(
        way["changes"][0]
            .as_str()
            .expect("in words")
            .starts_with("lengthen the upper tippet to")
    );
    let off_bed = way["state"]["off_bed"]["value"].as_f64().expect("in metres");
    assert!((off_bed - 0.1).abs() < 1e-6);
    let lines = way["addition"]["lines"]
        .as_str()
        .expect("as the language writes it");
    assert!(
        lines.contains("rig opening-5ft from opening\n  water   opening-5ft\n"),
        "{lines}"
    );
}

#[test]
fn what_is_right_is_left_alone() {
    let ran = fit(&["harrow-low", "--in", "examples/harrow.rig", "--write"]);
    assert_eq!((ran.status, ran.err.as_str()), (0, ""));
    assert!(ran.out.contains("nothing to change"), "{}", ran.out);
    assert!(ran.out.contains("nothing was added"), "{}", ran.out);
}

#[test]
fn what_is_right_in_another_water_is_kept_as_a_variant() {
    let (_folder, path) = copied("harrow.rig", |text| text);
    let ran = added(
        &path,
        "harrow-low",
        &["--depth", "3 ft", "--name", "harrow-three"],
    );
    assert_eq!((ran.status, ran.err.as_str()), (0, ""), "{}", ran.out);
    let after = fs::read_to_string(&path).expect("it is there");
    assert!(
        after.ends_with("rig harrow-three from harrow-low\n  water   harrow-three\n"),
        "{after}"
    );
}

#[test]
fn a_rig_is_added_to_its_file_and_checks_as_promised() {
    let as_it_is = |text: String| text;
    let without_end = |text: String| text.trim_end().to_owned();
    let of_windows = |text: String| text.replace('\n', "\r\n");
    for change in [as_it_is as fn(String) -> String, without_end, of_windows] {
        let (_folder, path) = copied("harrow.rig", change);
        let before = fs::read_to_string(&path).expect("it is there");
        let ran = added(&path, "harrow-low", &DEEPER);
        assert_eq!((ran.status, ran.err.as_str()), (0, ""), "{}", ran.out);
        let after = fs::read_to_string(&path).expect("it is there");
        let more = after.strip_prefix(&before).expect("what was there stays");
        let plain = more.replace("\r\n", "\n");
        assert_eq!(
            plain.trim_start(),
            "water harrow-low-4ft-to-5ft from tail\n  depth   4 ft to 5 ft\n\n\
             rig harrow-low-4ft-to-5ft from harrow-low\n  water   harrow-low-4ft-to-5ft\n  change  upper to 46 in\n"
        );
        assert_eq!(after.contains("\r\n"), !after.replace("\r\n", "").contains('\n'));
        assert_eq!(found(&path, "harrow-low-4ft-to-5ft"), ["\"wading-danger\""]);
        let tidy = run(&["tidy", "--check", path.to_str().expect("it is plain")]);
        assert_eq!(tidy.status, 0, "{}", tidy.out);
        let again = added(&path, "harrow-low", &DEEPER);
        assert_eq!(again.status, 2);
        assert!(again.err.contains("already"), "{}", again.err);
        assert_eq!(fs::read_to_string(&path).expect("it is there"), after);
        let named = added(
            &path,
            "harrow-low",
            &[&DEEPER[..], &["--name", "harrow-deep"]].concat(),
        );
        assert_eq!((named.status, named.err.as_str()), (0, ""));
        assert_eq!(found(&path, "harrow-deep"), ["\"wading-danger\""]);
    }
}

#[test]
fn a_rig_is_added_to_the_fence_of_an_article() {
    let (_folder, path) = copied("evening-on-the-weir.md", |text| text);
    let before = fs::read_to_string(&path).expect("it is there");
    let ran = added(
        &path,
        "weir-evening",
        &["--depth", "1 m to 1.3 m", "--name", "weir-higher"],
    );
    assert_eq!((ran.status, ran.err.as_str()), (0, ""), "{}", ran.out);
    let after = fs::read_to_string(&path).expect("it is there");
    let at = after
        .find("   rig weir-higher from weir-evening")
        .expect("it stands in the list's fence");
    assert!(at < after.find("Cast up along the edge").expect("the article goes on"));
    let without: Vec<&str> = after.lines().filter(|line| !before.contains(line)).collect();
    assert!(without.len() >= 3 && after.lines().count() > before.lines().count());
    assert!(
        found(&path, "weir-higher").is_empty(),
        "{:?}",
        found(&path, "weir-higher")
    );
    let tidy = run(&["tidy", "--check", path.to_str().expect("it is plain")]);
    assert_eq!(tidy.status, 0, "{}", tidy.out);
}

#[test]
fn where_it_cannot_be_added_the_lines_are_there_to_paste() {
    let lines = "tippet 32 in of 6X fluoro\ndropper 8 in with #16 2 mm tungsten\ntippet 20 in of 6X fluoro\n\
                 point #14 2.8 mm tungsten\n";
    let water = ["--depth", "5 ft", "--speed", "5 ft/s"];
    let arguments = [&["fit", "--in", "-", "--write"][..], &water].concat();
    let ran = run_with(&arguments, lines);
    assert_eq!(ran.status, 2);
    assert!(
        ran.err.ends_with("standard input is no file to write to\n"),
        "{}",
        ran.err
    );
    assert!(ran.out.contains("  change  tippet 2 to "), "{}", ran.out);
    let folder = tempfile::tempdir().expect("there is room");
    let path = folder.path().join("four.rig");
    fs::write(&path, lines).expect("it can be written");
    let ran = fit(&[
        &["--in", path.to_str().expect("it is plain"), "--write"][..],
        &water,
    ]
    .concat());
    assert_eq!(ran.status, 2);
    assert!(ran.err.contains("open it with a line `rig NAME`"), "{}", ran.err);
    assert_eq!(fs::read_to_string(&path).expect("it is there"), lines);
}

#[test]
fn what_is_asked_for_amiss_is_told_in_a_line() {
    let in_harrow = ["harrow-low", "--in", "examples/harrow.rig"];
    for asked in [
        ["--water", "tial"],
        ["--depth", "3 fathoms"],
        ["--bed", "cobbel"],
        ["--speed", "2 ft"],
    ] {
        let ran = fit(&[&in_harrow[..], &asked].concat());
        assert_eq!((ran.status, ran.out.as_str()), (2, ""), "{asked:?}");
        assert!(
            ran.err.starts_with("snell: ") && ran.err.lines().count() == 1,
            "{}",
            ran.err
        );
    }
}
