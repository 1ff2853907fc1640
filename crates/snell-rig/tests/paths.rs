//! What dotted names mean in a rig, and what is told where they mean nothing.

mod support;

use support::told;

const RIG: &str = "rig named
  rod     10 ft #2
  water   3 ft at 2 ft/s over gravel
  butt    60 in of 0.28 mm nylon
  tippet  32 in of 6X fluoro as upper
  dropper 8 in  with #16 2 mm tungsten as tag
  tippet  20 in of 6X fluoro as lower
  point   #14 2.8 mm tungsten
";

fn expecting(claim: &str) -> Vec<String> {
    told(&format!("{RIG}  expect {claim}\n"))
}

#[test]
fn names_mean_lets_labels_measures_and_neighbours() {
    for claim in [
        "total is between 112 and 112 in",
        "upper is about 32 in",
        "upper.length is about 32 in",
        "tag is about 8 in",
        "tag.join.above.length is about 32 in",
        "tag.join.below.length is about 20 in",
        "tag.fly.bead is about 2 mm",
        "tag.gap.length is about 20 in",
        "gap.upper.bead is about 2 mm",
        "gap.lower.bead is about 2.8 mm",
        "point.section.length is about 20 in",
        "butt.diameter is about 0.28 mm",
        "rod.length is about 10 ft",
        "water.depth.low is about 3 ft",
        "upper.role is tippet",
        "tag.join is not ring",
        "point.line is about 0.127 mm",
    ] {
        assert_eq!(expecting(claim), Vec::<String>::new(), "{claim}");
    }
}

#[test]
fn names_that_mean_nothing_are_told() {
    let told = |claim: &str, message: &str| {
        let wanted = [format!("9: name-unknown: {message}")];
        assert_eq!(expecting(claim), wanted, "{claim}");
    };
    told("tippt over 3 ft", "`tippt` is no value here");
    told("join.strength over 1 kg", "this rig has 2 of `join`");
    told("upper.lenght over 3 ft", "`upper` has no `lenght`");
    told("total.middle over 3 ft", "`total` has no `middle`");
    assert_eq!(
        expecting("upper.role over 3 ft"),
        ["9: not-a-value: `upper.role` is told in words, which cannot be reckoned with"]
    );
    assert_eq!(
        expecting("point over 3 ft"),
        ["9: not-a-value: `point` is a fly; name one of its measures, such as `mass`"]
    );
}

#[test]
fn a_loop_is_one_fault_that_names_its_members() {
    let text = "rig round\n  tippet below + 1 in of 6X fluoro as above\n  tippet above - 1 in of 5X fluoro as below\n";
    assert_eq!(
        told(text),
        ["2: loop: `above` and `below` need one another to be computed"]
    );
}

#[test]
fn a_former_name_means_what_the_new_one_does() {
    assert_eq!(expecting("gap.hang-apart at least 10 cm"), Vec::<String>::new());
    assert_eq!(
        expecting("gap.hung at least 10 cm"),
        ["9: name-former: `hung` is called `hang-apart` now"]
    );
    let told = expecting("cushion.low over 0.1 m/s");
    assert!(
        told.contains(&"9: name-former: `cushion` is called `run-borne` now".to_owned()),
        "{told:?}"
    );
}
