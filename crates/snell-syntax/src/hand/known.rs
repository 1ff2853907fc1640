//! Words and phrases of the trade's table, found in a line: the longest first, and only where one may stand.

use super::atoms::Look;
use super::item::Kind;
use super::items::Reader;
use super::phrases::{PHRASES, Row, Says, plain};
use super::trade::{Part, SIZE_WORDS, joint};
use crate::vocabulary::Joint;
use crate::words::fold;

/// The most words that a row is written with.
const LONGEST: usize = 6;

impl Reader<'_> {
    /// `size 14`, `sz. 14`, `hook n° 16`: words that only stand before the number of a hook.
    pub(super) fn size_word(&mut self) -> Option<()> {
        if !matches!(self.part, Part::Fly | Part::Dropper) {
            return None;
        }
        let mut ahead = 0;
        while self.word(ahead).is_some_and(|word| SIZE_WORDS.contains(&&*word)) {
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
            let Some(word) = self
                .get(count)
                .filter(|atom| atom.look == Look::Word || atom.look == Look::Number)
            else {
                break;
            };
            if count > 0 {
                phrase.push(' ');
            }
            phrase.push_str(&plain(self.of(word)));
            let rows = PHRASES.get(&*phrase).into_iter().flatten();
            let mut fitting = rows.filter(|row| self.part.takes(row.says));
            if let Some(row) = fitting.next().filter(|row| self.may_say(row.says, count + 1)) {
                best = Some((*row, count + 1));
            }
        }
        best
    }

    /// Where a name of the file's own may stand, a word of the table is one. `count` is how many words it is.
    fn may_say(&self, says: Says, count: usize) -> bool {
        let last = self.found.last().map(|item| item.kind);
        match says {
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
                None => last.is_some(),
                Some(next) => match next.look {
                    Look::Sign(_) => true,
                    Look::Word => last.is_some() && joint(&fold(self.of(next))).is_some(),
                    Look::Number | Look::Text(_) => last.is_some(),
                },
            },
            _ => true,
        }
    }

    /// `WF7`: a fly line by its weight.
    pub(super) fn fly_line(&self, word: &str) -> Option<u32> {
        if self.part != Part::Line {
            return None;
        }
        let digits = word.trim_start_matches(|c: char| c.is_ascii_alphabetic());
        let letters = &word[..word.len() - digits.len()];
        let weight: u32 = digits
            .trim_end_matches(|c: char| c.is_ascii_alphabetic())
            .parse()
            .ok()?;
        (["wf", "dt", "l", "st", "tt"].contains(&letters) && weight <= 15).then_some(weight)
    }
}
