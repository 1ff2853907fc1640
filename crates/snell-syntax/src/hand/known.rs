//! Words and phrases of the trade's table, found in a line: the longest first, and only where one may stand.

use super::abbreviated::{Short, is_whole, short_for};
use super::atoms::Look;
use super::item::Kind;
use super::phrases::{BY_FIRST, PHRASES, Row, Says, plain};
use super::reader::Reader;
use super::trade::{HEDGES, IN_KNOTS, NUMBERS, Part, SIZE_WORDS, TELLS_PACE, joint};
use crate::vocabulary::Joint;
use crate::words::fold;

/// The most words that a row is written with.
const LONGEST: usize = 7;

/// `h16`, `sz14`: the size, which stands close to the word before it.
fn size_in_one(word: &str) -> Option<&str> {
    let digits = word.trim_start_matches(|letter: char| letter.is_alphabetic());
    let said = &word[..word.len() - digits.len()];
    let is_size = digits.len() == 2 && digits.parse::<u8>().is_ok_and(|size| size % 2 == 0 && size <= 28);
    (is_size && ["h", "sz", "size", "hk", "hook", "nr"].contains(&said)).then_some(digits)
}

/// The surgeon's knot of so many turns.
pub(super) fn surgeon_of(turns: &str) -> Option<&'static Row> {
    PHRASES.get(&*format!("{turns} turn surgeon"))?.first().copied()
}

fn in_knot(word: &str) -> &str {
    let word = word.trim_end_matches('.');
    let row = IN_KNOTS.iter().find(|(short, _)| *short == word);
    row.map_or(word, |(_, full)| full)
}

/// Words and signs before the number of a hook: `hook size no. 14` has four.
const MOST_SIZE_WORDS: usize = 8;

impl Reader<'_> {
    /// `size 14`, `sz. 14`, `hook n° 16`: words that only stand before the number of a hook.
    pub(super) fn size_word(&mut self) -> Option<()> {
        if !matches!(self.part, Part::Fly | Part::Dropper | Part::Swivel) {
            return None;
        }
        let in_one = self.word(0).as_deref().and_then(size_in_one).map(str::to_owned);
        if let Some(size) = in_one.filter(|_| self.part.is_fly()) {
            self.push(Kind::Hook, 1, Some(format!("#{size}")));
            return Some(());
        }
        let mut ahead = 0;
        while ahead < MOST_SIZE_WORDS && self.word(ahead).is_some_and(|word| SIZE_WORDS.contains(&&*word)) {
            ahead += 1;
            while self.sign(ahead, &['.', '°', 'º', '#']) {
                ahead += 1;
            }
        }
        if ahead == 0 || !self.is_number(ahead) {
            return None;
        }
        // `n 16 mm` is no size.
        (!self.has_unit(ahead)).then(|| self.hook(ahead))?
    }

    fn has_unit(&self, number: usize) -> bool {
        self.unit(number + 1).is_some()
    }

    /// The row that the words from here on are, and how many they are: the longest.
    pub(super) fn known(&self) -> Option<(&'static Row, usize)> {
        let mut phrase = String::new();
        let mut best = None;
        for count in 0..LONGEST {
            // `3-turn`
            if count == 1 && self.is_number(0) && self.is_hyphen(1) {
                continue;
            }
            let Some(word) = self
                .get(count)
                .filter(|atom| atom.look == Look::Word || atom.look == Look::Number)
            else {
                break;
            };
            if count > 0 {
                phrase.push(' ');
            }
            let said = plain(self.of(word));
            phrase.push_str(in_knot(&said));
            let rows = PHRASES.get(&*phrase).into_iter().flatten();
            let mut fitting = rows.filter(|row| self.part.takes(row.says));
            if let Some(row) = fitting.next().filter(|row| self.may_say(row.says, count + 1)) {
                best = Some((*row, count + 1));
            }
        }
        best.map(|(row, count)| self.with_turns_behind(row, count))
    }

    /// `surgeon knot, three turns`: a knot that goes by how many turns it has, with what says so behind it.
    fn with_turns_behind(&self, row: &'static Row, count: usize) -> (&'static Row, usize) {
        let comma = usize::from(self.sign(count, &[',']));
        let turns = self.word(count + comma + 1);
        let turned = || {
            let number = plain(self.of(self.get(count + comma)?));
            Some((surgeon_of(&number)?, count + comma + 2))
        };
        let says_turns = turns.is_some_and(|word| matches!(&*word, "turn" | "turns"));
        let is_counted = matches!(row.strict, "surgeon" | "water-knot");
        let turned = (is_counted && says_turns).then(turned).flatten();
        turned.unwrap_or((row, count))
    }

    /// The row that a word here is short for: `blk`, `fluor`.
    pub(super) fn shortened(&self, word: &str) -> Option<&'static Row> {
        if is_whole(word) || self.is_behind_number() || joint(word).is_some() {
            return None;
        }
        let may_be_short = |says: Says| {
            matches!(
                says,
                Says::Line
                    | Says::Wire
                    | Says::Bead
                    | Says::Colour
                    | Says::Build
                    | Says::Fly
                    | Says::Bed
                    | Says::Pace
            )
        };
        let takes = |row: &Row| self.part.takes(row.says) && may_be_short(row.says);
        let mut found: Option<&'static Row> = None;
        // What is short for another begins as it does.
        let near = word.get(..1).and_then(|first| BY_FIRST.get(first));
        for row in near.into_iter().flatten().copied().filter(|row| takes(row)) {
            let is_it = row.written.iter().any(|full| match short_for(word, full) {
                Some(Short::Vowels) => true,
                // On a fly it may be a name.
                Some(Short::Cut) => !self.part.is_fly(),
                None => false,
            });
            match found.filter(|_| is_it) {
                // `fluoro` is itself short for `fluorocarbon`.
                Some(other) if row.strict.starts_with(other.strict) => {}
                Some(_) => return None,
                None if is_it => found = Some(row),
                None => {}
            }
        }
        found.filter(|row| self.may_say(row.says, 1))
    }

    /// Whether a hyphen joins what stands before and behind it.
    fn is_hyphen(&self, ahead: usize) -> bool {
        let is_glued = |ahead: usize| self.get(ahead).is_some_and(|atom| atom.glued);
        self.sign(ahead, &['-', '\u{2010}', '\u{2011}']) && is_glued(ahead) && is_glued(ahead + 1)
    }

    /// `5-turn` before the name of a knot that goes by that name alone: how many atoms say how it is tied.
    pub(super) fn turns(&self) -> Option<usize> {
        let turns = |word: &str| matches!(word, "turn" | "turns");
        let word = self.word(0);
        let in_one = word.as_deref().and_then(|word| word.split_once('-'));
        let counts = |word: &str| NUMBERS.iter().any(|(words, _)| words.contains(&word));
        let count = match (in_one, self.is_number(0)) {
            (Some((number, said)), _) if counts(number) && turns(said) => 1,
            (None, true) if self.is_hyphen(1) && self.word(2).is_some_and(|word| turns(&word)) => 3,
            (None, is_number) if is_number || word.as_deref().is_some_and(counts) => {
                self.word(1).is_some_and(|word| turns(&word)).then_some(2)?
            }
            (Some(_) | None, _) => return None,
        };
        let behind = Self {
            at: self.at + count,
            found: Vec::new(),
            in_bracket: true,
            ..*self
        };
        behind
            .known()
            .is_some_and(|(row, _)| row.says == Says::Knot)
            .then_some(count)
    }

    /// `or so`, `I think`: how many atoms say that a value is not sure.
    pub(super) fn hedge(&self) -> Option<usize> {
        let first = self.word(0)?;
        let mut near = HEDGES.iter().filter(|hedge| hedge.starts_with(&*first));
        near.find_map(|hedge| {
            let mut words = hedge.split(' ').enumerate();
            let is_here = words.all(|(at, word)| self.word(at).as_deref() == Some(word));
            is_here.then(|| hedge.split(' ').count())
        })
    }

    /// Where a name of the file's own may stand, a word of the table is one. `count` is how many words it is.
    fn may_say(&self, says: Says, count: usize) -> bool {
        let last = self.found.last().map(|item| item.kind);
        match says {
            // `dropper 6 in of the same`: elsewhere on a fly it points at who knows what.
            Says::Line if self.part.is_fly() && self.word(count - 1).is_some_and(|word| word == "same") => {
                last == Some(Kind::Joining(Joint::Of))
            }
            Says::Knot if self.part == Part::Knot || self.in_bracket => true,
            Says::Knot => match last {
                Some(Kind::Joining(joint)) => matches!(joint, Joint::On | Joint::With),
                last => last.is_some(),
            },
            Says::Extent => matches!(last, Some(Kind::Length(_))),
            Says::OfWater => {
                let next_is_number = self.get(count).is_some_and(|next| next.look == Look::Number);
                next_is_number || matches!(last, Some(Kind::Length(_) | Kind::Speed | Kind::Word(_)))
            }
            Says::Bed => last.is_some() || self.part == Part::Bed,
            // `fast pocket water` is a name.
            Says::Pace => match self.get(count) {
                None => last.is_some() || self.tells_pace(),
                Some(next) => match next.look {
                    Look::Sign(_) => true,
                    // `slow and clear`
                    Look::Word => {
                        let next = fold(self.of(next));
                        last.is_some() && (next == "and" || joint(&next).is_some())
                    }
                    Look::Number | Look::Text(_) => last.is_some(),
                },
            },
            Says::Line
            | Says::Wire
            | Says::Bead
            | Says::Colour
            | Says::Build
            | Says::Fly
            | Says::Slotted
            | Says::Swivel
            | Says::Which
            | Says::Shot
            | Says::Depth
            | Says::Trim
            | Says::Bend
            | Says::Filler
            | Says::OfReel => true,
        }
    }

    /// `flow: medium`
    fn tells_pace(&self) -> bool {
        let opens = fold(self.line.trim_start());
        TELLS_PACE.iter().any(|key| opens.starts_with(key))
    }

    /// `WF7`, `WF 7`: a fly line by its weight, and how many atoms say so.
    pub(super) fn fly_line(&self, word: &str) -> Option<(u32, usize)> {
        if self.part != Part::Line {
            return None;
        }
        let digits = word.trim_start_matches(|c: char| c.is_ascii_alphabetic());
        let letters = &word[..word.len() - digits.len()];
        let apart = self
            .get(1)
            .filter(|next| digits.is_empty() && next.look == Look::Number);
        let digits = apart.map_or(digits, |next| self.of(next));
        let weight: u32 = digits
            .trim_end_matches(|c: char| c.is_ascii_alphabetic())
            .parse()
            .ok()?;
        let atoms = 1 + usize::from(apart.is_some());
        (["wf", "dt", "l", "st", "tt"].contains(&letters) && weight <= 15).then_some((weight, atoms))
    }
}
