//! How a rig's page is fitted on one sheet of A4: pictures beside words.
//!
//! How many lines words take is estimated by their letters, generously: a
//! browser's font is not known here.

use super::rig::{Drawing, RigPage};
use crate::cutting;
use crate::prose::width;

/// A page's height between its margins, and the width for pictures, in millimetres.
const TALL: f64 = 277.0;
const PICTURES: f64 = 111.0;
/// A CSS pixel.
const PIXEL: f64 = 25.4 / 96.0;
/// What name, place and the gaps take, and a line of the verdict with as many letters as it holds.
const HEAD: f64 = 16.0;
const ANSWER: (f64, usize) = (4.5, 92);
/// Below a picture.
const GAP: f64 = 3.0;

/// A line of words beside the pictures, with as many letters as it holds: usually, and where they stand close.
const USUAL: (f64, usize) = (4.4, 38);
const CLOSE: (f64, usize) = (3.3, 50);
/// Lines of a heading with its gaps.
const HEADING: usize = 2;

/// How a rig's page is fitted on paper.
pub(super) struct Paper {
    scale: f64,
    close: bool,
    cautions: usize,
}

impl Paper {
    pub(super) fn of(rig: &RigPage<'_>) -> Self {
        let answer: usize = rig.sheet.answer.iter().map(|line| lines(line, ANSWER.1)).sum();
        let tall = TALL - HEAD - answer as f64 * ANSWER.0;
        let pictures: f64 = rig.pictures.iter().map(|picture| picture.size.1 * PIXEL).sum();
        let gaps = rig.pictures.len() as f64 * GAP;
        let room = |(line, letters): (f64, usize), sums: bool| {
            let all = (tall / line) as usize;
            all.saturating_sub(settings(rig, letters) + cuts(rig, letters, sums))
        };
        let all = |letters| cautions(rig, letters).last().copied().unwrap_or_default();
        let close = room(USUAL, true) < all(USUAL.1);
        let fit = if close { room(CLOSE, false) } else { usize::MAX };
        let fitting = cautions(rig, CLOSE.1)
            .into_iter()
            .filter(|lines| *lines <= fit)
            .count();
        Self {
            scale: ((tall - gaps) / pictures).min(1.0),
            close,
            cautions: if close { fitting } else { rig.cautions.len() },
        }
    }

    /// How wide a picture is printed, in millimetres.
    pub(super) fn width(&self, picture: &Drawing) -> f64 {
        (picture.size.0 * PIXEL).min(PICTURES) * self.scale
    }

    /// Whether words have to stand close.
    pub(super) const fn is_close(&self) -> bool {
        self.close
    }

    /// How many cautions have room.
    pub(super) const fn cautions(&self) -> usize {
        self.cautions
    }
}

/// How many lines a text takes.
fn lines(text: &str, letters: usize) -> usize {
    width(text).div_ceil(letters).max(1)
}

fn settings(rig: &RigPage<'_>, letters: usize) -> usize {
    let of = |setting: &crate::sheet::Named| lines(&setting.text, letters * 3 / 4);
    rig.sheet.settings.iter().map(of).sum()
}

/// What is to be cut, with the sums that make each piece or without.
fn cuts(rig: &RigPage<'_>, letters: usize, sums: bool) -> usize {
    let piece = |piece: &snell_view::CutPiece| {
        let said = format!("0. {}: {} of {}", piece.name, cutting::cut(piece), piece.of);
        lines(&said, letters)
            + if sums {
                lines(&cutting::sum(piece), letters)
            } else {
                0
            }
    };
    HEADING + rig.cuts.pieces.iter().map(piece).sum::<usize>()
}

/// How many lines the first caution takes with its heading, the first two, and so on; one is kept for what is left out.
fn cautions(rig: &RigPage<'_>, letters: usize) -> Vec<usize> {
    let mut sum = HEADING + 1;
    let one = |caution: &String| {
        sum += lines(caution, letters);
        sum
    };
    rig.cautions.iter().map(one).collect()
}
