//! The figures of each fly below the picture: a table where it has room, else a
//! sentence each.

use super::sheet::Sheet;
use crate::drifting::drifted::Ride;
use crate::labels::{paragraph, run};
use crate::scene::{Side, TextRole};

const HEADS: [&str; 5] = ["", "rides", "may be", "off the bed", "against its water"];

/// Draws the figures from `y` down; returns where they end.
pub(super) fn draw(sheet: &mut Sheet<'_>, y: f64) -> f64 {
    let drifted = sheet.drifted;
    let Some(riding) = drifted.riding() else { return y };
    let gap = if sheet.medium.is_cells() { 2.0 } else { 12.0 };
    let rows: Vec<[&str; 5]> = riding.flies.iter().map(cells).collect();
    let wide = |column: usize| {
        let cells = rows
            .iter()
            .map(|row| sheet.medium.width(TextRole::Detail, row[column]));
        cells.fold(sheet.medium.width(TextRole::Tick, HEADS[column]), f64::max)
    };
    let figures: Vec<f64> = (1..HEADS.len()).map(wide).collect();
    let left = sheet.frame.margin;
    let room = sheet.frame.width - 2.0 * left - figures.iter().map(|wide| wide + gap).sum::<f64>();
    let least = if sheet.medium.is_cells() { 12.0 } else { 70.0 };
    if room < least {
        return sentences(sheet, &riding.flies, y);
    }
    let names = wide(0).min(room);
    let mut ends = Vec::new();
    let mut end = left + names;
    for wide in figures {
        end += gap + wide;
        ends.push(end);
    }
    table(sheet, &rows, (names, &ends), y)
}

fn cells(fly: &Ride) -> [&str; 5] {
    [&fly.name, &fly.rides, &fly.may_be, &fly.off_bed, &fly.against]
}

fn table(sheet: &mut Sheet<'_>, rows: &[[&str; 5]], (names, ends): (f64, &[f64]), mut y: f64) -> f64 {
    let (height, small) = (
        sheet.medium.height(TextRole::Detail),
        sheet.medium.height(TextRole::Tick),
    );
    for (head, end) in HEADS.iter().skip(1).zip(ends) {
        sheet.text(TextRole::Tick, *head, (*end, y + small / 2.0), Side::Ends);
    }
    y += small + if sheet.medium.is_cells() { 0.0 } else { 2.0 };
    for row in rows {
        for (cell, end) in row.iter().skip(1).zip(ends) {
            sheet.text(TextRole::Detail, *cell, (*end, y + height / 2.0), Side::Ends);
        }
        let name = run(TextRole::Detail, row[0]);
        let place = (sheet.frame.margin, y);
        y = paragraph(&mut sheet.items, sheet.medium, name, names, place);
    }
    y
}

fn sentences(sheet: &mut Sheet<'_>, flies: &[Ride], mut y: f64) -> f64 {
    for fly in flies {
        let told = format!(
            "{}: rides {} ({}), {} off the bed, {} than its water",
            fly.name, fly.rides, fly.may_be, fly.off_bed, fly.against
        );
        y = sheet.paragraph(TextRole::Detail, &told, (sheet.frame.margin, y));
    }
    y
}
