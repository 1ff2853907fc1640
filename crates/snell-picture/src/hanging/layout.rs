//! The rig laid out to scale: where each part hangs, its marks and its labels.

use super::frame::Frame;
use super::subject::{Eyes, FlyKind, Hung, HungFly, Joint, OnLineKind, Piece};
use super::words;
use crate::labels::{Label, paragraph, place, run, stacked};
use crate::medium::Medium;
use crate::ruler;
use crate::scene::{Ground, Item, Line, LineRole, Mark, MarkKind, Point, Scene, Stands, TextRole, at};
use snell_rig::rig::FlyAt;

/// How a tag droops on a page, as the cosine and sine of its angle; in a terminal it stands straight out.
const DROOP: (f64, f64) = (0.88, 0.475);

/// How large a fly's sign is drawn.
const FLY: f64 = 13.0;

pub(super) fn lay_out(hung: &Hung, medium: Medium) -> Scene {
    let mut sheet = Sheet {
        hung,
        medium,
        frame: Frame::of(medium),
        metre: None,
        joins: Vec::new(),
        items: Vec::new(),
    };
    let top = sheet.header();
    sheet.hang(top);
    let low = sheet.parts(top);
    let height = sheet.footer(low);
    Scene {
        title: hung.told_title(),
        about: words::about(hung),
        width: sheet.frame.width,
        height,
        metre: sheet.metre,
        ground: Ground::Screen,
        items: sheet.items,
    }
}

struct Sheet<'h> {
    hung: &'h Hung,
    medium: Medium,
    frame: Frame,
    /// How long a metre is drawn.
    metre: Option<f64>,
    /// Where pieces begin and end: the upper end of the first, then each lower end.
    joins: Vec<f64>,
    items: Vec<Item>,
}

impl Sheet<'_> {
    /// Name, title and sums; returns where they end.
    fn header(&mut self) -> f64 {
        let lines = [
            (TextRole::Title, self.hung.name.clone()),
            (TextRole::Figure, self.hung.title.clone().unwrap_or_default()),
            (TextRole::Detail, self.hung.sums.join(" · ")),
        ];
        let mut y = self.frame.margin;
        for (role, text) in lines.into_iter().filter(|(_, text)| !text.is_empty()) {
            y = self.paragraph(role, text, (self.frame.margin, y));
        }
        y + self.frame.space
    }

    /// Text over the whole width; returns where it ends.
    fn paragraph(&mut self, role: TextRole, text: String, place: (f64, f64)) -> f64 {
        let room = self.frame.width - self.frame.margin - place.0;
        paragraph(&mut self.items, self.medium, run(role, text), room, place)
    }

    /// Finds the scale that gives every label room, and hangs the pieces below `top`.
    fn hang(&mut self, top: f64) {
        let pieces = &self.hung.pieces;
        let whole: f64 = pieces.iter().filter_map(|piece| piece.metres).sum();
        let stubs = pieces.iter().filter(|piece| piece.metres.is_none()).count() as f64 * self.frame.stub;
        // Heights of labels do not hang on where they are of.
        self.joins = vec![top; pieces.len() + 1];
        let (parts, flies) = self.labels();
        let left = self
            .frame
            .flies
            .map_or(0.0, |column| stacked(self.medium, &flies, column.gap));
        let labels = stacked(self.medium, &parts, self.frame.parts.gap).max(left);
        let (least, most, each) = self.frame.tall;
        let wished = (whole * each).clamp(least, most);
        let span = wished.max(labels * self.frame.slack - stubs);
        self.metre = (whole > 0.0)
            .then(|| span / whole)
            .filter(|metre| metre.is_normal());
        let mut y = top;
        for (index, piece) in pieces.iter().enumerate() {
            y += match (piece.metres, self.metre) {
                (Some(metres), Some(metre)) => metres * metre,
                _ => self.frame.stub,
            };
            self.joins[index + 1] = y;
        }
    }

    /// Draws all that hangs, and returns how low it reaches.
    fn parts(&mut self, top: f64) -> f64 {
        let end = self.end();
        let mut low = end;
        if let Some(metre) = self.metre {
            let first = self
                .hung
                .pieces
                .iter()
                .take_while(|piece| piece.metres.is_none())
                .count();
            let extent = (end, self.joins[first]);
            let ruler = ruler::upright(self.medium, self.hung.system, metre, self.frame.ruler, extent);
            self.items.extend(ruler);
        }
        let (parts, flies) = self.labels();
        let tips: Vec<Point> = (0..self.hung.flies.len()).map(|index| self.eye(index)).collect();
        low = tips.iter().map(|tip| tip.y).fold(low, f64::max);
        low += if self.medium.is_cells() {
            self.frame.space
        } else {
            FLY * 1.5
        };
        // The last labels begin level with what they are of and may reach below it.
        for label in parts.iter().chain(&flies) {
            low = low.max(label.of.y + label.height(self.medium));
        }
        let right = stacked(self.medium, &parts, self.frame.parts.gap);
        let left = self
            .frame
            .flies
            .map_or(0.0, |column| stacked(self.medium, &flies, column.gap));
        low = low.max(top + right.max(left));
        if let Some(column) = self.frame.flies {
            let items = place(self.medium, &column, flies, (top, low), self.frame.flies_bend);
            self.items.extend(items);
        }
        let items = place(self.medium, &self.frame.parts, parts, (top, low), self.frame.bend);
        self.items.extend(items);
        for index in 0..self.hung.pieces.len() {
            self.piece(index);
        }
        for (index, tip) in tips.iter().enumerate() {
            self.fly_tag(index, *tip);
        }
        for index in 0..self.hung.joins.len() {
            self.join(index);
        }
        for item in &self.hung.on_line {
            let kind = match item.kind {
                OnLineKind::Shot => MarkKind::Shot,
                OnLineKind::Float => MarkKind::Float,
            };
            let size = if kind == MarkKind::Shot { 4.0 } else { 8.0 };
            let mark = Mark {
                colour: item.colour,
                ..Mark::plain(kind, at(self.frame.line, self.joins[item.above]), size)
            };
            self.items.push(mark.into());
        }
        for (index, tip) in tips.into_iter().enumerate() {
            self.fly(index, tip);
        }
        low
    }

    fn end(&self) -> f64 {
        self.joins.last().copied().unwrap_or_default()
    }

    fn piece(&mut self, index: usize) {
        let piece = &self.hung.pieces[index];
        let (from, to) = (self.joins[index], self.joins[index + 1]);
        let x = self.frame.line;
        let to_scale = piece.metres.filter(|_| self.metre.is_some());
        let role = match (to_scale, piece.ends) {
            (None, _) => LineRole::Beyond,
            (_, None) => LineRole::Unmeasured,
            _ => LineRole::Piece,
        };
        self.items.push(
            Line {
                role,
                points: vec![at(x, from), at(x, to)],
                thick: thickness(piece),
                colours: piece.colours.clone(),
                stands: to_scale.map(|metres| Stands {
                    name: piece.name.clone(),
                    metres,
                    told: words::piece(piece),
                }),
            }
            .into(),
        );
        if role == LineRole::Beyond {
            self.mark(MarkKind::Break, at(x, (from + to) / 2.0), 6.0);
        }
    }

    fn join(&mut self, index: usize) {
        let joint = &self.hung.joins[index];
        let middle = at(self.frame.line, self.joins[index + 1]);
        if let (Some(stubs), Some(metre)) = (joint.stubs, self.metre) {
            let reach = stubs * metre * std::f64::consts::FRAC_1_SQRT_2;
            for way in [-1.0, 1.0] {
                let to = at(middle.x + way * reach, middle.y - way * reach);
                self.tag(vec![middle, to], stubs, "a cut end that is left");
            }
        }
        if let Some(eyes) = &joint.eyes {
            let kind = match eyes {
                Eyes::Ring(_) => MarkKind::Ring,
                Eyes::Swivel(_) => MarkKind::Swivel,
            };
            self.mark(kind, middle, 4.5);
        } else if !joint.through && !joint.name.is_empty() {
            let kind = if joint.named {
                MarkKind::Knot
            } else {
                MarkKind::UsualKnot
            };
            let thick = thickness(&self.hung.pieces[index]).1;
            self.mark(kind, middle, (thick / 2.0 + 2.5).max(4.5));
        }
    }

    fn tag(&mut self, points: Vec<Point>, metres: f64, told: &str) {
        self.items.push(
            Line {
                role: LineRole::Tag,
                points,
                thick: (1.6, 1.6),
                colours: Vec::new(),
                stands: Some(Stands {
                    name: "tag".to_owned(),
                    metres,
                    told: told.to_owned(),
                }),
            }
            .into(),
        );
    }

    /// Where a fly's eye is.
    fn eye(&self, index: usize) -> Point {
        let fly = &self.hung.flies[index];
        let from = at(self.frame.line, self.joins[fly.above]);
        let (Some(tag), Some(metre)) = (fly.tag.filter(|tag| tag.is_finite()), self.metre) else {
            let stub = if matches!(fly.at, FlyAt::Dropper(_)) {
                self.frame.tag_room / 2.0
            } else {
                0.0
            };
            return at(from.x - stub, from.y);
        };
        let length = tag * metre;
        let (across, down) = if self.medium.is_cells() { (1.0, 0.0) } else { DROOP };
        if length * across <= self.frame.tag_room {
            return at(from.x - length * across, from.y + length * down);
        }
        let room = self.frame.tag_room;
        at(from.x - room, from.y + (length * length - room * room).sqrt())
    }

    fn fly_tag(&mut self, index: usize, eye: Point) {
        let fly = &self.hung.flies[index];
        if let Some(metres) = fly.tag.filter(|_| self.metre.is_some()) {
            let from = at(self.frame.line, self.joins[fly.above]);
            self.tag(vec![from, eye], metres, &words::fly(fly));
        }
    }

    fn fly(&mut self, index: usize, eye: Point) {
        let kind = match self.hung.flies[index].kind {
            FlyKind::Beaded => MarkKind::BeadedFly,
            FlyKind::Plain => MarkKind::PlainFly,
            FlyKind::Floating => MarkKind::FloatingFly,
        };
        self.mark(kind, eye, FLY);
    }

    fn mark(&mut self, kind: MarkKind, at: Point, size: f64) {
        self.items.push(Mark::plain(kind, at, size).into());
    }

    /// The labels of parts, and those of flies where these have a column.
    fn labels(&self) -> (Vec<Label>, Vec<Label>) {
        let mut parts = Vec::new();
        for (index, piece) in self.hung.pieces.iter().enumerate() {
            let middle = (self.joins[index] + self.joins[index + 1]) / 2.0;
            parts.push(self.part(middle, words::piece_label(piece)));
            let low = self.joins[index + 1];
            let on_line = self.hung.on_line.iter().filter(|item| item.above == index + 1);
            for item in on_line {
                parts.push(self.part(low, words::on_line_label(item, piece)));
            }
            if let Some(joint) = self.hung.joins.get(index).filter(|joint| is_told(joint)) {
                parts.push(self.part(low, words::joint_label(joint, piece)));
            }
        }
        let mut flies = Vec::new();
        for (index, fly) in self.hung.flies.iter().enumerate() {
            let lines = words::fly_label(fly);
            match &self.frame.flies {
                Some(column) => {
                    let eye = self.eye(index);
                    flies.push(Label::new(
                        self.medium,
                        column,
                        at(eye.x - self.frame.clear, eye.y),
                        lines,
                    ));
                }
                None => parts.push(self.part(self.label_height(fly, index), lines)),
            }
        }
        (parts, flies)
    }

    fn label_height(&self, fly: &HungFly, index: usize) -> f64 {
        match fly.at {
            FlyAt::Dropper(_) => self.eye(index).y,
            FlyAt::Inline | FlyAt::Point => self.joins[fly.above],
        }
    }

    fn part(&self, y: f64, lines: Vec<Vec<crate::scene::Run>>) -> Label {
        let from = at(
            self.frame.line + if self.medium.is_cells() { 1.0 } else { 6.0 },
            y,
        );
        Label::new(self.medium, &self.frame.parts, from, lines)
    }

    fn note(&self) -> &'static str {
        if self.hung.pieces.iter().any(|piece| piece.colours.len() > 1) {
            words::NOTE_OF_COLOURS
        } else {
            words::NOTE
        }
    }

    /// The scale and what signs mean; returns the height of it all.
    fn footer(&mut self, low: f64) -> f64 {
        let mut y = low + self.frame.space;
        let left = self.frame.margin;
        if let Some(metre) = self.metre {
            let height = self.medium.height(TextRole::Detail);
            let least = if self.medium.is_cells() { 6.0 } else { 60.0 };
            let bar = ruler::bar(
                self.medium,
                self.hung.system,
                metre,
                at(left, y + height / 2.0),
                least,
            );
            self.items.extend(bar);
            y += height + self.frame.space / 4.0 * if self.medium.is_cells() { 0.0 } else { 1.0 };
        }
        y = self.paragraph(TextRole::Tick, self.note().to_owned(), (left, y));
        if self
            .hung
            .joins
            .iter()
            .any(|joint| is_told(joint) && !joint.named && joint.eyes.is_none())
        {
            let height = self.medium.height(TextRole::Tick);
            let indent = if self.medium.is_cells() { 2.0 } else { 12.0 };
            let sign = if self.medium.is_cells() { 0.0 } else { 4.0 };
            self.mark(MarkKind::UsualKnot, at(left + sign, y + height / 2.0), 3.5);
            y = self.paragraph(TextRole::Tick, words::USUAL.to_owned(), (left + indent, y));
        }
        y + self.frame.margin
    }
}

/// Whether a join has a label.
fn is_told(joint: &Joint) -> bool {
    joint.eyes.is_some() || !joint.name.is_empty()
}

/// Hair would not be seen: each tenth of a millimetre is drawn a little thicker than the last.
fn thickness(piece: &Piece) -> (f64, f64) {
    let drawn = |metres: f64| (1.2 + 9000.0 * metres).clamp(1.2, 9.0);
    match piece.ends {
        Some((upper, lower)) => (drawn(upper), drawn(lower)),
        None if piece.metres.is_none() => (6.0, 6.0),
        None => (2.0, 2.0),
    }
}
