//! Rigs as comma-separated values, one part a line, for a spreadsheet.
//!
//! Texts stand as people read them, with SI figures behind them.

use crate::trouble::Trouble;
use snell_view::{ShownRig, Written};
use std::io::Write;

const HEADINGS: [&str; 13] = [
    "file",
    "rig",
    "part",
    "length",
    "to_point",
    "diameter",
    "rated",
    "what",
    "knot",
    "length_m",
    "to_point_m",
    "diameter_m",
    "rated_N",
];

/// Writes a line of headings and one line a part.
///
/// # Errors
/// The output cannot be written.
pub fn write(out: &mut impl Write, rigs: &[ShownRig]) -> Result<(), Trouble> {
    let mut writer = csv::Writer::from_writer(out);
    writer.write_record(HEADINGS)?;
    for rig in rigs {
        for row in &rig.rows {
            let figures = [&row.length, &row.to_point, &row.diameter, &row.rated];
            let [length, to_point, diameter, rated] = figures.map(text);
            let [length_m, to_point_m, diameter_m, rated_n] = figures.map(si);
            writer.write_record([
                &rig.file,
                &rig.name,
                &row.part,
                length,
                to_point,
                diameter,
                rated,
                &row.what,
                &row.knot,
                &length_m,
                &to_point_m,
                &diameter_m,
                &rated_n,
            ])?;
        }
    }
    Ok(writer.flush()?)
}

fn text(written: &Option<Written>) -> &str {
    written.as_ref().map_or("", |written| &written.text)
}

fn si(written: &Option<Written>) -> String {
    let value = written.as_ref().and_then(|written| written.value);
    value.map_or_else(String::new, number)
}

/// To nine digits: what the sums of a double leave behind them is no news.
pub fn number(value: f64) -> String {
    let rounded: f64 = format!("{value:.8e}").parse().unwrap_or(value);
    rounded.to_string()
}

#[cfg(test)]
mod tests {
    use super::*;
    use snell_analysis::{Kind, LocalDisk, Notebook};
    use snell_view::{Units, show};
    use std::path::Path;

    #[test]
    fn cells_are_quoted_where_they_must_be() {
        let text = "spool odd \"half \"\"an\"\" inch, odd\"\n  size 6X\n  material fluoro\n\nrig a\n  tippet 30 in of 6X fluoro, pink\n  point #14 2.8 mm tungsten\n";
        let notebook = Notebook::of_text(Path::new("a, b.rig"), Kind::Rig, text.to_owned(), &LocalDisk);
        let mut rigs = show(&notebook, Units::Author, |_, _| true);
        rigs[0].rows[0].what = "6X, \"pink\"".to_owned();
        let mut out = Vec::new();
        write(&mut out, &rigs).unwrap();
        let out = String::from_utf8(out).unwrap();
        let line = out.lines().nth(1).unwrap();
        assert_eq!(
            line,
            "\"a, b.rig\",a,tippet,30 in,0 in,0.127 mm,,\"6X, \"\"pink\"\"\",,0.762,0,0.000127,"
        );
        assert_eq!(out.lines().count(), 3);
    }
}
