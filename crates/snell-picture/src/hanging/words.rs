//! What the labels of the picture say, and what it says to those who hear it.

use super::places::Inset;
use super::subject::{Eyes, Hung, HungFly, Joint, OnLine, OnLineKind, Piece};
use crate::labels::run;
use crate::scene::{Run, TextRole};
use snell_rig::rig::FlyAt;
use snell_units::{Dimension, Quantity};

/// The name of the scale that parts are drawn in, and that of the strip with the whole.
pub(super) const SCALE: &str = "scale";
pub(super) const SCALE_OF_WHOLE: &str = "scale of the whole";

/// The name of a piece on the strip with the whole.
pub(super) fn in_the_whole(name: &str) -> String {
    format!("{name} in the whole")
}

/// What is told of lengths where each piece has as many rows as it has room for.
pub(super) const ROWS: &str = "A longer piece has more rows, but no row stands for a length.";

/// Its sums in one line.
pub(super) fn sums(hung: &Hung) -> String {
    hung.sums.join(" · ")
}

/// What is magnified, where something is, and whether the whole stands beside it.
pub(super) fn inset(hung: &Hung, beside: bool) -> String {
    let Some(inset) = Inset::of(hung) else {
        return String::new();
    };
    let metres = Quantity::new(inset.metres, Dimension::LENGTH);
    let last = snell_units::write(metres, hung.system);
    match beside {
        true => format!("the last {last} magnified; on the left the whole, to scale"),
        false => format!("the last {last} are to scale"),
    }
}

/// What is to scale, and what is not.
pub(super) fn note(hung: &Hung) -> String {
    let colours = hung.pieces.iter().any(|piece| piece.colours.len() > 1);
    (if colours { NOTE_OF_COLOURS } else { NOTE }).to_owned()
}

/// What is to scale.
const NOTE: &str = "Lengths are to scale; thickness and signs are not.";
/// The same of a rig with a piece of several colours.
const NOTE_OF_COLOURS: &str =
    "Lengths are to scale; thickness, signs and how far each of several colours runs are not.";

pub(super) fn piece_label(piece: &Piece) -> Vec<Vec<Run>> {
    let mut first = vec![run(TextRole::Name, piece.name.clone())];
    if let Some(length) = &piece.length {
        first.push(run(TextRole::Figure, format!(" {length}")));
    }
    let mut what = piece.what.clone();
    if piece.metres.is_none() {
        let told = if piece.length.is_none() && !piece.name.starts_with("line") {
            "length unknown"
        } else {
            "not to scale"
        };
        add(&mut what, told);
    }
    if piece.ends.is_none() && piece.metres.is_some() {
        add(&mut what, "size unknown");
    }
    vec![first, filled(TextRole::Detail, what)]
}

/// Adds to what is told of a piece.
fn add(what: &mut String, told: &str) {
    if !what.is_empty() {
        what.push_str(", ");
    }
    what.push_str(told);
}

fn filled(role: TextRole, text: String) -> Vec<Run> {
    if text.is_empty() {
        Vec::new()
    } else {
        vec![run(role, text)]
    }
}

/// What joins below a piece, and where.
pub(super) fn joint_label(joint: &Joint, above: &Piece) -> Vec<Vec<Run>> {
    vec![filled(TextRole::Detail, placed(self::joint(joint), above))]
}

/// What joins two pieces.
pub(super) fn joint(joint: &Joint) -> String {
    match &joint.eyes {
        Some(eyes) => format!("{}, {} each side", self::eyes(eyes), joint.name),
        None => joint.name.clone(),
    }
}

fn eyes(eyes: &Eyes) -> String {
    let (kind, size) = match eyes {
        Eyes::Ring(size) => ("ring", size),
        Eyes::Swivel(size) => ("swivel", size),
    };
    format!("{kind} {size}").trim_end().to_owned()
}

fn placed(what: String, above: &Piece) -> String {
    match &above.to_point {
        Some(to_point) => format!("{what} at {to_point}"),
        None => what,
    }
}

pub(super) fn on_line_label(item: &OnLine, above: &Piece) -> Vec<Vec<Run>> {
    let what = match &item.to_point {
        Some(to_point) => format!("{} at {to_point}", on_line(item)),
        None => placed(on_line(item), above),
    };
    vec![filled(TextRole::Detail, what)]
}

pub(super) fn on_line(item: &OnLine) -> String {
    let kind = match item.kind {
        OnLineKind::Shot => "shot",
        OnLineKind::Float => "float",
    };
    format!("{kind} {}", item.what).trim_end().to_owned()
}

pub(super) fn fly_label(fly: &HungFly) -> Vec<Vec<Run>> {
    let place = match (&fly.tag_length, fly.at) {
        (Some(length), _) => format!("{length} tag"),
        (None, FlyAt::Dropper(_)) => "on a tag".to_owned(),
        (None, FlyAt::Inline) => "on the line".to_owned(),
        (None, FlyAt::Point) => "point".to_owned(),
    };
    let detail = if fly.what.is_empty() {
        place
    } else {
        format!("{place}, {}", fly.what)
    };
    vec![
        vec![run(TextRole::Name, fly.name.clone())],
        filled(TextRole::Detail, detail),
    ]
}

/// A piece in one sentence's part.
pub(super) fn piece(piece: &Piece) -> String {
    let length = piece
        .length
        .as_ref()
        .map(|length| format!(" {length}"))
        .unwrap_or_default();
    let of = if piece.what.is_empty() {
        String::new()
    } else {
        format!(" of {}", piece.what)
    };
    format!("{}{length}{of}", piece.name)
}

/// A fly in one sentence's part.
pub(super) fn fly(fly: &HungFly) -> String {
    let what = if fly.what.is_empty() {
        String::new()
    } else {
        format!(" ({})", fly.what)
    };
    match (fly.at, &fly.tag_length) {
        (FlyAt::Dropper(_), Some(length)) => format!("a tag of {length} with {}{what}", fly.name),
        (FlyAt::Dropper(_), None) => format!("a tag with {}{what}", fly.name),
        (FlyAt::Inline, _) => format!("on the line {}{what}", fly.name),
        (FlyAt::Point, _) => format!("at the point {}{what}", fly.name),
    }
}

/// The whole rig from the rod down.
pub(super) fn about(hung: &Hung) -> String {
    let mut said = Vec::new();
    for (index, one) in hung.pieces.iter().enumerate() {
        said.push(piece(one));
        said.extend(
            hung.on_line
                .iter()
                .filter(|item| item.above == index + 1)
                .map(on_line),
        );
        if let Some(joint) = hung.joins.get(index) {
            match &joint.eyes {
                Some(eyes) => said.push(self::eyes(eyes)),
                None if !joint.name.is_empty() => said.push(format!("{} knot", joint.name)),
                None => {}
            }
        }
        said.extend(hung.flies.iter().filter(|fly| fly.above == index + 1).map(fly));
    }
    let sums = if hung.sums.is_empty() {
        String::new()
    } else {
        format!(" {}.", hung.sums.join(", "))
    };
    format!("From the rod down: {}.{sums}", said.join("; "))
}
