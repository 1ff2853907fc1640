//! A swivel, which joins two pieces as a ring does and may be weighed, wherever a rig is told of.

mod program;

use program::{Ran, run, run_with};
use serde_json::Value;
use std::fs;

/// A rig whose leader and tippet are joined by some line of it.
fn rig(name: &str, join: &str) -> String {
    format!(
        "rig {name}\n  water   3 ft at 2 ft/s over gravel\n  butt    60 in  of 0.25 mm 6 lb nylon\n  {join}\n  \
         tippet  40 in  of 6X 3 lb fluoro\n  point   #14 2.8 mm tungsten\n\n"
    )
}

fn both() -> String {
    rig("ringed", "ring 2 mm") + &rig("swivelled", "swivel 7 mm 0.08 g")
}

fn told(arguments: &[&str]) -> String {
    let Ran { status, out, err } = run_with(arguments, &both());
    assert_eq!((status, err.as_str()), (0, ""), "{out}");
    out
}

fn measures() -> [Value; 2] {
    let shown: Value = serde_json::from_str(&told(&["show", "--form", "json", "-"])).expect("it writes JSON");
    let rigs = shown["rigs"].as_array().expect("it lists rigs").clone();
    rigs.try_into().expect("there are two rigs")
}

#[test]
fn it_is_as_strong_as_a_ring_and_hangs_by_its_mass() {
    let [ringed, swivelled] = measures();
    let of_join = |rig: &Value, name: &str| rig["joins"][0]["measures"][name].clone();
    assert_eq!(of_join(&swivelled, "kind")["text"], "swivel");
    assert_eq!(of_join(&swivelled, "knot"), of_join(&ringed, "knot"));
    assert_eq!(of_join(&swivelled, "strength"), of_join(&ringed, "strength"));
    let sunk = |rig: &Value| {
        rig["measures"]["sunk-mass"]["value"]
            .as_f64()
            .expect("it is known")
    };
    assert!((sunk(&swivelled) - sunk(&ringed) - 0.08e-3).abs() < 1e-9);
    let assumed = swivelled["assumed"]
        .as_array()
        .expect("it lists what was assumed");
    let knots = assumed
        .iter()
        .any(|one| one["what"] == "the knots of the swivel, butt to tippet");
    assert!(knots, "{assumed:#?}");
}

#[test]
fn it_stands_in_tables_and_pictures() {
    let row = |out: &str| {
        out.lines()
            .any(|line| line.contains("swivel") && line.contains("7 mm 0.08 g"))
    };
    assert!(row(&told(&["show", "-"])));
    let drawn = told(&["draw", "-"]);
    assert!(drawn.contains("8  swivel 7 mm, clinch each side"), "{drawn}");
    let cut = told(&["cut", "-"]);
    assert!(
        cut.contains("clinch knot: of the swivel, butt to tippet"),
        "{cut}"
    );
}

#[test]
fn it_rides_with_the_flies_where_it_is_under_water() {
    let text = "rig low\n  water   3 ft at 1 ft/s over gravel\n  sighter 12 in of 0.20 mm nylon\n  tippet  10 in of 5X fluoro\n  \
                swivel 7 mm 0.08 g\n  tippet  20 in of 6X fluoro\n  point   #14 2.8 mm tungsten\n";
    let told = run_with(&["drift", "-"], text).out;
    assert!(
        told.lines()
            .any(|line| line.trim_start().starts_with("swivel ") && line.contains("rides")),
        "{told}"
    );
    let drawn = run_with(&["draw", "--in-water", "-"], text).out;
    assert!(drawn.contains("swivel"), "{drawn}");
}

#[test]
fn comparing_tells_it_from_a_ring() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let path = folder.path().join("two.rig");
    fs::write(&path, both()).expect("a file can be written");
    let of = |name: &str| format!("{}:{name}", path.display());
    let told = run(&["compare", &of("ringed"), &of("swivelled")]).out;
    assert!(told.contains("the 2 mm ring is left out"), "{told}");
    assert!(told.contains("a swivel 7 mm 0.08 g goes in below butt"), "{told}");
}

#[test]
fn one_join_has_a_ring_or_a_swivel() {
    let text = rig("both", "ring 2 mm\n  swivel");
    let ran = run_with(&["check", "--form", "lines", "-"], &text);
    assert!(ran.out.contains("this join has a ring already"), "{}", ran.out);
    let last = rig("last", "ring 2 mm").replace("  point", "  swivel\n  point");
    let ran = run_with(&["check", "--form", "lines", "-"], &last);
    assert!(
        ran.out.contains("nothing follows that this could join"),
        "{}",
        ran.out
    );
}
