//! `snell check` as a person or a script runs it.

mod program;

use program::{run, run_with, snell};

const SLIPS: &str = "crates/snell/tests/data/slips.rig";
const CLEAN: &str = "crates/snell/tests/data/clean.rig";

#[test]
fn reports_for_people() {
    let ran = run(&["check", SLIPS]);
    assert_eq!((ran.status, ran.err.as_str()), (1, ""));
    insta::assert_snapshot!("reports", ran.out);
}

#[test]
fn reports_on_a_narrow_plain_terminal() {
    let output = snell(&["check", SLIPS])
        .env("COLUMNS", "40")
        .env("LANG", "C")
        .output()
        .unwrap();
    insta::assert_snapshot!("narrow_reports", String::from_utf8(output.stdout).unwrap());
}

#[test]
fn one_finding_a_line() {
    let ran = run(&["check", SLIPS, "--form", "lines"]);
    assert_eq!((ran.status, ran.err.as_str()), (1, ""));
    insta::assert_snapshot!("lines", ran.out);
}

#[test]
fn a_clean_run_says_so_and_machine_forms_say_nothing_more() {
    let ran = run(&["check", CLEAN]);
    assert_eq!(
        (ran.status, ran.out.as_str(), ran.err.as_str()),
        (0, "1 rig in 1 file, nothing to mend\n", "")
    );
    assert_eq!(run(&["check", CLEAN, "--form", "lines"]).out, "");
    let json = run(&["check", CLEAN, "--form", "json"]).out;
    assert_eq!(json, "{\n  \"version\": 1,\n  \"findings\": []\n}\n");
}

#[test]
fn a_path_that_is_not_there_is_told_in_one_line() {
    let ran = run(&["check", "nowhere.rig"]);
    assert_eq!(ran.status, 2);
    assert_eq!(
        (ran.out.as_str(), ran.err.as_str()),
        ("", "snell: `nowhere.rig` was not read: there is no such file\n")
    );
}

#[test]
fn standard_input_is_a_rig_file_unless_its_name_says_otherwise() {
    let rig = "rig a\n  tippet 20\n";
    let ran = run_with(&["check", "-", "--form", "lines"], rig);
    assert!(
        ran.out.starts_with("-:2:10: fault: unit-missing: "),
        "{}",
        ran.out
    );
    let page = "# Notes\n\n```rig\nrig a\n  tippet 20\n```\n";
    let ran = run_with(
        &["check", "-", "--form", "lines", "--stdin-name", "notes.md"],
        page,
    );
    assert!(
        ran.out.starts_with("notes.md:5:10: fault: unit-missing: "),
        "{}",
        ran.out
    );
    let uses = "use \"spools.rig\"\nrig a\n  tippet 20 in of six\n";
    let ran = run_with(
        &[
            "check",
            "-",
            "--form",
            "lines",
            "--stdin-name",
            "examples/new.rig",
        ],
        uses,
    );
    assert_eq!((ran.status, ran.out.as_str()), (0, ""));
}

#[test]
fn the_bar_sets_the_status_and_nothing_else() {
    let own_knot = "knot blood\n  strength 80 %\n";
    let low = run_with(&["check", "-", "--bar", "advice"], own_knot);
    let usual = run_with(&["check", "-"], own_knot);
    assert_eq!((low.status, usual.status), (1, 0), "{}", low.out);
    assert_eq!(low.out, usual.out);
}

#[test]
fn colour_only_when_it_is_asked_for() {
    let escape = '\u{1b}';
    assert!(!run(&["check", SLIPS]).out.contains(escape));
    assert!(run(&["check", SLIPS, "--colour", "always"]).out.contains(escape));
}

#[test]
fn an_empty_text_and_a_very_long_line() {
    let ran = run_with(&["check", "-"], "");
    assert_eq!((ran.status, ran.err.as_str()), (0, ""));
    let long = format!("rig a\n  tippet 20 of {}\n", "x ".repeat(30_000));
    let ran = run_with(&["check", "-"], &long);
    assert_eq!(ran.status, 1);
    assert!(ran.out.len() < 4_000, "{}", ran.out.len());
    assert!(ran.out.lines().all(|line| line.chars().count() < 200));
}

#[test]
fn a_flood_of_findings_is_cut_off() {
    let many = "rig a\n".to_owned() + &"  tippet 20\n".repeat(300);
    let ran = run_with(&["check", "-"], &many);
    assert!(
        ran.out
            .contains("more findings: `--form lines` lists all of them"),
        "{}",
        ran.out
    );
}

#[test]
fn what_could_not_be_judged_is_listed_when_it_is_asked_for() {
    let ran = run(&["check", CLEAN, "--skipped"]);
    assert_eq!((ran.status, ran.err.as_str()), (0, ""));
    // The book grows; one rule of it must do.
    let entry = "skipped  hook-tippet\n  needs  the method\n  in     card (#14 2.8 mm tungsten)\n\n";
    assert!(ran.out.contains(entry), "{}", ran.out);
    assert!(ran.out.ends_with(" rules skipped\n"), "{}", ran.out);
    let json = run(&["check", CLEAN, "--skipped", "--form", "json"]).out;
    let entry = r##"{"rule":"hook-tippet","rig":"card","of":"#14 2.8 mm tungsten","needs":["the method"]}"##;
    let plain = json.replace(": ", ":").replace("\n", "").replace("  ", "");
    assert!(plain.contains(entry), "{json}");
    let ran = run_with(&["check", "-", "--skipped"], "");
    assert!(ran.out.ends_with(", no rule skipped\n"), "{}", ran.out);
    let ran = run(&["check", CLEAN, "--skipped", "--form", "lines"]);
    assert_eq!((ran.status, ran.out.as_str()), (2, ""));
    assert!(
        ran.err.contains("goes with the forms text and json"),
        "{}",
        ran.err
    );
}

#[test]
fn places_in_a_page_are_places_in_its_fences_too() {
    let page = "# Notes\n\n> ```rig\n> rig a\n>   tippet 20\n> ```\n";
    let ran = run_with(
        &["check", "-", "--form", "sarif", "--stdin-name", "notes.md"],
        page,
    );
    assert_eq!((ran.status, ran.err.as_str()), (1, ""));
    assert!(ran.out.contains("\"uri\": \"notes.md\""), "{}", ran.out);
    assert!(ran.out.contains("\"startLine\": 5"), "{}", ran.out);
    assert!(ran.out.contains("\"startColumn\": 12"), "{}", ran.out);
    let ran = run_with(
        &["check", "-", "--form", "junit", "--stdin-name", "notes.md"],
        page,
    );
    assert_eq!((ran.status, ran.err.as_str()), (1, ""));
    let suite = "<testsuite name=\"notes.md\" tests=\"2\" failures=\"1\" errors=\"0\">";
    assert!(ran.out.contains(suite), "{}", ran.out);
}
