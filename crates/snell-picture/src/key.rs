//! The key of a picture: every sign that is drawn, with its word.

use crate::labels::{paragraph, run};
use crate::medium::Medium;
use crate::scene::{Item, Mark, MarkKind, TextRole, at};

/// The signs that are drawn, each with its word, one after another; returns where they end.
pub(crate) fn draw(items: &mut Vec<Item>, medium: Medium, (left, right): (f64, f64), mut y: f64) -> f64 {
    let cells = medium.is_cells();
    let height = medium.height(TextRole::Tick);
    let (sign, gap) = if cells { (2.0, 2.0) } else { (11.0, 12.0) };
    let mut x = left;
    for kind in drawn(items) {
        let Some(word) = word(kind) else { continue };
        let wide = sign + medium.width(TextRole::Tick, word);
        if x > left && x + wide > right {
            (x, y) = (left, y + height);
        }
        let middle = y + height / 2.0;
        let (lift, size) = if cells { (0.0, 1.0) } else { size(kind) };
        let shift = if cells { 0.0 } else { 4.0 };
        items.push(Mark::plain(kind, at(x + shift, middle - lift), size).into());
        let words = run(TextRole::Tick, word);
        y = paragraph(items, medium, words, right - x - sign, (x + sign, y)).max(y + height) - height;
        x += wide + gap;
    }
    if x > left { y + height } else { y }
}

/// How far over its middle a sign is held in the key, and how large it is there.
fn size(kind: MarkKind) -> (f64, f64) {
    match kind {
        MarkKind::BeadedFly | MarkKind::PlainFly | MarkKind::FloatingFly => (4.5, 8.0),
        MarkKind::Break => (0.0, 3.5),
        MarkKind::Float => (0.0, 4.5),
        MarkKind::Shot => (0.0, 2.6),
        MarkKind::Knot
        | MarkKind::UsualKnot
        | MarkKind::Ring
        | MarkKind::Swivel
        | MarkKind::HardWater
        | MarkKind::KeepOut
        | MarkKind::OwnWater => (0.0, 3.5),
    }
}

/// The kinds of signs that are drawn, each once, in the order of the key.
fn drawn(items: &[Item]) -> Vec<MarkKind> {
    const ORDER: [MarkKind; 10] = [
        MarkKind::BeadedFly,
        MarkKind::PlainFly,
        MarkKind::FloatingFly,
        MarkKind::Shot,
        MarkKind::Float,
        MarkKind::Ring,
        MarkKind::Swivel,
        MarkKind::Knot,
        MarkKind::Break,
        MarkKind::UsualKnot,
    ];
    let marks = items.iter().filter_map(|item| match item {
        Item::Mark(Mark { kind, .. }) => Some(*kind),
        Item::Line(_) | Item::Text(_) => None,
    });
    let all: Vec<MarkKind> = marks.collect();
    ORDER.into_iter().filter(|kind| all.contains(kind)).collect()
}

/// What a sign is of; signs of cards have notes of their own.
const fn word(kind: MarkKind) -> Option<&'static str> {
    match kind {
        MarkKind::Knot => Some("the knot that is named"),
        MarkKind::UsualKnot => Some("no knot is named there: the usual one"),
        MarkKind::Ring => Some("ring"),
        MarkKind::Swivel => Some("swivel"),
        MarkKind::BeadedFly => Some("fly with a bead"),
        MarkKind::PlainFly => Some("fly without a bead"),
        MarkKind::FloatingFly => Some("fly that floats"),
        MarkKind::Shot => Some("shot"),
        MarkKind::Float => Some("float"),
        MarkKind::Break => Some("not to scale"),
        MarkKind::HardWater | MarkKind::KeepOut | MarkKind::OwnWater => None,
    }
}
