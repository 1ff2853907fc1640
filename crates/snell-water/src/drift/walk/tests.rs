//! The walk with forces that do not change from place to place, for which the
//! shape of a line is known by other ways than walking.

use super::*;
use crate::fly::Fly;
use serde::Deserialize;
use uom::si::f64::{Length, Mass, MassDensity};

/// Pode's coefficients: each a force, or a force on a metre.
#[derive(Deserialize)]
struct Constant {
    /// Of the fly.
    #[serde(rename = "W", default)]
    weight: f64,
    #[serde(default)]
    fly_drag: f64,
    /// Across the line, were it to stand upright.
    #[serde(rename = "R")]
    across: f64,
    #[serde(rename = "w", default)]
    line_weight: f64,
    #[serde(rename = "F", default)]
    along: f64,
    #[serde(rename = "L", default)]
    length: f64,
}

impl Forces for &Constant {
    fn on_fly(&self, _: usize, _: f64) -> [f64; 2] {
        [self.fly_drag, -self.weight]
    }

    fn on_line(&self, _: &Strand, [x, z]: [f64; 2], _: f64) -> [f64; 2] {
        // The flow is [1, 0]: what of it goes across is [z^2, -x z], of size |z|.
        let (across, along) = (self.across * z.abs(), self.along * x.signum());
        [
            across * z * z + along * x,
            -across * x * z + along * z - self.line_weight,
        ]
    }
}

impl Constant {
    fn top(&self, length: f64) -> Step {
        let si = |value: f64| Length {
            value,
            ..Length::default()
        };
        // It has to be there to be tied on; what acts on it is told by the constants.
        let kilogram = Mass {
            value: 1.0,
            ..Mass::default()
        };
        let any = MassDensity {
            value: 1.0,
            ..MassDensity::default()
        };
        let any_fly = Fly::shot(kilogram, any).expect("it has a mass");
        let line = Strand::new(si(length), si(1.0), any);
        let walk = Walk {
            tackle: &Tackle::new(any_fly, vec![line], Vec::new()).expect("the line has sizes"),
            forces: self,
            depth: length,
            segments: 400,
            left: &Cell::new(usize::MAX),
            borne: 0.0,
        };
        walk.over(length, 0.0, None).step
    }

    /// Degrees between the stream and the line.
    fn angle(&self, length: f64) -> f64 {
        let [x, z] = self.top(length).pull;
        z.atan2(-x).to_degrees()
    }
}

#[derive(Deserialize)]
struct Row {
    id: String,
    area: String,
    inputs: serde_json::Value,
    quantity: String,
    expected: f64,
    rel_tol: Option<f64>,
    provenance: String,
}

/// The rows that `tests/rows.rs` cannot judge from outside the crate, where coefficients follow from
/// the flow.
#[test]
fn rows_of_constant_coefficients() {
    const ROWS: &str = include_str!("../../../tests/data/rows.json");
    let rows: Vec<Row> = serde_json::from_str(ROWS).expect("the rows can be read");
    let mut judged = 0;
    for row in rows.into_iter().filter(|row| row.area == "steady") {
        if row.inputs.get("R").is_none() {
            continue;
        }
        let constant: Constant = serde_json::from_value(row.inputs).expect("the inputs are Pode's");
        let top = constant.top(constant.length.max(1.0));
        let value = match row.quantity.as_str() {
            "x" => top.at[0],
            "z" => top.at[1],
            "T" => top.pull[0].hypot(top.pull[1]),
            // It is where a long line comes to.
            "deg from stream" => constant.angle(100.0),
            other => panic!("{}: {other} is no quantity of a line", row.id),
        };
        let allowed = row.rel_tol.expect("it has a tolerance") * row.expected.abs();
        assert!(
            (value - row.expected).abs() <= allowed,
            "{}: {value}, not {} ({})",
            row.id,
            row.expected,
            row.provenance
        );
        judged += 1;
    }
    assert_eq!(judged, 19, "rows of constant coefficients");
}

/// Made by `tests/data/outside/tables.py`: the shape by quadrature, which does not walk.
#[test]
fn constant_coefficients_give_the_shape_of_quadrature() {
    const TABLE: &str = include_str!("../../../tests/data/outside/cable_constant.tsv");
    let mut judged = 0;
    for line in TABLE.lines().filter(|line| !line.starts_with('#')) {
        let row: Vec<f64> = line
            .split('\t')
            .map(|cell| cell.parse().expect("a number"))
            .collect();
        let [
            weight,
            fly_drag,
            across,
            along,
            line_weight,
            length,
            x,
            z,
            tension,
        ] = row[..]
        else {
            panic!("not nine columns: {line}");
        };
        let constant = Constant {
            weight,
            fly_drag,
            across,
            line_weight,
            along,
            length,
        };
        let top = constant.top(length);
        let found = [top.at[0], top.at[1], top.pull[0].hypot(top.pull[1])];
        for (value, expected) in found.into_iter().zip([x, z, tension]) {
            assert!((value / expected - 1.0).abs() < 1e-7, "{line}: {value}");
        }
        judged += 1;
    }
    assert_eq!(judged, 24);
}
