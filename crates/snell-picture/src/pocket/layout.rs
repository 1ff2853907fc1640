//! Where everything stands on the card. A unit is a CSS pixel, 96 to the inch,
//! so that a usual card is as wide as A5 stands and A6 lies.

use crate::labels::{paragraph, run, wrap};
use crate::medium::Medium;
use crate::pocket::cells::{NoteHead, Pocket, PocketCell, Sign};
use crate::scene::{Ground, Item, Line, LineRole, Mark, MarkKind, Point, Scene, Side, TextRole, at};

/// 148 mm.
const WIDTH: f64 = 559.0;
const MARGIN: f64 = 14.0;
/// Around the words of a cell.
const PAD: f64 = 4.0;
/// Between the grid and the notes, and between two notes.
const GAP: f64 = 9.0;
const NOTE_GAP: f64 = 2.0;
/// The sign in a cell's corner, and beside its note.
const SIGN: f64 = 4.2;
/// Between a sign and the edges of its cell, and before it.
const SIGN_GAP: f64 = 2.0;
const MEDIUM: Medium = Medium::Page;

/// The lines between cells: those inside one fly's water, and those around it.
const THIN: (LineRole, f64) = (LineRole::Ruler, 0.6);
const THICK: (LineRole, f64) = (LineRole::Bar, 1.8);

/// The places of one card's grid.
struct Grid {
    left: f64,
    top: f64,
    /// A cell's width and height.
    cell: (f64, f64),
}

impl Grid {
    fn corner(&self, row: usize, column: usize) -> Point {
        at(
            self.left + column as f64 * self.cell.0,
            self.top + row as f64 * self.cell.1,
        )
    }
}

pub(super) fn lay_out(pocket: &Pocket) -> Option<Scene> {
    let columns = pocket.speeds.len();
    if columns == 0 || pocket.rows.iter().all(|(_, cells)| cells.is_empty()) {
        return None;
    }
    let cells = || pocket.rows.iter().flat_map(|(_, cells)| cells);
    let depths = pocket.rows.iter().map(|(depth, _)| depth.as_str());
    let side = widest(TextRole::Name, depths.chain([pocket.down.as_str()])) + 2.0 * PAD;
    let words = cells().map(cell_width).fold(0.0, f64::max) + 2.0 * PAD;
    let words = words.max(widest(TextRole::Name, pocket.speeds.iter().map(String::as_str)) + PAD);
    let room = (WIDTH - 2.0 * MARGIN - side) / columns as f64;
    let wide = room.max(words);
    let tall = cells().map(cell_height).fold(0.0, f64::max) + 1.5 * PAD;
    let width = 2.0 * MARGIN + side + wide * columns as f64;
    let (mut items, top) = heading(pocket, width);
    let grid = Grid {
        left: MARGIN + side,
        top,
        cell: (wide, tall),
    };
    items.extend(borders(pocket, &grid));
    items.extend(heads(pocket, &grid));
    for (row, (_, cells)) in pocket.rows.iter().enumerate() {
        for (column, cell) in cells.iter().enumerate() {
            items.extend(words_of(cell, &grid, row, column));
        }
    }
    let below = grid.corner(pocket.rows.len(), 0).y + GAP;
    let (notes, bottom) = notes(pocket, below, width);
    items.extend(notes);
    Some(Scene {
        title: format!("{}: a card for the pocket", pocket.name),
        about: pocket.about.clone(),
        width,
        height: bottom + MARGIN,
        metre: None,
        ground: Ground::Paper,
        items,
    })
}

fn widest<'t>(role: TextRole, texts: impl Iterator<Item = &'t str>) -> f64 {
    texts.map(|text| MEDIUM.width(role, text)).fold(0.0, f64::max)
}

/// The first line stands in the middle, so what a sign takes on one side is kept free on both.
fn cell_width(cell: &PocketCell) -> f64 {
    let head = MEDIUM.width(TextRole::Name, &cell.head);
    let sign = cell
        .sign
        .map_or(0.0, |_| 2.0 * (2.0 * SIGN + 2.0 * SIGN_GAP - PAD));
    let below = widest(TextRole::Detail, cell.lines.iter().map(String::as_str));
    (head + sign).max(below)
}

fn cell_height(cell: &PocketCell) -> f64 {
    MEDIUM.height(TextRole::Name) + cell.lines.len() as f64 * MEDIUM.height(TextRole::Detail)
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

/// The name, the title behind it or below it, and where the grid begins.
fn heading(pocket: &Pocket, width: f64) -> (Vec<Item>, f64) {
    let mut y = MARGIN + MEDIUM.height(TextRole::Title) / 2.0;
    let mut items = vec![text(TextRole::Title, &pocket.name, MARGIN, y)];
    let title = pocket.title.as_deref().unwrap_or_default();
    let beside = MARGIN + MEDIUM.width(TextRole::Title, &pocket.name) + 2.0 * GAP;
    let fits = beside + MEDIUM.width(TextRole::Name, title) <= width - MARGIN;
    if !title.is_empty() && fits {
        items.push(text(TextRole::Figure, title, beside, y + 1.5));
    }
    y += MEDIUM.height(TextRole::Title) / 2.0;
    if !title.is_empty() && !fits {
        let title = run(TextRole::Figure, title);
        y = paragraph(&mut items, MEDIUM, title, width - 2.0 * MARGIN, (MARGIN, y));
    }
    // Over the grid stand what its columns are, and the columns themselves.
    let heads = MEDIUM.height(TextRole::Detail) + MEDIUM.height(TextRole::Name);
    (items, y + PAD + heads + PAD)
}

/// Thick where one fly's water ends, thin inside it.
fn borders(pocket: &Pocket, grid: &Grid) -> Vec<Item> {
    let head = |row: usize, column: usize| {
        let (_, cells) = pocket.rows.get(row)?;
        cells.get(column).map(|cell| cell.head.as_str())
    };
    let (rows, columns) = (pocket.rows.len(), pocket.speeds.len());
    let kind = |one: Option<&str>, other: Option<&str>| if one == other { THIN } else { THICK };
    let (mut thin, mut thick) = (Vec::new(), Vec::new());
    let mut keep = |kind: (LineRole, f64), points: Vec<Point>| {
        let kept = if kind == THIN { &mut thin } else { &mut thick };
        kept.push(line(kind, points));
    };
    for row in 0..=rows {
        for column in 0..columns {
            let above = row.checked_sub(1).and_then(|above| head(above, column));
            let points = vec![grid.corner(row, column), grid.corner(row, column + 1)];
            keep(kind(above, head(row, column)), points);
        }
    }
    for column in 0..=columns {
        for row in 0..rows {
            let before = column.checked_sub(1).and_then(|before| head(row, before));
            let points = vec![grid.corner(row, column), grid.corner(row + 1, column)];
            keep(kind(before, head(row, column)), points);
        }
    }
    thin.extend(thick);
    thin
}

/// Speeds over the grid and depths beside it, each with what it is.
fn heads(pocket: &Pocket, grid: &Grid) -> Vec<Item> {
    let (name, detail) = (MEDIUM.height(TextRole::Name), MEDIUM.height(TextRole::Detail));
    let y = grid.top - PAD - name / 2.0;
    let mut items = vec![
        text(
            TextRole::Detail,
            &pocket.across,
            grid.left + PAD,
            y - (name + detail) / 2.0,
        ),
        text(TextRole::Detail, &pocket.down, MARGIN, y),
    ];
    for (column, speed) in pocket.speeds.iter().enumerate() {
        let middle = at(grid.corner(0, column).x + grid.cell.0 / 2.0, y);
        items.push(centred(TextRole::Name, speed, middle));
    }
    for (row, (depth, _)) in pocket.rows.iter().enumerate() {
        let middle = grid.corner(row, 0).y + grid.cell.1 / 2.0;
        items.push(text(TextRole::Name, depth, MARGIN, middle));
    }
    items
}

fn words_of(cell: &PocketCell, grid: &Grid, row: usize, column: usize) -> Vec<Item> {
    let corner = grid.corner(row, column);
    let middle = corner.x + grid.cell.0 / 2.0;
    let mut y = corner.y + (grid.cell.1 - cell_height(cell)) / 2.0;
    let name = MEDIUM.height(TextRole::Name);
    let mut items = vec![centred(TextRole::Name, &cell.head, at(middle, y + name / 2.0))];
    y += name;
    for words in &cell.lines {
        let high = MEDIUM.height(TextRole::Detail);
        items.push(centred(TextRole::Detail, words, at(middle, y + high / 2.0)));
        y += high;
    }
    items.extend(cell.sign.map(|sign| {
        let edge = grid.corner(row, column + 1);
        mark(sign, at(edge.x - SIGN - SIGN_GAP, edge.y + SIGN + SIGN_GAP))
    }));
    items
}

fn mark(sign: Sign, at: Point) -> Item {
    let kind = match sign {
        Sign::Hard => MarkKind::HardWater,
        Sign::KeepOut => MarkKind::KeepOut,
    };
    Mark::plain(kind, at, SIGN).into()
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
