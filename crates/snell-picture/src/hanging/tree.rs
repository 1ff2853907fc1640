//! The rig as a terminal shows it: a column from the rod down to the point, a
//! row or more for each part, its place on the left and its words on the right, and
//! the flies on tags as branches.

use super::drawing::{Drawing, thickness};
use super::subject::{Eyes, FlyKind, Hung, HungFly, Joint, OnLine, OnLineKind, Piece};
use super::words;
use crate::labels::{joined, run, wrap};
use crate::medium::{Medium, ROW};
use crate::scene::{Ground, Line, LineRole, Mark, MarkKind, Run, Scene, Side, TextRole, at};
use snell_rig::rig::FlyAt;

/// Lines longer than this are hard to read back from, and narrower ones hold no words.
const WIDEST: usize = 100;
const NARROWEST: usize = 30;
/// The rows that the pieces of a rig share by their lengths, beyond one for each.
const ROWS: f64 = 14.0;
/// From the column of the line to the words of what hangs on it, and to those of a fly on a tag.
const WORDS: f64 = 3.0;
const BRANCH: f64 = 3.0;

/// A rig that is being written as a column.
struct Tree<'h> {
    drawing: Drawing<'h>,
    /// The column of the line.
    line: f64,
    /// The next row.
    row: usize,
}

pub(super) fn lay_out(hung: &Hung, columns: usize) -> Scene {
    let width = columns.clamp(NARROWEST, WIDEST) as f64;
    let medium = Medium::Cells(columns);
    let places = hung.pieces.iter().filter_map(|piece| piece.to_point.as_deref());
    let side = places
        .map(|place| medium.width(TextRole::Tick, place))
        .fold(0.0, f64::max);
    let mut tree = Tree {
        drawing: Drawing {
            hung,
            medium,
            width,
            margin: 0.0,
            space: ROW,
            items: Vec::new(),
        },
        line: side + 2.0,
        row: 0,
    };
    let top = tree.drawing.header(String::new());
    tree.row = (top / ROW).ceil() as usize;
    tree.parts();
    let low = (tree.row + 1) as f64 * ROW;
    let drawing = &mut tree.drawing;
    let y = drawing.paragraph(TextRole::Tick, words::ROWS.to_owned(), (0.0, low));
    let height = drawing.key(y);
    Scene {
        title: hung.told_title(),
        about: words::about(hung),
        width,
        height,
        metre: None,
        ground: Ground::Screen,
        items: tree.drawing.items,
    }
}

impl Tree<'_> {
    fn parts(&mut self) {
        let hung = self.drawing.hung;
        let whole = hung.metres();
        for (index, piece) in hung.pieces.iter().enumerate() {
            self.piece(piece, whole);
            let place = piece.to_point.as_deref().unwrap_or_default();
            for item in hung.on_line.iter().filter(|item| item.above == index + 1) {
                self.on_line(item, item.to_point.as_deref().unwrap_or(place));
            }
            let here = || hung.flies.iter().filter(|fly| fly.above == index + 1);
            if let Some(joint) = hung.joins.get(index).filter(|joint| joint.is_told()) {
                self.joint(joint, place);
            }
            for fly in here() {
                self.fly(fly, place);
            }
        }
    }

    /// A piece, as many rows tall as its words, and taller by its share of the whole.
    fn piece(&mut self, piece: &Piece, whole: f64) {
        let share = piece
            .metres
            .filter(|_| whole > 0.0)
            .map_or(0.0, |metres| metres / whole);
        let first = self.row;
        self.words(words::piece_label(piece), self.line + WORDS);
        let rows = 1 + (share * ROWS).round() as usize;
        self.row = self.row.max(first + rows);
        let role = match (piece.metres, piece.ends) {
            (None, _) => LineRole::Beyond,
            (_, None) => LineRole::Unmeasured,
            _ => LineRole::Piece,
        };
        let line = Line {
            role,
            points: vec![at(self.line, middle(first)), at(self.line, middle(self.row - 1))],
            thick: thickness(piece),
            colours: piece.colours.clone(),
            stands: None,
        };
        self.drawing.items.push(line.into());
    }

    fn joint(&mut self, joint: &Joint, place: &str) {
        let kind = match &joint.eyes {
            Some(Eyes::Ring(_)) => MarkKind::Ring,
            Some(Eyes::Swivel(_)) => MarkKind::Swivel,
            None if joint.named => MarkKind::Knot,
            None => MarkKind::UsualKnot,
        };
        self.on(Mark::plain(kind, at(self.line, middle(self.row)), 1.0), place);
        let words = vec![run(TextRole::Detail, words::joint(joint))];
        let first = self.row;
        self.words(vec![words], self.line + WORDS);
        self.goes_on(first + 1);
    }

    fn on_line(&mut self, item: &OnLine, place: &str) {
        let kind = match item.kind {
            OnLineKind::Shot => MarkKind::Shot,
            OnLineKind::Float => MarkKind::Float,
        };
        let mark = Mark {
            colour: item.colour,
            ..Mark::plain(kind, at(self.line, middle(self.row)), 1.0)
        };
        self.on(mark, place);
        let words = vec![run(TextRole::Detail, words::on_line(item))];
        let first = self.row;
        self.words(vec![words], self.line + WORDS);
        self.goes_on(first + 1);
    }

    /// A fly: on the line at its place, or at the end of a branch.
    fn fly(&mut self, fly: &HungFly, place: &str) {
        let kind = match fly.kind {
            FlyKind::Beaded => MarkKind::BeadedFly,
            FlyKind::Plain => MarkKind::PlainFly,
            FlyKind::Floating => MarkKind::FloatingFly,
        };
        let (first, y) = (self.row, middle(self.row));
        match fly.at {
            FlyAt::Dropper(_) => {
                let x = self.line + BRANCH;
                let tag = vec![at(self.line + 1.0, y), at(x, y)];
                self.drawing
                    .items
                    .push(Line::even(LineRole::Tag, tag, 1.0).into());
                self.drawing.mark(kind, at(x, y), 1.0);
                self.words(words::fly_label(fly), x + WORDS);
                self.goes_on(first);
            }
            FlyAt::Inline => {
                self.on(Mark::plain(kind, at(self.line, y), 1.0), place);
                self.words(words::fly_label(fly), self.line + WORDS);
                self.goes_on(first + 1);
            }
            FlyAt::Point => {
                self.drawing.mark(kind, at(self.line, y), 1.0);
                self.words(words::fly_label(fly), self.line + WORDS);
            }
        }
    }

    /// The line from a row down to the last one that words have filled.
    fn goes_on(&mut self, from: usize) {
        if from < self.row {
            let points = vec![at(self.line, middle(from)), at(self.line, middle(self.row - 1))];
            self.drawing
                .items
                .push(Line::even(LineRole::Piece, points, 1.0).into());
        }
    }

    /// A sign on the line, with its place before it.
    fn on(&mut self, mark: Mark, place: &str) {
        let side = (self.line - 2.0, mark.at.y);
        let text = self
            .drawing
            .medium
            .text(vec![run(TextRole::Tick, place)], side, Side::Ends);
        self.drawing.items.push(text.into());
        self.drawing.items.push(mark.into());
    }

    /// Words from a column to the right, as many rows as they need.
    fn words(&mut self, lines: Vec<Vec<Run>>, x: f64) {
        let medium = self.drawing.medium;
        for line in wrap(medium, joined(lines), self.drawing.width - x) {
            let text = medium.text(line, (x, middle(self.row)), Side::Begins);
            self.drawing.items.push(text.into());
            self.row += 1;
        }
    }
}

/// The height of a row's middle.
fn middle(row: usize) -> f64 {
    (row as f64 + 0.5) * ROW
}
