//! The marks of a picture in the water while it is laid out.

use crate::drifting::drifted::{Drifted, Over};
use crate::drifting::frame::{Frame, Scale};
use crate::key;
use crate::labels::{paragraph, run};
use crate::medium::Medium;
use crate::ruler;
use crate::scene::{Item, Line, LineRole, Point, Side, TextRole, at};

/// What a picture is being drawn on.
pub(super) struct Sheet<'d> {
    pub drifted: &'d Drifted,
    pub medium: Medium,
    pub frame: Frame,
    pub scale: Scale,
    pub items: Vec<Item>,
}

impl Sheet<'_> {
    pub fn line(&mut self, role: LineRole, points: Vec<Point>, thick: f64) {
        self.items.push(Line::even(role, points, thick).into());
    }

    /// A line of text that is held at its left or right end.
    pub fn text(&mut self, role: TextRole, text: impl Into<String>, place: (f64, f64), side: Side) {
        let text = self.medium.text(vec![run(role, text)], place, side);
        self.items.push(text.into());
    }

    /// How a line is drawn: among letters, slants and uprights would not make one.
    pub fn role(&self, on_page: LineRole) -> LineRole {
        if self.medium.is_cells() {
            LineRole::Path
        } else {
            on_page
        }
    }

    /// Text over the width that is left of `x`; returns where it ends.
    pub fn paragraph(&mut self, role: TextRole, text: &str, place: (f64, f64)) -> f64 {
        let room = self.frame.width - self.frame.margin - place.0;
        paragraph(&mut self.items, self.medium, run(role, text), room, place)
    }

    /// Name, title and what is told; returns where they end.
    pub(super) fn header(&mut self) -> f64 {
        let drifted = self.drifted;
        let mut y = self.frame.margin;
        if self.medium.is_headed() {
            y = self.paragraph(TextRole::Title, &drifted.name, (self.frame.margin, y));
            if let Some(title) = &drifted.title {
                y = self.paragraph(TextRole::Figure, title, (self.frame.margin, y));
            }
        }
        for told in &drifted.told {
            y = self.paragraph(TextRole::Detail, told, (self.frame.margin, y));
        }
        y + self.frame.space
    }

    /// The scales, and what is not to scale; returns the height of it all.
    pub(super) fn footer(&mut self, mut y: f64) -> f64 {
        let stretch = self.scale.stretch();
        let told = if stretch < 1.001 {
            "under water, along and down alike".to_owned()
        } else {
            format!("along the stream; depths are drawn {stretch:.1} times as long")
        };
        y = self.bar("scale", self.scale.under.0, &told, y);
        let riding = self.drifted.riding();
        if let Some(Over::Led(led)) = riding.map(|riding| &riding.over) {
            let told = match &led.air {
                Ok(_) => "over the water, turned: the rod stands across",
                Err(_) => "over the water, drawn straight up",
            };
            if !led.pieces.is_empty() {
                y = self.bar("scale over the water", self.scale.over, told, y);
            }
        }
        let note = self.note();
        y = self.paragraph(TextRole::Tick, &note, (self.frame.margin, y));
        let edges = (self.frame.margin, self.frame.width - self.frame.margin);
        key::draw(&mut self.items, self.medium, edges, y) + self.frame.margin
    }

    /// What is not to scale, and what bars, hatching and dashes are.
    fn note(&self) -> String {
        let mut said = vec!["How thick line is drawn, and signs, are not to scale."];
        said.push("Upright bars: between which depths a fly may ride.");
        if self.drifted.water.ends.is_some() {
            said.push(if self.medium.is_cells() {
                "Between the dashed line and the bed it may be water or ground."
            } else {
                "Hatched: it may be water or ground."
            });
        }
        if self.frame.strip.1 > self.frame.strip.0
            && self.drifted.riding().is_some()
            && !self.medium.is_cells()
        {
            said.push("Dashed upright, across the speeds: the rig's own speed.");
        }
        said.join(" ")
    }

    /// A bar with its length and what it holds for; returns where they end.
    fn bar(&mut self, name: &str, metre: f64, told: &str, y: f64) -> f64 {
        let cells = self.medium.is_cells();
        let height = self.medium.height(TextRole::Detail);
        let least = if cells { 5.0 } else { 40.0 };
        // In a puddle even the shortest bar is broader than the picture, and the ruler must do.
        if ruler::step(self.drifted.system, metre, least) * metre > self.frame.width / 2.0 {
            return y;
        }
        let from = at(self.frame.margin, y + height / 2.0);
        let drawn_in = (self.medium, self.drifted.system);
        let (bar, end) = ruler::bar(drawn_in, name, metre, from, least);
        self.items.extend(bar);
        let gap = if cells { 2.0 } else { 6.0 };
        self.paragraph(TextRole::Tick, told, (end + gap, y))
            .max(y + height)
    }
}
