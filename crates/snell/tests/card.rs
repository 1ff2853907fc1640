//! `snell card` through the real binary.

mod program;

use program::{run, snell};
use serde_json::Value;

const SMALL: [&str; 7] = ["--depths", "1 ft", "3 ft", "6 ft", "--speeds", "1 ft/s", "3 ft/s"];

fn card(arguments: &[&str]) -> program::Ran {
    let mut all = vec!["card", "harrow-low", "--in", "examples/harrow.rig"];
    all.extend(arguments);
    run(&all)
}

/// Without the lines on progress, which come where the machine is slow.
fn troubles(err: &str) -> Vec<&str> {
    err.lines()
        .filter(|line| !line.ends_with("and going on"))
        .collect()
}

#[test]
fn figures_for_people() {
    let ran = card(&SMALL);
    assert_eq!(ran.status, 0, "{}", ran.err);
    insta::assert_snapshot!("card", ran.out);
}

#[test]
fn on_a_phone() {
    let mut arguments = vec!["card", "harrow-low", "--in", "examples/harrow.rig"];
    arguments.extend(["--depths", "2 ft", "--speeds", "0.5 ft/s to 4 ft/s"]);
    let output = snell(&arguments).env("COLUMNS", "40").output().unwrap();
    let out = String::from_utf8(output.stdout).unwrap();
    assert!(out.lines().all(|line| line.chars().count() <= 40), "{out}");
    assert!(out.contains("4 ft/s"), "{out}");
}

#[test]
fn the_same_card_each_time_whichever_core_solves_it() {
    let mut arguments = SMALL.to_vec();
    arguments.extend(["--beads", "--form", "json"]);
    let (one, other) = (card(&arguments), card(&arguments));
    assert_eq!(one.out, other.out);
    let read: Value = serde_json::from_str(&one.out).expect("it is JSON");
    let rig = &read["rigs"][0];
    assert_eq!(rig["depths"][1]["value"].as_f64(), Some(0.9144));
    let masses: Vec<f64> = rig["flies"]
        .as_array()
        .unwrap()
        .iter()
        .map(|fly| fly["mass"]["value"].as_f64().unwrap())
        .collect();
    assert!(masses.len() == 6 && masses.is_sorted(), "{masses:?}");
}

#[test]
fn a_rulebook_moves_the_cells() {
    let book = "rulebook strict\n  with tight-line\n  set fly-drags.most to 1 cm/s\n\n";
    let rig = "rig held\n  rules strict\n  water 2 ft at 2 ft/s over cobble\n  sighter 15 in of 0.20 mm nylon\n  \
               ring 2 mm\n  tippet 40 in of 6X fluoro\n  point #14 2.8 mm tungsten\n";
    let cell = ["--depths", "2 ft", "--speeds", "2 ft/s", "--form", "json"];
    let answer = |text: &str| {
        let mut arguments = vec!["card", "-"];
        arguments.extend(cell);
        let ran = program::run_with(&arguments, text);
        let read: Value = serde_json::from_str(&ran.out).unwrap_or_else(|_| panic!("{}", ran.err));
        read["rigs"][0]["cells"][0][0].clone()
    };
    assert_eq!(answer(&format!("{book}{rig}"))["unfished"], "fly-drags");
    let usual = rig.replace("  rules strict\n", "  method tight-line\n");
    assert!(answer(&usual)["fished"]["fly"].is_string());
}

#[test]
fn pages_for_the_printer() {
    let folder = tempfile::tempdir().unwrap();
    for (file, begins) in [
        ("card.html", "<!DOCTYPE html>"),
        ("card.svg", "<svg"),
        ("card.json", "{"),
        ("card.txt", "harrow-low"),
    ] {
        let path = folder.path().join(file);
        let mut arguments = SMALL.to_vec();
        let path = path.to_str().unwrap();
        arguments.extend(["-o", path]);
        let ran = card(&arguments);
        assert_eq!(ran.status, 0, "{}", ran.err);
        assert_eq!(ran.out, format!("wrote {path}\n"));
        let written = std::fs::read_to_string(path).unwrap();
        assert!(written.starts_with(begins), "{written}");
        if begins.starts_with('<') {
            assert!(
                !written.contains("prefers-color-scheme"),
                "black on white everywhere"
            );
            let caution = "no figure here is a word on where";
            // A page holds the picture, which is printed, and the table, which is not.
            let times = if file.ends_with("html") { 2 } else { 1 };
            assert_eq!(written.matches(caution).count(), times, "{written}");
        }
    }
}

#[test]
fn what_cannot_be_asked_is_told_in_one_line() {
    let thirteen: Vec<String> = (1..=13).map(|depth| format!("{depth} ft")).collect();
    let mut many = vec!["--depths"];
    many.extend(thirteen.iter().map(String::as_str));
    let asked: [&[&str]; 8] = [
        &["--depths", "3 fathoms"],
        &["--depths", "0 ft"],
        &["--depths", "1 ft to 900 ft"],
        &many,
        &["--speeds", "fast"],
        &["--bed", "custard"],
        &["--flies", "brackn"],
        &["--temperature", "2 ft"],
    ];
    for asked in asked {
        let ran = card(asked);
        assert_eq!((ran.status, ran.out.as_str()), (2, ""), "{asked:?}");
        let told = troubles(&ran.err);
        assert!(
            matches!(told.as_slice(), [one] if one.starts_with("snell: ")),
            "{asked:?}: {told:?}"
        );
    }
}

#[test]
fn a_rig_without_a_card_says_why() {
    let ran = run(&["card", "glide-dry", "gill-hop", "--in", "examples"]);
    assert_eq!(ran.status, 0, "{}", ran.err);
    assert_eq!(ran.out.matches("no card without").count(), 2, "{}", ran.out);
}
