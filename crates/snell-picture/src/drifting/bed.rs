//! The bed as what it is: its stones to scale with their tops where depths end,
//! or weed that leans down the stream.

use super::sheet::Sheet;
use crate::drifting::drifted::Bed;
use crate::hatch;
use crate::scene::{LineRole, at};
use std::f64::consts::TAU;

/// Stones that are smaller are drawn as a line.
const FINEST: f64 = 3.0;
/// How tall the ground is drawn, whatever the stones.
const GROUND: (f64, f64) = (7.0, 44.0);
/// Stones and strands differ: shares of the bed's grain, over and over. Those that stand out are of the grain itself.
const SIZES: [f64; 7] = [1.0, 0.78, 0.9, 0.66, 1.0, 0.72, 0.84];
/// Corners of a stone.
const CORNERS: usize = 14;

/// How far down the ground reaches below the bed's height.
pub(super) fn thickness(sheet: &Sheet<'_>) -> f64 {
    if sheet.medium.is_cells() {
        return crate::medium::ROW;
    }
    match sheet.drifted.water.bed {
        Bed::Stones(grain) => {
            let drawn = grain * sheet.scale.under.1;
            drawn.clamp(GROUND.0, GROUND.1)
        }
        Bed::Weed(_) => GROUND.0,
    }
}

pub(super) fn draw(sheet: &mut Sheet<'_>) {
    between(sheet);
    let (left, right, y) = (sheet.frame.left, sheet.frame.right, sheet.scale.ground);
    let flat = vec![at(left, y), at(right, y)];
    if sheet.medium.is_cells() {
        sheet.line(LineRole::Bed, flat, 1.0);
        return;
    }
    match sheet.drifted.water.bed {
        Bed::Stones(grain) if grain * sheet.scale.under.0 < FINEST => {
            sheet.line(LineRole::Bed, vec![at(left, y + 1.5), at(right, y + 1.5)], 3.0);
        }
        Bed::Stones(grain) => stones(sheet, grain),
        Bed::Weed(height) => {
            sheet.line(LineRole::Bed, vec![at(left, y + 1.5), at(right, y + 1.5)], 3.0);
            weed(sheet, height);
        }
    }
}

/// Where the bed lies in one place or another: hatched from its shallow end to its deep one, with a line as deep as the
/// rig is drawn in.
fn between(sheet: &mut Sheet<'_>) {
    let Some([shallow, _]) = &sheet.drifted.water.ends else {
        return;
    };
    let high = sheet.scale.sunk((0.0, shallow.depth)).y;
    let (left, right, low) = (sheet.frame.left, sheet.frame.right, sheet.scale.ground);
    if !sheet.medium.is_cells() {
        for points in hatch::strokes(at(left, high), at(right, low)) {
            sheet.line(LineRole::Hatch, points, 0.6);
        }
    }
    for y in [high, sheet.scale.bed] {
        sheet.line(LineRole::BedEnd, vec![at(left, y), at(right, y)], 1.2);
    }
}

/// Rows of stones from the bed's height down, each row half a stone aside of the one above.
fn stones(sheet: &mut Sheet<'_>, grain: f64) {
    let (left, right, bed) = (sheet.frame.left, sheet.frame.right, sheet.scale.ground);
    let (wide, tall) = (grain * sheet.scale.under.0, grain * sheet.scale.under.1);
    let low = bed + thickness(sheet);
    let rows = ((low - bed) / (tall * 0.6)).ceil().max(1.0) as usize;
    // The lowest first, so that each row stands before the one below it.
    for row in (0..rows).rev() {
        let mut x = left - wide * if row % 2 == 0 { 0.2 } else { 0.7 };
        let mut sizes = SIZES.iter().cycle().skip(row * 3);
        while x < right {
            let size = sizes.next().copied().unwrap_or(1.0);
            let (half, high) = (wide * size / 2.0, tall * size * 0.72 / 2.0);
            let middle = at(x + half, bed + row as f64 * tall * 0.5 + high);
            let corner = |index: usize| {
                let turn = TAU * index as f64 / CORNERS as f64;
                at(
                    (middle.x + half * turn.cos()).clamp(left, right),
                    (middle.y + high * turn.sin()).min(low),
                )
            };
            if middle.x + half > left {
                sheet.line(LineRole::Stone, (0..CORNERS).map(corner).collect(), 0.8);
            }
            x += half * 2.0;
        }
    }
}

/// Strands from the bed up, laid over by the stream.
fn weed(sheet: &mut Sheet<'_>, height: f64) {
    const APART: f64 = 7.0;
    let (left, right, bed) = (sheet.frame.left, sheet.frame.right, sheet.scale.ground);
    // What grows higher than the water is laid flat by its surface.
    let tall = (height * sheet.scale.under.1).min(bed - sheet.scale.entry.y);
    let mut x = left + APART / 2.0;
    let mut sizes = SIZES.iter().cycle();
    while x + tall * 0.6 < right {
        let high = tall * sizes.next().copied().unwrap_or(1.0);
        let strand = |step: usize| {
            let share = step as f64 / 6.0;
            at(x + high * 0.55 * share * share, bed - high * share)
        };
        sheet.line(LineRole::Weed, (0..=6).map(strand).collect(), 1.5);
        x += APART;
    }
}
