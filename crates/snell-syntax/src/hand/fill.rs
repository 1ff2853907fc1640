//! The places of each kind of line: which items a part takes, and in which order its strict line has them.

use super::item::{Item, Kind, LARGEST_BEAD};
use super::phrases::Says;
use super::place::{Clause, Piece, Result, Sorter, Unplaced};
use super::slip;
use super::trade::Part;
use crate::vocabulary::Joint;
use crate::words::fold;

impl Sorter<'_> {
    /// Takes every item that is wanted, in order.
    fn take(&mut self, wanted: impl Fn(&Item) -> bool) -> Vec<Piece> {
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
    fn one(&mut self, wanted: impl Fn(&Item) -> bool) -> Option<Piece> {
        let at = (0..self.items.len()).find(|at| !self.used[*at] && wanted(&self.items[*at]))?;
        self.used[at] = true;
        let item = &self.items[at];
        Some(Piece {
            strict: item.strict.clone(),
            span: item.span,
        })
    }

    fn word(&mut self, says: Says) -> Option<Piece> {
        self.one(|item| item.says() == Some(says))
    }

    fn words(&mut self, says: Says) -> Vec<Piece> {
        self.take(|item| item.says() == Some(says))
    }

    fn clause(&mut self, joint: Option<Joint>, pieces: Vec<Piece>) {
        self.placed.clauses.push(Clause { joint, pieces });
    }

    fn free_word(&mut self) -> Option<Piece> {
        let wanted = self.placed.has_free_word;
        self.one(|item| wanted && item.kind == Kind::Free)
    }

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

    fn stuff(&mut self) -> Vec<Piece> {
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
        let thin = |item: &Item| match item.kind {
            Kind::Length(si) => si < thinnest,
            Kind::Hundredths => true,
            _ => false,
        };
        pieces.extend(self.one(thin));
        pieces.extend(self.one(|item| matches!(item.kind, Kind::Mass(si) if si >= WEAKEST_LINE)));
        pieces.extend(self.one(|item| matches!(item.says(), Some(Says::Line | Says::Wire))));
        pieces.extend(self.words(Says::Build));
        pieces
    }

    fn ends(&mut self) {
        let bend = self.word(Says::Bend);
        self.clause(Some(Joint::Off), bend.into_iter().collect());
        let knot = self.word(Says::Knot);
        self.clause(Some(Joint::On), knot.into_iter().collect());
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

    pub(super) fn piece(&mut self) -> Result<()> {
        let length = match self.trimmed()? {
            Some(left) => Some(left),
            None => self.part_length(),
        };
        if length.is_none() && self.part == Part::Piece {
            // A bare number is one whose unit is lost.
            let is_figure = |item: &Item| matches!(item.kind, Kind::Bare | Kind::Length(_) | Kind::Note);
            let is_asked = !self.items.iter().any(is_figure) && self.items.len() > 1;
            let asked = is_asked.then(|| slip::length(self.line));
            return Err(asked.map_or(Unplaced::Other, Unplaced::Lacks));
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

    pub(super) fn fly(&mut self) -> Result<()> {
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

    pub(super) fn dropper(&mut self) -> Result<()> {
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
                item.kind == Kind::Hook && (!bare || is_named)
            };
            let hook = self.items.iter().find(is_hook);
            let asked = hook.map(|hook| slip::tag(self.line, hook.span));
            return Err(asked.map_or(Unplaced::Other, Unplaced::Asks));
        };
        self.clause(None, vec![tag]);
        let fly = self.fly_values();
        let stuff = self.stuff();
        self.clause(Some(Joint::Of), stuff);
        self.clause(Some(Joint::With), fly);
        self.ends();
        Ok(())
    }

    pub(super) fn float(&mut self) -> Result<()> {
        let mut pieces: Vec<Piece> = Vec::new();
        pieces.extend(self.one(|item| matches!(item.kind, Kind::Length(si) if si < LARGEST_FLOAT)));
        pieces.extend(self.word(Says::Bead));
        pieces.extend(self.words(Says::Colour));
        // What it carries is told in words.
        let masses = self.take(|item| matches!(item.kind, Kind::Mass(_)));
        self.placed.notes.extend(masses);
        self.clause(None, pieces);
        Ok(())
    }

    pub(super) fn small(&mut self) -> Result<()> {
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

    pub(super) fn shot(&mut self) -> Result<()> {
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
        self.ends();
        Ok(())
    }

    pub(super) fn knot(&mut self) -> Result<()> {
        let knot = self.word(Says::Knot).or_else(|| self.free_word());
        self.clause(None, vec![knot.ok_or(Unplaced::Other)?]);
        Ok(())
    }

    pub(super) fn water(&mut self) -> Result<()> {
        // `1 to 1.5 ft/s, 3 ft`: the first figure may as well be the depth's.
        let (first, rest) = self.items.split_first().ok_or(Unplaced::Other)?;
        let is_length = |item: &Item| matches!(item.kind, Kind::Length(_));
        if first.kind == Kind::Speed && first.strict.contains(" to ") && rest.iter().any(is_length) {
            return Err(Unplaced::Other);
        }
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

    pub(super) fn rod(&mut self) -> Result<()> {
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

/// A shorter length on a piece of line is its diameter, in metres.
const SHORTEST_PART: f64 = 0.004;
/// The smallest bead, in metres; what is less is a piece of line. Source: common practice, no source.
const SMALLEST_BEAD: f64 = 0.001;
/// What is heavier, in kg, is a strength. Source: common practice, no source.
const HEAVIEST_FLY: f64 = 0.02;
/// What is lighter, in kg, is no strength of a line. Source: common practice, no source.
const WEAKEST_LINE: f64 = 0.1;
/// The largest float, ring or swivel. Source: common practice, no source.
const LARGEST_FLOAT: f64 = 0.08;
