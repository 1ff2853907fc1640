//! How a rig's page is fitted on one sheet of A4, in two columns: the rig in
//! the one, words in the other, and the water and the cautions where there is
//! room for them.
//!
//! How many lines words take is estimated by their letters, generously: a
//! browser's font is not known here.

use super::rig::{Drawing, RigPage};
use crate::cutting;
use crate::prose::width;

/// A page's height between its margins, in millimetres. Each of its columns is as wide as a picture of a sheet.
const TALL: f64 = 277.0;
/// A CSS pixel.
const PIXEL: f64 = 25.4 / 96.0;
/// What name, place and the gaps take, and a line of the verdict with as many letters as it holds.
const HEAD: f64 = 16.0;
const ANSWER: (f64, usize) = (4.5, 92);
/// Below a picture.
const GAP: f64 = 3.0;
/// Pictures may be printed so much smaller: their letters have 7 points then.
const LEGIBLE: f64 = 0.955;

/// How words are set: usually, and where they stand close.
const SETTINGS: [Setting; 2] = [
    Setting {
        line: 4.4,
        letters: 45,
        close: false,
    },
    Setting {
        line: 3.3,
        letters: 60,
        close: true,
    },
];
/// More pieces than these are listed in two columns where words stand close.
const MANY: usize = 12;
/// Lines of a heading with its gaps.
const HEADING: usize = 2;

#[derive(Clone, Copy)]
struct Setting {
    /// A line's height, and how many letters it holds.
    line: f64,
    letters: usize,
    close: bool,
}

/// A column of the page.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Column {
    /// The one with the rig.
    Rig,
    /// The one with what to cut.
    Words,
}

/// In which columns the water and the cautions may stand, the best first.
const PLACES: [(Column, Column); 3] = [
    (Column::Words, Column::Words),
    (Column::Words, Column::Rig),
    (Column::Rig, Column::Words),
];

/// How a rig's page is fitted on paper.
pub(super) struct Paper {
    /// Where the pictures behind the first one stand.
    pub water: Column,
    /// Where the map of waters stands, where there is room for it.
    pub waters: Option<Column>,
    /// Where the cautions stand.
    pub warns: Column,
    /// Whether words have to stand close.
    pub close: bool,
    /// Whether what is to be cut stands in two columns, without its names, which the picture beside it tells.
    pub halved: bool,
    /// How many cautions have room.
    pub cautions: usize,
    scale: f64,
    /// Whether the words alone are longer than the page.
    overflows: bool,
}

impl Paper {
    /// The first way to fit it in which everything has room, or the one that leaves out least.
    pub(super) fn of(rig: &RigPage<'_>) -> Self {
        let ways = SETTINGS.iter().flat_map(|setting| {
            let of_place = |(water, warns)| {
                let maps = [Some(Column::Words), Some(Column::Rig), None];
                maps.map(|waters| Self::fit(rig, *setting, (water, waters), warns))
            };
            PLACES.into_iter().flat_map(of_place)
        });
        let mut best: Option<Self> = None;
        for way in ways {
            if best.as_ref().is_none_or(|best| way.worth() > best.worth()) {
                best = Some(way);
            }
        }
        // There is always a way, for there are settings and places.
        best.unwrap_or_else(|| Self::fit(rig, SETTINGS[1], (Column::Rig, None), Column::Words))
    }

    fn fit(
        rig: &RigPage<'_>,
        setting: Setting,
        (water, waters): (Column, Option<Column>),
        warns: Column,
    ) -> Self {
        let answer: usize = rig.sheet.answer.iter().map(|line| lines(line, ANSWER.1)).sum();
        let tall = TALL - HEAD - answer as f64 * ANSWER.0;
        let halved = setting.close && rig.cuts.pieces.len() > MANY;
        let cuts = match halved {
            true => HEADING + (cuts(rig, setting.letters / 2, Detail::Bare) - HEADING).div_ceil(2),
            false => cuts(
                rig,
                setting.letters,
                if setting.close {
                    Detail::Named
                } else {
                    Detail::Summed
                },
            ),
        };
        let words = (settings(rig, setting.letters) + cuts) as f64 * setting.line;
        let free = |column| {
            if column == Column::Words {
                tall - words
            } else {
                tall
            }
        };
        let pictures = |column| {
            let here = rig.pictures.iter().enumerate().filter(|(index, _)| match index {
                0 => column == Column::Rig,
                _ => column == water,
            });
            let map = rig.waters.filter(|_| waters == Some(column));
            let all = here.map(|(_, picture)| picture).chain(map);
            all.map(|picture| picture.size.1 * PIXEL + GAP).sum::<f64>()
        };
        let fits = |column| match pictures(column) {
            0.0 => 1.0,
            taken => (free(column) / taken).clamp(0.0, 1.0),
        };
        let scale = fits(Column::Rig).min(fits(Column::Words));
        let left = ((free(warns) - pictures(warns) * scale) / setting.line).max(0.0) as usize;
        let all = cautions(rig, setting.letters);
        let fit = all.iter().filter(|lines| **lines <= left).count();
        Self {
            water,
            waters: waters.filter(|_| rig.waters.is_some()),
            warns,
            close: setting.close,
            halved,
            cautions: fit,
            scale,
            overflows: words > tall,
        }
    }

    /// Ways are compared by whether they fit and are legible, then by how many cautions they show, whether the map of
    /// waters has room, and by their size.
    fn worth(&self) -> (bool, usize, bool, f64) {
        let is_legible = !self.overflows && self.scale >= LEGIBLE;
        (
            is_legible,
            self.cautions,
            self.waters.is_some(),
            self.scale.min(LEGIBLE),
        )
    }

    /// How wide a picture is printed, in millimetres.
    pub(super) fn width(&self, picture: &Drawing) -> f64 {
        picture.size.0 * PIXEL * self.scale
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

/// How much is written of a piece that is to be cut.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Detail {
    /// How much of what.
    Bare,
    /// The same, with its name.
    Named,
    /// The same, with the sum that makes it.
    Summed,
}

fn cuts(rig: &RigPage<'_>, letters: usize, detail: Detail) -> usize {
    let piece = |piece: &snell_view::CutPiece| {
        let cut = format!("00. {} of {}", cutting::cut(piece), piece.of);
        match detail {
            Detail::Bare => lines(&cut, letters),
            Detail::Named => lines(&format!("{cut}: {}", piece.name), letters),
            Detail::Summed => {
                lines(&format!("{cut}: {}", piece.name), letters) + lines(&cutting::sum(piece), letters)
            }
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
