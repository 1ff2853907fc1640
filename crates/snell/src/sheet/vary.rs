//! A rig with one thing varied, for people: the differences in words, then the figures beside each other.

use super::plain::Page;
use super::table::table;
use crate::terminal::Terminal;
use snell_view::vary::{ShownVaried, ShownVary};

/// What fewer draws agree on is not said.
const LIKELY: f64 = 0.8;

/// Writes it: an answer a value first.
pub fn write(vary: &ShownVary, terminal: &Terminal) -> String {
    let mut page = Page::new(terminal);
    page.title(&vary.name, vary.title.as_deref());
    page.gap();
    let answers: Vec<String> = vary
        .rows
        .iter()
        .filter_map(|row| answer(row, &vary.rows[0]))
        .collect();
    page.paragraphs(&answers);
    page.gap();
    let mut heads = vec![vary.target.clone()];
    let figures = vary.rows.first().map_or(&[][..], |row| &row.figures[..]);
    heads.extend(figures.iter().map(|figure| figure.what.clone()));
    let parts: Vec<String> = vary.rows.iter().map(parts).collect();
    let mut rows: Vec<Vec<String>> = vary.rows.iter().map(cells).collect();
    // Where a snag parts everywhere alike, the sheet of the rig says it.
    if parts.iter().any(|place| *place != parts[0]) {
        heads.push("a snag parts".to_owned());
        for (row, place) in rows.iter_mut().zip(parts) {
            row.push(place);
        }
    }
    table(&mut page, &heads, &rows, terminal);
    page.finish()
}

/// `5X: needs 5 in more line (sure), is down 0.1 s later (not sure)`
fn answer(row: &ShownVaried, as_it_is: &ShownVaried) -> Option<String> {
    let value = row.value.as_ref()?;
    // What may be either way is in the table; only what can be leant on is said.
    let differences = row
        .differences
        .iter()
        .filter(|difference| difference.chance >= LIKELY);
    let mut told: Vec<String> = differences
        .map(|difference| format!("{} ({})", difference.words, difference.sureness()))
        .collect();
    let fishing = |row: &ShownVaried| row.verdict.fishes.as_ref().and_then(|fishes| fishes.yes);
    match (fishing(row), fishing(as_it_is)) {
        (Some(false), Some(true)) => {
            let reason = row
                .verdict
                .fishes
                .as_ref()
                .and_then(|fishes| fishes.reasons.first());
            told.extend(reason.map(|reason| format!("does not fish here any more: {}", reason.message)));
        }
        (Some(true), Some(false)) => told.push("fishes here".to_owned()),
        _ => {}
    }
    Some(match told.is_empty() {
        true => format!("{value}: nothing that one would notice"),
        false => format!("{value}: {}", told.join(", ")),
    })
}

fn cells(row: &ShownVaried) -> Vec<String> {
    let text = |value: &Option<snell_view::Written>| {
        value
            .as_ref()
            .map_or_else(|| "unknown".to_owned(), |value| value.text.clone())
    };
    let mut cells = vec![row.value.clone().unwrap_or_else(|| "as it is".to_owned())];
    cells.extend(row.figures.iter().map(|figure| text(&figure.value)));
    cells
}

/// Where the rig parts when its point is snagged.
fn parts(row: &ShownVaried) -> String {
    let snagged = row.verdict.parts.last();
    let place = snagged.and_then(|parting| parting.at.first());
    place.map_or_else(|| "unknown".to_owned(), |one| one.place.clone())
}
