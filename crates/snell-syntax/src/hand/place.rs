//! The items of a line put in the places of its strict form: what is which, what is a name, what is left for a note.

use super::item::{Item, Kind, LARGEST_BEAD, SHORTEST_PART};
use super::phrases::{Says, plain};
use super::slip;
use super::trade::{Part, REEL_WORDS};
use crate::faults::Slip;
use crate::vocabulary::{Joint, Link};
use snell_text::Span;
use snell_units::in_order;

/// A value as the strict line has it, with the words that it stands for.
#[derive(Clone, Debug)]
pub(super) struct Piece {
    pub(super) strict: String,
    pub(super) span: Span,
}

/// The values of a clause, or those before the first.
#[derive(Clone, Debug)]
pub(super) struct Clause {
    pub(super) joint: Option<Joint>,
    pub(super) pieces: Vec<Piece>,
}

/// A line in the places of its strict form.
#[derive(Debug, Default)]
pub(super) struct Placed {
    pub(super) clauses: Vec<Clause>,
    /// What the thing is called, in quotes.
    pub(super) name: Option<Piece>,
    pub(super) notes: Vec<Piece>,
    /// One word that may be a name of the file's own; it stands in its place.
    pub(super) has_free_word: bool,
    /// What was not understood, and is kept as a note.
    pub(super) unread: Vec<Span>,
}

/// Why a line has no strict form.
pub(super) enum Unplaced {
    /// It is for the strict reading to say what is wrong.
    Other,
    Asks(Slip),
}

pub(super) type Result<T> = std::result::Result<T, Unplaced>;

/// The items of one line, sorted by what they are.
pub(super) struct Sorter<'a> {
    pub(super) line: &'a str,
    pub(super) part: Part,
    pub(super) items: Vec<Item>,
    /// Of each item whether it has been placed, or is part of a name or a note.
    pub(super) used: Vec<bool>,
    pub(super) placed: Placed,
    /// Whether what has no place is kept as a note.
    is_partial: bool,
}

impl<'a> Sorter<'a> {
    pub(super) fn new(line: &'a str, part: Part, items: Vec<Item>) -> Self {
        Self {
            line,
            part,
            used: vec![false; items.len()],
            items,
            placed: Placed::default(),
            is_partial: false,
        }
    }

    /// Puts every item in its place that has one, and keeps the others as notes; `unread` are such already. Nothing where
    /// too little is understood.
    pub(super) fn place_in_part(mut self, unread: Vec<Span>) -> Result<Placed> {
        self.placed.unread = unread;
        if (0..self.items.len()).any(|at| self.may_be_value(at)) {
            return Err(Unplaced::Other);
        }
        for at in 0..self.items.len() {
            let is_figure = |item: &Item| {
                item.kind == Kind::Note
                    && item
                        .span
                        .of(self.line)
                        .contains(|letter: char| letter.is_ascii_digit())
            };
            if self.items[at].kind == Kind::Bare || self.stands_loose(at) || is_figure(&self.items[at]) {
                self.leave_unread(at);
            }
        }
        self.is_partial = true;
        if !self.says_enough(self.items.len()) {
            return Err(Unplaced::Other);
        }
        self.place(false)
    }

    /// Whether a number without a unit may be any value of the line: no comma stands before it behind which all is told.
    fn may_be_value(&self, at: usize) -> bool {
        let comma = self.items[..at].iter().rposition(|item| item.kind == Kind::Comma);
        self.items[at].kind == Kind::Bare && !comma.is_some_and(|comma| self.says_enough(comma))
    }

    fn leave_unread(&mut self, at: usize) {
        self.items[at].kind = Kind::Note;
        let span = self.items[at].span;
        self.placed.unread.push(span);
    }

    /// Whether so many items say what the part is there for: how long a piece is and of what, or which fly.
    fn says_enough(&self, items: usize) -> bool {
        let has = |wanted: fn(&Item) -> bool| self.items[..items].iter().any(wanted);
        match self.part {
            Part::Piece | Part::Line => {
                has(|item| matches!(item.kind, Kind::Length(_)))
                    && has(|item| {
                        matches!(item.kind, Kind::X | Kind::Hundredths | Kind::Mass(_))
                            || matches!(item.kind, Kind::Length(si) if si < SHORTEST_PART)
                            || matches!(
                                item.says(),
                                Some(Says::Line | Says::Wire | Says::Build | Says::Colour)
                            )
                    })
            }
            Part::Dropper => {
                has(|item| item.kind == Kind::Hook)
                    && has(|item| matches!(item.kind, Kind::Length(si) if si > LARGEST_BEAD))
            }
            Part::Fly => has(|item| item.kind == Kind::Hook),
            Part::Float => has(|item| matches!(item.kind, Kind::Length(_) | Kind::Seat(_))),
            Part::Ring => has(|item| matches!(item.kind, Kind::Length(_))),
            Part::Swivel => has(|item| item.says() == Some(Says::Swivel)),
            Part::Shot => has(|item| matches!(item.kind, Kind::Mass(_)) || item.says() == Some(Says::Shot)),
            Part::Knot
            | Part::Method
            | Part::Water
            | Part::Bed
            | Part::Rod
            | Part::Note
            | Part::Catch
            | Part::Day
            | Part::Outing => false,
        }
    }

    /// Puts every item in its place.
    pub(super) fn place(mut self, word_alone: bool) -> Result<Placed> {
        if self.items.iter().any(|item| item.kind == Kind::Bare) {
            return Err(Unplaced::Other);
        }
        if let Some(at) = (0..self.items.len()).find(|at| self.is_torn(*at)) {
            return Err(self.torn(at));
        }
        if (0..self.items.len()).any(|at| self.stands_loose(at)) {
            return Err(Unplaced::Other);
        }
        self.label();
        self.tip_of_reel();
        if self.part == Part::Water {
            self.of_fish();
            self.denied();
        }
        self.names(word_alone)?;
        match self.part {
            Part::Piece | Part::Line => self.piece()?,
            Part::Dropper => self.dropper()?,
            Part::Fly => self.fly()?,
            Part::Float => self.float()?,
            Part::Ring | Part::Swivel => self.small()?,
            Part::Shot => self.shot()?,
            Part::Knot => self.knot()?,
            Part::Water | Part::Bed => self.water()?,
            Part::Rod => self.rod()?,
            Part::Method | Part::Note | Part::Catch | Part::Day | Part::Outing => {
                return Err(Unplaced::Other);
            }
        }
        for at in 0..self.items.len() {
            if !self.used[at] && self.is_bare_bead(at) {
                self.note(self.items[at].span);
            }
            let item = &self.items[at];
            let is_glue = matches!(item.kind, Kind::Joining(_) | Kind::And | Kind::Comma);
            let is_filler = matches!(
                item.says(),
                Some(Says::Filler | Says::Extent | Says::OfWater | Says::OfReel)
            );
            if item.about {
                self.placed.notes.push(Piece {
                    strict: format!("about {}", item.strict),
                    span: item.span,
                });
            }
            if self.used[at] || is_glue || is_filler {
                continue;
            }
            if item.kind != Kind::Note {
                match self.twice(at) {
                    Unplaced::Other if self.is_partial => self.placed.unread.push(self.items[at].span),
                    unplaced => return Err(unplaced),
                }
            }
            let item = &self.items[at];
            self.note(item.span);
        }
        self.placed.clauses.retain(|clause| !clause.pieces.is_empty());
        // What stands before the first joining word comes first; clauses come in the order in which they are written.
        let start = |clause: &Clause| match clause.joint {
            None => 0,
            Some(_) => clause
                .pieces
                .iter()
                .map(|piece| piece.span.start)
                .min()
                .unwrap_or(0),
        };
        in_order(&mut self.placed.clauses, |one, other| {
            start(one).cmp(&start(other))
        });
        Ok(self.placed)
    }

    /// Whether what joins has nothing to join, or not what this line joins so.
    fn stands_loose(&self, at: usize) -> bool {
        let sides = [
            at.checked_sub(1).and_then(|before| self.items.get(before)),
            self.items.get(at + 1),
        ];
        let joins = |item: &Item| matches!(item.kind, Kind::Joining(_) | Kind::And | Kind::Comma);
        match self.items[at].kind {
            Kind::And => {
                let quantities = sides.iter().flatten().filter(|side| side.is_quantity()).count();
                let lengths = sides
                    .iter()
                    .flatten()
                    .filter(|side| matches!(side.kind, Kind::Length(_)))
                    .count();
                // Colours may stand between two lengths that are put together.
                let apart = quantities == 1 && lengths == 0 || quantities == 2 && lengths < 2;
                apart || sides.iter().any(|side| side.is_none_or(joins))
            }
            Kind::Joining(joint) => {
                if sides[1].is_none_or(|next| matches!(next.kind, Kind::Joining(_) | Kind::Comma)) {
                    return true;
                }
                let value =
                    sides[1].is_some_and(|next| next.is_known() && !joins(next) && next.kind != Kind::Text);
                value && !self.part.is_joined_by(joint)
            }
            Kind::Free => {
                // A unit without its number is no name, and on a fly `e8` is a size that slipped.
                let word = self.items[at].span.of(self.line);
                Link::of(word).is_some()
                    || self.part.is_fly() && ["size", "sz", "hk"].contains(&&*plain(word))
                    || self.is_misspelt_size(at)
                    || self.denies(at)
                    || snell_units::known(word).is_some()
                    || self.part.is_fly() && word.ends_with(|letter: char| letter.is_ascii_digit())
            }
            Kind::Word(row) if self.part.is_fly() && row.says == Says::Filler => {
                self.is_bead(at)
                    && !sides.iter().flatten().any(|side| says_bead(side))
                    && !self.is_bare_bead(at)
            }
            Kind::Word(_)
            | Kind::Length(_)
            | Kind::X
            | Kind::Hundredths
            | Kind::Mass(_)
            | Kind::Speed
            | Kind::Temperature
            | Kind::Weight
            | Kind::Hook
            | Kind::Count
            | Kind::Seat(_)
            | Kind::Bare
            | Kind::Text
            | Kind::Note
            | Kind::Comma => false,
        }
    }

    fn is_bead(&self, at: usize) -> bool {
        ["bead", "beads"].contains(&&*plain(self.items[at].span.of(self.line)))
    }

    /// `#14 with bead`: a bead of which nothing is said. It ends its line, or what is said of the fly.
    fn is_bare_bead(&self, at: usize) -> bool {
        let ends = self.items.get(at + 1).is_none_or(|next| next.kind == Kind::Comma);
        let has_hook = || self.items[..at].iter().any(|item| item.kind == Kind::Hook);
        let mut others = self.items.iter().enumerate().filter(|(other, _)| *other != at);
        ends && self.is_bead(at) && has_hook() && !others.any(|(_, other)| says_bead(other))
    }

    /// `no barbless`
    fn denies(&self, at: usize) -> bool {
        let word = plain(self.items[at].span.of(self.line));
        let next = self.items.get(at + 1).and_then(Item::says);
        word == "no" && next.is_some_and(|says| matches!(says, Says::Fly | Says::Bead | Says::Slotted))
    }

    /// `ize 10`
    fn is_misspelt_size(&self, at: usize) -> bool {
        let word = plain(self.items[at].span.of(self.line));
        let before_hook = self.items.get(at + 1).is_some_and(|next| {
            next.kind == Kind::Hook && next.span.of(self.line).starts_with(|c: char| c.is_ascii_digit())
        });
        self.part.is_fly() && before_hook && snell_units::is_one_slip(&word, "size")
    }

    /// Whether a word is only ever part of a knot's name, and its other words are not beside it.
    fn is_torn(&self, at: usize) -> bool {
        let item = &self.items[at];
        if item.kind != Kind::Free {
            return false;
        }
        let word = item.span.of(self.line);
        if self.part.is_fly() {
            return ["improved", "tucked", "surgeon", "surgeon's"].contains(&&*plain(word));
        }
        let of_reel = self.part == Part::Line && REEL_WORDS.contains(&&*plain(word));
        self.part.is_line_only() && !of_reel && slip::is_part_of_knot(word)
    }

    /// A knot that is misspelt in another word, or whose words stand apart.
    fn torn(&self, at: usize) -> Unplaced {
        let others = |other: &usize| self.items[*other].kind == Kind::Free && !self.is_torn(*other);
        let mut others = (0..self.items.len()).filter(others);
        let misspelt =
            others.find_map(|other| slip::check(self.line, self.part, self.items[other].span).err());
        let slip = misspelt.unwrap_or_else(|| slip::torn_knot(self.line, self.items[at].span));
        Unplaced::Asks(slip)
    }

    pub(super) fn note(&mut self, span: Span) {
        self.placed.notes.push(Piece {
            strict: span.of(self.line).to_owned(),
            span,
        });
    }

    /// A value that says what another has said, or has no place.
    fn twice(&self, at: usize) -> Unplaced {
        let item = &self.items[at];
        let like = |other: &Item| std::mem::discriminant(&other.kind) == std::mem::discriminant(&item.kind);
        let first = self.items[..at]
            .iter()
            .find(|other| like(other) && other.says() == item.says());
        match first {
            Some(first) => Unplaced::Asks(slip::two_readings(self.line, first.span, item.span)),
            None => Unplaced::Other,
        }
    }

    /// `as upper`
    fn label(&mut self) {
        for at in 0..self.items.len().saturating_sub(1) {
            let [first, next] = &self.items[at..at + 2] else {
                continue;
            };
            let goes_on = self
                .items
                .get(at + 2)
                .is_some_and(|item| !matches!(item.kind, Kind::Joining(_) | Kind::Comma | Kind::Text));
            let is_word = matches!(next.kind, Kind::Free | Kind::Word(_));
            if first.kind == Kind::Joining(Joint::As) && is_word && !goes_on {
                let piece = Piece {
                    strict: next.span.of(self.line).to_owned(),
                    span: next.span,
                };
                self.used[at] = true;
                self.used[at + 1] = true;
                self.placed.clauses.push(Clause {
                    joint: Some(Joint::As),
                    pieces: vec![piece],
                });
            }
        }
    }
}

/// Whether it says something of a bead, or stands beside a word for one.
fn says_bead(item: &Item) -> bool {
    matches!(item.kind, Kind::Length(si) if si <= LARGEST_BEAD)
        || matches!(
            item.says(),
            Some(Says::Bead | Says::Colour | Says::Slotted | Says::Filler)
        )
}

impl Part {
    /// Whether its free words are what it is called.
    pub(super) const fn is_called(self) -> bool {
        match self {
            Self::Piece | Self::Line | Self::Dropper | Self::Fly | Self::Float | Self::Water | Self::Rod => {
                true
            }
            Self::Ring
            | Self::Swivel
            | Self::Shot
            | Self::Knot
            | Self::Bed
            | Self::Method
            | Self::Note
            | Self::Catch
            | Self::Day
            | Self::Outing => false,
        }
    }

    /// Whether a word may stand before one of its values.
    const fn is_joined_by(self, joint: Joint) -> bool {
        match joint {
            Joint::Of | Joint::With | Joint::As => true,
            Joint::On => !matches!(self, Self::Rod),
            Joint::Off | Joint::To => !matches!(self, Self::Water | Self::Bed | Self::Rod),
            Joint::At => matches!(
                self,
                Self::Water | Self::Piece | Self::Line | Self::Float | Self::Shot
            ),
            Joint::Over => matches!(self, Self::Water | Self::Bed),
            Joint::After | Joint::Because => false,
        }
    }

    /// Whether a colour on it is never part of a name.
    pub(super) const fn is_line_only(self) -> bool {
        matches!(self, Self::Piece | Self::Line | Self::Float)
    }
}
