//! The paper that a card is made for, and the texts of its grid as they fit on
//! it. A unit is a CSS pixel, 96 to the inch.

use crate::labels::{run, wrap};
use crate::medium::Medium;
use crate::pocket::cells::{Paper, Pocket, PocketCell};
use crate::pocket::regions::Region;
use crate::scene::{Run, TextRole};

pub(super) const MEDIUM: Medium = Medium::Page;
pub(super) const MARGIN: f64 = 10.0;
/// Around the words of a cell.
pub(super) const PAD: f64 = 3.0;
/// The sign in a cell, and the gap before it.
pub(super) const SIGN: f64 = 4.2;
pub(super) const SIGN_GAP: f64 = 2.0;

/// The widths of A6, A5 and A4 standing: the least is also that of a phone.
const PAPERS: [f64; 3] = [397.0, 559.0, 794.0];
/// That of a column of a sheet.
const COLUMN: [f64; 1] = [350.0];
/// A name in a region has this many lines at most; one that wants more stands below, under a number.
const MOST_LINES: usize = 2;

/// Widths of a card.
#[derive(Clone, Copy, Debug)]
pub(super) struct Widths {
    pub whole: f64,
    /// The column of depths.
    pub side: f64,
    pub cell: f64,
}

impl Widths {
    /// The smallest paper on which the figures of every cell stand beside one another; the largest where none is.
    pub fn of(pocket: &Pocket) -> Self {
        let depths = pocket.rows.iter().map(|(depth, _)| depth.as_str());
        let side =
            widest(TextRole::Name, depths).max(MEDIUM.width(TextRole::Detail, &pocket.down)) + 2.0 * PAD;
        let cells = pocket.rows.iter().flat_map(|(_, cells)| cells);
        let wide = cells.map(figures).fold(0.0, f64::max);
        let wide = wide.max(widest(TextRole::Name, pocket.speeds.iter().map(String::as_str))) + 2.0 * PAD;
        let columns = pocket.speeds.len().max(1) as f64;
        let cell = |paper: f64| (paper - 2.0 * MARGIN - side) / columns;
        let papers: &[f64] = match pocket.paper {
            Paper::Own => &PAPERS,
            Paper::Column => &COLUMN,
        };
        let fits = papers.iter().find(|paper| cell(**paper) >= wide);
        let whole = fits.or(papers.last()).copied().unwrap_or_default();
        Self {
            whole,
            side,
            cell: cell(whole).max(wide),
        }
        .grown(columns)
    }

    /// As wide as its columns, where figures are wider than all paper has room for.
    fn grown(self, columns: f64) -> Self {
        Self {
            whole: self.whole.max(2.0 * MARGIN + self.side + self.cell * columns),
            ..self
        }
    }
}

pub(super) fn widest<'t>(role: TextRole, texts: impl Iterator<Item = &'t str>) -> f64 {
    texts.map(|text| MEDIUM.width(role, text)).fold(0.0, f64::max)
}

/// How wide the figures of a cell are, with its sign behind the last.
fn figures(cell: &PocketCell) -> f64 {
    let sign = cell.signs.len() as f64 * (2.0 * SIGN + SIGN_GAP);
    let last = cell
        .lines
        .last()
        .map_or(0.0, |last| MEDIUM.width(TextRole::Detail, last));
    widest(TextRole::Detail, cell.lines.iter().map(String::as_str)).max(last + sign)
}

/// The name of a region as it stands in it, in lines; of a long one its number.
pub(super) fn name(region: &Region, wide: f64, number: usize) -> (Vec<Vec<Run>>, bool) {
    let role = if region.fished {
        TextRole::Name
    } else {
        TextRole::Detail
    };
    let room = wide - 2.0 * PAD;
    let longest = region
        .answer
        .split(' ')
        .map(|word| MEDIUM.width(role, word))
        .fold(0.0, f64::max);
    let lines = wrap(MEDIUM, vec![run(role, region.answer.as_str())], room);
    if longest <= room && lines.len() <= MOST_LINES {
        return (lines, false);
    }
    (vec![vec![run(TextRole::Name, format!("({number})"))]], true)
}
