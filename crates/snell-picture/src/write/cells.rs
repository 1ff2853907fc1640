//! A scene as rows of a terminal's cells, each run with what paints it. How
//! that looks, and whether there is colour at all, is for those who print.

use super::bands::bands;
use crate::colours::Colour;
use crate::medium::ROW;
use crate::scene::{Item, Line, LineRole, Mark, MarkKind, Point, Scene, Stroke, Text, TextRole};
use unicode_width::UnicodeWidthChar;

/// What paints a run.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Painted {
    /// Names.
    Strong,
    /// Figures, line and signs.
    Plain,
    /// What is read second.
    Quiet,
    /// Flies.
    Fly,
    /// Line of a colour.
    Coloured(Colour),
}

/// A cell; the second cell of a broad letter holds none.
type Cell = (Option<char>, Painted);

struct Grid {
    rows: Vec<Vec<Cell>>,
    width: usize,
    unicode: bool,
}

/// The rows of a scene that was laid out for cells: runs of text with what paints them, without the blanks
/// at the end of a row.
pub fn rows(scene: &Scene, unicode: bool) -> Vec<Vec<(String, Painted)>> {
    let width = scene.width as usize;
    let height = (scene.height / ROW).ceil() as usize;
    let mut grid = Grid {
        rows: vec![vec![(Some(' '), Painted::Plain); width]; height],
        width,
        unicode,
    };
    for item in &scene.items {
        match item {
            Item::Line(line) => grid.line(line),
            Item::Mark(mark) => grid.mark(mark),
            Item::Text(text) => grid.text(text),
        }
    }
    grid.rows.iter().map(|row| runs(row)).collect()
}

fn runs(row: &[Cell]) -> Vec<(String, Painted)> {
    let end = row
        .iter()
        .rposition(|(letter, _)| *letter != Some(' '))
        .map_or(0, |last| last + 1);
    let mut runs: Vec<(String, Painted)> = Vec::new();
    for (letter, paint) in &row[..end] {
        let Some(letter) = letter else { continue };
        match runs.last_mut() {
            Some((text, last)) if last == paint || *letter == ' ' => text.push(*letter),
            _ => runs.push((letter.to_string(), *paint)),
        }
    }
    runs
}

/// The row that a height falls in.
fn row(y: f64) -> usize {
    (y / ROW).floor().max(0.0) as usize
}

impl Grid {
    fn put(&mut self, x: f64, y: usize, letter: char, paint: Painted) {
        let x = x.round();
        if let Some(cell) = (x >= 0.0)
            .then(|| self.rows.get_mut(y)?.get_mut(x as usize))
            .flatten()
        {
            *cell = (Some(letter), paint);
        }
    }

    fn letter(&self, unicode: char, plain: char) -> char {
        if self.unicode { unicode } else { plain }
    }

    fn line(&mut self, line: &Line) {
        let paint = match line.role {
            LineRole::Pointer
            | LineRole::Ruler
            | LineRole::Surface
            | LineRole::Bed
            | LineRole::BedEnd
            | LineRole::Speed
            | LineRole::Weed
            | LineRole::Flow
            | LineRole::Chord => Painted::Quiet,
            // What is filled has no place among letters.
            LineRole::Water | LineRole::Free | LineRole::Stone | LineRole::Hatch => return,
            LineRole::Between | LineRole::Anywhere => Painted::Fly,
            LineRole::Piece
            | LineRole::Unmeasured
            | LineRole::Beyond
            | LineRole::Tag
            | LineRole::Bar
            | LineRole::Way(_)
            | LineRole::Path
            | LineRole::Rod => Painted::Plain,
        };
        self.strokes(line, &line.points, paint);
        for (points, colour) in bands(line) {
            self.strokes(line, &points, Painted::Coloured(colour));
        }
    }

    fn strokes(&mut self, line: &Line, points: &[Point], paint: Painted) {
        for pair in points.windows(2) {
            self.stroke(line, pair[0], pair[1], paint);
        }
    }

    fn stroke(&mut self, line: &Line, from: Point, to: Point, paint: Painted) {
        let (across, down) = (to.x - from.x, (to.y - from.y) / ROW);
        // A cut end is shorter than a cell, and would only hide the line beside it.
        if across.abs() < 0.5 && line.role == LineRole::Tag {
            return;
        }
        if across.abs() < 0.5 {
            let (first, last) = (row(from.y.min(to.y)), row(from.y.max(to.y)));
            let upright = self.upright(line);
            let limit = self.rows.len().saturating_sub(1);
            for y in first..=last.min(limit) {
                self.put(from.x, y, upright, paint);
            }
            return;
        }
        let level = row(from.y) == row(to.y);
        let bar = matches!(line.role, LineRole::Bar | LineRole::Bed);
        let steps = across.abs().max(down.abs()).ceil().min(self.width as f64);
        for step in 0..=steps as usize {
            let share = step as f64 / steps.max(1.0);
            let y = row(from.y + (to.y - from.y) * share);
            if let Some(letter) = self.dot(line.role) {
                self.put(from.x + across * share, y, letter, paint);
                continue;
            }
            let letter = match (level, bar) {
                (true, true) => self.letter('━', '='),
                (true, false) if line.role == LineRole::BedEnd => self.letter('╌', '-'),
                (true, false) => self.letter('─', '-'),
                _ if across * down > 0.0 => self.letter('╲', '\\'),
                _ => self.letter('╱', '/'),
            };
            self.put(from.x + across * share, y, letter, paint);
        }
    }

    /// The letter of a line that looks the same whichever way it runs.
    fn dot(&self, role: LineRole) -> Option<char> {
        match role {
            LineRole::Way(Stroke::Solid) => Some(self.letter('•', '.')),
            LineRole::Way(Stroke::Dashed) | LineRole::Path | LineRole::Speed => Some(self.letter('·', ':')),
            LineRole::Way(Stroke::Dotted) => Some(self.letter('∘', 'o')),
            LineRole::Way(Stroke::Mixed) => Some(self.letter('×', 'x')),
            LineRole::Anywhere => Some(self.letter('╎', ':')),
            LineRole::Surface => Some('~'),
            LineRole::Piece
            | LineRole::Unmeasured
            | LineRole::Beyond
            | LineRole::Tag
            | LineRole::Pointer
            | LineRole::Ruler
            | LineRole::Bar
            | LineRole::Bed
            | LineRole::BedEnd
            | LineRole::Hatch
            | LineRole::Between
            | LineRole::Water
            | LineRole::Free
            | LineRole::Stone
            | LineRole::Weed
            | LineRole::Flow
            | LineRole::Chord
            | LineRole::Rod => None,
        }
    }

    fn upright(&self, line: &Line) -> char {
        if let Some(dot) = self.dot(line.role) {
            return dot;
        }
        match line.role {
            LineRole::Beyond => self.letter('┆', ':'),
            LineRole::Unmeasured => self.letter('╎', ':'),
            LineRole::Piece if !line.colours.is_empty() => self.letter('█', '#'),
            LineRole::Piece if line.thick.0 >= 3.5 => self.letter('┃', '|'),
            LineRole::Piece
            | LineRole::Tag
            | LineRole::Pointer
            | LineRole::Ruler
            | LineRole::Bar
            | LineRole::Surface
            | LineRole::Bed
            | LineRole::BedEnd
            | LineRole::Hatch
            | LineRole::Speed
            | LineRole::Way(_)
            | LineRole::Path
            | LineRole::Between
            | LineRole::Anywhere
            | LineRole::Water
            | LineRole::Free
            | LineRole::Stone
            | LineRole::Weed
            | LineRole::Flow
            | LineRole::Chord
            | LineRole::Rod => self.letter('│', '|'),
        }
    }

    fn mark(&mut self, mark: &Mark) {
        let (letter, paint) = match mark.kind {
            MarkKind::Knot => (self.letter('◆', '*'), Painted::Plain),
            MarkKind::UsualKnot => (self.letter('◇', 'o'), Painted::Plain),
            MarkKind::Ring => (self.letter('○', 'O'), Painted::Plain),
            MarkKind::Swivel => (self.letter('8', '8'), Painted::Plain),
            MarkKind::Shot => (self.letter('•', '.'), Painted::Plain),
            MarkKind::Float => (self.letter('◎', '0'), Painted::Plain),
            MarkKind::Break => (self.letter('≈', '~'), Painted::Quiet),
            MarkKind::HardWater => (self.letter('△', '!'), Painted::Plain),
            MarkKind::KeepOut => (self.letter('▲', '#'), Painted::Plain),
            MarkKind::OwnWater => (self.letter('●', '@'), Painted::Plain),
            MarkKind::BeadedFly => (self.letter('●', '@'), Painted::Fly),
            MarkKind::PlainFly | MarkKind::FloatingFly => (self.letter('✱', 'x'), Painted::Fly),
        };
        let paint = mark.colour.map_or(paint, Painted::Coloured);
        self.put(mark.at.x, row(mark.at.y), letter, paint);
    }

    fn text(&mut self, text: &Text) {
        let bounds = text.bounds();
        let y = row(text.at.y);
        let mut x = bounds.from.x.round();
        for run in &text.runs {
            let paint = match run.role {
                TextRole::Title | TextRole::Name | TextRole::Strong => Painted::Strong,
                TextRole::Figure => Painted::Plain,
                TextRole::Detail | TextRole::Tick => Painted::Quiet,
            };
            for letter in run.text.chars() {
                let shown = if letter.is_control() { '\u{fffd}' } else { letter };
                let wide = shown.width().unwrap_or(0);
                if wide == 0 {
                    continue;
                }
                self.put(x, y, shown, paint);
                if wide == 2
                    && let Some(cell) = self.rows.get_mut(y).and_then(|row| row.get_mut(x as usize + 1))
                {
                    *cell = (None, paint);
                }
                x += wide as f64;
            }
        }
    }
}
