//! Pieces of a rig as they are spoken of.

use crate::compare::pieces::{Piece, TraitKind};

/// What a piece is: `20 in of 6X fluoro`, `8 in with slate spider`.
pub(super) fn described(piece: &Piece) -> String {
    let text = |side| {
        piece
            .get(side)
            .map(|one| one.text.as_str())
            .filter(|text| !text.is_empty())
    };
    let mut words = Vec::new();
    words.extend(text(TraitKind::Length).map(str::to_owned));
    words.extend(text(TraitKind::Stuff).map(|stuff| format!("of {stuff}")));
    words.extend(text(TraitKind::Fly).map(|fly| match piece.role {
        "dropper" => format!("with {fly}"),
        _ => fly.to_owned(),
    }));
    words.extend(text(TraitKind::Size).map(str::to_owned));
    words.join(" ")
}

/// A piece that comes: `a dropper of 8 in with slate spider`.
pub(super) fn with_article(piece: &Piece) -> String {
    let what = described(piece);
    match piece.role {
        "dropper" => format!("a dropper of {what}"),
        "inline" => format!("{what} on the line"),
        "ring" => format!("a {what} ring"),
        "shot" | "float" => format!("a {} of {what}", piece.role),
        role => format!("a {role} of {what}").replacen(" of of ", " of ", 1),
    }
}

/// A piece that goes: `the 2 mm ring`.
pub(super) fn definite(piece: &Piece) -> String {
    let what = described(piece);
    match piece.role {
        "dropper" => format!("the {}, {what},", piece.name),
        "ring" => format!("the {what} ring"),
        "inline" => format!("{what} on the line"),
        "point" => format!("the point, {what},"),
        "shot" | "float" => format!("the {} of {what}", piece.role),
        _ => format!("{}, {what},", piece.name),
    }
}

/// What it is called, behind what it is.
pub(super) fn as_label(piece: &Piece) -> String {
    piece
        .label
        .as_ref()
        .map_or_else(String::new, |label| format!(", called `{label}`"))
}
