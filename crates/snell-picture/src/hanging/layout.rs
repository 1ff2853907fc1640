//! The rig laid out to scale on a page: where each part hangs, its marks and its labels.

use super::drawing::{Drawing, FLY_SIGN, thickness};
use super::frame::{Frame, Paper};
use super::places::{Inset, Places};
use super::subject::{Eyes, FlyKind, Hung, HungFly, Joint, OnLine, OnLineKind, Piece};
use super::{bar, strip, words};
use crate::labels::{Label, joined, place, stacked};
use crate::ruler;
use crate::scene::{Ground, Line, LineRole, Mark, MarkKind, Point, Run, Scene, Stands, TextRole, at};
use snell_rig::rig::FlyAt;

/// How a tag droops, as the cosine and sine of its angle.
const DROOP: (f64, f64) = (0.88, 0.475);

/// A rig that is being laid out to scale.
struct ToScale<'h> {
    drawing: Drawing<'h>,
    frame: Frame,
    places: Places,
}

pub(super) fn lay_out(hung: &Hung, paper: Paper) -> Scene {
    let frame = Frame::of(paper, Inset::of(hung).is_some(), hung.pieces.len());
    let mut rig = ToScale {
        drawing: Drawing {
            hung,
            medium: paper.medium(),
            width: frame.width,
            margin: frame.margin,
            space: frame.space,
            items: Vec::new(),
        },
        frame,
        places: Places::all_at(0, 0.0),
    };
    let top = rig.drawing.header(words::inset(hung, rig.frame.strip.is_some()));
    rig.hang(top);
    let low = rig.parts(top);
    let height = rig.footer((top, rig.end()), low);
    Scene {
        title: hung.told_title(),
        about: words::about(hung),
        width: rig.frame.width,
        height,
        metre: rig.places.metre,
        ground: Ground::Screen,
        items: rig.drawing.items,
    }
}

impl ToScale<'_> {
    /// Scales, what is to scale, and the key; returns the height of the picture.
    fn footer(&mut self, span: (f64, f64), low: f64) -> f64 {
        let drawing = &mut self.drawing;
        let mut y = low + self.frame.space;
        if let Some(metre) = self.places.metre {
            y = bar::draw(drawing, (metre, words::SCALE, ""), y);
        }
        if let Some(inset) = Inset::of(drawing.hung).filter(|_| self.frame.strip.is_some()) {
            let metre = strip::metre(&inset, span);
            y = bar::draw(
                drawing,
                (metre, words::SCALE_OF_WHOLE, "the whole, on the left"),
                y,
            );
        }
        let note = words::note(drawing.hung);
        y = drawing.paragraph(TextRole::Tick, note, (drawing.margin, y));
        drawing.key(y) + self.frame.margin
    }

    /// Finds the scale that gives every label room, and hangs the pieces below `top`.
    fn hang(&mut self, top: f64) {
        // Heights of labels do not hang on where they are of.
        self.places = Places::all_at(self.drawing.hung.pieces.len(), top);
        let (parts, flies) = self.labels();
        let left = self
            .frame
            .flies
            .map_or(0.0, |column| stacked(self.drawing.medium, &flies, column.gap));
        let labels = stacked(self.drawing.medium, &parts, self.frame.parts.gap).max(left);
        self.places = Places::hung(self.drawing.hung, &self.frame, top, labels);
    }

    /// Draws all that hangs, and returns how low it reaches.
    fn parts(&mut self, top: f64) -> f64 {
        let end = self.end();
        let mut low = end;
        if let Some(metre) = self.places.metre {
            let extent = (end, self.places.to_scale_from);
            let ruler = ruler::upright(
                self.drawing.medium,
                self.drawing.hung.system,
                metre,
                self.frame.ruler,
                extent,
            );
            self.drawing.items.extend(ruler);
        }
        self.drawing
            .items
            .extend(strip::draw(self.drawing.hung, &self.frame, (top, end)));
        let (parts, flies) = self.labels();
        let tips: Vec<Point> = (0..self.drawing.hung.flies.len())
            .map(|index| self.eye(index))
            .collect();
        low = tips.iter().map(|tip| tip.y).fold(low, f64::max);
        low += FLY_SIGN * 1.5;
        // The last labels begin level with what they are of and may reach below it.
        for label in parts.iter().chain(&flies) {
            low = low.max(label.of.y + label.height(self.drawing.medium));
        }
        let right = stacked(self.drawing.medium, &parts, self.frame.parts.gap);
        let left = self
            .frame
            .flies
            .map_or(0.0, |column| stacked(self.drawing.medium, &flies, column.gap));
        low = low.max(top + right.max(left));
        if let Some(column) = self.frame.flies {
            let items = place(
                self.drawing.medium,
                &column,
                flies,
                (top, low),
                self.frame.flies_bend,
            );
            self.drawing.items.extend(items);
        }
        let items = place(
            self.drawing.medium,
            &self.frame.parts,
            parts,
            (top, low),
            self.frame.bend,
        );
        self.drawing.items.extend(items);
        for index in 0..self.drawing.hung.pieces.len() {
            self.piece(index);
        }
        for (index, tip) in tips.iter().enumerate() {
            self.fly_tag(index, *tip);
        }
        for index in 0..self.drawing.hung.joins.len() {
            self.join(index);
        }
        for item in &self.drawing.hung.on_line {
            let kind = match item.kind {
                OnLineKind::Shot => MarkKind::Shot,
                OnLineKind::Float => MarkKind::Float,
            };
            let size = if kind == MarkKind::Shot { 4.0 } else { 8.0 };
            let mark = Mark {
                colour: item.colour,
                ..Mark::plain(kind, at(self.frame.line, self.height_of(item)), size)
            };
            self.drawing.items.push(mark.into());
        }
        for (index, tip) in tips.into_iter().enumerate() {
            self.fly(index, tip);
        }
        low
    }

    /// How low a shot or a float is drawn.
    fn height_of(&self, item: &OnLine) -> f64 {
        let low = self.places.joins[item.above];
        let high = item
            .above
            .checked_sub(1)
            .map_or(low, |piece| self.places.joins[piece]);
        high + (low - high) * item.share
    }

    fn end(&self) -> f64 {
        self.places.joins.last().copied().unwrap_or_default()
    }

    fn piece(&mut self, index: usize) {
        let piece = &self.drawing.hung.pieces[index];
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
            self.drawing
                .items
                .push(line(LineRole::Beyond, (from, cut)).into());
            let size = if self.frame.dense { 3.5 } else { 6.0 };
            self.drawing
                .mark(MarkKind::Break, at(x, (from + cut) / 2.0), size);
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
            self.drawing.items.push(drawn.into());
        }
    }

    fn join(&mut self, index: usize) {
        let joint = &self.drawing.hung.joins[index];
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
            self.drawing.mark(kind, middle, 4.5);
        } else if joint.is_knot() {
            let kind = if joint.named {
                MarkKind::Knot
            } else {
                MarkKind::UsualKnot
            };
            let thick = thickness(&self.drawing.hung.pieces[index]).1;
            self.drawing.mark(kind, middle, (thick / 2.0 + 2.5).max(4.5));
        }
    }

    fn tag(&mut self, points: Vec<Point>, metres: f64, told: &str) {
        self.drawing.items.push(
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
        let fly = &self.drawing.hung.flies[index];
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
        let (across, down) = DROOP;
        if length * across <= self.frame.tag_room {
            return at(from.x - length * across, from.y + length * down);
        }
        let room = self.frame.tag_room;
        at(from.x - room, from.y + (length * length - room * room).sqrt())
    }

    fn fly_tag(&mut self, index: usize, eye: Point) {
        let fly = &self.drawing.hung.flies[index];
        if let Some(metres) = fly.tag.filter(|_| self.places.metre.is_some()) {
            let from = at(self.frame.line, self.places.joins[fly.above]);
            self.tag(vec![from, eye], metres, &words::fly(fly));
        }
    }

    fn fly(&mut self, index: usize, eye: Point) {
        let kind = match self.drawing.hung.flies[index].kind {
            FlyKind::Beaded => MarkKind::BeadedFly,
            FlyKind::Plain => MarkKind::PlainFly,
            FlyKind::Floating => MarkKind::FloatingFly,
        };
        self.drawing.mark(kind, eye, FLY_SIGN);
    }

    /// The labels of parts, and those of flies where these have a column.
    fn labels(&self) -> (Vec<Label>, Vec<Label>) {
        let mut parts = Vec::new();
        for (index, piece) in self.drawing.hung.pieces.iter().enumerate() {
            let middle = (self.places.joins[index] + self.places.joins[index + 1]) / 2.0;
            parts.push(self.part(middle, self.lines_of(piece)));
            let low = self.places.joins[index + 1];
            let on_line = self
                .drawing
                .hung
                .on_line
                .iter()
                .filter(|item| item.above == index + 1);
            for item in on_line {
                parts.push(self.part(self.height_of(item), words::on_line_label(item, piece)));
            }
            let told = |joint: &&Joint| {
                joint.is_told() && (joint.named || joint.eyes.is_some() || !self.frame.dense)
            };
            if let Some(joint) = self.drawing.hung.joins.get(index).filter(told) {
                parts.push(self.part(low, words::joint_label(joint, piece)));
            }
        }
        let mut flies = Vec::new();
        for (index, fly) in self.drawing.hung.flies.iter().enumerate() {
            let lines = words::fly_label(fly);
            match &self.frame.flies {
                Some(column) => {
                    let eye = self.eye(index);
                    flies.push(Label::new(
                        self.drawing.medium,
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
        let from = at(self.frame.line + 6.0, y);
        Label::new(self.drawing.medium, &self.frame.parts, from, lines)
    }
}
