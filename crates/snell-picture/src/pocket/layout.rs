//! Where everything stands on the card: the grid of depths and speeds with its
//! regions, the rig, and what the card rests on.

use super::paper::{MARGIN, MEDIUM, PAD, SIGN, SIGN_GAP, Widths, name, widest};
use super::regions::{Region, regions};
use crate::hatch;
use crate::labels::{paragraph, run, wrap};
use crate::pocket::cells::{NoteHead, Paper, Pocket, PocketCell, Sign};
use crate::scene::{Ground, Item, Line, LineRole, Mark, MarkKind, Point, Run, Scene, Side, TextRole, at};

/// Between the grid, the rig and the notes, and between two notes.
const GAP: f64 = 8.0;
const NOTE_GAP: f64 = 2.0;

/// The lines between cells: those inside one region, and those around it.
const THIN: (LineRole, f64) = (LineRole::Ruler, 0.5);
const THICK: (LineRole, f64) = (LineRole::Bar, 1.8);

/// The places of one card's grid.
struct Grid {
    left: f64,
    cell: f64,
    /// The upper edge of each row, and the lower one of the last.
    rows: Vec<f64>,
}

impl Grid {
    fn corner(&self, row: usize, column: usize) -> Point {
        at(self.left + column as f64 * self.cell, self.rows[row])
    }
}

/// A region with its name as it is drawn.
struct Named {
    region: Region,
    lines: Vec<Vec<Run>>,
    /// The number under which its name stands below.
    number: Option<usize>,
}

pub(super) fn lay_out(pocket: &Pocket) -> Option<Scene> {
    let columns = pocket.speeds.len();
    if columns == 0 || pocket.rows.iter().all(|(_, cells)| cells.is_empty()) {
        return None;
    }
    let widths = Widths::of(pocket);
    let cells: Vec<&[PocketCell]> = pocket.rows.iter().map(|(_, cells)| cells.as_slice()).collect();
    let (regions, of) = regions(&cells);
    let named = named(regions, widths.cell);
    let (mut items, top) = heading(pocket, widths.whole);
    let grid = Grid {
        left: MARGIN + widths.side,
        cell: widths.cell,
        rows: heights(&cells, &named, top),
    };
    items.extend(hatched(&cells, &grid));
    items.extend(borders(&of, &grid));
    items.extend(heads(pocket, &grid));
    for region in &named {
        items.extend(name_of(region, &grid));
    }
    for (row, cells) in cells.iter().enumerate() {
        for (column, cell) in cells.iter().enumerate() {
            items.extend(figures(cell, &grid, (row, column)));
        }
    }
    let mut y = grid.corner(cells.len(), 0).y + GAP;
    y = numbered(&mut items, &named, widths.whole, y);
    y = rig(&mut items, pocket, widths.whole, y);
    let (notes, bottom) = notes(pocket, y, widths.whole);
    items.extend(notes);
    Some(Scene {
        title: match pocket.paper {
            Paper::Own => format!("{}: a card for the pocket", pocket.name),
            Paper::Column => pocket.name.clone(),
        },
        about: pocket.about.clone(),
        width: widths.whole,
        height: bottom + MARGIN,
        metre: None,
        // What stands in a column follows the page that it is on.
        ground: match pocket.paper {
            Paper::Own => Ground::Paper,
            Paper::Column => Ground::Screen,
        },
        items,
    })
}

/// Each region with its name; one answer has one number, however many regions it has.
fn named(regions: Vec<Region>, cell: f64) -> Vec<Named> {
    let mut numbers: Vec<String> = Vec::new();
    let one = |region: Region| {
        let known = numbers.iter().position(|answer| *answer == region.answer);
        let number = known.unwrap_or(numbers.len()) + 1;
        let (lines, long) = name(&region, cell * region.name_at.2 as f64, number);
        if long && known.is_none() {
            numbers.push(region.answer.clone());
        }
        Named {
            region,
            lines,
            number: long.then_some(number),
        }
    };
    regions.into_iter().map(one).collect()
}

fn high(lines: &[Vec<Run>]) -> f64 {
    let line = |line: &Vec<Run>| line.iter().map(|run| MEDIUM.height(run.role)).fold(0.0, f64::max);
    lines.iter().map(line).sum()
}

/// Where rows begin: each is as tall as its figures, below the names of the regions that stand in it.
fn heights(cells: &[&[PocketCell]], named: &[Named], top: f64) -> Vec<f64> {
    let mut y = top;
    let mut rows = vec![top];
    for (row, cells) in cells.iter().enumerate() {
        let figures = |cell: &PocketCell| {
            let signs = usize::from(!cell.signs.is_empty());
            cell.lines.len().max(signs) as f64 * MEDIUM.height(TextRole::Detail)
        };
        let here = named.iter().filter(|named| named.region.name_at.0 == row);
        let names = here.map(|named| high(&named.lines)).fold(0.0, f64::max);
        y += cells.iter().map(figures).fold(0.0, f64::max) + names + 2.0 * PAD;
        rows.push(y);
    }
    rows
}

fn line((role, thick): (LineRole, f64), points: Vec<Point>) -> Item {
    Line::even(role, points, thick).into()
}

fn text(role: TextRole, words: &str, left: f64, middle: f64) -> Item {
    MEDIUM
        .text(vec![run(role, words)], (left, middle), Side::Begins)
        .into()
}

fn centred(role: TextRole, words: &str, middle: Point) -> Item {
    let left = middle.x - MEDIUM.width(role, words) / 2.0;
    text(role, words, left, middle.y)
}

/// The name, its title below it, and where the grid begins.
fn heading(pocket: &Pocket, width: f64) -> (Vec<Item>, f64) {
    let mut items = Vec::new();
    let room = width - 2.0 * MARGIN;
    let title = run(TextRole::Title, pocket.name.as_str());
    let mut y = paragraph(&mut items, MEDIUM, title, room, (MARGIN, MARGIN));
    if let Some(title) = &pocket.title {
        y = paragraph(
            &mut items,
            MEDIUM,
            run(TextRole::Figure, title.as_str()),
            room,
            (MARGIN, y),
        );
    }
    // Over the grid stand what its columns are, and the columns themselves.
    let heads = MEDIUM.height(TextRole::Detail) + MEDIUM.height(TextRole::Name);
    (items, y + PAD + heads + PAD)
}

/// What nothing fishes is hatched, so that a copy of a copy still tells it.
fn hatched(cells: &[&[PocketCell]], grid: &Grid) -> Vec<Item> {
    let mut items = Vec::new();
    for (row, cells) in cells.iter().enumerate() {
        let runs = cells.chunk_by(|one, other| one.fished == other.fished);
        let mut from = 0;
        for run in runs {
            let to = from + run.len();
            if !run[0].fished {
                let (upper, lower) = (grid.corner(row, from), grid.corner(row + 1, to));
                let strokes = hatch::strokes(upper, lower);
                items.extend(strokes.map(|points| line((LineRole::Hatch, 0.5), points)));
            }
            from = to;
        }
    }
    items
}

/// Thick where one region ends, thin inside it.
fn borders(of: &[Vec<usize>], grid: &Grid) -> Vec<Item> {
    let region = |row: Option<usize>, column: Option<usize>| of.get(row?)?.get(column?).copied();
    let columns = of.iter().map(Vec::len).max().unwrap_or(0);
    let kind = |one: Option<usize>, other: Option<usize>| if one == other { THIN } else { THICK };
    let (mut thin, mut thick) = (Vec::new(), Vec::new());
    let mut keep = |kind: (LineRole, f64), points: Vec<Point>| {
        let kept = if kind == THIN { &mut thin } else { &mut thick };
        kept.push(line(kind, points));
    };
    for row in 0..=of.len() {
        for column in 0..columns {
            let above = region(row.checked_sub(1), Some(column));
            let points = vec![grid.corner(row, column), grid.corner(row, column + 1)];
            keep(kind(above, region(Some(row), Some(column))), points);
        }
    }
    for column in 0..=columns {
        for row in 0..of.len() {
            let before = region(Some(row), column.checked_sub(1));
            let points = vec![grid.corner(row, column), grid.corner(row + 1, column)];
            keep(kind(before, region(Some(row), Some(column))), points);
        }
    }
    thin.extend(thick);
    thin
}

/// Speeds over the grid and depths beside it, each with what it is.
fn heads(pocket: &Pocket, grid: &Grid) -> Vec<Item> {
    let (name, detail) = (MEDIUM.height(TextRole::Name), MEDIUM.height(TextRole::Detail));
    let y = grid.rows[0] - PAD - name / 2.0;
    let across = y - (name + detail) / 2.0;
    let mut items = vec![
        text(TextRole::Detail, &pocket.across, grid.left + PAD, across),
        text(TextRole::Detail, &pocket.down, MARGIN, y),
    ];
    for (column, speed) in pocket.speeds.iter().enumerate() {
        let middle = at(grid.corner(0, column).x + grid.cell / 2.0, y);
        items.push(centred(TextRole::Name, speed, middle));
    }
    for (row, (depth, _)) in pocket.rows.iter().enumerate() {
        let middle = (grid.rows[row] + grid.rows[row + 1]) / 2.0;
        items.push(text(TextRole::Name, depth, MARGIN, middle));
    }
    items
}

/// A region's name over the cells of its longest row, on paper that is kept free of hatching.
fn name_of(named: &Named, grid: &Grid) -> Vec<Item> {
    let (row, column, count) = named.region.name_at;
    let (from, to) = (grid.corner(row, column), grid.corner(row, column + count));
    let middle = (from.x + to.x) / 2.0;
    let mut items = Vec::new();
    let mut y = from.y + PAD;
    for runs in &named.lines {
        let tall = high(std::slice::from_ref(runs));
        let wide: f64 = runs.iter().map(|run| MEDIUM.width(run.role, &run.text)).sum();
        let left = middle - wide / 2.0;
        if !named.region.fished {
            let (left, right) = (left - 2.0, left + wide + 2.0);
            let free = vec![at(left, y), at(right, y), at(right, y + tall), at(left, y + tall)];
            items.push(line((LineRole::Free, 0.0), free));
        }
        items.push(
            MEDIUM
                .text(runs.clone(), (left, y + tall / 2.0), Side::Begins)
                .into(),
        );
        y += tall;
    }
    items
}

/// What a cell has of its own, at its lower edge, with its signs behind the last line.
fn figures(cell: &PocketCell, grid: &Grid, (row, column): (usize, usize)) -> Vec<Item> {
    let high = MEDIUM.height(TextRole::Detail);
    let middle = grid.corner(row, column).x + grid.cell / 2.0;
    let lines = cell.lines.len().max(usize::from(!cell.signs.is_empty()));
    let mut y = grid.rows[row + 1] - PAD - lines as f64 * high + high / 2.0;
    let mut items = Vec::new();
    let last = lines.saturating_sub(1);
    for index in 0..lines {
        let words = cell.lines.get(index).map_or("", String::as_str);
        let wide = MEDIUM.width(TextRole::Detail, words);
        let signs: &[Sign] = if index == last { &cell.signs } else { &[] };
        let gap = if words.is_empty() { 0.0 } else { SIGN_GAP };
        let each = 2.0 * SIGN + SIGN_GAP;
        let behind = if signs.is_empty() {
            0.0
        } else {
            gap + signs.len() as f64 * each - SIGN_GAP
        };
        let left = middle - (wide + behind) / 2.0;
        if !words.is_empty() {
            items.push(text(TextRole::Detail, words, left, y));
        }
        let first = left + wide + gap + SIGN;
        let signs = signs.iter().enumerate();
        items.extend(signs.map(|(behind, sign)| mark(*sign, at(first + behind as f64 * each, y))));
        y += high;
    }
    items
}

fn mark(sign: Sign, at: Point) -> Item {
    let kind = match sign {
        Sign::Hard => MarkKind::HardWater,
        Sign::KeepOut => MarkKind::KeepOut,
        Sign::Own => MarkKind::OwnWater,
    };
    Mark::plain(kind, at, SIGN).into()
}

/// The long names, each with the number that stands for it in the grid; returns where they end.
fn numbered(items: &mut Vec<Item>, named: &[Named], width: f64, mut y: f64) -> f64 {
    let mut last = 0;
    for named in named {
        if let Some(number) = named.number.filter(|number| *number > last) {
            let words = run(TextRole::Detail, format!("({number})  {}", named.region.answer));
            y = paragraph(items, MEDIUM, words, width - 2.0 * MARGIN, (MARGIN, y));
            last = number;
        }
    }
    if last > 0 { y + NOTE_GAP } else { y }
}

/// The rig from rod to fly: a line a part, with what it is and the knot below it; returns where it ends.
fn rig(items: &mut Vec<Item>, pocket: &Pocket, width: f64, mut y: f64) -> f64 {
    const BETWEEN: f64 = 8.0;
    if pocket.rig.is_empty() {
        return y;
    }
    let room = width - 2.0 * MARGIN;
    let parts = pocket.rig.iter().map(|part| part.part.as_str());
    let first = widest(TextRole::Strong, parts).min(room * 0.36);
    let knots = pocket.rig.iter().map(|part| part.knot.as_str());
    let third = widest(TextRole::Detail, knots).min(room * 0.34);
    let second = room - first - third - 2.0 * BETWEEN;
    for part in &pocket.rig {
        let cells = [
            (TextRole::Strong, &part.part, MARGIN, first),
            (TextRole::Detail, &part.what, MARGIN + first + BETWEEN, second),
            (
                TextRole::Detail,
                &part.knot,
                MARGIN + first + second + 2.0 * BETWEEN,
                third,
            ),
        ];
        let ends = cells.map(|(role, words, left, wide)| {
            paragraph(items, MEDIUM, run(role, words.as_str()), wide, (left, y))
        });
        y = ends.into_iter().fold(y, f64::max);
    }
    y + GAP
}

/// The notes below the grid, each wrapped to the card's width, and where they end.
fn notes(pocket: &Pocket, top: f64, width: f64) -> (Vec<Item>, f64) {
    let high = MEDIUM.height(TextRole::Detail);
    let mut items = Vec::new();
    let mut y = top;
    for note in &pocket.notes {
        let mut left = MARGIN;
        let words = match &note.head {
            NoteHead::Word(word) => vec![
                run(TextRole::Strong, format!("{word}  ")),
                run(TextRole::Detail, note.text.as_str()),
            ],
            NoteHead::Sign(sign) => {
                items.push(mark(*sign, at(left + SIGN, y + high / 2.0)));
                left += 2.0 * SIGN + PAD;
                vec![run(TextRole::Detail, note.text.as_str())]
            }
        };
        for line in wrap(MEDIUM, words, width - MARGIN - left) {
            items.push(MEDIUM.text(line, (left, y + high / 2.0), Side::Begins).into());
            y += high;
        }
        y += NOTE_GAP;
    }
    (items, y)
}
