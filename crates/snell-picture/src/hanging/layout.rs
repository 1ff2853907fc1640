//! The rig laid out to scale: where each part hangs, its marks and its labels.

use super::drawing::{Drawing, FLY_SIGN, thickness};
use super::frame::Frame;
use super::places::{Inset, Places};
use super::subject::{Eyes, FlyKind, Hung, HungFly, Joint, OnLineKind, Piece};
use super::{key, strip, words};
use crate::labels::{Label, joined, place, stacked};
use crate::medium::Medium;
use crate::ruler;
use crate::scene::{Ground, Line, LineRole, Mark, MarkKind, Point, Run, Scene, Stands, TextRole, at};
use snell_rig::rig::FlyAt;

/// How a tag droops on a page, as the cosine and sine of its angle; in a terminal it stands straight out.
const DROOP: (f64, f64) = (0.88, 0.475);

pub(super) fn lay_out(hung: &Hung, medium: Medium) -> Scene {
    let mut drawing = Drawing {
        hung,
        medium,
        frame: Frame::of(medium, Inset::of(hung).is_some(), hung.pieces.len()),
        places: Places::all_at(0, 0.0),
        items: Vec::new(),
    };
    let top = drawing.header();
    drawing.hang(top);
    let low = drawing.parts(top);
    let span = (top, drawing.end());
    let height = key::draw(&mut drawing, span, low);
    Scene {
        title: hung.told_title(),
        about: words::about(hung),
        width: drawing.frame.width,
        height,
        metre: drawing.places.metre,
        ground: Ground::Screen,
        items: drawing.items,
    }
}

impl Drawing<'_> {
    /// Name, title and sums; returns where they end.
    fn header(&mut self) -> f64 {
        let headed = self.medium.is_headed();
        let heading = |text: String| if headed { text } else { String::new() };
        let lines = [
            (TextRole::Title, heading(self.hung.name.clone())),
            (
                TextRole::Figure,
                heading(self.hung.title.clone().unwrap_or_default()),
            ),
            (TextRole::Detail, self.hung.sums.join(" · ")),
            (TextRole::Detail, words::inset(self.hung, self.medium)),
        ];
        let mut y = self.frame.margin;
        for (role, text) in lines.into_iter().filter(|(_, text)| !text.is_empty()) {
            y = self.paragraph(role, text, (self.frame.margin, y));
        }
        y + self.frame.space
    }

    /// Finds the scale that gives every label room, and hangs the pieces below `top`.
    fn hang(&mut self, top: f64) {
        // Heights of labels do not hang on where they are of.
        self.places = Places::all_at(self.hung.pieces.len(), top);
        let (parts, flies) = self.labels();
        let left = self
            .frame
            .flies
            .map_or(0.0, |column| stacked(self.medium, &flies, column.gap));
        let labels = stacked(self.medium, &parts, self.frame.parts.gap).max(left);
        self.places = Places::hung(self.hung, &self.frame, top, labels);
    }

    /// Draws all that hangs, and returns how low it reaches.
    fn parts(&mut self, top: f64) -> f64 {
        let end = self.end();
        let mut low = end;
        if let Some(metre) = self.places.metre {
            let extent = (end, self.places.to_scale_from);
            let ruler = ruler::upright(self.medium, self.hung.system, metre, self.frame.ruler, extent);
            self.items.extend(ruler);
        }
        self.items.extend(strip::draw(self.hung, &self.frame, (top, end)));
        let (parts, flies) = self.labels();
        let tips: Vec<Point> = (0..self.hung.flies.len()).map(|index| self.eye(index)).collect();
        low = tips.iter().map(|tip| tip.y).fold(low, f64::max);
        low += if self.medium.is_cells() {
            self.frame.space
        } else {
            FLY_SIGN * 1.5
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
                ..Mark::plain(kind, at(self.frame.line, self.places.joins[item.above]), size)
            };
            self.items.push(mark.into());
        }
        for (index, tip) in tips.into_iter().enumerate() {
            self.fly(index, tip);
        }
        low
    }

    fn end(&self) -> f64 {
        self.places.joins.last().copied().unwrap_or_default()
    }

    fn piece(&mut self, index: usize) {
        let piece = &self.hung.pieces[index];
        let (from, to) = (self.places.joins[index], self.places.joins[index + 1]);
        // Down to where lengths are to scale, a piece is a stub.
        let cut = self.places.cut(index);
        let x = self.frame.line;
        let line = |role, (from, to): (f64, f64)| Line {
            role,
            points: vec![at(x, from), at(x, to)],
            thick: thickness(piece),
            colours: piece.colours.clone(),
            stands: None,
        };
        if cut > from {
            self.items.push(line(LineRole::Beyond, (from, cut)).into());
            let size = if self.frame.dense { 3.5 } else { 6.0 };
            self.mark(MarkKind::Break, at(x, (from + cut) / 2.0), size);
        }
        if to > cut {
            let role = match piece.ends {
                None => LineRole::Unmeasured,
                Some(_) => LineRole::Piece,
            };
            let whole = piece.metres.filter(|_| cut == from);
            let mut drawn = line(role, (cut, to));
            drawn.stands = whole.map(|metres| Stands {
                name: piece.name.clone(),
                metres,
                told: words::piece(piece),
            });
            self.items.push(drawn.into());
        }
    }

    fn join(&mut self, index: usize) {
        let joint = &self.hung.joins[index];
        let middle = at(self.frame.line, self.places.joins[index + 1]);
        if let (Some(stubs), Some(metre)) = (joint.stubs, self.places.metre) {
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
        } else if joint.is_knot() {
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
        let from = at(self.frame.line, self.places.joins[fly.above]);
        let (Some(tag), Some(metre)) = (fly.tag.filter(|tag| tag.is_finite()), self.places.metre) else {
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
        if let Some(metres) = fly.tag.filter(|_| self.places.metre.is_some()) {
            let from = at(self.frame.line, self.places.joins[fly.above]);
            self.tag(vec![from, eye], metres, &words::fly(fly));
        }
    }

    fn fly(&mut self, index: usize, eye: Point) {
        let kind = match self.hung.flies[index].kind {
            FlyKind::Beaded => MarkKind::BeadedFly,
            FlyKind::Plain => MarkKind::PlainFly,
            FlyKind::Floating => MarkKind::FloatingFly,
        };
        self.mark(kind, eye, FLY_SIGN);
    }

    /// The labels of parts, and those of flies where these have a column.
    fn labels(&self) -> (Vec<Label>, Vec<Label>) {
        let mut parts = Vec::new();
        for (index, piece) in self.hung.pieces.iter().enumerate() {
            let middle = (self.places.joins[index] + self.places.joins[index + 1]) / 2.0;
            parts.push(self.part(middle, self.lines_of(piece)));
            let low = self.places.joins[index + 1];
            let on_line = self.hung.on_line.iter().filter(|item| item.above == index + 1);
            for item in on_line {
                parts.push(self.part(low, words::on_line_label(item, piece)));
            }
            let told = |joint: &&Joint| {
                joint.is_told() && (joint.named || joint.eyes.is_some() || !self.frame.dense)
            };
            if let Some(joint) = self.hung.joins.get(index).filter(told) {
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

    fn lines_of(&self, piece: &Piece) -> Vec<Vec<Run>> {
        let lines = words::piece_label(piece);
        if self.frame.dense {
            vec![joined(lines)]
        } else {
            lines
        }
    }

    fn label_height(&self, fly: &HungFly, index: usize) -> f64 {
        match fly.at {
            FlyAt::Dropper(_) => self.eye(index).y,
            FlyAt::Inline | FlyAt::Point => self.places.joins[fly.above],
        }
    }

    fn part(&self, y: f64, lines: Vec<Vec<Run>>) -> Label {
        let from = at(
            self.frame.line + if self.medium.is_cells() { 1.0 } else { 6.0 },
            y,
        );
        Label::new(self.medium, &self.frame.parts, from, lines)
    }
}
