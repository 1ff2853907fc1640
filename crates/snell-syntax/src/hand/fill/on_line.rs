//! The places of what sits on the line or joins it: floats, shots, rings, swivels and knots.

use crate::hand::item::{Item, Kind};
use crate::hand::phrases::Says;
use crate::hand::place::{Piece, Result, Sorter, Unplaced};
use crate::hand::trade::Part;
use crate::vocabulary::Joint;

impl Sorter<'_> {
    pub(in crate::hand) fn float(&mut self) -> Result<()> {
        let mut pieces: Vec<Piece> = Vec::new();
        pieces.extend(self.one(|item| matches!(item.kind, Kind::Length(si) if si < LARGEST_FLOAT)));
        pieces.extend(self.word(Says::Bead));
        pieces.extend(self.words(Says::Colour));
        // What it carries is told in words.
        let masses = self.take(|item| matches!(item.kind, Kind::Mass(_)));
        self.placed.notes.extend(masses);
        self.clause(None, pieces);
        self.seat();
        Ok(())
    }

    /// `4 ft above the fly`
    fn seat(&mut self) {
        let seats = |item: &Item| matches!(item.kind, Kind::Seat(_));
        let Some(at) = (0..self.items.len()).find(|at| !self.used[*at] && seats(&self.items[*at])) else {
            return;
        };
        self.used[at] = true;
        let Item {
            kind, span, strict, ..
        } = self.items[at].clone();
        self.clause(Some(Joint::At), vec![Piece { strict, span }]);
        if let Kind::Seat(Some(over)) = kind {
            let over = Piece {
                strict: over.to_owned(),
                span,
            };
            self.clause(Some(Joint::Over), vec![over]);
        }
    }

    pub(in crate::hand) fn small(&mut self) -> Result<()> {
        let mut pieces: Vec<Piece> = Vec::new();
        pieces.extend(self.one(|item| matches!(item.kind, Kind::Length(si) if si < LARGEST_FLOAT)));
        // What a ring holds and which number a swivel has are told in words.
        let is_ring = self.part == Part::Ring;
        let told = self.take(|item| item.kind == Kind::Hook || is_ring && matches!(item.kind, Kind::Mass(_)));
        let is_told = !told.is_empty();
        self.placed.notes.extend(told);
        pieces.extend(self.take(|item| matches!(item.kind, Kind::Mass(_))));
        pieces.extend(self.words(Says::Swivel));
        if pieces.is_empty() && self.part == Part::Swivel && !is_told {
            return Err(Unplaced::Other);
        }
        self.clause(None, pieces);
        Ok(())
    }

    pub(in crate::hand) fn shot(&mut self) -> Result<()> {
        let count = self.one(|item| item.kind == Kind::Count);
        let named = self.word(Says::Shot);
        let mass = match &named {
            Some(named) => Piece {
                strict: format!("{} g", named.strict),
                span: named.span,
            },
            None => self
                .one(|item| matches!(item.kind, Kind::Mass(_)))
                .ok_or(Unplaced::Other)?,
        };
        let mass = match count {
            Some(count) => Piece {
                strict: format!("{} times {}", count.strict, mass.strict),
                span: count.span.to(mass.span),
            },
            None => mass,
        };
        let mut pieces = vec![mass];
        pieces.extend(self.word(Says::Bead));
        self.clause(None, pieces);
        if let (Some(named), None) = (named, &self.placed.name) {
            self.placed.name = Some(Piece {
                strict: named.span.of(self.line).to_owned(),
                span: named.span,
            });
        }
        self.seat();
        self.ends();
        Ok(())
    }

    pub(in crate::hand) fn knot(&mut self) -> Result<()> {
        let knot = self.word(Says::Knot).or_else(|| self.free_word());
        self.clause(None, vec![knot.ok_or(Unplaced::Other)?]);
        Ok(())
    }
}

/// The largest float, ring or swivel. Source: common practice, no source.
const LARGEST_FLOAT: f64 = 0.08;
