//! The places of a water and of a rod.

use crate::hand::item::{Item, Kind};
use crate::hand::phrases::Says;
use crate::hand::place::{Piece, Result, Sorter, Unplaced};
use crate::hand::slip;
use crate::hand::trade::WINDS;
use crate::vocabulary::Joint;
use crate::words::fold;

/// Words that say of what follows that it is not so.
const DENIES: &[&str] = &["not", "never", "no", "hardly", "barely", "isn't", "nowhere"];

impl Sorter<'_> {
    pub(in crate::hand) fn water(&mut self) -> Result<()> {
        // `1 to 1.5 ft/s, 3 ft`: the first figure may as well be the depth's.
        let (first, rest) = self.items.split_first().ok_or(Unplaced::Other)?;
        let is_length = |item: &Item| matches!(item.kind, Kind::Length(_));
        if first.kind == Kind::Speed && first.strict.contains(" to ") && rest.iter().any(is_length) {
            return Err(Unplaced::Other);
        }
        self.wind();
        let mut depth: Vec<Piece> = Vec::new();
        depth.extend(self.free_word());
        depth.extend(self.one(|item| matches!(item.kind, Kind::Length(_))));
        // `knee deep`: the word stays beside the figures that stand for it.
        let measured = !depth.is_empty();
        if let Some(said) = self.word(Says::Depth) {
            self.note(said.span);
            if !measured {
                depth.push(said);
            }
        }
        depth.extend(self.one(|item| item.kind == Kind::Temperature));
        let measured = self.one(|item| item.kind == Kind::Speed);
        let mut paces: Vec<&Item> = self
            .items
            .iter()
            .filter(|item| item.says() == Some(Says::Pace))
            .collect();
        let speed = match (measured, paces.as_slice()) {
            (None, [first, second, ..]) => {
                return Err(Unplaced::Asks(slip::two_readings(
                    self.line,
                    first.span,
                    second.span,
                )));
            }
            (None, [pace]) => Some(Piece {
                strict: pace.strict.clone(),
                span: pace.span,
            }),
            (measured, _) => measured,
        };
        // The word stays beside the figures that stand for it.
        let words = paces.drain(..).map(|pace| Piece {
            strict: pace.span.of(self.line).to_owned(),
            span: pace.span,
        });
        let words: Vec<Piece> = words.collect();
        self.placed.notes.extend(words);
        self.take(|item| item.says() == Some(Says::Pace));
        let bed = self.word(Says::Bed);
        // A second bed is told in words.
        let beds = self.words(Says::Bed);
        if let Some(last) = beds.last() {
            let first = bed.as_ref().map_or(last.span, |bed| bed.span);
            if self.placed.name.is_none() {
                self.placed.name = Some(Piece {
                    strict: first.to(last.span).of(self.line).to_owned(),
                    span: first.to(last.span),
                });
            } else {
                self.placed.notes.extend(beds);
            }
        }
        if depth.is_empty() && speed.is_none() && bed.is_none() {
            return Err(Unplaced::Other);
        }
        self.clause(None, depth);
        let which = speed.as_ref().and_then(|_| self.word(Says::Which));
        self.clause(Some(Joint::At), speed.into_iter().chain(which).collect());
        self.clause(Some(Joint::Over), bed.into_iter().collect());
        Ok(())
    }

    /// `wind 2 m/s`, `2 m/s of wind`: how fast the air goes, and not the water. It becomes a note.
    fn wind(&mut self) {
        let is_wind =
            |item: &Item| item.kind == Kind::Free && WINDS.contains(&&*fold(item.span.of(self.line)));
        let Some(at) = self.items.iter().position(is_wind) else {
            return;
        };
        let is_speed = |at: &usize| self.items.get(*at).is_some_and(|item| item.kind == Kind::Speed);
        let joined = at.wrapping_sub(1);
        let is_joined = self
            .items
            .get(joined)
            .is_some_and(|item| item.kind == Kind::Joining(Joint::Of));
        let before = joined.wrapping_sub(usize::from(is_joined));
        let Some(speed) = [at + 1, before].into_iter().find(is_speed) else {
            return;
        };
        let span = self.items[at.min(speed)].span.to(self.items[at.max(speed)].span);
        self.used[at] = true;
        self.used[speed] = true;
        self.note(span);
    }

    /// `18 ft deep, fish at 5 to 10 ft`: a phrase of words and of another length than the depth's. It becomes a note.
    pub(in crate::hand) fn of_fish(&mut self) {
        let commas = (0..self.items.len()).filter(|at| self.items[*at].kind == Kind::Comma);
        let commas: Vec<usize> = commas.chain([self.items.len()]).collect();
        let is_length = |item: &Item| matches!(item.kind, Kind::Length(_));
        for pair in commas.windows(2) {
            let phrase = pair[0] + 1..pair[1];
            let said = &self.items[phrase.clone()];
            let is_told = self.items[..pair[0]].iter().any(is_length)
                && said.iter().any(is_length)
                && said.iter().any(|item| item.kind == Kind::Free)
                && said
                    .iter()
                    .all(|item| is_length(item) || matches!(item.kind, Kind::Free | Kind::Joining(_)));
            let (Some(first), Some(last)) = (said.first(), said.last()) else {
                continue;
            };
            let span = first.span.to(last.span);
            if is_told {
                self.used[phrase].fill(true);
                self.note(span);
            }
        }
    }

    /// `not too fast`: what is denied says nothing of how fast the water is. It becomes a note.
    pub(in crate::hand) fn denied(&mut self) {
        for at in 0..self.items.len() {
            if !matches!(self.items[at].says(), Some(Says::Pace | Says::Depth)) {
                continue;
            }
            let before = self.items[..at].iter().rev();
            let words = before.take_while(|item| item.kind == Kind::Free).count();
            let word = |at: usize| fold(self.items[at].span.of(self.line));
            let first = (at - words..at).find(|at| DENIES.contains(&&*word(*at)));
            if let Some(first) = first {
                self.used[first..=at].fill(true);
                self.items[at].kind = Kind::Note;
                self.note(self.items[first].span.to(self.items[at].span));
            }
        }
    }

    pub(in crate::hand) fn rod(&mut self) -> Result<()> {
        let mut pieces: Vec<Piece> = Vec::new();
        pieces.extend(self.free_word());
        pieces.extend(self.one(|item| matches!(item.kind, Kind::Length(_))));
        pieces.extend(self.one(|item| matches!(item.kind, Kind::Weight | Kind::Hook)));
        if pieces.is_empty() {
            return Err(Unplaced::Other);
        }
        self.clause(None, pieces);
        Ok(())
    }
}
