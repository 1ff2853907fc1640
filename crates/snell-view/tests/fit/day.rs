//! Days over several waters against every sequence of the rigs that one change of a coarse grid makes.

use super::{PAIRS, grid, notebook};
use snell_view::Units;
use snell_view::plan::{self, ShownPlan};

/// A rig, the waters of its day, and the lengths of its pieces as it is written, cm.
type Day = (
    &'static str,
    &'static [&'static str],
    &'static [(&'static str, f64)],
);

const FLOAT: &[(&str, f64)] = &[("over-float", 60.0), ("upper", 90.0), ("lower", 40.0)];
const PAIR: &[(&str, f64)] = &[("upper", 105.0), ("lower", 50.0), ("dropper", 18.0)];

const DAYS: [Day; 6] = [
    ("under-a-float", &["tarn", "glide"], FLOAT),
    ("under-a-float", &["glide", "tarn"], FLOAT),
    ("under-a-float", &["glide", "pool", "tarn"], FLOAT),
    ("single", &["fast", "glide"], &[("tippet", 127.0)]),
    ("pair", &["glide", "pool", "tarn"], PAIR),
    ("laid-down", &["glide", "fast"], &[("tippet", 127.0)]),
];

fn planned(rig: &str, waters: &[&str]) -> ShownPlan {
    let waters: Vec<String> = waters.iter().map(|water| (*water).to_owned()).collect();
    let wanted = |name: &str, _: &str| name == rig;
    let plans = plan::plan(&notebook(PAIRS), Units::Author, &waters, wanted, &mut |_, _| {});
    plans.expect("the waters are there").remove(0)
}

/// The part that a line changes, and its length where that is what it gives, in cm.
fn changed(line: &str) -> (&str, Option<f64>) {
    let Some((part, value)) = line
        .strip_prefix("change ")
        .and_then(|line| line.split_once(" to "))
    else {
        return ("cast", None);
    };
    (
        part,
        value.strip_suffix(" cm").and_then(|length| length.parse().ok()),
    )
}

/// The knots between two sets of one change or none: two for a piece that becomes longer, none for a cast, else one.
fn knots(own: &[(&str, f64)], from: &[String], to: &[String]) -> usize {
    let lines = || from.iter().chain(to);
    let mut parts: Vec<&str> = lines().map(|line| changed(line).0).collect();
    parts.sort_unstable();
    parts.dedup();
    let of = |part: &str, set: &[String]| {
        let length = set
            .iter()
            .find(|line| changed(line).0 == part)
            .map(|line| changed(line).1);
        length.unwrap_or_else(|| {
            own.iter()
                .find(|(name, _)| *name == part)
                .map(|(_, length)| *length)
        })
    };
    let one = |part: &&str| match (of(part, from), of(part, to)) {
        _ if *part == "cast" => 0,
        (Some(was), Some(now)) if now > was && *part != "dropper" => 2,
        (Some(was), Some(now)) if now == was => 0,
        _ => 1,
    };
    parts
        .iter()
        .filter(|part| {
            let line = |set: &[String]| set.iter().find(|line| changed(line).0 == **part).cloned();
            line(from) != line(to)
        })
        .map(one)
        .sum()
}

/// The fewest knots of all sequences of sets, the first of which is tied at home.
fn fewest(own: &[(&str, f64)], right: &[Vec<Vec<String>>]) -> Option<usize> {
    fn on(own: &[(&str, f64)], from: &[String], right: &[Vec<Vec<String>>]) -> Option<usize> {
        let Some((here, later)) = right.split_first() else {
            return Some(0);
        };
        here.iter()
            .filter_map(|to| Some(knots(own, from, to) + on(own, to, later)?))
            .min()
    }
    let (first, later) = right.split_first()?;
    first.iter().filter_map(|from| on(own, from, later)).min()
}

#[test]
fn no_sequence_of_the_grid_ties_fewer_knots() {
    let mut tied = Vec::new();
    for (rig, waters, own) in DAYS {
        let plan = planned(rig, waters);
        assert!(plan.stops.iter().all(|stop| stop.right), "{rig}, {waters:?}");
        let right: Vec<_> = waters
            .iter()
            .map(|water| grid::all_right(PAIRS, rig, water, &["wading", "wading-danger"]))
            .collect();
        let fewest = fewest(own, &right);
        if let Some(fewest) = fewest {
            assert!(
                plan.knots <= fewest,
                "{rig}, {waters:?}: {} knots, not {fewest}",
                plan.knots
            );
        }
        tied.push((plan.knots, fewest));
        let told: usize = plan.stops.iter().skip(1).map(|stop| stop.knots).sum();
        assert_eq!(told, plan.knots, "{rig}, {waters:?}");
    }
    // Some days want knots and some want none, and the grid has a sequence for each.
    let knots = [1, 2, 2, 0, 0, 0];
    assert_eq!(tied, knots.map(|knots| (knots, Some(knots))));
}

#[test]
fn each_stop_fishes_as_the_fit_of_its_water_says() {
    for (rig, waters, _) in DAYS {
        for stop in planned(rig, waters).stops {
            let fishes = stop.verdict.fishes.as_ref().and_then(|fishes| fishes.yes);
            assert_ne!(
                fishes,
                Some(false),
                "{rig} in {}: {:?}",
                stop.water,
                stop.verdict.answer
            );
        }
    }
}
