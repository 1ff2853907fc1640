//! `snell cut` as a person runs it; its arithmetic is judged elsewhere.

mod program;

use program::{run, snell};

#[test]
fn the_list() {
    let ran = run(&["cut", "tail-pair", "neck-float", "--in", "examples"]);
    assert_eq!((ran.status, ran.err.as_str()), (0, ""));
    insta::assert_snapshot!("list", ran.out);
}

#[test]
fn on_a_phone() {
    let output = snell(&["cut", "harrow-low", "--in", "examples/harrow.rig"])
        .env("COLUMNS", "40")
        .output()
        .unwrap();
    let out = String::from_utf8(output.stdout).unwrap();
    assert!(out.lines().all(|line| line.chars().count() <= 40), "{out}");
}

#[test]
fn in_other_units() {
    let ran = run(&[
        "cut",
        "harrow-low",
        "--in",
        "examples/harrow.rig",
        "--units",
        "metric",
    ]);
    assert!(
        ran.out.contains("1.84 m") && ran.out.contains("20 cm nail"),
        "{}",
        ran.out
    );
}
