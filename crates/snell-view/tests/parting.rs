//! Where a snagged rig parts, against sums by hand: the areas of two sizes differ by more than the shares of any two knots,
//! which lie between a half and one.

use snell_analysis::{Kind, LocalDisk, Notebook};
use snell_view::{ShownParting, Units};
use std::path::Path;

/// The partings of a rig of two flies, the upper first.
fn partings(sighter: &str, upper: &str, lower: &str) -> Vec<ShownParting> {
    let text = format!(
        "rig a\n  method tight-line\n  butt 4 m of 0.25 mm nylon\n  sighter 40 cm of {sighter} nylon\n  ring 2 mm\n  \
         tippet 80 cm of {upper} fluoro as upper\n  dropper 20 cm with #16 2 mm tungsten\n  \
         tippet 50 cm of {lower} fluoro as lower\n  point #14 2.8 mm tungsten\n"
    );
    let notebook = Notebook::of_text(Path::new("a.rig"), Kind::Rig, text, &LocalDisk);
    let mut shown = snell_view::show(&notebook, Units::Author, |_, _| true);
    shown.remove(0).verdict.expect("it is asked").parts
}

/// A rig of spools that were tested to so many kilograms, wet; with a piece between two droppers where that is told.
fn of_tested(butt: f64, sighter: f64, upper: f64, middle: Option<f64>, lower: Option<f64>) -> String {
    let spool = |name: &str, tested: f64| {
        format!("spool {name}\n  size 0.20 mm\n  material nylon\n  test {tested} kg\n\n")
    };
    let mut text = spool("b", butt) + &spool("s", sighter) + &spool("u", upper);
    text.extend(middle.map(|tested| spool("m", tested)));
    text.extend(lower.map(|tested| spool("l", tested)));
    text.push_str(
        "rig a\n  method tight-line\n  butt 4 m of b\n  sighter 40 cm of s\n  ring 2 mm\n  tippet 80 cm of u as upper\n",
    );
    if middle.is_some() {
        text.push_str("  dropper 20 cm with #16 2 mm tungsten\n  tippet 50 cm of m as middle\n");
    }
    if lower.is_some() {
        text.push_str("  dropper 20 cm with #18 2 mm tungsten\n  tippet 50 cm of l as lower\n");
    }
    text + "  point #14 2.8 mm tungsten\n"
}

const DRY_DROPPER: &str = "spool b\n  size 0.20 mm\n  material nylon\n  test 4 kg\n\nspool u\n  size 0.20 mm\n  material nylon\n  \
                           test 2 kg\n\nspool l\n  size 0.20 mm\n  material nylon\n  test 1.5 kg\n\nrig a\n  method dry-dropper\n  \
                           taper 7 ft of b\n  tippet 60 cm of u\n  inline #12 floats 1 g\n  tippet 60 cm of l as drop\n  \
                           point #16 2 mm tungsten\n";

/// The places at which a rig may part with one of its flies snagged, counted from the rod, each with the flies that it costs.
fn told(text: &str, snagged: usize) -> Vec<(String, usize)> {
    let notebook = Notebook::of_text(Path::new("a.rig"), Kind::Rig, text.to_owned(), &LocalDisk);
    let mut shown = snell_view::show(&notebook, Units::Author, |_, _| true);
    let parts = shown.remove(0).verdict.expect("it is asked").parts;
    let at = parts[snagged].at.iter();
    at.map(|one| (one.place.clone(), one.lost.len())).collect()
}

/// What is snagged where, and the places at which that may part, each with the flies that it costs.
type Parts<'a> = (&'a str, &'a str, usize, &'a [(&'a str, usize)]);

/// Ten rigs. A clinch keeps 0.77 of its line, a blood and a surgeon's knot 0.80 (as the knots ship); of two pieces the weaker
/// counts; what is within a tenth of the weakest cannot be told from it. A tag is of the piece above its knot, and what
/// hangs below a fly that is stuck on a tag is not pulled on.
#[test]
fn ten_rigs_part_where_the_sums_say() {
    let point = 1;
    let own = "at its own knot";
    let ring = "where sighter meets upper";
    let knot = "where upper meets lower";
    let butt = "where butt meets sighter";
    let equal = of_tested(5.0, 5.0, 2.0, None, Some(2.0));
    let finer = of_tested(5.0, 5.0, 3.0, None, Some(1.5));
    let single = of_tested(5.0, 2.0, 3.0, None, None);
    let weak_sighter = of_tested(5.0, 1.0, 2.0, None, Some(2.0));
    let weak_butt = of_tested(1.0, 5.0, 2.0, None, Some(2.0));
    let two_droppers = of_tested(5.0, 5.0, 3.0, Some(2.0), Some(2.0));
    let three_equal = of_tested(5.0, 5.0, 2.0, Some(2.0), Some(2.0));
    let middle = ["where middle meets lower", "where upper meets middle"];
    let table: [Parts<'_>; 10] = [
        // 0.77 x 2 = 1.54 at the fly and at the ring, 0.80 x 2 = 1.60 between.
        (
            "equal sizes, the point",
            &equal,
            point,
            &[(own, 1), (ring, 2), (knot, 1)],
        ),
        // The same, but that the knot with the tag takes both flies with it.
        (
            "equal sizes, the dropper",
            &equal,
            0,
            &[(own, 1), (ring, 2), (knot, 2)],
        ),
        // 0.77 x 1.5 = 1.155 and 0.80 x 1.5 = 1.20; the ring holds 0.77 x 3 = 2.31.
        ("a finer point section", &finer, point, &[(own, 1), (knot, 1)]),
        // Only the upper piece is pulled on: 2.31 at the fly and the ring, 0.80 x 3 = 2.40 at the knot.
        (
            "a finer point section, the dropper",
            &finer,
            0,
            &[(own, 1), (ring, 2), (knot, 2)],
        ),
        // The sighter's clinch on the ring 0.77 x 2 = 1.54, its blood knot 1.60, the fly 0.77 x 3 = 2.31.
        (
            "a ring on a weak sighter, one fly",
            &single,
            0,
            &[(ring, 1), (butt, 1)],
        ),
        // 0.77 and 0.80 at the sighter, 1.54 at the fly.
        ("a weak sighter", &weak_sighter, point, &[(ring, 2), (butt, 2)]),
        // 0.80 x 1 where the butt ends.
        ("a weak butt", &weak_butt, point, &[(butt, 2)]),
        // 1.54 at the fly, 1.60 at either knot of the 2 kg pieces, 2.31 at the ring.
        (
            "two droppers",
            &two_droppers,
            2,
            &[(own, 1), (middle[0], 1), (middle[1], 2)],
        ),
        // All of 2 kg: 1.54 at the fly and the ring, 1.60 at the knots.
        (
            "two droppers of one size",
            &three_equal,
            2,
            &[(own, 1), (ring, 3), (middle[0], 1), (middle[1], 2)],
        ),
        // The nymph's own knot and its knot at the bend of the dry 1.155; the dry's eye 0.77 x 2 = 1.54.
        (
            "a nymph under a dry",
            DRY_DROPPER,
            1,
            &[(own, 1), ("where tippet 1 meets drop", 1)],
        ),
    ];
    for (what, text, snagged, expected) in table {
        let expected: Vec<(String, usize)> = expected
            .iter()
            .map(|(place, lost)| ((*place).to_owned(), *lost))
            .collect();
        assert_eq!(told(text, snagged), expected, "{what}");
    }
    // The nymph below a dry that is stuck is not pulled on: the dry goes at its eye, and takes the nymph.
    assert_eq!(told(DRY_DROPPER, 0)[0], (own.to_owned(), 2));
}

/// How many flies each place costs.
fn lost(parting: &ShownParting) -> Vec<usize> {
    parting.at.iter().map(|one| one.lost.len()).collect()
}

/// 4X has 0.0249 mm2 and 6X 0.0127: whatever gives way below the dropper, the dropper stays.
#[test]
fn a_finer_lower_piece_costs_the_point_alone() {
    let partings = partings("0.22 mm", "4X", "6X");
    assert!(
        lost(&partings[1]).iter().all(|flies| *flies == 1),
        "{:?}",
        partings[1]
    );
}

/// 0.10 mm of nylon has 0.0079 mm2 and 5X 0.0182: the sighter gives way, and both flies are gone, whichever is snagged.
#[test]
fn a_weak_sighter_costs_both_flies() {
    for parting in partings("0.10 mm", "5X", "5X") {
        assert!(lost(&parting).iter().all(|flies| *flies == 2), "{parting:?}");
        assert!(
            parting.at.iter().all(|one| one.place.contains("sighter")),
            "{parting:?}"
        );
    }
}
