//! `snell show` as a person or a script runs it.

mod program;

use program::{run, run_with, snell};

const IN_HARROW: &[&str] = &["--in", "examples/harrow.rig"];

fn show(arguments: &[&str]) -> program::Ran {
    let all: Vec<&str> = ["show"]
        .iter()
        .chain(arguments)
        .chain(IN_HARROW)
        .copied()
        .collect();
    run(&all)
}

#[test]
fn the_table_from_rod_to_fly() {
    let ran = show(&["harrow-low"]);
    assert_eq!((ran.status, ran.err.as_str()), (0, ""));
    insta::assert_snapshot!("table", ran.out);
}

#[test]
fn on_a_phone() {
    let arguments = ["show", "harrow-spate", "--in", "examples/harrow.rig"];
    let output = snell(&arguments).env("COLUMNS", "40").output().unwrap();
    let out = String::from_utf8(output.stdout).unwrap();
    assert!(out.lines().all(|line| line.chars().count() <= 40), "{out}");
    insta::assert_snapshot!("phone", out);
}

#[test]
fn for_a_page() {
    insta::assert_snapshot!("markdown", show(&["harrow-low", "--form", "markdown"]).out);
    let html = show(&["--form", "html"]).out;
    assert!(html.starts_with("<!DOCTYPE html>\n<html lang=\"en\">"));
    assert_eq!(html.matches("<article class=\"rig").count(), 2);
    for said in [
        "harrow-low fishes here",
        "Cut, in tying order",
        "finished + ",
        "<summary>Parts, measures",
    ] {
        assert!(html.contains(said), "no `{said}` in {html}");
    }
}

/// A class fishes in many waters: nothing on its sheet rests on one, and a map tells of the usual ones.
#[test]
fn for_a_class() {
    let html = show(&["--form", "html", "--class"]).out;
    assert_eq!(
        html.matches("<svg ").count(),
        4,
        "of each rig a picture and a map"
    );
    assert!(!html.contains("the water of this sheet"));
    assert!(html.contains("Cut, in tying order"));
    for wet in [
        "fishes here",
        "<dt>water</dt>",
        "tail of the long pool",
        "rig-1-in-water",
    ] {
        assert!(!html.contains(wet), "`{wet}` in {html}");
    }
    let ran = show(&["--class"]);
    assert_eq!((ran.status, ran.out.as_str()), (2, ""));
    assert!(
        ran.err.contains("`--class` goes with the form html"),
        "{}",
        ran.err
    );
}

/// Pictures beside the page, each referred to by the folder as it was given.
#[test]
fn for_a_page_with_pictures_in_files() {
    let folder = tempfile::tempdir().unwrap();
    let pictures = folder.path().join("my pictures");
    let arguments = [
        "harrow-low",
        "--form",
        "markdown",
        "--pictures",
        pictures.to_str().unwrap(),
    ];
    let out = show(&arguments).out;
    for (told, file) in [
        ("harrow-low: Harrow Beck, low and clear", "harrow-low.svg"),
        ("harrow-low in its water", "harrow-low-in-water.svg"),
    ] {
        let path = pictures.join(file);
        assert!(out.contains(&format!("![{told}](<{}>)", path.display())), "{out}");
        assert!(std::fs::read_to_string(path).unwrap().starts_with("<svg "));
    }
    assert!(!out.contains("```"), "{out}");
    let ran = show(&["harrow-low", "--form", "html", "--pictures", "nowhere"]);
    assert_eq!((ran.status, ran.out.as_str()), (2, ""));
}

#[test]
fn for_a_program() {
    let csv = show(&["harrow-low", "--form", "csv"]).out;
    insta::assert_snapshot!("csv", csv);
    let json = show(&["harrow-low", "--form", "json"]).out;
    assert!(
        json.starts_with("{\n  \"version\": 1,\n  \"rigs\": [\n    {\n      \"name\": \"harrow-low\""),
        "{json}"
    );
}

#[test]
fn the_units_that_are_asked_for() {
    let total = |units| {
        let out = show(&["harrow-low", "--units", units]).out;
        let line = out
            .lines()
            .find(|line| line.trim_start().starts_with("total"))
            .unwrap()
            .to_owned();
        line.split("  ")
            .filter(|word| !word.is_empty())
            .nth(1)
            .unwrap()
            .trim()
            .to_owned()
    };
    assert_eq!(total("metric"), "4.83 m");
    assert_eq!(total("imperial"), "15 ft 10 in");
    assert_eq!(total("both"), "15 ft 10 in (4.83 m)");
}

#[test]
fn a_rig_by_name_by_file_and_all_of_a_file() {
    let names = |arguments: &[&str]| {
        let out = run(arguments).out;
        let rows = out
            .lines()
            .skip(1)
            .map(|row| row.split(',').nth(1).unwrap().to_owned());
        let mut names: Vec<String> = rows.collect();
        names.dedup();
        names
    };
    let form = ["--form", "csv"];
    let with_form = |arguments: &[&'static str]| [&["show"], arguments, &form].concat();
    assert_eq!(
        names(&with_form(&["harrow-low", "--in", "examples"])),
        ["harrow-low"]
    );
    assert_eq!(
        names(&with_form(&["examples/harrow.rig:harrow-spate"])),
        ["harrow-spate"]
    );
    assert_eq!(
        names(&with_form(&["examples/harrow.rig"])),
        ["harrow-low", "harrow-spate"]
    );
    assert_eq!(
        names(&with_form(&[
            "Harrow-Low",
            "examples/harrow.rig:harrow-spate",
            "--in",
            "examples"
        ]))
        .len(),
        2
    );
}

#[test]
fn a_slip_in_a_name_is_met_with_the_nearest() {
    let ran = show(&["harow-low"]);
    assert_eq!((ran.status, ran.out.as_str()), (2, ""));
    assert_eq!(
        ran.err,
        "snell: there is no rig `harow-low` in `examples/harrow.rig`; did you mean `harrow-low`?\n"
    );
    assert_eq!(
        run(&["show", "examples/spools.rig"]).err,
        "snell: there is no rig in `examples/spools.rig`\n"
    );
}

#[test]
fn faults_stand_apart_and_sound_rigs_are_shown() {
    let ran = run_with(
        &["show", "-"],
        "rig a\n  tippet 20\n\nrig b\n  tippet 20 in of 6X fluoro\n",
    );
    assert_eq!(ran.status, 1);
    assert!(ran.err.contains("`20` has no unit"), "{}", ran.err);
    assert!(
        !ran.out.contains("no unit") && ran.out.contains("20 in"),
        "{}",
        ran.out
    );
}

#[test]
fn a_reader_that_has_seen_enough_is_no_fault() {
    use std::io::Read;
    use std::process::Stdio;
    let mut child = snell(&["show", "examples"])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    drop(child.stdout.take());
    let mut err = String::new();
    child.stderr.take().unwrap().read_to_string(&mut err).unwrap();
    assert_eq!((child.wait().unwrap().code(), err.as_str()), (Some(0), ""));
}
