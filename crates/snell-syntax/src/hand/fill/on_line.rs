//! The places of what sits on the line or joins it: floats, shots, rings, swivels and knots.

use crate::hand::item::{Item, Kind};
use crate::hand::phrases::Says;
use crate::hand::place::{Piece, Result, Sorter, Unplaced};
use crate::hand::trade::Part;
use crate::vocabulary::Joint;
use snell_text::Span;

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
        // A knot at one of its eyes is told in words.
        let knots: Vec<Span> = self
            .items
            .iter()
            .filter(|item| item.says() == Some(Says::Knot))
            .map(|item| item.span)
            .collect();
        self.take(|item| item.says() == Some(Says::Knot));
        knots.into_iter().for_each(|knot| self.note(knot));
        Ok(())
    }

    pub(in crate::hand) fn shot(&mut self) -> Result<()> {
        let count = self.one(|item| item.kind == Kind::Count);
        let named = self.word(Says::Shot);
        // What it weighs counts for more than what its number usually does.
        let weighed = self.one(|item| matches!(item.kind, Kind::Mass(_)));
        let mass = weighed.or_else(|| {
            let named = named.as_ref()?;
            Some(Piece {
                strict: format!("{} g", named.strict),
                span: named.span,
            })
        });
        let mass = match (count, mass) {
            (Some(count), Some(mass)) => Some(Piece {
                strict: format!("{} times {}", count.strict, mass.strict),
                span: count.span.to(mass.span),
            }),
            // How heavy they are is asked for where all is laid out.
            (Some(count), None) => {
                self.placed.notes.push(count);
                None
            }
            (None, mass) => mass,
        };
        let is_told =
            |item: &Item| matches!(item.kind, Kind::Count | Kind::Seat(_) | Kind::Free | Kind::Note);
        if mass.is_none() && !self.items.iter().any(is_told) {
            return Err(Unplaced::Other);
        }
        let mut pieces: Vec<Piece> = mass.into_iter().collect();
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
