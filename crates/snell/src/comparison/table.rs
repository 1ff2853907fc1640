//! A comparison as a table: what, what it was, what it is.

use super::{heading, of_block, row};
use crate::prose::{pad, printable, width};
use crate::terminal::Terminal;
use snell_view::compare::{
    Called, Change, Comparison, Partly, Piece, RigChange, TraitKind, for_people, place_below, told,
};

/// One row: what it is of, what it was, what it is.
pub type Row = [String; 3];

/// Writes it; nothing where nothing changed.
pub fn write(comparison: &Comparison, terminal: &Terminal) -> String {
    let mut text = String::new();
    for rig in &comparison.rigs {
        let (heading, rows) = of_rig(rig);
        lay(&mut text, &heading, &rows, terminal);
    }
    for block in &comparison.blocks {
        let (mut name, _) = of_block(block);
        name.push_str(partly(block.partly_read));
        let line = |line: &snell_view::compare::Line| {
            [
                line.key.clone(),
                said(line.was.as_deref()),
                said(line.now.as_deref()),
            ]
        };
        lay(
            &mut text,
            &name,
            &block.lines.iter().map(line).collect::<Vec<_>>(),
            terminal,
        );
    }
    text
}

/// Behind a heading, that there may be more than the table has.
fn partly(partly: Option<Partly>) -> &'static str {
    partly.map_or("", |_| " (not all of it could be read)")
}

fn said(text: Option<&str>) -> String {
    text.unwrap_or("-").to_owned()
}

fn lay(text: &mut String, heading: &str, rows: &[Row], terminal: &Terminal) {
    if !text.is_empty() {
        text.push('\n');
    }
    text.push_str(&terminal.strong(&printable(heading)));
    text.push('\n');
    if rows.is_empty() {
        return;
    }
    let heads = ["", "was", "now"].map(str::to_owned);
    let all: Vec<Row> = std::iter::once(heads).chain(rows.iter().cloned()).collect();
    let wide = |column: usize| {
        all.iter()
            .map(|row| width(&printable(&row[column])))
            .max()
            .unwrap_or(0)
    };
    let (first, second) = (wide(0), wide(1));
    for (at, row) in all.iter().enumerate() {
        let cells = [
            pad(&printable(&row[0]), first),
            pad(&printable(&row[1]), second),
            printable(&row[2]).into_owned(),
        ];
        let line = format!("  {}", cells.join("  "));
        let line = line.trim_end();
        text.push_str(&if at == 0 {
            terminal.quiet(line)
        } else {
            line.to_owned()
        });
        text.push('\n');
    }
}

/// A rig's heading and rows.
pub fn of_rig(rig: &RigChange) -> (String, Vec<Row>) {
    match rig {
        RigChange::Added { rig, .. } => (format!("{} (new)", heading(rig)), Vec::new()),
        RigChange::Dropped { rig, .. } => (format!("{} (gone)", heading(rig)), Vec::new()),
        RigChange::Changed {
            was,
            now,
            changes,
            measures,
            fishes,
            partly_read,
            ..
        } => {
            let mut rows = names(was, now);
            let yes = |yes: bool| if yes { "yes" } else { "no" }.to_owned();
            let fishes = fishes.as_ref().map(|fishes| fishes.yes);
            rows.extend(fishes.map(|now| ["fishes here".to_owned(), yes(!now), yes(now)]));
            rows.extend(changes.iter().map(of_change));
            rows.extend(for_people(measures).into_iter().map(row));
            (format!("{}{}", heading(now), partly(*partly_read)), rows)
        }
    }
}

fn names(was: &Called, now: &Called) -> Vec<Row> {
    let mut rows = Vec::new();
    if was.name != now.name {
        rows.push(["name".to_owned(), was.name.clone(), now.name.clone()]);
    }
    if was.title != now.title {
        rows.push([
            "title".to_owned(),
            said(was.title.as_deref()),
            said(now.title.as_deref()),
        ]);
    }
    rows
}

fn of_change(change: &Change) -> Row {
    match change {
        Change::Says { key, was, now } => [key.clone(), said(was.as_deref()), said(now.as_deref())],
        Change::Altered {
            part, side, was, now, ..
        } => {
            let text =
                |one: &Option<snell_view::compare::Trait>| said(one.as_ref().map(|one| one.text.as_str()));
            if text(was) == text(now) {
                return [part.clone(), String::new(), told(change)];
            }
            [format!("{part}{}", side_word(*side)), text(was), text(now)]
        }
        Change::Added { part, .. } => [part.name.clone(), "-".to_owned(), part.in_words()],
        Change::Removed { part } => [part.name.clone(), part.in_words(), "-".to_owned()],
        Change::Moved {
            part,
            was_below,
            now_below,
        } => [
            part.clone(),
            place_below(was_below.as_deref()),
            place_below(now_below.as_deref()),
        ],
        Change::Split { part, into } => [part.name.clone(), part.in_words(), listed(into)],
        Change::Joined { parts, into } => [into.name.clone(), listed(parts), into.in_words()],
        Change::Role { part, was, now } => [format!("{part}, role"), (*was).to_owned(), (*now).to_owned()],
        Change::Label { part, was, now } => [
            format!("{part}, label"),
            said(was.as_deref()),
            said(now.as_deref()),
        ],
    }
}

fn listed(pieces: &[snell_view::compare::Piece]) -> String {
    pieces.iter().map(Piece::in_words).collect::<Vec<_>>().join(" + ")
}

fn side_word(side: TraitKind) -> &'static str {
    match side {
        TraitKind::Length | TraitKind::Fly | TraitKind::Size => "",
        TraitKind::Stuff => ", stuff",
        TraitKind::FlyKnot => ", fly's knot",
        TraitKind::Knot => ", knot below",
        TraitKind::Tags => ", knot's ends",
    }
}
