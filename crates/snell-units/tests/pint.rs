//! The table of units against an independent library's conversions.

use snell_units::resolve;

/// Made by `tests/data/pint.py`; its header names the library and version.
const TABLE: &str = include_str!("../../../tests/data/pint.tsv");

/// Fahrenheit subtracts, so near its zero of Celsius the error that counts is
/// that of the numbers that went in.
const LEAST_TEMPERATURE: f64 = 32.0;

#[test]
fn conversions_agree_with_pint() {
    let rows: Vec<&str> = TABLE.lines().filter(|line| !line.starts_with('#')).collect();
    assert!(rows.len() >= 60, "only {} rows", rows.len());
    for row in rows {
        let [written, _, number, si] = row.split('\t').collect::<Vec<_>>()[..] else {
            panic!("not four columns: {row}");
        };
        let [number, expected] = [number, si].map(|text| text.parse::<f64>().unwrap());
        let unit = resolve(written).unwrap();
        let floor = if unit.offset == 0.0 {
            0.0
        } else {
            LEAST_TEMPERATURE
        };
        let off = (unit.quantity(number).si - expected).abs();
        assert!(off <= 1e-12 * expected.abs().max(floor), "{row}: off by {off:e}");
    }
}
