//! Single values against published work, other programs and closed forms: every row of
//! `data/rows.json` by what it is about, each within its own tolerance.

#[path = "../given/mod.rs"]
mod given;

mod flies;
mod leaders;
mod rigs;
mod spreads;
mod water;

use given::own_folder;
use serde::Deserialize;
use serde_json::{Map, Value};
use std::collections::BTreeMap;

#[derive(Deserialize)]
pub struct Row {
    pub id: String,
    pub area: String,
    pub inputs: Map<String, Value>,
    pub quantity: String,
    pub expected: f64,
    pub rel_tol: Option<f64>,
    pub abs_tol: Option<f64>,
    pub kind: String,
    pub provenance: String,
}

/// Who judges the rows of an area, and how many there are.
type Judge = fn(&Row) -> Option<f64>;
const AREAS: &[(&str, usize, Judge)] = &[
    ("air", 8, leaders::air_row),
    ("air example", 49, leaders::example),
    ("air pull", 11, leaders::hangs_calm),
    ("bead mass", 30, flies::bead_mass),
    ("cast", 12, leaders::cast),
    ("cylinder Cd", 26, water::cylinder),
    ("drift in the wind", 221, leaders::grid),
    ("finite cylinder", 10, water::finite_cylinder),
    ("float", 17, flies::float),
    ("float example", 5, rigs::float),
    ("fly drag, falling", 24, flies::falling),
    ("fly drag, level slip", 44, flies::slipping),
    ("fly parts", 238, flies::parts),
    ("hook", 94, flies::hook),
    ("leader in the wind", 69, leaders::blown),
    ("line weight", 12, water::line_weight),
    ("load", 3, water::load),
    ("profile", 25, water::profile),
    ("sag", 11, leaders::sag),
    ("sink example", 43, rigs::sink_time),
    ("sphere Cd", 36, water::sphere),
    ("spread", 10, spreads::band),
    ("spread draws", 4, spreads::draw),
    ("spread pairs", 16, spreads::pair),
    ("spread shares", 14, spreads::share),
    ("states", 12, rigs::state),
    // Coefficients that do not follow from the flow cannot be asked for through a drift: these are judged within the
    // crate, in `src/drift/walk/tests.rs`.
    ("steady", 19, |_| None),
    ("steady example", 82, rigs::steady),
    ("tangential k", 14, water::along),
    ("terminal speed", 30, flies::ball_falls),
    ("water", 28, water::water),
    ("wind example", 35, leaders::wind_example),
    ("wind on a line", 8, leaders::on_line),
    ("wind profile", 7, leaders::profile),
];

/// Rows that are met less well than they ask, with the share that they are held to, and why. This one is a deviation of the
/// difference of two sink times over a hundred draws; where the nodes of a sink lie moves each time by a hundredth, at random,
/// and both programs' own share of that stands in it.
const LESS: [(&str, f64); 1] = [("spread_two_free_bead 3.3 for 2.8_sink_time_sd", 0.25)];

#[test]
fn every_row_holds() {
    let rows: Vec<Row> = given::read(&own_folder().join("rows.json"));
    let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
    let mut failures = Vec::new();
    for row in &rows {
        *counts.entry(&row.area).or_default() += 1;
        let judge = AREAS.iter().find(|(area, ..)| *area == row.area);
        let (_, _, judge) = judge.unwrap_or_else(|| panic!("{}: nothing judges {}", row.id, row.area));
        let Some(value) = judge(row) else { continue };
        let off = (value - row.expected).abs();
        if off.is_nan() || off > row.allowed() {
            failures.push(format!(
                "{}: {} is {value:e}, not {:e} within {:e} ({}: {})",
                row.id,
                row.quantity,
                row.expected,
                row.allowed(),
                row.kind,
                row.provenance
            ));
        }
    }
    let expected: BTreeMap<&str, usize> = AREAS.iter().map(|(area, count, _)| (*area, *count)).collect();
    assert!(
        failures.is_empty(),
        "{} fail:\n{}",
        failures.len(),
        failures.join("\n")
    );
    assert_eq!(counts, expected);
    assert_eq!(rows.len(), 1267);
}

impl Row {
    fn allowed(&self) -> f64 {
        if let Some((_, share)) = LESS.iter().find(|(id, _)| *id == self.id) {
            return share * self.expected.abs();
        }
        let by_share = self.rel_tol.map(|share| share * self.expected.abs());
        by_share
            .into_iter()
            .chain(self.abs_tol)
            .reduce(f64::max)
            .unwrap_or_else(|| panic!("{} has no tolerance", self.id))
    }

    pub fn number(&self, name: &str) -> f64 {
        self.maybe(name)
            .unwrap_or_else(|| panic!("{} has no number {name}", self.id))
    }

    pub fn maybe(&self, name: &str) -> Option<f64> {
        self.inputs.get(name).and_then(Value::as_f64)
    }

    pub fn word(&self, name: &str) -> &str {
        let value = self.inputs.get(name).and_then(Value::as_str);
        value.unwrap_or_else(|| panic!("{} has no word {name}", self.id))
    }

    pub fn odd(&self) -> ! {
        panic!("{}: nothing judges {} of {}", self.id, self.quantity, self.area)
    }
}

/// What is made of the place where a growing function is nothing.
pub fn halved<T>(mut low: f64, mut high: f64, of: impl Fn(f64) -> f64, made: impl Fn(f64) -> T) -> T {
    for _ in 0..60 {
        let middle = (low + high) / 2.0;
        if of(middle) < 0.0 {
            low = middle;
        } else {
            high = middle;
        }
    }
    made((low + high) / 2.0)
}
