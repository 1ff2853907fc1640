//! What is drawn of a hanging rig while it is laid out, and what each of its
//! pictures has: a heading, and how thick line is.

use super::subject::{Hung, Piece};
use super::words;
use crate::key;
use crate::labels::{paragraph, run};
use crate::medium::Medium;
use crate::scene::{Item, Mark, MarkKind, Point, TextRole};

/// How large a fly's sign is drawn.
pub(super) const FLY_SIGN: f64 = 13.0;

/// A hanging rig that is being drawn.
pub(super) struct Drawing<'h> {
    pub hung: &'h Hung,
    pub medium: Medium,
    pub width: f64,
    pub margin: f64,
    /// Between blocks.
    pub space: f64,
    pub items: Vec<Item>,
}

impl Drawing<'_> {
    /// Name, title, sums, and what is told of lengths; returns where they end.
    pub fn header(&mut self, lengths: String) -> f64 {
        let headed = self.medium.is_headed();
        let heading = |text: String| if headed { text } else { String::new() };
        let lines = [
            (TextRole::Title, heading(self.hung.name.clone())),
            (
                TextRole::Figure,
                heading(self.hung.title.clone().unwrap_or_default()),
            ),
            (TextRole::Detail, words::sums(self.hung)),
            (TextRole::Detail, lengths),
        ];
        let mut y = self.margin;
        for (role, text) in lines.into_iter().filter(|(_, text)| !text.is_empty()) {
            y = self.paragraph(role, text, (self.margin, y));
        }
        y + self.space
    }

    /// Text over the whole width; returns where it ends.
    pub fn paragraph(&mut self, role: TextRole, text: String, place: (f64, f64)) -> f64 {
        let room = self.width - self.margin - place.0;
        paragraph(&mut self.items, self.medium, run(role, text), room, place)
    }

    /// The key of what was drawn; returns where it ends.
    pub fn key(&mut self, y: f64) -> f64 {
        let edges = (self.margin, self.width - self.margin);
        key::draw(&mut self.items, self.medium, edges, y)
    }

    pub fn mark(&mut self, kind: MarkKind, at: Point, size: f64) {
        self.items.push(Mark::plain(kind, at, size).into());
    }
}

/// Hair would not be seen: each tenth of a millimetre is drawn a little thicker than the last.
pub(super) fn thickness(piece: &Piece) -> (f64, f64) {
    let drawn = |metres: f64| (1.2 + 9000.0 * metres).clamp(1.2, 9.0);
    match piece.ends {
        Some((upper, lower)) => (drawn(upper), drawn(lower)),
        None if piece.metres.is_none() => (6.0, 6.0),
        None => (2.0, 2.0),
    }
}
