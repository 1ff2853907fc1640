//! A comparison in the forms that people and programs read.
//!
//! What changed is found in the notebook; here it is only laid out.

pub mod json;
pub mod lines;
pub mod markdown;
pub mod table;
pub mod text;

use crate::sheet::words;
use snell_view::Written;
use snell_view::compare::{
    Another, BlockChange, Called, Change, Comparison, Moved, Partly, Piece, RigChange, for_people, told,
};

/// The forms of a comparison.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default, clap::ValueEnum)]
pub enum Form {
    /// Sentences, as one angler would tell another.
    #[default]
    Text,
    /// What it was and what it is, side by side.
    Table,
    /// JSON, with values in SI beside the author's own text.
    Json,
    /// Markdown, for a page or a message.
    Markdown,
}

/// A measure's name with the part that it is of, and what it was and is, estimates with what they may be off by.
fn row(moved: &Moved) -> [String; 3] {
    let name = match &moved.part {
        Some(part) => format!("{part}, {}", moved.measure),
        None => moved.measure.to_owned(),
    };
    let text = |written: &Option<Written>| {
        let value = |one| words::value(moved.kind, moved.measure, one);
        written.as_ref().map_or_else(|| "unknown".to_owned(), value)
    };
    [name, text(&moved.was), text(&moved.now)]
}

/// What is told of two rigs that were held against each other.
#[derive(Default)]
pub struct OfOne {
    /// What changed, one thing a line.
    pub items: Vec<String>,
    /// The measures that moved: the name, what it was and what it is.
    pub moved: Vec<[String; 3]>,
}

/// What is told of the one rig of a comparison that is held against another.
pub fn of_one(comparison: &Comparison) -> OfOne {
    let mut told = OfOne::default();
    for rig in &comparison.rigs {
        if let RigChange::Changed {
            changes,
            measures,
            partly_read,
            ..
        } = rig
        {
            told.items.extend(changes.iter().map(snell_view::compare::told));
            told.items
                .extend(partly_read.map(|partly| of_partly(partly).to_owned()));
            told.moved.extend(for_people(measures).into_iter().map(row));
        }
    }
    told
}

/// What is said of a rig that could not be read whole.
fn of_partly(partly: Partly) -> &'static str {
    match partly {
        Partly::Now => "not all of it can be read now (`snell check` says why)",
        Partly::Was => "not all of it could be read before",
        Partly::Both => "not all of it can be read, nor could it before",
    }
}

/// A rig's name and title.
fn heading(called: &Called) -> String {
    match &called.title {
        Some(title) => format!("{}  {title}", called.name),
        None => called.name.clone(),
    }
}

/// Which rig another one is held against.
fn held_against(called: &Called) -> String {
    match &called.title {
        Some(title) => format!("held against {}, {title}", called.name),
        None => format!("held against {}", called.name),
    }
}

/// A block that changed, and the lines of it that did.
fn of_block(block: &BlockChange) -> (String, Vec<String>) {
    let title = block
        .title
        .as_ref()
        .map_or_else(String::new, |title| format!(", {title},"));
    let name = format!("{} {}{title}", block.kind, block.name);
    let told = match block.what {
        "changed" => format!("{} {} changed", block.kind, block.name),
        what => format!("{name} is {what}"),
    };
    let line = |line: &snell_view::compare::Line| match (&line.was, &line.now) {
        (Some(was), Some(now)) => format!("{} {now}, was {was}", line.key),
        (None, Some(now)) => format!("{} {now}, unsaid before", line.key),
        (Some(was), None) => format!("{} unsaid now, was {was}", line.key),
        (None, None) => line.key.clone(),
    };
    let partly = block.partly_read.map(|partly| of_partly(partly).to_owned());
    let lines = block.lines.iter().map(line);
    (
        told,
        partly
            .into_iter()
            .chain(lines.map(|line| line.trim().to_owned()))
            .collect(),
    )
}

/// What changed of a rig, a line each: the same as its base, another rig, or change by change.
fn of_changes(changes: &[Change], follows: Option<&str>, another: Option<&Another>) -> Vec<String> {
    let all = |parts: &[Piece]| parts.iter().map(Piece::in_words).collect::<Vec<_>>().join("; ");
    match (follows, another) {
        (Some(base), _) => vec![format!("follows {base}: the same changes")],
        (None, Some(another)) => {
            let rigs = [
                format!("another rig now: {}", all(&another.now)),
                format!("it was: {}", all(&another.was)),
            ];
            // Settings and notes stay worth a line each.
            let said = changes
                .iter()
                .filter(|change| matches!(change, Change::Says { .. }));
            rigs.into_iter().chain(said.map(told)).collect()
        }
        (None, None) => changes.iter().map(told).collect(),
    }
}
