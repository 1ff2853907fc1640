//! Shipped figures held against what others measured or published, row by row of
//! `tests/data/outside.json`. A row says which figure it bears on; a figure that
//! does not agree with its rows stands in a table of exceptions with the reason.

#![allow(clippy::unwrap_used, reason = "a test may stop at what it did not expect")]

mod shipped;

use serde_json::Value as Json;
use shipped::{opened, shipped};
use std::collections::{BTreeMap, BTreeSet};
use std::fs;

/// Figures that rows bear on and that do not agree with them, or that no number on a page can be held against.
const EXCEPT: &[(&str, &str)] = &[
    (
        "material tungsten density",
        "one batch and a seller's figure; alloys run from 17.0, and the page says so",
    ),
    (
        "fly #16 2 mm tungsten",
        "the row is for a whole fly and less than its bead alone weighs",
    ),
    (
        "untested label",
        "80, 94 and 160 % lie to both sides of the 85 % that is common practice",
    ),
    (
        "usual mean over surface",
        "a constant of the code, quoted beside it",
    ),
    (
        "profile over coarse beds",
        "the law of the drift differs there; the page of the drift says by how much",
    ),
    (
        "hook of a match",
        "no rule asks for it; the page of the rulebook says why",
    ),
    (
        "usual bend of a rod",
        "the rows are of casting rods, ours of soft nymph rods, of which none was found measured",
    ),
    (
        "rule wading most",
        "the row is for children too in a street, the rule for an adult in a river",
    ),
];

/// Rows that one of their figures leaves aside, by the beginning of what the row is of.
const ASIDE: &[(&str, &str, &str)] = &[
    (
        "knot clinch range",
        "clinch and palomar in 60 lb",
        "a share of a label, and labels are worth 80 to 160 %",
    ),
    (
        "knot palomar range",
        "clinch and palomar in 60 lb",
        "a share of a label, and labels are worth 80 to 160 %",
    ),
    (
        "knot palomar strength",
        "clinch and palomar in 60 lb",
        "a share of a label, and labels are worth 80 to 160 %",
    ),
    (
        "knot clinch strength",
        "clinch and palomar in 60 lb",
        "a share of a label, and labels are worth 80 to 160 %",
    ),
    (
        "knot improved-clinch range",
        "improved clinch in nylon",
        "a share of a label, and labels are worth 80 to 160 %",
    ),
    (
        "knot improved-clinch strength",
        "improved clinch in nylon",
        "a share of a label, and labels are worth 80 to 160 %",
    ),
    (
        "rule drag-setting least",
        "drag, light tackle",
        "tackle of its own, which `drag-setting-fine` takes its limit from",
    ),
];

struct Row {
    of: Vec<String>,
    item: String,
    unit: String,
    low: Option<f64>,
    high: Option<f64>,
}

fn rows() -> Vec<Row> {
    let text = fs::read_to_string(snell_tests::top().join("tests/data/outside.json")).unwrap();
    let rows: Vec<Json> = serde_json::from_str(&text).unwrap();
    let row = |row: &Json| {
        let value = row["value"].as_f64();
        let word = |key: &str| row[key].as_str().unwrap_or_default().to_owned();
        assert!(!word("source").is_empty(), "{row} has no source");
        let of = row["of"].as_array().unwrap().iter();
        Row {
            of: of.map(|figure| figure.as_str().unwrap().to_owned()).collect(),
            item: word("item"),
            unit: word("unit"),
            // A row with one end is open at the other, unless it has a middle.
            low: row["low"].as_f64().or(value),
            high: row["high"].as_f64().or(value),
        }
    };
    rows.iter().map(row).collect()
}

/// How a figure is to stand to its rows.
#[derive(Clone, Copy, PartialEq, Debug)]
enum Stands {
    /// Inside what was found, to within a share of it.
    Inside(f64),
    /// Beside what was found on the low side, so that none of it is scolded, and not far beside.
    Below,
    /// The same on the high side.
    Above,
    /// The two ends of a range: round what was found, to within two points.
    Round,
}

/// How far beside what others do a limit may stand: half as much again and a little.
const BESIDE: f64 = 1.6;

fn stands(figure: &str) -> Stands {
    let words: Vec<&str> = figure.split(' ').collect();
    match words.as_slice() {
        ["knot", _, "range"] => Stands::Round,
        ["knot", _, "step"] => Stands::Above,
        ["rule", "bead-gape" | "hook-tippet", ..] => Stands::Inside(0.0),
        ["rule", name, _] if name.starts_with("match-") || name.starts_with("wading") => {
            Stands::Inside(0.002)
        }
        ["rule", "water-too-warm" | "stop-in-warm-water" | "dry-fall", _] => Stands::Inside(0.01),
        ["rule", _, "least"] => Stands::Below,
        ["rule", ..] => Stands::Above,
        ["hook", _] => Stands::Inside(0.35),
        // A hook that is a third lighter or heavier makes a twentieth of such a fly.
        ["fly", ..] => Stands::Inside(0.05),
        ["line", _] | ["bead", _, "in"] => Stands::Inside(0.04),
        ["shot", ..] => Stands::Inside(0.03),
        _ => Stands::Inside(0.02),
    }
}

/// Whether the ends of a figure stand to the ends of what was found as they should.
fn holds(stands: Stands, (low, high): (f64, f64), found: (f64, f64)) -> bool {
    match stands {
        Stands::Inside(share) => {
            low >= found.0 * (1.0 - share) - 1e-9 && high <= found.1 * (1.0 + share) + 1e-9
        }
        Stands::Below => low <= found.0 * 1.01 && low >= found.0 / BESIDE,
        Stands::Above => high >= found.1 * 0.99 && high <= found.1 * BESIDE,
        Stands::Round => {
            let most = found.1.min(1.0);
            low <= found.0 + 0.02 && high >= most - 0.02 && low > 0.0 && high <= 1.0
        }
    }
}

/// From SI to the unit of a row.
fn in_unit(si: f64, unit: &str) -> f64 {
    match unit {
        unit if unit.starts_with('%') => si * 100.0,
        "mm" | "g" => si * 1000.0,
        "C" if si > 200.0 => si - 273.15,
        "GPa" => si / 1e9,
        "m" | "kg/m3" | "m2/s" | "rods" | "" | "C" => si,
        other => panic!("no figure is told in {other}"),
    }
}

fn wrong(figure: &str, rows: &[&Row], shift: f64) -> Option<String> {
    let aside = |row: &&&Row| {
        !ASIDE
            .iter()
            .any(|(of, item, _)| *of == figure && row.item.starts_with(item))
    };
    let kept: Vec<&&Row> = rows.iter().filter(aside).collect();
    let unit = &kept.first()?.unit;
    let low = kept.iter().map(|row| row.low.unwrap_or(f64::NEG_INFINITY));
    let high = kept.iter().map(|row| row.high.unwrap_or(f64::INFINITY));
    let mut found = (
        low.fold(f64::INFINITY, f64::min),
        high.fold(f64::NEG_INFINITY, f64::max),
    );
    // Where no row has a lower end, the least upper end bounds it, and the other way round.
    if found.0 == f64::NEG_INFINITY {
        found.0 = kept
            .iter()
            .filter_map(|row| row.low.or(row.high))
            .fold(f64::INFINITY, f64::min);
    }
    let Some((low, high)) = shipped(figure) else {
        return Some(format!("{figure}: there is no such figure on the pages"));
    };
    let mut ends = (in_unit(low * shift, unit), in_unit(high * shift, unit));
    let stands = stands(figure);
    if stands == Stands::Round {
        (ends, found) = (
            (ends.0 / 100.0, ends.1 / 100.0),
            (found.0 / 100.0, found.1 / 100.0),
        );
    }
    let fits = holds(stands, ends, found);
    (!fits).then(|| format!("{figure}: {ends:?} {unit} does not stand {stands:?} to {found:?}"))
}

fn by_figure(rows: &[Row]) -> BTreeMap<&str, Vec<&Row>> {
    let mut figures: BTreeMap<&str, Vec<&Row>> = BTreeMap::new();
    for row in rows {
        for figure in &row.of {
            figures.entry(figure).or_default().push(row);
        }
    }
    figures
}

#[test]
fn shipped_figures_lie_where_others_found_them() {
    let rows = rows();
    let figures = by_figure(&rows);
    let excepted: BTreeSet<&str> = EXCEPT.iter().map(|(figure, _)| *figure).collect();
    let held = figures
        .iter()
        .filter(|(figure, _)| !excepted.contains(**figure) && !figure.starts_with("label "));
    let wrong: Vec<String> = held
        .clone()
        .filter_map(|(figure, rows)| wrong(figure, rows, 1.0))
        .collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    assert!(held.count() > 60, "most figures are held");
}

/// Put out of range by a factor, every figure is found out: what is held is held.
#[test]
fn a_figure_out_of_range_is_found_out() {
    let rows = rows();
    let excepted: BTreeSet<&str> = EXCEPT.iter().map(|(figure, _)| *figure).collect();
    let mut silent = Vec::new();
    for (figure, rows) in by_figure(&rows) {
        if excepted.contains(figure) || figure.starts_with("label ") {
            continue;
        }
        // Grains are sorted into classes that are four times as wide as they begin, or wider.
        let shifts = if figure.starts_with("bed ") {
            [0.02, 50.0]
        } else {
            [0.5, 2.0]
        };
        if shifts.iter().any(|shift| wrong(figure, &rows, *shift).is_none()) {
            silent.push(figure);
        }
    }
    // A boulder has no upper end.
    assert_eq!(silent, ["bed boulder grain"]);
}

#[test]
fn no_exception_is_idle() {
    let rows = rows();
    let figures = by_figure(&rows);
    for (figure, reason) in EXCEPT {
        assert!(figures.contains_key(figure), "no row bears on {figure}");
        assert!(reason.len() > 20, "{figure} is excepted without a reason");
        let told = shipped(figure).is_none() || wrong(figure, &figures[figure], 1.0).is_some();
        assert!(told, "{figure} agrees with its rows and needs no exception");
    }
    for (figure, item, reason) in ASIDE {
        let there = figures[figure].iter().any(|row| row.item.starts_with(item));
        assert!(there && reason.len() > 20, "{figure} leaves nothing aside");
    }
}

/// Loads that tippets bore on a machine: a label that says as much is believed, one that says a tenth more is not.
#[test]
fn a_label_that_was_borne_out_is_believed() {
    let speaks = |size: &str, newtons: f64| {
        let text = format!("rig asked\n  tippet 40 in of {size} {newtons:.2} N fluoro\n");
        let found = snell_article::check(&opened(&text));
        found.iter().any(|finding| &*finding.code == "label-strength")
    };
    let rows = rows();
    let mut tried = 0;
    for (figure, rows) in by_figure(&rows) {
        let Some(size) = figure.strip_prefix("label ") else {
            continue;
        };
        let most = rows.iter().filter_map(|row| row.high).fold(0.0, f64::max);
        assert!(!speaks(size, most), "{size} that bore {most} N is scolded");
        assert!(
            speaks(size, most * 1.1),
            "{size} of {most} N and a tenth is believed"
        );
        tried += 1;
    }
    assert_eq!(tried, 2);
}

/// A knot without a row says that its figure is from memory.
#[test]
fn a_knot_that_nobody_tested_says_so() {
    let rows = rows();
    let figures = by_figure(&rows);
    let page = fs::read_to_string(snell_tests::top().join("crates/snell-rig/shelf/knots.md")).unwrap();
    let mut untested = 0;
    for block in page.split("\nknot ").skip(1) {
        let name = block.split(' ').next().unwrap();
        let source = block
            .lines()
            .take_while(|line| !line.is_empty() && !line.starts_with("```"));
        let source: Vec<&str> = source.filter(|line| line.starts_with("  source")).collect();
        let tested = figures.contains_key(format!("knot {name} strength").as_str());
        if let ([source], false) = (source.as_slice(), tested) {
            assert!(source.contains("from memory"), "{name}: {source}");
            untested += 1;
        }
    }
    assert!(untested >= 8, "{untested}");
}
