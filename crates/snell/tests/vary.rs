//! `snell vary` as a person runs it; its sureness is held against random draws where draws are made.

mod program;

use program::{run, run_with};
use serde_json::Value;

fn varied(arguments: &[&str]) -> program::Ran {
    let mut all = vec!["vary", "harrow-low"];
    all.extend(arguments);
    all.extend(["--in", "examples"]);
    run(&all)
}

#[test]
fn beads_are_put_beside_each_other() {
    let ran = varied(&["point", "2.4", "mm", "2.8", "mm", "3.8", "mm"]);
    assert_eq!((ran.status, ran.err.as_str()), (0, ""));
    insta::assert_snapshot!("beads", ran.out);
}

#[test]
fn a_thinner_tippet_bears_less_and_rides_alike() {
    let ran = varied(&["tippet", "5X", "7X", "--form", "json"]);
    let read: Value = serde_json::from_str(&ran.out).expect("it is JSON");
    let rows = read["rigs"][0]["rows"].as_array().expect("they are listed");
    assert_eq!(rows.len(), 3);
    let of = |row: usize, measure: &str| {
        let figures = rows[row]["figures"].as_array().expect("they are listed");
        let figure = figures
            .iter()
            .find(|figure| figure["measure"] == measure)
            .expect("it is there");
        figure["value"]["value"].as_f64().expect("it is told")
    };
    assert!(of(1, "weakest") > of(2, "weakest"));
    assert!(
        of(1, "tippet-needed") > of(2, "tippet-needed"),
        "a thin line leans less"
    );
    let differences = rows[2]["differences"].as_array().expect("they are listed");
    for difference in differences {
        let chance = difference["chance"].as_f64().expect("a share");
        assert!((0.5..=1.0).contains(&chance), "{difference}");
    }
}

#[test]
fn casts_waters_and_tags_are_varied_too() {
    for arguments in [
        &["cast", "tuck", "up"][..],
        &["speed", "1", "ft/s", "3", "ft/s"],
        &["depth", "4 ft"],
        &["dropper", "5", "in", "2.4", "mm"],
        &["butt", "0.20", "mm"],
        &["upper", "44 in"],
        &["point", "#12 3.8 mm tungsten"],
    ] {
        let ran = varied(arguments);
        assert_eq!((ran.status, ran.err.as_str()), (0, ""), "{arguments:?}");
        assert!(ran.out.contains("as it is"), "{}", ran.out);
    }
}

#[test]
fn a_rig_from_standard_input_is_varied() {
    let rig = "rig first\n  method tight-line\n  water 3 ft at 2 ft/s over cobble\n  tippet 5 ft 6X fluoro\n  point size 14, 2.8 mm tungsten\n";
    let ran = run_with(&["vary", "-", "point", "3.3", "mm"], rig);
    assert_eq!((ran.status, ran.err.as_str()), (0, ""));
    assert!(ran.out.contains("sooner (sure)"), "{}", ran.out);
}

#[test]
fn what_is_asked_for_amiss_is_told_in_a_line() {
    for (arguments, told) in [
        (&["tipet", "5X"][..], "did you mean `tippet`?"),
        (&["tippet", "5Q"], "there is no unit `Q`"),
        (&["speed", "3 ft"], "speed"),
        (&["point", "no-such-fly"], "no-such-fly"),
    ] {
        let ran = varied(arguments);
        assert_eq!((ran.status, ran.out.as_str()), (2, ""), "{arguments:?}");
        assert!(
            ran.err.contains(told) && ran.err.lines().count() == 1,
            "{}",
            ran.err
        );
    }
}

#[test]
fn the_help_of_why_names_every_piece_of_lore() {
    let help = run(&["why", "--help"]).out;
    for lore in snell_view::lore::LORE {
        assert!(help.contains(lore.name), "{}", lore.name);
    }
}

/// As somebody types them at the bank: no head, no margin.
#[test]
fn a_rig_of_bare_lines_is_varied() {
    let lines =
        "method tight line\nwater 4 ft at 2 ft/s\ntippet 5 ft 5X fluoro 5 lb\npoint #14 2.8 mm tungsten\n";
    let ran = run_with(&["vary", "-", "tippet", "7X"], lines);
    assert_eq!((ran.status, ran.err.as_str()), (0, ""), "{}", ran.out);
    assert!(ran.out.contains("bears 2 lb less"), "{}", ran.out);
}

#[test]
fn a_rig_with_faults_is_not_varied() {
    let ran = run_with(
        &["vary", "-", "tippet", "7X"],
        "rig a\n  dropper 8 in with #16\n  tippet 5 ft of 5X fluoro\n  point #14 2.8 mm tungsten\n",
    );
    assert_eq!(ran.status, 2);
    assert!(ran.err.contains("`a` has faults"), "{}", ran.err);
}
