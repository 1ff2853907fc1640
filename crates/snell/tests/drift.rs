//! `snell drift` through the real binary.

mod program;

use program::{run, snell};
use serde_json::Value;
use std::fs;

fn drift(arguments: &[&str]) -> program::Ran {
    let mut all = vec!["drift"];
    all.extend(arguments);
    all.extend(["--in", "examples/harrow.rig"]);
    run(&all)
}

fn json(arguments: &[&str]) -> Value {
    let mut all = vec!["harrow-low", "--form", "json"];
    all.extend(arguments);
    let ran = drift(&all);
    assert_eq!(ran.status, 0, "{}", ran.err);
    let read: Value = serde_json::from_str(&ran.out).expect("it is JSON");
    read["rigs"][0].clone()
}

fn point_rides(rig: &Value) -> f64 {
    rig["steady"]["flies"][0]["rides"]["value"]
        .as_f64()
        .expect("the point rides")
}

#[test]
fn figures_and_plot() {
    let ran = drift(&["harrow-low"]);
    assert_eq!((ran.status, ran.err.as_str()), (0, ""));
    insta::assert_snapshot!("drift", ran.out);
}

#[test]
fn on_a_phone() {
    let arguments = ["drift", "harrow-spate", "--in", "examples/harrow.rig"];
    let output = snell(&arguments).env("COLUMNS", "40").output().unwrap();
    let out = String::from_utf8(output.stdout).unwrap();
    assert!(out.lines().all(|line| line.chars().count() <= 40), "{out}");
}

#[test]
fn a_program_reads_inputs_steady_state_and_series() {
    let rig = json(&[]);
    assert_eq!(rig["inputs"]["surface"]["text"], "2.2 ft/s");
    let depth = rig["inputs"]["depth"]["value"].as_f64().unwrap();
    let off_bed = rig["steady"]["flies"][0]["off_bed"]["value"].as_f64().unwrap();
    assert!((point_rides(&rig) + off_bed - depth).abs() < 1e-9);
    let moments = rig["sink"]["moments"].as_array().unwrap();
    let deep = |moment: &Value| moment["flies"][0][0].as_f64().unwrap();
    assert!(moments.len() > 50 && deep(&moments[0]) == 0.0);
    assert!(
        moments
            .windows(2)
            .all(|pair| deep(&pair[1]) >= deep(&pair[0]) - 1e-3)
    );
    let last = deep(moments.last().unwrap());
    assert!(last >= 0.97 * point_rides(&rig) - 1e-6, "{last}");
}

#[test]
fn another_water_may_be_asked_for() {
    let (own, deeper) = (json(&[]), json(&["--depth", "3'6\""]));
    assert_eq!(deeper["inputs"]["depth"]["text"], "42 in");
    assert!(point_rides(&deeper) > point_rides(&own));
    let (warm, cold) = (json(&["--temperature", "18 C"]), json(&["--temperature", "4 C"]));
    let down = |rig: &Value| rig["sink"]["down"]["value"].as_f64().unwrap();
    assert!(down(&cold) > down(&warm), "cold water is thicker");
    assert!(down(&json(&["--cast", "down"])) > down(&json(&["--cast", "up"])));
    let faster = json(&["--speed", "4 ft/s"]);
    let speed = |rig: &Value| rig["steady"]["speed"]["value"].as_f64().unwrap();
    assert!(speed(&faster) > 1.5 * speed(&own));
}

#[test]
fn what_is_no_quantity_is_told() {
    for asked in [
        ["--depth", "3 fathoms"],
        ["--speed", "fast"],
        ["--temperature", "2 ft"],
        ["--depth", ""],
    ] {
        let ran = drift(&["harrow-low", asked[0], asked[1]]);
        assert_eq!((ran.status, ran.out.as_str()), (2, ""), "{asked:?}");
        assert!(
            ran.err.starts_with("snell: ") && ran.err.lines().count() == 1,
            "{}",
            ran.err
        );
    }
}

#[test]
fn a_rig_without_a_drift_says_why() {
    let ran = run(&["drift", "glide-dry", "--in", "examples"]);
    assert_eq!(ran.status, 0, "{}", ran.err);
    assert!(
        ran.out.contains("no drift without  a point fly that sinks"),
        "{}",
        ran.out
    );
}

#[test]
fn an_unweighted_fly_of_a_dry_rig_is_not_sunk() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("a.rig");
    let rig = |method: &str, flies: &str| {
        format!(
            "rig a\n  method {method}\n  water 2 ft at 2 ft/s over gravel\n  tippet 2 ft of 5X nylon\n{flies}"
        )
    };
    let told = |text: String| {
        fs::write(&path, text).unwrap();
        run(&["drift", path.to_str().unwrap()]).out
    };
    let dry = told(rig("dry", "  point #16\n"));
    assert!(
        dry.contains("a point fly that sinks") && dry.contains("how #16 rides: afloat"),
        "{dry}"
    );
    let wet = told(rig("team", "  point #16\n"));
    assert!(wet.contains("rides"), "{wet}");
    let two = "  inline #10\n  tippet 20 in of 6X fluoro\n  point #16 2 mm tungsten\n";
    let below = told(rig("dry-dropper", two));
    assert!(
        below.contains("#16 2 mm tungsten") && !below.contains("#10  rides"),
        "{below}"
    );
}
