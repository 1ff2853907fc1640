//! What is over the water: the line from its entry up, with its sighter in its
//! colours, the rod's tip, and how far the line sags between them.

use super::beside::sign;
use super::sheet::Sheet;
use crate::drifting::drifted::{Air, Led, Over};
use crate::labels::{Column, Label, place, run, stacked};
use crate::medium::ROW;
use crate::scene::{Line, LineRole, Mark, MarkKind, Point, Side, Stands, Stroke, TextRole, at};
use crate::way::{along, length, stretch};

/// The line over the water, where it is drawn.
fn led<'s>(sheet: &Sheet<'s>) -> Option<&'s Led> {
    match &sheet.drifted.riding()?.over {
        Over::Led(led) => Some(led),
        Over::Afloat(..) => None,
    }
}

/// Its way from the entry up: as it hangs, or straight up as far as it is known.
fn way(led: &Led) -> Vec<(f64, f64)> {
    match &led.air {
        Ok(air) => air.curve.clone(),
        Err(_) => {
            let high = led.pieces.iter().map(|piece| piece.reach.1).fold(0.0, f64::max);
            vec![(0.0, 0.0), (0.0, high)]
        }
    }
}

/// How much room it takes above the surface.
pub(super) fn height(sheet: &Sheet<'_>) -> f64 {
    let cells = sheet.medium.is_cells();
    let least = if cells { 2.0 * ROW } else { 30.0 };
    let Some(led) = led(sheet) else { return least };
    let high = way(led).iter().map(|(_, over)| *over).fold(0.0, f64::max) * sheet.scale.over;
    let labels = labels(sheet, led);
    let stack = stacked(sheet.medium, &labels, column(sheet).gap);
    let above = if cells { ROW } else { 12.0 };
    (high + above).max(stack + least)
}

pub(super) fn draw(sheet: &mut Sheet<'_>, top: f64) {
    let Some(led) = led(sheet) else { return };
    let labels = labels(sheet, led);
    let column = column(sheet);
    let cells = sheet.medium.is_cells();
    let bend = column.edge + if cells { 1.0 } else { 8.0 };
    let clear = if cells { ROW } else { 22.0 };
    let items = place(
        sheet.medium,
        &column,
        labels,
        (top, sheet.scale.entry.y - clear),
        bend,
    );
    sheet.items.extend(items);
    if let Ok(air) = &led.air {
        hang(sheet, air);
    }
    pieces(sheet, led);
    let way = way(led);
    for dry in &led.dry {
        let tied = sheet.scale.aloft(along(&way, dry.up));
        sheet.items.push(sign(dry.kind, tied, sheet.frame.mark).into());
    }
    if led.air.is_err() && !led.pieces.is_empty() {
        let end = way
            .last()
            .map_or(sheet.scale.entry, |end| sheet.scale.aloft(*end));
        let size = if cells { 1.0 } else { 6.0 };
        sheet.items.push(Mark::plain(MarkKind::Break, end, size).into());
    }
}

/// Tip, rod, and the straight way with the sag below it.
fn hang(sheet: &mut Sheet<'_>, air: &Air) {
    let Some(tip) = air.curve.last().map(|tip| sheet.scale.aloft(*tip)) else {
        return;
    };
    let rod = sheet.frame.rod;
    if sheet.medium.is_cells() {
        sheet.line(LineRole::Rod, vec![tip, at(tip.x + rod, tip.y)], 1.0);
        return;
    }
    sheet.line(LineRole::Chord, vec![sheet.scale.entry, tip], 1.0);
    sheet.line(LineRole::Rod, vec![tip, at(tip.x + rod * 0.6, tip.y + 5.0)], 2.2);
    sheet.line(
        LineRole::Rod,
        vec![
            at(tip.x + rod * 0.5, tip.y + 4.2),
            at(tip.x + rod - 4.0, tip.y + 8.6),
        ],
        3.6,
    );
    let (low, chord) = lowest(air);
    let (low, chord) = (sheet.scale.aloft(low), sheet.scale.aloft(chord));
    if low.y - chord.y > 2.0 {
        sheet.line(LineRole::Ruler, vec![chord, low], 1.6);
    }
}

/// Where the line sags most, and the straight way above it.
fn lowest(air: &Air) -> ((f64, f64), (f64, f64)) {
    let (far, high) = air.curve.last().copied().unwrap_or_default();
    let chord = |along: f64| if far > 0.0 { high * along / far } else { 0.0 };
    let drop = |place: &&(f64, f64)| chord(place.0) - place.1;
    let lowest = air
        .curve
        .iter()
        .max_by(|one, other| drop(one).total_cmp(&drop(other)));
    let lowest = lowest.copied().unwrap_or_default();
    (lowest, (lowest.0, chord(lowest.0)))
}

fn pieces(sheet: &mut Sheet<'_>, led: &Led) {
    let way = way(led);
    let whole = length(&way);
    let told = led.pieces.iter().map(|piece| piece.reach.1).fold(0.0, f64::max);
    if told < whole - 1e-6 && !sheet.medium.is_cells() {
        // What the rig does not say of the line up to the tip.
        let rest = stretch(&way, told, whole).into_iter();
        let rest = rest.map(|place| sheet.scale.aloft(place)).collect();
        sheet.line(LineRole::Unmeasured, rest, 1.5);
    }
    // The uppermost first, so that the sighter lies over what it is tied to.
    for piece in led.pieces.iter().rev() {
        let (from, to) = (piece.reach.0, piece.reach.1.min(whole));
        if to - from < 1e-6 {
            continue;
        }
        let points = stretch(&way, from, to)
            .into_iter()
            .map(|place| sheet.scale.aloft(place));
        let (role, thick) = if piece.sighter {
            (LineRole::Way(Stroke::Solid), 2.2)
        } else {
            (LineRole::Path, 1.5)
        };
        let role = if sheet.medium.is_cells() {
            role
        } else {
            LineRole::Piece
        };
        let mut drawn = Line::even(role, points.collect(), thick);
        drawn.colours.clone_from(&piece.colours);
        drawn.stands = Some(Stands {
            name: format!("{} over the water", piece.name),
            metres: to - from,
            told: format!("{}, over the water", piece.name),
        });
        sheet.items.push(drawn.into());
    }
}

/// Labels stand to the left of the line, over the water.
fn column(sheet: &Sheet<'_>) -> Column {
    let (entry, margin) = (sheet.scale.entry.x, sheet.frame.margin);
    let cells = sheet.medium.is_cells();
    let edge = entry - if cells { 4.0 } else { 22.0 };
    Column {
        edge,
        width: edge - margin,
        side: Side::Ends,
        gap: if cells { 0.0 } else { 4.0 },
    }
}

/// Labels need this many columns of a terminal.
const LEAST: f64 = 20.0;

/// The labels, where they have room beside the line.
fn labels(sheet: &Sheet<'_>, led: &Led) -> Vec<Label> {
    let column = column(sheet);
    if sheet.medium.is_cells() && column.width < LEAST {
        return Vec::new();
    }
    let clear = if sheet.medium.is_cells() { 1.0 } else { 5.0 };
    let label = |(of, name, told): (Point, &str, &str)| {
        let lines = vec![vec![run(TextRole::Name, name)], vec![run(TextRole::Detail, told)]];
        Label::new(sheet.medium, &column, at(of.x - clear, of.y), lines)
    };
    told(sheet, led).into_iter().map(label).collect()
}

/// What is told of the air, where labels had no room; returns where it ends.
pub(super) fn sentences(sheet: &mut Sheet<'_>, mut y: f64) -> f64 {
    let Some(led) = led(sheet) else { return y };
    if labels(sheet, led).is_empty() {
        for (_, name, told) in told(sheet, led) {
            let text = format!("{name}: {told}");
            y = sheet.paragraph(TextRole::Detail, &text, (sheet.frame.margin, y));
        }
    }
    y
}

/// What is told of the air: where it is, its name, and the figure.
fn told<'l>(sheet: &Sheet<'_>, led: &'l Led) -> Vec<(Point, &'l str, &'l str)> {
    let way = way(led);
    let end = way
        .last()
        .map_or(sheet.scale.entry, |end| sheet.scale.aloft(*end));
    let mut all = Vec::new();
    match &led.air {
        Ok(air) => {
            all.push((end, "rod tip", air.tip.as_str()));
            let (low, chord) = lowest(air);
            let middle = sheet.scale.aloft((low.0, (low.1 + chord.1) / 2.0));
            all.push((middle, "sag", air.sag.as_str()));
        }
        Err(why) => all.push((end, "to the rod", why.as_str())),
    }
    for dry in &led.dry {
        let of = sheet.scale.aloft(along(&way, dry.up));
        all.push((of, dry.name.as_str(), "is tied over the water"));
    }
    if let Some(told) = &led.sighter {
        let sighter = || led.pieces.iter().filter(|piece| piece.sighter);
        let from = sighter().map(|piece| piece.reach.0).fold(f64::INFINITY, f64::min);
        let to = sighter().map(|piece| piece.reach.1).fold(0.0, f64::max);
        if from < to {
            let of = sheet.scale.aloft(along(&way, from + (to - from) * 0.3));
            all.push((of, "sighter", told.as_str()));
        }
    }
    all
}
