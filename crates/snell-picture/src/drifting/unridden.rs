//! A rig of which nobody knows how it rides: a dashed line from the surface
//! to the bed, its flies along it in their order, each with a bar that says that
//! it may be at any depth.

use super::beside::{label, lane_x, sign};
use super::sheet::Sheet;
use crate::drifting::drifted::Unridden;
use crate::scene::{LineRole, Mark, MarkKind, Point, at};

/// How much of the air the line is drawn in, in rows of a label.
const ALOFT: f64 = 1.6;

/// Draws it; returns how low its labels reach.
pub(super) fn draw(sheet: &mut Sheet<'_>, flies: &[Unridden], lanes: &[usize]) -> f64 {
    let places = places(sheet, flies);
    let told = |(fly, at): (&Unridden, &Point)| (*at, fly.name.clone(), "depth unknown".to_owned());
    let low = label(sheet, flies.iter().zip(&places).map(told).collect());
    let (top, ground) = (sheet.scale.entry.y, sheet.scale.ground);
    for lane in lanes {
        let x = lane_x(sheet, *lane);
        sheet.line(LineRole::Anywhere, vec![at(x, top), at(x, ground)], 1.6);
    }
    let Some(end) = places.first() else { return low };
    let high = top - sheet.medium.height(crate::scene::TextRole::Detail) * ALOFT;
    sheet.line(LineRole::Unmeasured, vec![at(end.x, high), *end], 1.5);
    let size = if sheet.medium.is_cells() { 1.0 } else { 6.0 };
    sheet
        .items
        .push(Mark::plain(MarkKind::Break, at(end.x, high), size).into());
    for (fly, place) in flies.iter().zip(&places).rev() {
        sheet.items.push(sign(fly.kind, *place, sheet.frame.mark).into());
    }
    low
}

/// Where they are drawn: the point over the bed, the others as far over it as they are tied, or evenly spread where
/// that is unknown or more than the water holds.
fn places(sheet: &Sheet<'_>, flies: &[Unridden]) -> Vec<Point> {
    let (entry, bed) = (sheet.scale.entry, sheet.scale.bed);
    let low = bed - (bed - entry.y) * 0.15;
    let down = sheet.scale.under.1;
    let tied: Option<Vec<f64>> = flies.iter().map(|fly| fly.up_the_line).collect();
    let tied = tied.filter(|tied| tied.iter().all(|up| low - up * down > entry.y));
    let even = |index: usize| (low - entry.y) * index as f64 / flies.len() as f64;
    let place = |index: usize| {
        let up = tied
            .as_ref()
            .map_or_else(|| even(index), |tied| tied[index] * down);
        at(entry.x, low - up)
    };
    (0..flies.len()).map(place).collect()
}
