//! Droppers, gaps and flies as an angler would say them.
//!
//! A measure without words of its own here is told by its name; `show --form
//! json` has all of them.

use crate::sheet::entry::{Named, named};
use snell_rig::measure::Kind;
use snell_view::{ShownPart, ShownRig, Written};

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

/// What is known first, then what is estimated.
fn remark(kind: Kind, part: &ShownPart) -> Named {
    let told = part.measures.iter().filter(|(name, _)| is_told(kind, name));
    let (estimates, known): (Vec<_>, Vec<_>) = told.partition(|(_, written)| written.estimate);
    let say = |all: Vec<(&&str, &Written)>| {
        let said = all.into_iter().map(|(name, written)| said(kind, name, written));
        said.collect::<Vec<_>>().join(", ")
    };
    let (estimates, known) = (say(estimates), say(known));
    match (known.as_str(), estimates.as_str()) {
        (_, "") => named(&part.name, &known),
        ("", _) => named(&part.name, &format!("estimated: {estimates}")),
        _ => named(&part.name, &format!("{known}; estimated: {estimates}")),
    }
}

/// Whether the sheet tells a measure: what an angler asks of a part, and of a rig all but what only rules ask.
pub fn is_told(kind: Kind, name: &str) -> bool {
    let of_fly = [
        "mass",
        "wet-weight",
        "sinks",
        "hangs",
        "rides",
        "off-bed",
        "drags",
        "bead",
        "hook",
        "strength",
    ];
    match kind {
        Kind::Rig => !["sunk-mass", "breaks-above", "gives", "run-borne", "draws-in"].contains(&name),
        Kind::Section => ["length", "diameter"].contains(&name),
        Kind::Dropper => ["length", "changes"].contains(&name),
        Kind::Gap => ["length", "hang-apart"].contains(&name),
        Kind::Fly => of_fly.contains(&name),
        Kind::Join | Kind::Shot | Kind::Rod | Kind::Water => false,
    }
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
        (Kind::Gap, "hang-apart") => format!("{text} hanging"),
        (Kind::Fly, "mass") => text,
        (Kind::Fly, "wet-weight") => format!("{text} in water"),
        (Kind::Fly, "hangs") => format!("would hang {text} deep"),
        (Kind::Fly, "off-bed") => format!("{text} off the bed"),
        (Kind::Fly, "strength") => format!("knot holds {text}"),
        _ => format!("{name} {text}"),
    }
}

/// A value, with what it lies between.
pub fn value(kind: Kind, name: &str, written: &Written) -> String {
    if (kind, name) == (Kind::Rig, "lead") && written.value == Some(0.0) {
        return "none".to_owned();
    }
    written.told()
}
