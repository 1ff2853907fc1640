//! Items taken for the places of a line, and what every line that carries line or a fly has.

use crate::hand::item::{Item, Kind, SHORTEST_PART};
use crate::hand::phrases::Says;
use crate::hand::place::{Clause, Piece, Sorter};
use crate::hand::trade::Part;
use crate::vocabulary::Joint;

impl Sorter<'_> {
    /// Takes every item that is wanted, in order.
    pub(super) fn take(&mut self, wanted: impl Fn(&Item) -> bool) -> Vec<Piece> {
        let mut taken = Vec::new();
        for at in 0..self.items.len() {
            let item = &self.items[at];
            if !self.used[at] && wanted(item) {
                self.used[at] = true;
                taken.push(Piece {
                    strict: item.strict.clone(),
                    span: item.span,
                });
            }
        }
        taken
    }

    /// Takes the first that is wanted.
    pub(super) fn one(&mut self, wanted: impl Fn(&Item) -> bool) -> Option<Piece> {
        let at = (0..self.items.len()).find(|at| !self.used[*at] && wanted(&self.items[*at]))?;
        self.used[at] = true;
        let item = &self.items[at];
        Some(Piece {
            strict: item.strict.clone(),
            span: item.span,
        })
    }

    pub(super) fn word(&mut self, says: Says) -> Option<Piece> {
        self.one(|item| item.says() == Some(says))
    }

    pub(super) fn words(&mut self, says: Says) -> Vec<Piece> {
        self.take(|item| item.says() == Some(says))
    }

    pub(super) fn clause(&mut self, joint: Option<Joint>, pieces: Vec<Piece>) {
        self.placed.clauses.push(Clause { joint, pieces });
    }

    pub(super) fn free_word(&mut self) -> Option<Piece> {
        let wanted = self.placed.has_free_word;
        self.one(|item| wanted && item.kind == Kind::Free)
    }

    pub(super) fn stuff(&mut self) -> Vec<Piece> {
        let mut pieces: Vec<Piece> = Vec::new();
        pieces.extend(self.one(|item| item.kind == Kind::X));
        if self.part == Part::Line {
            pieces.extend(self.one(|item| matches!(item.kind, Kind::Weight | Kind::Hook)));
        }
        let thinnest = if self.part == Part::Dropper {
            SMALLEST_BEAD
        } else {
            SHORTEST_PART
        };
        let thin = |item: &Item| {
            item.kind == Kind::Hundredths || matches!(item.kind, Kind::Length(si) if si < thinnest)
        };
        pieces.extend(self.one(thin));
        pieces.extend(self.one(|item| matches!(item.kind, Kind::Mass(si) if si >= WEAKEST_LINE)));
        // `the same fluoro` says what it is, too.
        let is_line = |item: &Item| matches!(item.says(), Some(Says::Line | Says::Wire));
        let names_line = |item: &Item| is_line(item) && item.strict != "same";
        if self.items.iter().any(names_line) {
            let same = self.take(|item| is_line(item) && item.strict == "same");
            self.placed.notes.extend(same);
        }
        pieces.extend(self.one(is_line));
        pieces.extend(self.words(Says::Build));
        pieces
    }

    pub(super) fn ends(&mut self) {
        let bend = self.word(Says::Bend);
        self.clause(Some(Joint::Off), bend.into_iter().collect());
        let knot = self.word(Says::Knot);
        self.clause(Some(Joint::On), knot.into_iter().collect());
    }
}

/// The smallest bead, in metres; what is less is a piece of line. Source: common practice, no source.
pub(super) const SMALLEST_BEAD: f64 = 0.001;

/// What is lighter, in kg, is no strength of a line. Source: common practice, no source.
pub(super) const WEAKEST_LINE: f64 = 0.1;
