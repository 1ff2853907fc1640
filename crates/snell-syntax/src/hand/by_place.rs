//! The part that a line tells of by what is said of it, where its key leaves that open.

use super::item;
use super::opening::Opened;
use super::phrases::{self, plain};
use super::trade::{Part, TAG};

/// The key that stands for a part by what is said of it: a nymph on a length of its own hangs on a dropper, and an
/// indicator that is as long as an arm is a sighter.
pub(super) fn by_place(line: &str, opened: &Opened, items: &[item::Item]) -> (&'static str, Part) {
    let long = |least: f64| {
        items
            .iter()
            .any(|item| matches!(item.kind, item::Kind::Length(si) if si > least))
    };
    let word = plain(opened.span.of(line));
    let has_hook = items.iter().any(|item| item.kind == item::Kind::Hook);
    let no_tag = |item: &item::Item| {
        let words = plain(&item.strict);
        let lacks = words.starts_with("no ") || words.starts_with("without ");
        item.kind == item::Kind::Note && lacks && words.ends_with(TAG)
    };
    let has_no_tag = has_hook && !long(item::LARGEST_BEAD) && items.iter().any(no_tag);
    let says = |says: phrases::Says| items.iter().any(|item| item.says() == Some(says));
    let has_stuff = |item: &item::Item| matches!(item.kind, item::Kind::X | item::Kind::Mass(_));
    let is_of_stuff = says(phrases::Says::Line) || items.iter().any(has_stuff);
    let is_line = long(item::LARGEST_BEAD) && says(phrases::Says::Bend) && is_of_stuff;
    match (opened.key, &*word) {
        ("taper", "middle" | "mid") if has_hook => ("dropper", Part::Dropper),
        // `dropper #14, no tag`
        ("dropper", _) if has_no_tag => ("inline", Part::Fly),
        // `drop 24 in 4X fluoro off the bend`: what hangs from a hook's bend is a piece of line.
        ("dropper", _) if is_line && !has_hook => ("tippet", Part::Piece),
        // `tail 25 cm 0.12 mm mono`: a piece of line at the end of it.
        ("point" | "fly", "tail") if !has_hook && long(item::LARGEST_BEAD) && is_of_stuff => {
            ("tippet", Part::Piece)
        }
        ("fly", _) if long(item::LARGEST_BEAD) => ("dropper", Part::Dropper),
        // A fly that is named by its place and hangs on no tag is tied into the line.
        ("dropper", word) if word.ends_with(" fly") && !long(item::LARGEST_BEAD) => ("fly", Part::Fly),
        ("water", "bottom") if has_hook => ("point", Part::Fly),
        ("float", "indicator") if long(SHORTEST_SIGHTER) => ("sighter", Part::Piece),
        (key, _) => (key, opened.part),
    }
}

/// In metres. Source: common practice, no source.
const SHORTEST_SIGHTER: f64 = 0.1;
