//! Droppers, gaps and flies as an angler would say them.
//!
//! A measure without words of its own here is told by its name.

use super::{Named, named};
use notebook::view::{ShownPart, ShownRig, Written};
use rig::measure::Kind;

/// Every dropper, gap and fly in words.
pub fn remarks(rig: &ShownRig) -> Vec<Named> {
    let droppers = rig.droppers.iter().map(|part| remark(Kind::Dropper, part));
    let gaps = rig.gaps.iter().map(|part| remark(Kind::Gap, part));
    let flies = rig.flies.iter().map(|part| remark(Kind::Fly, part));
    droppers
        .chain(gaps)
        .chain(flies)
        .filter(|remark| !remark.text.is_empty())
        .collect()
}

fn remark(kind: Kind, part: &ShownPart) -> Named {
    let told = part
        .measures
        .iter()
        .filter(|(name, _)| !stands_elsewhere(kind, name));
    let said: Vec<String> = told.map(|(name, written)| said(kind, name, written)).collect();
    named(&part.name, &said.join(", "))
}

/// Whether the table, or another measure, says it already.
fn stands_elsewhere(kind: Kind, name: &str) -> bool {
    kind == Kind::Fly && matches!(name, "hook-size" | "knot")
}

fn said(kind: Kind, name: &str, written: &Written) -> String {
    let text = value(kind, name, written);
    match (kind, name) {
        (Kind::Dropper, "length") => format!("{text} of tag"),
        (Kind::Dropper, "changes") => match text.as_str() {
            "0" => "no change left".to_owned(),
            "1" => "1 change left".to_owned(),
            _ => format!("{text} changes left"),
        },
        (Kind::Gap, "length") => format!("{text} along the line"),
        (Kind::Gap, "hung") => format!("{text} hanging"),
        (Kind::Fly, "mass") => text,
        (Kind::Fly, "strength") => format!("knot holds {text}"),
        _ => format!("{name} {text}"),
    }
}

/// A value, called an estimate where it is one.
pub fn value(kind: Kind, name: &str, written: &Written) -> String {
    if (kind, name) == (Kind::Rig, "lead") && written.value == Some(0.0) {
        return "none".to_owned();
    }
    if written.estimate {
        format!("{} (estimate)", written.text)
    } else {
        written.text.clone()
    }
}
