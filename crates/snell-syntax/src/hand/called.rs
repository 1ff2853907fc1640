//! What a thing is called: runs of free words, of which the first is its name and the others are told in words.

use super::item::{Item, Kind, LARGEST_BEAD};
use super::opening::key;
use super::phrases::{Says, plain};
use super::place::{Piece, Result, Sorter, Unplaced};
use super::slip;
use super::trade::{ABBREVIATIONS, DOINGS, NUMBERS, OPENING_VERBS, Part, SENTENCE_WORDS, SMALL_WORDS};
use super::words::FEWEST_SPOKEN;
use crate::vocabulary::Joint;
use snell_text::Span;

impl Sorter<'_> {
    /// `WF7 with 10 ft sink tip`: what the line ends in is told in words.
    pub(super) fn tip_of_reel(&mut self) {
        let weighs = self.items.iter().any(|item| matches!(item.kind, Kind::Weight));
        let with = self
            .items
            .iter()
            .position(|item| item.kind == Kind::Joining(Joint::With));
        let Some(with) = with.filter(|_| self.part == Part::Line && weighs) else {
            return;
        };
        let rest = &self.items[with + 1..];
        let end = rest
            .iter()
            .position(|item| item.kind == Kind::Comma)
            .unwrap_or(rest.len());
        if rest
            .first()
            .is_none_or(|first| !matches!(first.kind, Kind::Length(_)))
        {
            return;
        }
        let span = self.items[with].span.to(self.items[with + end].span);
        self.used[with..=with + end].fill(true);
        self.note(span);
    }

    /// Finds the runs of free words: the first is what the thing is called, the others are notes.
    pub(super) fn names(&mut self, word_alone: bool) -> Result<()> {
        for at in 0..self.items.len() {
            if self.items[at].kind == Kind::Text && !self.used[at] && self.placed.name.is_none() {
                self.used[at] = true;
                let item = &self.items[at];
                self.placed.name = Some(Piece {
                    strict: item.strict.clone(),
                    span: item.span,
                });
            }
        }
        let runs = self.runs();
        let only = runs.len() == 1 && runs[0].len() == 1;
        // `point bracken with slate`: two names are for the strict reading to fault.
        if runs.len() > 1
            && !matches!(self.part, Part::Float | Part::Water)
            && runs[0].len() == 1
            && !self.items.iter().any(Item::is_quantity)
        {
            return Err(Unplaced::Other);
        }
        let several = runs.len() > 1;
        for run in runs {
            let alone = run.len() == 1 && self.items.get(run.end).is_some_and(Item::is_known);
            let alone = alone
                && self
                    .items
                    .get(run.end)
                    .is_some_and(|next| next.kind != Kind::Comma);
            if alone {
                slip::check_joint(self.line, self.items[run.start].span).map_err(Unplaced::Asks)?;
            }
            // `two 20 in lengths`
            let counts = |at: &usize| {
                let word = plain(self.items[*at].span.of(self.line));
                NUMBERS
                    .iter()
                    .any(|(words, count)| *count > 1 && words.contains(&&*word))
            };
            if self.part == Part::Piece && run.clone().any(|at| counts(&at)) {
                return Err(Unplaced::Other);
            }
            let is_told = self.is_place(&run) || self.is_sentence(&run);
            for at in run.clone().filter(|at| self.items[*at].kind == Kind::Free) {
                let next = self.items.get(at + 1).and_then(Item::says);
                // `pheasant tail wth copper wire`
                let word = plain(self.items[at].span.of(self.line));
                let among = at > run.start && at + 1 < run.end && self.part.is_fly();
                let is_with = word.starts_with('w') && snell_units::is_one_slip(&word, "with");
                // `partridge asnd orange`
                let is_and = snell_units::is_one_slip(&word, "and") && next == Some(Says::Colour);
                if among && (is_with || is_and) {
                    slip::check_joint(self.line, self.items[at].span).map_err(Unplaced::Asks)?;
                }
                if self.part.is_line_only() && next == Some(Says::Colour) {
                    slip::check_shade(self.line, self.items[at].span).map_err(Unplaced::Asks)?;
                }
                if !is_told {
                    slip::check(self.line, self.part, self.items[at].span).map_err(Unplaced::Asks)?;
                }
            }
            // What has a hook of its own is no fly of the file's.
            let has_hook = self.part.is_fly() && self.items.iter().any(|item| item.kind == Kind::Hook);
            if only && word_alone && !has_hook {
                // It is placed with the values.
                self.placed.has_free_word = true;
                continue;
            }
            let run = self.without_small_words(run);
            // `something brown` is of that colour, and called nothing.
            if !run.clone().any(|at| self.items[at].kind == Kind::Free) {
                continue;
            }
            let span = self.items[run.start].span.to(self.items[run.end - 1].span);
            self.used[run.clone()].fill(true);
            // A fly line goes by its weight and what follows: `WF7 floating`.
            let weight = run.start.checked_sub(1).filter(|at| {
                self.part == Part::Line && matches!(self.items[*at].kind, Kind::Weight | Kind::Hook)
            });
            let span = weight.map_or(span, |at| self.items[at].span.to(span));
            // `2 ft of 0.20 mm, orange. Greased.`
            let behind_stop = run.start.checked_sub(1).is_some_and(|before| {
                let item = &self.items[before];
                item.kind == Kind::Comma && item.strict == "."
            });
            // `6X, degrease it`
            let first = plain(self.items[run.start].span.of(self.line));
            let bids = run.len() > 1 && OPENING_VERBS.contains(&&*first);
            let is_called = self.part.is_called() && !((behind_stop || bids) && self.part.is_line_only());
            // `dropper bob fly, black palmer #10`
            let is_key = key(&plain(span.of(self.line))).is_some_and(|(_, part)| part.is_fly());
            let names_part = several && is_key && self.part.is_fly();
            if self.placed.name.is_none() && is_called && !names_part {
                self.placed.name = Some(Piece {
                    strict: in_full(span.of(self.line)),
                    span,
                });
            } else {
                let before = run
                    .start
                    .checked_sub(1)
                    .filter(|at| matches!(self.items[*at].kind, Kind::Joining(_)) && !self.used[*at]);
                let start = before.map_or(span.start, |at| self.items[at].span.start);
                self.note(Span::new(start, span.end));
                let wire = |at: usize| plain(self.items[at].span.of(self.line)) == "wire";
                let of_wire = run.clone().any(wire);
                // `orange post`: what is told in words has its colour all the same, but what it is tied with is a wire.
                for at in run {
                    let is_colour = self.part.is_fly() && self.items[at].says() == Some(Says::Colour);
                    self.used[at] = of_wire || !is_colour;
                }
            }
        }
        Ok(())
    }

    /// `Sallow Brook`: several words of a water, each with a capital, are where it is.
    fn is_place(&self, run: &std::ops::Range<usize>) -> bool {
        let is_name = |at: usize| self.items[at].span.of(self.line).starts_with(char::is_uppercase);
        self.part == Part::Water && run.len() > 1 && run.clone().all(is_name)
    }

    /// `tae hold it doon`: whether a run of words holds one that only sentences do.
    fn is_sentence(&self, run: &std::ops::Range<usize>) -> bool {
        let tells = |at: usize| SENTENCE_WORDS.contains(&&*plain(self.items[at].span.of(self.line)));
        run.len() >= FEWEST_SPOKEN && run.clone().any(tells)
    }

    /// A run without the small words at its ends, which are no part of a name and are told in words.
    fn without_small_words(&mut self, mut run: std::ops::Range<usize>) -> std::ops::Range<usize> {
        if !self.part.is_called() || self.part == Part::Rod {
            return run;
        }
        let opening = plain(self.line.trim_start());
        let is_small = |at: usize| {
            let word = plain(self.items[at].span.of(self.line));
            // `leader 9 ft tapered leader`
            let is_key = self.part.is_line_only() && opening.starts_with(&*word);
            let speaks =
                DOINGS.contains(&&*word) || self.part == Part::Piece && SENTENCE_WORDS.contains(&&*word);
            self.items[at].kind == Kind::Free && (SMALL_WORDS.contains(&&*word) || speaks || is_key)
        };
        let does = |at: &usize| DOINGS.contains(&&*plain(self.items[*at].span.of(self.line)));
        let start = run.clone().find(|at| !is_small(*at)).unwrap_or(run.end);
        let doings = (start..run.end).rev().take_while(does).count();
        let end = run.end - doings;
        for at in (run.start..start).chain(end..run.end) {
            self.used[at] = true;
            let span = self.items[at].span;
            if !["a", "an", "the", "w"].contains(&&*plain(span.of(self.line))) {
                self.note(span);
            }
        }
        run.start = start;
        run.end = end;
        run
    }

    /// Runs of free words, with the colours and joining words that stand among them.
    fn runs(&self) -> Vec<std::ops::Range<usize>> {
        let mut runs: Vec<std::ops::Range<usize>> = Vec::new();
        let mut at = 0;
        while at < self.items.len() {
            if self.items[at].kind != Kind::Free || self.used[at] {
                at += 1;
                continue;
            }
            let least = runs.last().map_or(0, |run| run.end);
            let mut start = at;
            while start > least && self.leads_in(start - 1) {
                start -= 1;
            }
            let mut end = at + 1;
            while let Some(next) = self.goes_on(end) {
                end = next;
            }
            runs.push(start..end);
            at = end;
        }
        runs
    }

    /// Whether an item is part of a name that begins right behind it.
    fn leads_in(&self, at: usize) -> bool {
        let of_bead = || {
            let before = at.checked_sub(1).map(|before| &self.items[before]);
            before.is_some_and(|item| matches!(item.kind, Kind::Length(_)) || item.says() == Some(Says::Bead))
        };
        let says = |says| self.items[at].says() == Some(says);
        let colours = says(Says::Colour) && self.part.is_called() && !self.part.is_line_only();
        // `tungsten PT 2.8 mm`: a bead without another material is of this one.
        let makes_bead = says(Says::Bead) && self.part.is_fly() && self.bead_is_made();
        (colours || makes_bead) && !of_bead()
    }

    /// Whether there is no bead, or two words say what it is made of.
    fn bead_is_made(&self) -> bool {
        let is_bead = |item: &Item| matches!(item.kind, Kind::Length(si) if si <= LARGEST_BEAD);
        let made_of = self.items.iter().filter(|item| item.says() == Some(Says::Bead));
        !self.items.iter().any(is_bead) || made_of.count() > 1
    }

    /// Where a name that reaches up to `end` goes on to.
    fn goes_on(&self, end: usize) -> Option<usize> {
        let is_word = |at: usize| {
            let item = self.items.get(at)?;
            let dry = item.strict == "dry" && item.says() == Some(Says::Fly);
            let word = item.kind == Kind::Free
                || item.says() == Some(Says::Colour) && !self.part.is_line_only()
                || dry;
            (word && !self.used[at]).then_some(at + 1)
        };
        let kind = self.items.get(end)?.kind;
        let is_water = self.part == Part::Water;
        let joins =
            kind == Kind::And || matches!(kind, Kind::Joining(joint) if joint == Joint::Of || is_water);
        // `hare's ear and a 4 mm bead`
        let article = self.items.get(end + 1).is_some_and(|next| {
            next.kind == Kind::Free && ["a", "an", "the"].contains(&&*plain(next.span.of(self.line)))
        });
        if joins && article {
            return None;
        }
        if joins { is_word(end + 1) } else { is_word(end) }
    }
}

/// A name without quotes inside, in full where it is written short.
fn in_full(written: &str) -> String {
    let plain = plain(written);
    let full = ABBREVIATIONS.iter().find(|(short, _)| *short == plain);
    full.map_or_else(|| written.replace('"', "'"), |(_, full)| (*full).to_owned())
}
