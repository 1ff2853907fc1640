//! What stands beside the line in the water: signs, the lanes of the bars, and
//! the labels of flies and of the bed.

use super::frame::Frame;
use super::sheet::Sheet;
use crate::drifting::drifted::{Drifted, Rigged};
use crate::labels::{Column, Label, place, run, stacked};
use crate::scene::{Mark, MarkKind, Point, Side, TextRole, at};
use snell_units::in_order;

/// Bars side by side at most; with more of them they share a lane.
const MOST_LANES: usize = 5;

/// In which lane each fly's bar stands, so that no two lie over one another.
pub(super) fn lanes(drifted: &Drifted) -> Vec<usize> {
    let bands: Vec<(f64, f64)> = match &drifted.rig {
        Rigged::Rides(riding) => riding.flies.iter().map(|fly| fly.between).collect(),
        Rigged::Unknown(flies) => flies.iter().map(|_| (0.0, drifted.water.deepest())).collect(),
    };
    let mut order: Vec<usize> = (0..bands.len()).collect();
    let between = |index: usize| bands[index];
    in_order(&mut order, |one, other| {
        between(*one).0.total_cmp(&between(*other).0)
    });
    let mut ends: Vec<f64> = Vec::new();
    let mut lanes = vec![0; bands.len()];
    let apart = drifted.water.depth * 0.02;
    for index in order {
        let (high, low) = between(index);
        let free = ends.iter().position(|end| end + apart < high);
        let lane = match free {
            Some(lane) => lane,
            None if ends.len() < MOST_LANES => {
                ends.push(f64::NEG_INFINITY);
                ends.len() - 1
            }
            None => index % MOST_LANES,
        };
        ends[lane] = low;
        lanes[index] = lane;
    }
    lanes
}

/// The room that the bars take beside the line.
pub(super) fn room_for(lanes: &[usize], frame: &Frame) -> f64 {
    lanes
        .iter()
        .max()
        .map_or(0.0, |most| (*most + 1) as f64 * frame.lane)
}

/// A fly's sign, or what else hangs on the line.
pub(super) fn sign(kind: MarkKind, at: Point, size: f64) -> Mark {
    let size = match kind {
        MarkKind::Shot | MarkKind::Swivel => size * 0.3,
        MarkKind::Float => size * 0.7,
        MarkKind::Knot
        | MarkKind::UsualKnot
        | MarkKind::Ring
        | MarkKind::BeadedFly
        | MarkKind::PlainFly
        | MarkKind::FloatingFly
        | MarkKind::Break
        | MarkKind::HardWater
        | MarkKind::KeepOut
        | MarkKind::OwnWater => size,
    };
    Mark::plain(kind, at, size)
}

/// Where a lane of bars stands.
pub(super) fn lane_x(sheet: &Sheet<'_>, lane: usize) -> f64 {
    sheet.frame.right - (lane as f64 + 0.6) * sheet.frame.lane
}

/// Labels of flies beside the water, each with its name and what is told of it, and those of where the bed ends;
/// returns how low they reach.
pub(super) fn label(sheet: &mut Sheet<'_>, flies: Vec<(Point, String, String)>) -> f64 {
    let (frame, scale, medium) = (sheet.frame, sheet.scale, sheet.medium);
    let cells = medium.is_cells();
    let gap = if cells { 3.0 } else { 14.0 };
    let column = Column {
        edge: frame.right + gap,
        width: frame.width - frame.margin - frame.right - gap,
        side: Side::Begins,
        gap: if cells { 0.0 } else { 4.0 },
    };
    let fly = |(mut of, name, told): (Point, String, String)| {
        of.x += if cells { 1.0 } else { frame.mark * 0.6 };
        let told = (!told.is_empty()).then(|| vec![run(TextRole::Detail, told)]);
        let lines = std::iter::once(vec![run(TextRole::Name, name)]).chain(told);
        Label::new(medium, &column, of, lines.collect())
    };
    let mut all: Vec<Label> = flies.into_iter().map(fly).collect();
    for end in sheet.drifted.water.ends.iter().flatten() {
        let of = at(frame.right, scale.sunk((0.0, end.depth)).y);
        let lines = vec![vec![run(TextRole::Detail, end.told.clone())]];
        all.push(Label::new(medium, &column, of, lines));
    }
    let height = stacked(medium, &all, column.gap);
    let low = scale.ground.max(scale.entry.y + height);
    let items = place(
        medium,
        &column,
        all,
        (scale.entry.y, low),
        frame.right + gap * 0.3,
    );
    sheet.items.extend(items);
    low
}
