//! Rigs made from others: what an edit leaves, and what is told where it means nothing.

mod support;

use support::{last_rig, told};

const BASE: &str = "rig base
  butt    60 in of 0.28 mm nylon
  tippet  32 in of 6X fluoro as upper
  dropper 8 in  with #16 2 mm tungsten
  tippet  20 in of 6X fluoro
  point   #14 2.8 mm tungsten

rig own from base
";

/// The parts of a rig that edits the base, each with its values as they stand, and how an edit names it.
fn parts(edits: &str) -> Vec<String> {
    last_rig(&format!("{BASE}{edits}"), |rig| {
        let part = |part: &snell_rig::rig::Part<'_>| {
            let target = part
                .target
                .as_deref()
                .map_or_else(String::new, |target| format!(" ({target})"));
            let values: Vec<&str> = part
                .given
                .fits
                .iter()
                .map(|fit| fit.line.written(fit.expr.span))
                .collect();
            format!("{} {}{target}", part.kind().word(), values.join(" "))
        };
        rig.chain.parts().map(|(_, one)| part(one)).collect()
    })
}

#[test]
fn a_rig_starts_as_its_base() {
    assert_eq!(
        parts(""),
        [
            "butt 60 in 0.28 mm nylon (butt)",
            "tippet 32 in 6X fluoro upper (upper)",
            "dropper 8 in #16 2 mm tungsten (dropper)",
            "tippet 20 in 6X fluoro (tippet 2)",
            "point #14 2.8 mm tungsten (point)",
        ]
    );
}

#[test]
fn a_change_takes_the_place_of_what_it_says() {
    assert_eq!(
        parts("  change upper to 44 in\n")[1],
        "tippet 6X fluoro upper 44 in (upper)"
    );
    assert_eq!(
        parts("  change upper to 5X nylon\n")[1],
        "tippet 32 in upper 5X nylon (upper)"
    );
    assert_eq!(
        parts("  change tippet 2 to 18 in\n")[3],
        "tippet 6X fluoro 18 in (tippet 2)"
    );
    assert_eq!(
        parts("  change dropper to 6 in with #18 0.1 g\n")[2],
        "dropper #18 0.1 g 6 in (dropper)"
    );
    assert_eq!(
        parts("  change point to #12 0.3 g\n")[4],
        "point #12 0.3 g (point)"
    );
}

#[test]
fn parts_go_and_come() {
    assert_eq!(parts("  remove dropper\n").len(), 4);
    let added = parts("  add shot 0.2 g tin after upper\n");
    assert_eq!(added[2], "shot 0.2 g tin");
    // In whatever order they stand.
    let both = parts("  add ring 2 mm after butt\n  remove dropper\n  change butt to 50 in\n");
    assert_eq!(both[..2], ["butt 0.28 mm nylon 50 in (butt)", "ring 2 mm"]);
}

#[test]
fn what_an_edit_cannot_mean_is_told() {
    let of = |edits: &str| told(&format!("{BASE}{edits}"));
    assert_eq!(
        of("  change tippet to 40 in\n"),
        ["9: target-unknown: the base has 2 parts `tippet`"]
    );
    assert_eq!(
        of("  remove uper\n"),
        ["9: target-unknown: the base has no part `uper`"]
    );
    assert_eq!(
        of("  change tippet 3 to 40 in\n"),
        ["9: target-unknown: the base has no part `tippet 3`"]
    );
    assert_eq!(
        of("  remove upper\n  change upper to 3 ft\n"),
        ["10: edit-twice: two edits have one target"]
    );
    assert_eq!(
        of("  tippet 3 ft of 6X fluoro\n"),
        ["9: part-in-derived: a rig made from another writes no `tippet` of its own"]
    );
    assert_eq!(
        of("  add 3 ft after upper\n"),
        ["9: value-lacking: `add` lacks the part to put in"]
    );
    assert_eq!(
        of("  change upper 44 in\n"),
        ["9: key-unknown: this `change` line is not whole"]
    );
}
