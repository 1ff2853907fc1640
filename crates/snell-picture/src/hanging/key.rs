//! The foot of a picture: bars of its scales, and a key to every sign that is
//! drawn.

use super::drawing::Drawing;
use super::words;
use crate::ruler;
use crate::scene::{Item, Mark, MarkKind, TextRole, at};

/// A bar of a scale, with what it is of; returns where it ends.
pub(super) fn bar(drawing: &mut Drawing<'_>, (metre, name, of): (f64, &str, &str), y: f64) -> f64 {
    /// A bar is this long at least, and this far from what is told of it.
    const LEAST: f64 = 60.0;
    const GAP: f64 = 6.0;
    let height = drawing.medium.height(TextRole::Detail);
    let from = at(drawing.margin, y + height / 2.0);
    let mut end = from.x;
    for mut item in ruler::bar(drawing.medium, drawing.hung.system, metre, from, LEAST) {
        match &mut item {
            Item::Line(line) => {
                if let Some(stands) = &mut line.stands {
                    name.clone_into(&mut stands.name);
                }
            }
            Item::Text(text) => end = text.bounds().to.x,
            Item::Mark(_) => {}
        }
        drawing.items.push(item);
    }
    let below = y + height + drawing.space / 4.0;
    if of.is_empty() {
        return below;
    }
    drawing
        .paragraph(TextRole::Tick, of.to_owned(), (end + GAP, y))
        .max(below)
}

/// The signs that are drawn, each with its word, one after another; returns where they end.
pub(super) fn draw(drawing: &mut Drawing<'_>, mut y: f64) -> f64 {
    let cells = drawing.medium.is_cells();
    let height = drawing.medium.height(TextRole::Tick);
    let (sign, gap) = if cells { (2.0, 2.0) } else { (11.0, 12.0) };
    let left = drawing.margin;
    let right = drawing.width - drawing.margin;
    let mut x = left;
    for kind in drawn(drawing) {
        let Some(word) = words::sign(kind) else { continue };
        let wide = sign + drawing.medium.width(TextRole::Tick, word);
        if x > left && x + wide > right {
            (x, y) = (left, y + height);
        }
        let middle = y + height / 2.0;
        let (lift, size) = if cells { (0.0, 1.0) } else { size(kind) };
        let shift = if cells { 0.0 } else { 4.0 };
        drawing.mark(kind, at(x + shift, middle - lift), size);
        y = drawing
            .paragraph(TextRole::Tick, word.to_owned(), (x + sign, y))
            .max(y + height)
            - height;
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
        | MarkKind::KeepOut => (0.0, 3.5),
    }
}

/// The kinds of signs that are drawn, each once, in the order of the key.
fn drawn(drawing: &Drawing<'_>) -> Vec<MarkKind> {
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
    let marks = drawing.items.iter().filter_map(|item| match item {
        Item::Mark(Mark { kind, .. }) => Some(*kind),
        Item::Line(_) | Item::Text(_) => None,
    });
    let all: Vec<MarkKind> = marks.collect();
    ORDER.into_iter().filter(|kind| all.contains(kind)).collect()
}
