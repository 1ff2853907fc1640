//! The places of a piece of line, and of what is on the reel.

use super::take::WEAKEST_LINE;
use crate::hand::item::{Item, Kind, SHORTEST_PART};
use crate::hand::phrases::{Says, plain};
use crate::hand::place::{Piece, Result, Sorter, Unplaced};
use crate::hand::slip;
use crate::hand::trade::{Part, SMALL_WORDS};
use crate::vocabulary::Joint;
use crate::words::fold;

impl Sorter<'_> {
    /// The length of a part, or the sum of two that a plus joins.
    fn part_length(&mut self) -> Option<Piece> {
        let is_part = |item: &Item| matches!(item.kind, Kind::Length(si) if si >= SHORTEST_PART);
        let first = self.one(is_part)?;
        let coloured = self.lengths_with_colours();
        let plus = coloured
            || self
                .items
                .iter()
                .any(|item| item.kind == Kind::And && item.strict == "+");
        match plus.then(|| self.one(is_part)).flatten() {
            Some(second) => Some(Piece {
                strict: format!("{} + {}", first.strict, second.strict),
                span: first.span.to(second.span),
            }),
            None => Some(first),
        }
    }

    /// `12 in red, 12 in white`: two lengths, each with its colour.
    fn lengths_with_colours(&self) -> bool {
        let is_part = |item: &Item| matches!(item.kind, Kind::Length(si) if si >= SHORTEST_PART);
        let behind = |at: usize| self.items.get(at + 1).and_then(Item::says) == Some(Says::Colour);
        let mut lengths = (0..self.items.len()).filter(|at| is_part(&self.items[*at]));
        self.part == Part::Piece && lengths.clone().count() == 2 && lengths.all(behind)
    }

    /// The length that is left of a piece that is cut.
    fn trimmed(&mut self) -> Result<Option<Piece>> {
        let Some(trim) = self.items.iter().position(|item| item.says() == Some(Says::Trim)) else {
            return Ok(None);
        };
        let is_part = |item: &Item| matches!(item.kind, Kind::Length(si) if si >= SHORTEST_PART);
        let left = self.items.get(trim + 1).filter(|left| is_part(left));
        let left = left.ok_or(Unplaced::Other)?.clone();
        let sized = self
            .items
            .iter()
            .any(|item| matches!(item.kind, Kind::X | Kind::Hundredths));
        let says = |word: &str| self.items.iter().any(|item| item.strict == word);
        // By its strength alone its tip is not known anyway.
        let is_leader = fold(self.line.trim_start()).starts_with("leader");
        if says("tapered") || says("knotless") || is_leader && sized && !says("level") {
            return Err(Unplaced::Asks(slip::cut_taper(self.line, left.span)));
        }
        let whole = (0..trim).find(|at| is_part(&self.items[*at]));
        let from = whole.map_or(self.items[trim].span, |at| self.items[at].span);
        for at in whole.into_iter().chain([trim, trim + 1]) {
            self.used[at] = true;
        }
        let words = match whole {
            Some(_) => format!("{} ", from.of(self.line)),
            None => String::new(),
        };
        let cut = self.items[trim].span.to(left.span);
        self.placed.notes.push(Piece {
            strict: format!("{words}{}", cut.of(self.line)),
            span: from,
        });
        Ok(Some(Piece {
            strict: left.strict,
            span: left.span,
        }))
    }

    pub(in crate::hand) fn piece(&mut self) -> Result<()> {
        let length = match self.trimmed()? {
            Some(left) => Some(left),
            None => self.part_length(),
        };
        if length.is_none() && self.part == Part::Piece {
            // It is asked for where all is laid out. A thickness alone may be a length with another unit.
            let says_stuff = |item: &Item| {
                matches!(item.kind, Kind::X | Kind::Mass(_) | Kind::Hundredths)
                    || matches!(
                        item.says(),
                        Some(Says::Line | Says::Wire | Says::Colour | Says::Build)
                    )
            };
            let is_figure = |item: &Item| matches!(item.kind, Kind::Bare | Kind::Length(_));
            // `tippet apart of 7X`: a name of the file's own may be the length.
            let is_name = |item: &Item| {
                item.kind == Kind::Free && !SMALL_WORDS.contains(&&*plain(item.span.of(self.line)))
            };
            let opens_with_name = self.items.first().is_some_and(is_name);
            // `tippet 1 lb 4 oz of 6X`: what stands in the length's place is meant as one.
            let of = self
                .items
                .iter()
                .position(|item| item.kind == Kind::Joining(Joint::Of));
            let stands_there = of.is_some_and(|of| self.items[..of].iter().any(Item::is_quantity));
            let is_told = self.items.iter().any(says_stuff) && !stands_there;
            if self.items.iter().any(is_figure) || opens_with_name || !is_told {
                return Err(Unplaced::Other);
            }
        }
        if self.part == Part::Line {
            self.reel();
        }
        let free = self.free_word();
        let mut stuff = self.stuff();
        stuff.extend(self.words(Says::Colour));
        // Behind a material one more word is a colour that the table does not hold; before all else it is a spool.
        if let Some(free) = free {
            let at = if stuff.iter().all(|piece| piece.span.start > free.span.start) {
                0
            } else {
                stuff.len()
            };
            stuff.insert(at, free);
        }
        self.clause(None, length.into_iter().collect());
        self.clause(Some(Joint::Of), stuff);
        self.ends();
        Ok(())
    }

    /// `WF5F` is what a fly line is called, and what it weighs is told in words.
    fn reel(&mut self) {
        for at in 0..self.items.len() {
            let item = &self.items[at];
            let written = item.span.of(self.line);
            if item.kind == Kind::Weight
                && written.starts_with(char::is_alphabetic)
                && self.placed.name.is_none()
            {
                self.placed.name = Some(Piece {
                    strict: written.to_owned(),
                    span: item.span,
                });
            }
            if matches!(item.kind, Kind::Mass(si) if si < WEAKEST_LINE) {
                self.used[at] = true;
                self.placed.notes.push(Piece {
                    strict: item.strict.clone(),
                    span: item.span,
                });
            }
        }
    }
}
