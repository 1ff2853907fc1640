//! The places of a fly, on the line or on a tag.

use super::take::SMALLEST_BEAD;
use crate::hand::item::{Item, Kind, LARGEST_BEAD};
use crate::hand::phrases::Says;
use crate::hand::place::{Piece, Result, Sorter, Unplaced};
use crate::vocabulary::Joint;

impl Sorter<'_> {
    fn fly_values(&mut self) -> Vec<Piece> {
        let mut pieces: Vec<Piece> = Vec::new();
        pieces.extend(self.free_word());
        pieces.extend(self.one(|item| item.kind == Kind::Hook));
        pieces.extend(self.one(
            |item| matches!(item.kind, Kind::Length(si) if (SMALLEST_BEAD..=LARGEST_BEAD).contains(&si)),
        ));
        pieces.extend(self.word(Says::Bead));
        pieces.extend(self.word(Says::Slotted));
        pieces.extend(self.one(|item| matches!(item.kind, Kind::Mass(si) if si < HEAVIEST_FLY)));
        pieces.extend(self.words(Says::Fly));
        pieces.extend(self.words(Says::Colour));
        pieces
    }

    pub(in crate::hand) fn fly(&mut self) -> Result<()> {
        // `2 in long`
        for at in 1..self.items.len() {
            let length = &self.items[at - 1];
            let is_long = matches!(length.kind, Kind::Length(si) if si > LARGEST_BEAD)
                && self.items[at].says() == Some(Says::Extent);
            if is_long {
                self.used[at - 1] = true;
                let span = length.span.to(self.items[at].span);
                self.placed.notes.push(Piece {
                    strict: span.of(self.line).to_owned(),
                    span,
                });
            }
        }
        let fly = self.fly_values();
        self.clause(None, fly);
        self.ends();
        Ok(())
    }

    pub(in crate::hand) fn dropper(&mut self) -> Result<()> {
        let is_tag = |item: &Item| matches!(item.kind, Kind::Length(si) if si > LARGEST_BEAD);
        let Some(tag) = self.one(is_tag) else {
            // A bare number may as well be the tag's, without its unit; behind a name it is the hook's.
            let is_hook = |item: &&Item| {
                let bare = item
                    .span
                    .of(self.line)
                    .starts_with(|letter: char| letter.is_ascii_digit());
                let name = self.placed.name.as_ref();
                let is_named = name.is_some_and(|name| name.span.start < item.span.start);
                // `16 pheasant tail`
                let names = name.is_some_and(|name| {
                    let between = self.line.get(item.span.end as usize..name.span.start as usize);
                    between.is_some_and(|between| between.trim().is_empty())
                });
                item.kind == Kind::Hook && (!bare || is_named || names)
            };
            return match self.items.iter().any(|item| is_hook(&item)) {
                true => self.tagged(None),
                false => Err(Unplaced::Other),
            };
        };
        self.tagged(Some(tag))
    }

    /// What hangs on a tag; how long that is, is asked for where all is laid out.
    fn tagged(&mut self, tag: Option<Piece>) -> Result<()> {
        self.clause(None, tag.into_iter().collect());
        let fly = self.fly_values();
        let stuff = self.stuff();
        self.clause(Some(Joint::Of), stuff);
        self.clause(Some(Joint::With), fly);
        self.ends();
        Ok(())
    }
}

/// What is heavier, in kg, is a strength. Source: common practice, no source.
const HEAVIEST_FLY: f64 = 0.02;
