//! The rows of `tests/data/outside.json`: what others measured, published or practise, each with the shipped figures that
//! it bears on, or with the reason why it bears on none.

use serde_json::Value as Json;
use std::collections::BTreeMap;
use std::fs;

pub(super) struct Row {
    pub(super) of: Vec<String>,
    /// Why no shipped figure is held against it; empty where one is.
    pub(super) aside: String,
    pub(super) item: String,
    pub(super) unit: String,
    pub(super) low: Option<f64>,
    pub(super) high: Option<f64>,
}

pub(super) fn rows() -> Vec<Row> {
    let text = fs::read_to_string(snell_tests::top().join("tests/data/outside.json")).unwrap();
    let rows: Vec<Json> = serde_json::from_str(&text).unwrap();
    let row = |row: &Json| {
        let value = row["value"].as_f64();
        let word = |key: &str| row[key].as_str().unwrap_or_default().to_owned();
        assert!(!word("source").is_empty(), "{row} has no source");
        let of = row["of"].as_array().unwrap().iter();
        Row {
            of: of.map(|figure| figure.as_str().unwrap().to_owned()).collect(),
            aside: word("aside"),
            item: word("item"),
            unit: word("unit"),
            // A row with one end is open at the other, unless it has a middle.
            low: row["low"].as_f64().or(value),
            high: row["high"].as_f64().or(value),
        }
    };
    rows.iter().map(row).collect()
}

/// Whether a figure is held by a test of its own: labels, and what pages tell in words.
pub(super) fn is_held_elsewhere(figure: &str) -> bool {
    ["label ", "sold ", "page "]
        .iter()
        .any(|kind| figure.starts_with(kind))
}

pub(super) fn by_figure(rows: &[Row]) -> BTreeMap<&str, Vec<&Row>> {
    let mut figures: BTreeMap<&str, Vec<&Row>> = BTreeMap::new();
    for row in rows {
        for figure in &row.of {
            figures.entry(figure).or_default().push(row);
        }
    }
    figures
}
