//! A comparison as Markdown: a heading a rig, a list of what changed, a table
//! of the measures.

use super::{heading, held_against, of_block, of_changes, of_partly};
use snell_view::compare::{Comparison, Moved, Piece, RigChange, for_people};

/// Writes it; nothing where nothing changed.
pub fn write(comparison: &Comparison) -> String {
    let mut sections: Vec<String> = comparison
        .rigs
        .iter()
        .map(|one| rig(one, comparison.chosen))
        .collect();
    sections.extend(comparison.blocks.iter().map(|block| {
        let (name, lines) = of_block(block);
        section(&name, lines)
    }));
    sections.join("\n")
}

fn section(heading: &str, items: impl IntoIterator<Item = String>) -> String {
    let mut text = format!("## {}\n\n", plain(heading));
    for item in items {
        text.push_str(&format!("- {}\n", plain(&item)));
    }
    text
}

fn rig(rig: &RigChange, chosen: bool) -> String {
    let parts = |parts: &[Piece]| parts.iter().map(Piece::in_words).collect::<Vec<_>>();
    match rig {
        RigChange::Added { rig, parts: all } => section(&format!("{} (new)", heading(rig)), parts(all)),
        RigChange::Dropped { rig, parts: all } => section(&format!("{} (gone)", heading(rig)), parts(all)),
        RigChange::Changed {
            was,
            now,
            changes,
            follows,
            another,
            measures,
            fishes,
            partly_read,
        } => {
            let mut items = Vec::new();
            if chosen {
                items.push(held_against(was));
            } else if was.name != now.name {
                items.push(format!("called {} before", was.name));
            }
            items.extend(fishes.as_ref().map(ToString::to_string));
            items.extend(of_changes(changes, follows.as_deref(), another.as_ref()));
            items.extend(partly_read.map(|partly| of_partly(partly).to_owned()));
            let mut text = section(&heading(now), items);
            text.push_str(&table(measures));
            text
        }
    }
}

fn table(measures: &[Moved]) -> String {
    let rows: Vec<String> = for_people(measures).into_iter().map(row).collect();
    if rows.is_empty() {
        return String::new();
    }
    format!("\n| measure | was | now |\n|---|--:|--:|\n{}", rows.concat())
}

fn row(moved: &Moved) -> String {
    let [name, was, now] = super::row(moved).map(|cell| plain(&cell));
    format!("| {name} | {was} | {now} |\n")
}

/// A text on one line in which nothing is taken for Markdown's own marks.
fn plain(text: &str) -> String {
    let mut plain = String::with_capacity(text.len());
    for letter in crate::prose::printable(text).chars() {
        if matches!(letter, '|' | '*' | '_' | '<' | '[' | ']' | '\\') {
            plain.push('\\');
        }
        plain.push(letter);
    }
    plain
}
