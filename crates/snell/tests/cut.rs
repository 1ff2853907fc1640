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

#[test]
fn a_rig_with_a_faulty_part_is_said_to_lack_something() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("a.rig");
    let rig = "rig a\n  tippet 30 in of 5X fluoro\n  dropper 6 in with nobody\n  tippet 20 in of 6X fluoro\n  point #14\n";
    std::fs::write(&path, rig).unwrap();
    let path = path.to_str().unwrap();
    let list = run(&["cut", path]);
    assert_eq!(list.status, 1);
    assert!(
        list.out.contains("not complete  a part of this rig has a fault"),
        "{}",
        list.out
    );
    let picture = folder.path().join("a.svg");
    let drawn = run(&["draw", path, "-o", picture.to_str().unwrap()]);
    assert_eq!(drawn.status, 1);
    assert!(!picture.exists(), "{}", drawn.out);
    let told = format!("{}{}", drawn.out, drawn.err);
    assert!(
        told.contains("not drawn until the faults of its parts are mended"),
        "{told}"
    );
}
