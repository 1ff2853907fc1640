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
