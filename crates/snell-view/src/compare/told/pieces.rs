//! Pieces of a rig as they are spoken of.

use crate::compare::pieces::Piece;
use snell_rig::keywords::PartKind;

/// A piece that comes: `a dropper of 8 in with slate spider`.
pub(super) fn with_article(piece: &Piece) -> String {
    let what = piece.described();
    let word = piece.role.word();
    match piece.role {
        PartKind::Dropper => format!("a dropper of {what}"),
        PartKind::Inline => format!("{what} on the line"),
        PartKind::Ring => spaced(&["a", &what, "ring"]),
        PartKind::Swivel => format!("a swivel {what}").trim_end().to_owned(),
        PartKind::Shot | PartKind::Float => format!("a {word} of {what}"),
        PartKind::Line
        | PartKind::Butt
        | PartKind::Taper
        | PartKind::Sighter
        | PartKind::Tippet
        | PartKind::Leader
        | PartKind::Knot
        | PartKind::Fly
        | PartKind::Point => format!("a {word} of {what}").replacen(" of of ", " of ", 1),
    }
}

/// Words one space apart; what is unsaid is none.
fn spaced(words: &[&str]) -> String {
    let said: Vec<&str> = words.iter().copied().filter(|word| !word.is_empty()).collect();
    said.join(" ")
}

/// A piece that goes: `the 2 mm ring`.
pub(super) fn definite(piece: &Piece) -> String {
    let what = piece.described();
    match piece.role {
        PartKind::Dropper => format!("the {}, {what},", piece.name),
        PartKind::Ring => spaced(&["the", &what, "ring"]),
        PartKind::Swivel => format!("the swivel {what}").trim_end().to_owned(),
        PartKind::Inline => format!("{what} on the line"),
        PartKind::Point | PartKind::Fly => format!("the {}, {what},", piece.role.word()),
        PartKind::Shot | PartKind::Float => format!("the {} of {what}", piece.role.word()),
        PartKind::Line
        | PartKind::Butt
        | PartKind::Leader
        | PartKind::Taper
        | PartKind::Sighter
        | PartKind::Tippet
        | PartKind::Knot => format!("{}, {what},", piece.name),
    }
}

/// What it is called, behind what it is.
pub(super) fn as_label(piece: &Piece) -> String {
    piece
        .label
        .as_ref()
        .map_or_else(String::new, |label| format!(", called `{label}`"))
}
