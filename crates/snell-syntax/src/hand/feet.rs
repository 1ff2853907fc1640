//! Feet with their inches, where the inches have no mark of their own: `10'6`, `12'-6"`, `4 ft 6`.

use super::atoms::Look;
use super::item::{Kind, SHORTEST_PART};
use super::reader::Reader;
use super::trade::Part;

impl Reader<'_> {
    /// `10'6`, as rods are sold: the inches have no mark of their own.
    pub(super) fn rod_in_feet(&mut self) -> Option<()> {
        let glued = |ahead: usize| self.get(ahead).is_some_and(|atom| atom.glued);
        let is_rod = self.part == Part::Rod && self.sign(1, &['\'', '’', '′']) && glued(1) && glued(2);
        let inches = self.value(2).filter(|inches| is_rod && *inches < 12.0)?;
        if glued(3) {
            return None;
        }
        let feet = self.value(0)?;
        let strict = format!("{feet} ft {inches} in");
        self.push(Kind::Length(feet.mul_add(12.0, inches) * 0.0254), 3, Some(strict));
        Some(())
    }

    /// A hyphen between feet and inches, with nothing but marks around it.
    pub(super) fn joins_inches(&self, ahead: usize) -> bool {
        let glued = |ahead: usize| self.get(ahead).is_some_and(|atom| atom.glued);
        self.sign(ahead, &['-', '\u{2010}', '\u{2011}', '–'])
            && (ahead..ahead + 3).all(glued)
            && self.is_number(ahead + 1)
            && self.value(ahead + 1).is_some_and(|inches| inches < 12.0)
            && self.sign(ahead + 2, &['"', '”', '″'])
    }

    /// `4 ft 6, 5 lb`: a number behind feet is of inches where something else says how thick the line is.
    pub(super) fn is_inches(&self, ahead: usize) -> bool {
        let is_size = |kind: Kind| {
            matches!(kind, Kind::X | Kind::Mass(_) | Kind::Hundredths)
                || matches!(kind, Kind::Length(si) if si < SHORTEST_PART)
        };
        let whole = self.get(ahead).is_some_and(|atom| {
            self.of(atom)
                .parse::<u8>()
                .is_ok_and(|inches| (1..12).contains(&inches))
        });
        let is_bare = whole
            && self.unit(ahead + 1).is_none()
            && !self
                .get(ahead + 1)
                .is_some_and(|next| next.glued && next.look != Look::Sign(','));
        let behind = || (self.at + ahead + 1..self.atoms.len()).map(|at| at - self.at);
        let glued = self.get(ahead).is_some_and(|atom| atom.glued);
        self.part == Part::Piece
            && !glued
            && is_bare
            && (self.found.iter().any(|item| is_size(item.kind))
                || self.word(ahead + 1).as_deref() == Some("again")
                || behind().any(|ahead| {
                    self.is_number(ahead) && self.single(ahead).is_some_and(|((kind, _), _)| is_size(kind))
                }))
    }
}
