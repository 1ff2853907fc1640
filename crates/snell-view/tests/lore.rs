//! What the pages of lore claim against what comes out for the rig that they are argued with.

use snell_analysis::LocalDisk;
use snell_view::lore::lore;
use snell_view::vary::ShownVary;

fn table(name: &str) -> ShownVary {
    let lore = lore(name).expect("there is such a page");
    lore.of_the_pair(&LocalDisk).expect("it can be varied").remove(0)
}

/// One figure of every value, in SI units, without the rig as it is.
fn column(name: &str, what: &str) -> Vec<f64> {
    let figure = |row: &snell_view::vary::ShownVaried| {
        let mut figures = row.figures.iter();
        let figure = figures.find(|figure| figure.what == what)?;
        figure.value.as_ref()?.value
    };
    let rows = table(name).rows;
    rows.iter()
        .skip(1)
        .map(|row| figure(row).expect("it is told"))
        .collect()
}

#[track_caller]
fn rises(values: &[f64]) {
    assert!(values.windows(2).all(|pair| pair[0] < pair[1]), "{values:?}");
}

fn range(values: &[f64]) -> f64 {
    let most = values.iter().copied().fold(f64::MIN, f64::max);
    most - values.iter().copied().fold(f64::MAX, f64::min)
}

#[test]
fn a_thin_tippet_gets_nothing_down_and_bears_less() {
    assert!(range(&column("thin tippet", "down")) < 0.1);
    assert!(range(&column("thin tippet", "line")) < 0.02);
    let mut bears = column("thin-tippet", "bears");
    bears.reverse();
    rises(&bears);
}

#[test]
fn a_thick_butt_takes_line_and_lifts_the_flies() {
    rises(&column("thin-butt", "line"));
    rises(&column("thin-butt", "sag"));
    let rides = column("thin-butt", "point");
    assert!(rides[0] - rides[3] > 0.1, "{rides:?}");
}

#[test]
fn a_heavy_bead_is_sooner_down_and_rides_no_deeper() {
    let mut down = column("heavy-or-slim", "down");
    assert!(
        down.windows(2)
            .all(|pair| (0.65..0.95).contains(&(pair[1] / pair[0]))),
        "{down:?}"
    );
    down.reverse();
    rises(&down);
    assert!(range(&column("heavy-or-slim", "point")) < 0.01);
    let drag = column("heavy-or-slim", "drag");
    assert!(drag[3] > drag[0], "{drag:?}");
}

#[test]
fn a_tuck_gets_down_first_and_rides_alike() {
    rises(&column("tuck-cast", "down"));
    assert!(range(&column("tuck-cast", "point")) < 0.01);
}

#[test]
fn a_long_tag_sets_its_fly_deeper_by_two_thirds_of_it() {
    let deep = column("long-tags", "dropper");
    let share = (deep[2] - deep[0]) / (7.0 * 0.0254);
    assert!((0.55..0.8).contains(&share), "{share}");
}

#[test]
fn reach_counts_for_most() {
    rises(&column("close-in", "line"));
    let by_reach = range(&column("close-in", "line"));
    for other in ["thin-tippet", "heavy-or-slim", "tuck-cast", "long-tags"] {
        assert!(by_reach > range(&column(other, "line")), "{other}");
    }
}
