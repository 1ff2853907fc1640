//! `snell plan` as a person runs it; that no day ties fewer knots is tried in the tests of the views.

mod program;

use program::run;
use serde_json::Value;

fn planned(arguments: &[&str]) -> program::Ran {
    let mut all = vec!["plan"];
    all.extend(arguments);
    run(&all)
}

const DAY: [&str; 6] = [
    "under-a-float",
    "glide",
    "tarn",
    "pool",
    "--in",
    "crates/snell-view/tests/fit/pairs.rig",
];

#[test]
fn a_day_is_told_from_water_to_water() {
    let ran = planned(&DAY);
    assert_eq!((ran.status, ran.err.as_str()), (0, ""));
    insta::assert_snapshot!("day", ran.out);
}

#[test]
fn a_program_reads_the_day() {
    let ran = planned(&[&DAY[..], &["--form", "json"]].concat());
    let read: Value = serde_json::from_str(&ran.out).expect("it is JSON");
    let plan = &read["rigs"][0];
    let stops = plan["stops"].as_array().expect("they are listed");
    assert_eq!((stops.len(), &plan["knots"]), (3, &2.into()));
    assert!(
        stops
            .iter()
            .all(|stop| stop["right"] == true && stop["verdict"]["fishes"]["yes"] == true)
    );
}

#[test]
fn without_waters_it_is_the_day_of_the_file() {
    let ran = planned(&["single", "--in", "crates/snell-view/tests/fit/pairs.rig"]);
    assert!(
        ran.out.contains("glide: ") && ran.out.contains("maelstrom: "),
        "{}",
        ran.out
    );
    // Nobody fishes the maelstrom.
    assert_eq!(ran.status, 1);
    assert!(ran.out.contains("no change makes it fish in"), "{}", ran.out);
}

#[test]
fn a_water_that_is_not_there_is_told_in_a_line() {
    let ran = planned(&["harrow-low", "tial", "--in", "examples"]);
    assert_eq!((ran.status, ran.out.as_str()), (2, ""));
    assert!(
        ran.err.contains("did you mean `tail`?") && ran.err.lines().count() == 1,
        "{}",
        ran.err
    );
}
