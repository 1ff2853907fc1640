//! Rows that are held by what people are told: what is said of labels, and what pages tell in their words.

use crate::rows::{by_figure, rows};
use crate::shipped::opened;
use std::collections::BTreeSet;
use std::fs;

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

/// What is sold by two charts of labels: strong or not, nobody is told that it cannot be, nor that it is soft.
#[test]
fn labels_that_are_sold_are_neither_incredible_nor_soft() {
    let rows = rows();
    let mut tried = 0;
    for (figure, rows) in by_figure(&rows) {
        let Some(size) = figure.strip_prefix("sold ") else {
            continue;
        };
        for newtons in rows.iter().flat_map(|row| [row.low, row.high]).flatten() {
            let text = format!("rig asked\n  tippet 40 in of {size} {newtons:.2} N fluoro\n");
            let found = snell_article::check(&opened(&text));
            let scolds = |code: &str| found.iter().any(|finding| &*finding.code == code);
            assert!(
                !scolds("label-incredible") && !scolds("label-soft"),
                "{size} of {newtons} N"
            );
            tried += 1;
        }
    }
    assert!(tried >= 36, "{tried}");
}

/// Figures that a page tells in its words stand there as they were found, rounded.
#[test]
fn pages_tell_what_was_found() {
    let rows = rows();
    let mut told = 0;
    for (figure, rows) in by_figure(&rows) {
        let Some(page) = figure.strip_prefix("page ") else {
            continue;
        };
        let (folder, page) = page.split_once('/').unwrap();
        let folder = match folder {
            "shelf" => "crates/snell-rig/shelf",
            "book" => "crates/snell-rules/book",
            "pages" => "crates/snell-analysis/reckoned",
            other => panic!("there are no pages in {other}"),
        };
        let path = snell_tests::top().join(folder).join(page).with_extension("md");
        let text = fs::read_to_string(&path).unwrap();
        let numbers: BTreeSet<&str> = text.split(|c: char| !c.is_ascii_digit() && c != '.').collect();
        let numbers: BTreeSet<&str> = numbers
            .iter()
            .map(|number| number.trim_end_matches('.'))
            .collect();
        for row in rows {
            for found in [row.low, row.high].into_iter().flatten() {
                let told = [format!("{found}"), format!("{found:.0}")];
                assert!(
                    told.iter().any(|number| numbers.contains(number.as_str())),
                    "{page} does not tell {found} of {}",
                    row.item
                );
            }
            told += 1;
        }
    }
    assert!(told >= 25, "{told}");
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
