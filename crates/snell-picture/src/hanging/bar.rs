//! Bars of scales, each with what it is of.

use super::drawing::Drawing;
use crate::ruler;
use crate::scene::{TextRole, at};

/// A bar of a scale, with what it is of; returns where it ends.
pub(super) fn draw(drawing: &mut Drawing<'_>, (metre, name, of): (f64, &str, &str), y: f64) -> f64 {
    /// A bar is this long at least, and this far from what is told of it.
    const LEAST: f64 = 60.0;
    const GAP: f64 = 6.0;
    let height = drawing.medium.height(TextRole::Detail);
    let from = at(drawing.margin, y + height / 2.0);
    let drawn_in = (drawing.medium, drawing.hung.system);
    let (bar, end) = ruler::bar(drawn_in, name, metre, from, LEAST);
    drawing.items.extend(bar);
    let below = y + height + drawing.space / 4.0;
    if of.is_empty() {
        return below;
    }
    drawing
        .paragraph(TextRole::Tick, of.to_owned(), (end + GAP, y))
        .max(below)
}
