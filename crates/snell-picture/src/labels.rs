//! Labels of a column: text wrapped to the column's width, spread along it,
//! and a pointer from each to what it is of.

use crate::medium::Medium;
use crate::scene::{Item, Line, LineRole, Point, Run, Side, TextRole, at};
use crate::spread::{Wish, spread};
use snell_units::in_order;

/// A label before it has its place.
#[derive(Clone, Debug)]
pub(crate) struct Label {
    /// What it is of: where its pointer begins.
    pub of: Point,
    /// Its lines.
    pub lines: Vec<Vec<Run>>,
}

/// Where labels stand.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Column {
    /// The edge that texts are held at.
    pub edge: f64,
    /// How wide they may run from it.
    pub width: f64,
    /// Whether they begin or end at the edge.
    pub side: Side,
    /// Between labels.
    pub gap: f64,
}

/// A label says no more than this many lines; what is cut off it ends with a whole word, a whole figure with its unit.
const MOST_LINES: usize = 6;

/// A run.
pub(crate) fn run(role: TextRole, text: impl Into<String>) -> Run {
    Run {
        role,
        text: text.into(),
    }
}

impl Label {
    /// A label of lines that are wrapped to a column; in a terminal they are one line if they fit on one.
    pub(crate) fn new(medium: Medium, column: &Column, of: Point, lines: Vec<Vec<Run>>) -> Self {
        let lines = match medium {
            Medium::Cells(_) => vec![joined(lines)],
            Medium::Page | Medium::Sheet | Medium::Hover => lines,
        };
        let mut wrapped: Vec<Vec<Run>> = lines
            .into_iter()
            .flat_map(|line| wrap(medium, line, column.width))
            .collect();
        if wrapped.len() > MOST_LINES {
            wrapped.truncate(MOST_LINES);
            if let Some(last) = wrapped.last_mut() {
                shorten(medium, last, column.width);
            }
        }
        Self { of, lines: wrapped }
    }

    pub(crate) fn height(&self, medium: Medium) -> f64 {
        self.lines.iter().map(|line| line_height(medium, line)).sum()
    }
}

/// Takes whole words off the end of a line until the sign of what is left out has room.
fn shorten(medium: Medium, line: &mut Vec<Run>, width: f64) {
    let wide = |runs: &[Run]| -> f64 { runs.iter().map(|run| medium.width(run.role, &run.text)).sum() };
    while let Some(last) = line.last_mut() {
        let whole = last.text.clone();
        last.text.push('…');
        if wide(line) <= width {
            return;
        }
        let role = line.pop().map_or(TextRole::Detail, |last| last.role);
        let kept: usize = words(&whole).iter().rev().skip(1).map(|word| word.len()).sum();
        let kept = whole[..kept].trim_end_matches([' ', ',', ';']);
        if !kept.is_empty() {
            line.push(run(role, kept));
        }
    }
}

fn line_height(medium: Medium, line: &[Run]) -> f64 {
    line.iter().map(|run| medium.height(run.role)).fold(0.0, f64::max)
}

/// Lines as one, with a gap between them.
pub(crate) fn joined(lines: Vec<Vec<Run>>) -> Vec<Run> {
    let mut all: Vec<Run> = Vec::new();
    for line in lines.into_iter().filter(|line| !line.is_empty()) {
        if !all.is_empty() {
            all.push(run(TextRole::Detail, "  "));
        }
        all.extend(line);
    }
    all
}

/// Text over a width, from a place downwards; returns where it ends.
pub(crate) fn paragraph(
    items: &mut Vec<Item>,
    medium: Medium,
    text: Run,
    width: f64,
    from: (f64, f64),
) -> f64 {
    paragraph_of(items, medium, vec![text], width, from)
}

/// The same of several runs; a line is as high as its highest.
pub(crate) fn paragraph_of(
    items: &mut Vec<Item>,
    medium: Medium,
    runs: Vec<Run>,
    width: f64,
    (x, mut y): (f64, f64),
) -> f64 {
    for line in wrap(medium, runs, width) {
        let height = line.iter().map(|run| medium.height(run.role)).fold(0.0, f64::max);
        items.push(medium.text(line, (x, y + height / 2.0), Side::Begins).into());
        y += height;
    }
    y
}

/// A line cut at spaces where it is wider than `width`; a word that is wider is cut anywhere.
pub(crate) fn wrap(medium: Medium, line: Vec<Run>, width: f64) -> Vec<Vec<Run>> {
    let fits: f64 = line.iter().map(|run| medium.width(run.role, &run.text)).sum();
    if fits <= width {
        return vec![line];
    }
    let mut lines: Vec<Vec<Run>> = vec![Vec::new()];
    let mut filled = 0.0;
    for Run { role, text } in line {
        for word in words(&text) {
            let bare = medium.width(role, word.trim_end());
            if filled > 0.0 && filled + bare > width {
                lines.push(Vec::new());
                filled = 0.0;
            }
            for part in cut(medium, role, word, width) {
                let wide = medium.width(role, part);
                if filled > 0.0 && filled + medium.width(role, part.trim_end()) > width {
                    lines.push(Vec::new());
                    filled = 0.0;
                }
                if filled == 0.0 && part.trim().is_empty() {
                    continue;
                }
                let line = lines.last_mut().expect("there is one line from the start");
                match line.last_mut() {
                    Some(last) if last.role == role => last.text.push_str(part),
                    _ => line.push(run(role, part)),
                }
                filled += wide;
            }
        }
    }
    for line in &mut lines {
        if let Some(last) = line.last_mut() {
            last.text.truncate(last.text.trim_end().len());
        }
    }
    lines.retain(|line| !line.is_empty());
    lines
}

/// The words of a text, each with the spaces behind it; a quantity is one word, with its fraction, its unit and what
/// it may be off by.
fn words(text: &str) -> Vec<&str> {
    let mut words: Vec<(usize, usize)> = Vec::new();
    let mut from = 0;
    for word in text.split_inclusive(' ') {
        let to = from + word.len();
        match words.last_mut() {
            Some(last) if are_one(&text[last.0..last.1], word, &text[to..]) => last.1 = to,
            _ => words.push((from, to)),
        }
        from = to;
    }
    words.into_iter().map(|(from, to)| &text[from..to]).collect()
}

/// Whether a word goes on with the quantity before it: `3 | ft`, `3 ft | 8 in`, `7 | 1/2 ft`, `10 in | ± 3 in`.
fn are_one(before: &str, word: &str, behind: &str) -> bool {
    let before = before.trim_end();
    let last = before.rsplit(' ').next().unwrap_or(before);
    let bare = word.trim_end().trim_end_matches([',', ';', ')']);
    let next = behind.split(' ').next().unwrap_or(behind);
    let next = next.trim_end_matches([',', ';', ')', '.']);
    let begins_figure = bare.starts_with(|letter: char| letter.is_ascii_digit());
    if ends_in_figure(last) {
        let fraction = begins_figure && bare.contains('/');
        return fraction || snell_units::resolve(bare).is_ok();
    }
    match (last, next) {
        ("ft", "in") | ("lb", "oz") => begins_figure,
        ("±", _) => true,
        _ => bare == "±",
    }
}

fn ends_in_figure(word: &str) -> bool {
    word.ends_with(|letter: char| letter.is_ascii_digit())
}

/// A word in pieces that are no wider than `width`.
fn cut(medium: Medium, role: TextRole, word: &str, width: f64) -> Vec<&str> {
    if medium.width(role, word.trim_end()) <= width {
        return vec![word];
    }
    let mut pieces = Vec::new();
    let (mut from, mut filled) = (0, 0.0);
    for (index, letter) in word.char_indices() {
        let wide = medium.width(role, letter.encode_utf8(&mut [0; 4]));
        if filled > 0.0 && filled + wide > width {
            pieces.push(&word[from..index]);
            (from, filled) = (index, 0.0);
        }
        filled += wide;
    }
    pieces.push(&word[from..]);
    pieces
}

/// How high labels stand on one another.
pub(crate) fn stacked(medium: Medium, labels: &[Label], gap: f64) -> f64 {
    labels.iter().map(|label| label.height(medium) + gap).sum()
}

/// Places labels in a column, in the order of what they are of, each with its pointer from `bend`, the x at
/// which pointers leave what they are of.
pub(crate) fn place(
    medium: Medium,
    column: &Column,
    mut labels: Vec<Label>,
    (top, bottom): (f64, f64),
    bend: f64,
) -> Vec<Item> {
    in_order(&mut labels, |one, other| one.of.y.total_cmp(&other.of.y));
    let wishes: Vec<Wish> = labels
        .iter()
        .map(|label| {
            let height = label.height(medium);
            // The first line stands level with what the label is of.
            let first = label.lines.first().map_or(0.0, |line| line_height(medium, line));
            Wish {
                middle: label.of.y + (height - first) / 2.0,
                height,
            }
        })
        .collect();
    let grid = if medium.is_cells() {
        crate::medium::ROW
    } else {
        0.0
    };
    let tops = spread(&wishes, column.gap, (top, bottom), grid);
    let mut items = Vec::new();
    for (label, top) in labels.into_iter().zip(tops) {
        let mut y = top;
        let first = label.lines.first().map_or(0.0, |line| line_height(medium, line));
        let target = at(column.edge - clearance(medium, column.side), y + first / 2.0);
        items.push(pointer(label.of, bend, target));
        for line in label.lines {
            let height = line_height(medium, &line);
            items.push(
                medium
                    .text(line, (column.edge, y + height / 2.0), column.side)
                    .into(),
            );
            y += height;
        }
    }
    items
}

/// How far before a column's edge its pointers end; in a terminal one blank cell stands between.
fn clearance(medium: Medium, side: Side) -> f64 {
    match (medium, side) {
        (Medium::Page | Medium::Sheet | Medium::Hover, Side::Begins) => 3.0,
        (Medium::Page | Medium::Sheet | Medium::Hover, Side::Ends) => -3.0,
        (Medium::Cells(_), Side::Begins) => 2.0,
        (Medium::Cells(_), Side::Ends) => -1.0,
    }
}

fn pointer(of: Point, bend: f64, target: Point) -> Item {
    Line::even(LineRole::Pointer, vec![of, at(bend, of.y), target], 0.7).into()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_quantity_is_one_word() {
        assert_eq!(words("surgeon at 6 ft 4 in"), ["surgeon ", "at ", "6 ft 4 in"]);
        assert_eq!(words("7 1/2 ft of nylon"), ["7 1/2 ft ", "of ", "nylon"]);
        assert_eq!(words("12 in ± 3 in over"), ["12 in ± 3 in ", "over"]);
        assert_eq!(words("#16, 2 mm tungsten"), ["#16, ", "2 mm ", "tungsten"]);
    }

    #[test]
    fn what_is_left_out_is_no_part_of_a_quantity() {
        let mut line = vec![run(TextRole::Detail, "tungsten, 6 ft 4 in")];
        let width = Medium::Page.width(TextRole::Detail, "tungsten, 6 ft 4 in");
        shorten(Medium::Page, &mut line, width);
        assert_eq!(line, [run(TextRole::Detail, "tungsten…")]);
    }
}
