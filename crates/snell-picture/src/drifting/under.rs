//! What is under water: the speeds, the ruler of depths, the line, the flies
//! with the bars between which they ride, and their labels.

use super::beside::{label, lane_x, sign};
use super::sheet::Sheet;
use crate::drifting::drifted::{Over, Ride, Riding};
use crate::medium::ROW;
use crate::ruler;
use crate::scene::{Line, LineRole, Mark, Point, Side, Stands, TextRole, at};
use crate::way::along;

/// Heights at which arrows show the water's speed, as shares of the depth.
const ARROWS: [f64; 6] = [0.08, 0.25, 0.42, 0.6, 0.78, 0.95];
/// The body of the water with its speeds and depths.
pub(super) fn water(sheet: &mut Sheet<'_>, ground: f64) {
    let frame = sheet.frame;
    let (top, bed) = (sheet.scale.entry.y, sheet.scale.ground);
    let (left, right) = (frame.margin, frame.right);
    let outline = vec![
        at(left, top),
        at(right, top),
        at(right, bed + ground),
        at(left, bed + ground),
    ];
    sheet.line(LineRole::Water, outline, 0.0);
    sheet.line(LineRole::Surface, vec![at(frame.left, top), at(right, top)], 1.4);
    if !sheet.medium.is_cells() {
        // The ruler's nought stands in the gap.
        sheet.line(
            LineRole::Surface,
            vec![at(left, top), at(frame.strip.1, top)],
            1.4,
        );
    }
    speeds(sheet);
    depths(sheet);
}

/// The water's speed from bed to surface as a curve from an upright edge, with the rig's own across it.
fn speeds(sheet: &mut Sheet<'_>) {
    let (edge, end) = sheet.frame.strip;
    let water = &sheet.drifted.water;
    let fastest = water.profile.iter().map(|(_, speed)| *speed).fold(0.0, f64::max);
    let top = sheet.scale.entry.y;
    if end - edge < 2.0 {
        return;
    }
    let lift = if sheet.medium.is_cells() { ROW / 2.0 } else { 13.0 };
    sheet.text(
        TextRole::Tick,
        stream_told(sheet),
        (edge, top - lift),
        Side::Begins,
    );
    if fastest <= 0.0 {
        return;
    }
    let (bed, down) = (sheet.scale.bed, sheet.scale.under.1);
    let place = |(height, speed): (f64, f64)| {
        let y = (bed - height * down).max(top);
        at(edge + speed / fastest * (end - edge), y)
    };
    let curve: Vec<Point> = water.profile.iter().copied().map(place).collect();
    sheet.line(LineRole::Ruler, vec![at(edge, top), at(edge, bed)], 0.8);
    sheet.line(LineRole::Speed, curve, 1.6);
    if sheet.medium.is_cells() {
        return;
    }
    for share in ARROWS {
        let height = share * water.depth;
        let tip = place((height, speed_at(&water.profile, height)));
        if tip.x - edge > 8.0 {
            let (x, y) = (tip.x - 1.0, tip.y);
            sheet.line(LineRole::Flow, vec![at(edge, y), at(x, y)], 1.0);
            sheet.line(
                LineRole::Flow,
                vec![at(x - 3.5, y - 2.5), at(x, y), at(x - 3.5, y + 2.5)],
                1.0,
            );
        }
    }
    if let Some(riding) = sheet.drifted.riding() {
        let x = edge + (riding.speed / fastest).clamp(0.0, 1.2) * (end - edge);
        sheet.line(LineRole::Path, vec![at(x, top), at(x, bed)], 1.2);
    }
}

fn speed_at(profile: &[(f64, f64)], height: f64) -> f64 {
    let pair = profile.windows(2).find(|pair| pair[1].0 >= height);
    pair.map_or(0.0, |pair| {
        let [(low, slow), (high, fast)] = [pair[0], pair[1]];
        slow + (fast - slow) * (height - low) / (high - low).max(f64::MIN_POSITIVE)
    })
}

/// The ruler of depths, from nought at the surface.
fn depths(sheet: &mut Sheet<'_>) {
    let frame = sheet.frame;
    let cells = sheet.medium.is_cells();
    let (top, bed, down) = (sheet.scale.entry.y, sheet.scale.ground, sheet.scale.under.1);
    let least = if cells { 3.0 * ROW } else { 30.0 };
    let step = ruler::step(sheet.drifted.system, down, least);
    let count = (sheet.drifted.water.deepest() / step + 1e-6).floor() as usize;
    sheet.line(
        LineRole::Ruler,
        vec![at(frame.ruler, top), at(frame.ruler, bed)],
        0.8,
    );
    for index in 0..=count {
        let y = top + index as f64 * step * down;
        if !cells {
            sheet.line(
                LineRole::Ruler,
                vec![at(frame.ruler - frame.tick, y), at(frame.ruler, y)],
                0.8,
            );
        }
        let figure = ruler::figure(index, step, sheet.drifted.system);
        sheet.text(
            TextRole::Tick,
            figure,
            (frame.ruler - frame.tick - 2.0, y),
            Side::Ends,
        );
    }
}

fn stream_told(sheet: &Sheet<'_>) -> String {
    format!("stream → {}", sheet.drifted.water.surface)
}

/// What stands below the strip of speeds, and where there is none, instead of it: below the bed, or below the labels
/// if it runs as far as they stand. Returns where it ends.
pub(super) fn caption(sheet: &mut Sheet<'_>, (bed, labels): (f64, f64)) -> f64 {
    let (edge, end) = sheet.frame.strip;
    let stream = (end - edge < 2.0).then(|| stream_told(sheet));
    let rig = sheet.drifted.riding();
    let rig = rig.map(|riding| format!("rig → {}", riding.drifts));
    let told: Vec<String> = stream.into_iter().chain(rig).collect();
    let told = told.join("  ");
    if told.is_empty() {
        return bed;
    }
    let end = edge + sheet.medium.width(TextRole::Tick, &told);
    let low = if end > sheet.frame.right { labels } else { bed };
    let height = sheet.medium.height(TextRole::Tick);
    let lift = if sheet.medium.is_cells() { 0.0 } else { 3.0 };
    let y = low + lift + height / 2.0;
    sheet.text(TextRole::Tick, told, (edge, y), Side::Begins);
    y + height / 2.0
}

/// The line with its flies; returns how low their labels reach.
pub(super) fn rig(sheet: &mut Sheet<'_>, riding: &Riding, lanes: &[usize]) -> f64 {
    let low = labels(sheet, riding);
    for (fly, lane) in riding.flies.iter().zip(lanes) {
        bar(sheet, fly, *lane);
    }
    let scale = sheet.scale;
    let points: Vec<Point> = riding.line.iter().map(|place| scale.sunk(*place)).collect();
    let mut under = Line::even(sheet.role(LineRole::Piece), points, 1.5);
    under.stands = (scale.stretch() < 1.001).then(|| Stands {
        name: "under water".to_owned(),
        metres: riding.submerged,
        told: "the line under water".to_owned(),
    });
    sheet.items.push(under.into());
    for fly in &riding.flies {
        let tied = scale.sunk(along(&riding.line, fly.up_the_line));
        let eye = scale.sunk(fly.at);
        if (tied.x - eye.x).hypot(tied.y - eye.y) > 0.5 {
            sheet.line(sheet.role(LineRole::Tag), vec![tied, eye], 1.2);
        }
    }
    if let Over::Afloat(afloat) = &riding.over {
        let sign = Mark {
            colour: afloat.colour,
            ..sign(afloat.kind, scale.entry, sheet.frame.mark)
        };
        sheet.items.push(sign.into());
    }
    for fly in riding.flies.iter().rev() {
        sheet
            .items
            .push(sign(fly.kind, scale.sunk(fly.at), sheet.frame.mark).into());
    }
    low
}

/// The depths between which a fly rides, beside the line.
fn bar(sheet: &mut Sheet<'_>, fly: &Ride, lane: usize) {
    let cells = sheet.medium.is_cells();
    let x = lane_x(sheet, lane);
    let y = |depth: f64| sheet.scale.sunk((0.0, depth)).y;
    let (high, low, middle) = (y(fly.between.0), y(fly.between.1), y(fly.at.1));
    let mut between = Line::even(LineRole::Between, vec![at(x, high), at(x, low)], 1.6);
    between.stands = Some(Stands {
        name: fly.name.clone(),
        metres: fly.between.1 - fly.between.0,
        told: format!("{} rides {} ({})", fly.name, fly.rides, fly.may_be),
    });
    sheet.items.push(between.into());
    if !cells {
        for (end, half) in [(high, 2.6), (low, 2.6)] {
            sheet.line(LineRole::Between, vec![at(x - half, end), at(x + half, end)], 1.6);
        }
        sheet.line(
            LineRole::Between,
            vec![at(x - 1.8, middle), at(x + 1.8, middle)],
            3.6,
        );
    }
}

/// A label for each fly, level with it as far as there is room; returns how low they reach.
fn labels(sheet: &mut Sheet<'_>, riding: &Riding) -> f64 {
    let fly = |fly: &Ride| {
        (
            sheet.scale.sunk(fly.at),
            fly.name.clone(),
            format!("{} deep", fly.rides),
        )
    };
    let mut all: Vec<(Point, String, String)> = riding.flies.iter().map(fly).collect();
    if let Over::Afloat(afloat) = &riding.over {
        all.push((sheet.scale.entry, afloat.name.clone(), String::new()));
    }
    label(sheet, all)
}
