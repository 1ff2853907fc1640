//! What sits on the line: how many shot, by which number or letters, and where.

use super::atoms::Look;
use super::item::Kind;
use super::phrases::{Row, Says, TRADE};
use super::reader::Reader;
use super::trade::{NUMBERS, Part, SIZE_WORDS, joint};
use std::borrow::Cow;

/// Words behind which stands what a shot or a float lies beside.
const PLACED: &[&str] = &["above", "abv", "below", "from", "up", "under", "off", "over"];

impl Reader<'_> {
    /// `no. 4`, `x 2`, `x2`
    pub(super) fn of_shot(&mut self, word: &str) -> Option<()> {
        // `right above the tippet knot`
        let near = matches!(word, "right" | "just" | "directly" | "close" | "tight");
        if near && self.word(1).is_some_and(|next| PLACED.contains(&&*next)) {
            return self.push_place();
        }
        if word == "x" && self.is_number(1) {
            return self.times(1);
        }
        if let Some(count) = word.strip_prefix('x').filter(|count| count.parse::<u8>().is_ok()) {
            let count = count.to_owned();
            self.push(Kind::Count, 1, Some(count));
            return Some(());
        }
        let counted = NUMBERS.iter().find(|(words, _)| words.contains(&word));
        let is_shot = |next: &str| {
            let named = |row: &&Row| row.says == Says::Shot && row.written.contains(&next);
            TRADE.iter().any(|row| named(&row))
        };
        if let Some((_, count)) = counted
            && self.word(1).is_some_and(|next| is_shot(&next))
        {
            self.push(Kind::Count, 1, Some(count.to_string()));
            return Some(());
        }
        let mut ahead = usize::from(SIZE_WORDS.contains(&word));
        while ahead > 0 && self.sign(ahead, &['.', '°', 'º', '#']) {
            ahead += 1;
        }
        (ahead > 0 && self.is_number(ahead)).then(|| self.shot_number(ahead))?
    }

    /// A shot's number behind so many atoms.
    pub(super) fn shot_number(&mut self, before: usize) -> Option<()> {
        let number = self.get(before).filter(|atom| atom.look == Look::Number)?;
        let written = format!("no {}", self.of(number));
        let row = TRADE
            .iter()
            .find(|row| row.says == Says::Shot && row.written.contains(&&*written))?;
        self.push(Kind::Word(row), before + 1, Some(row.strict.to_owned()));
        Some(())
    }

    /// How many shots: the number behind so many atoms.
    pub(super) fn times(&mut self, before: usize) -> Option<()> {
        let count = self.of(self.get(before)?).to_owned();
        count.parse::<u8>().ok()?;
        self.push(Kind::Count, before + 1, Some(count));
        Some(())
    }

    /// Whether the number here counts what is named behind it: `2 BB`, `2 no. 6`, `3 #4`.
    pub(super) fn counts_shot(&self) -> bool {
        let whole = self
            .get(0)
            .is_some_and(|atom| self.of(atom).parse::<u8>().is_ok());
        let is_shot = |word: Cow<'_, str>| {
            let named = |row: &&Row| row.says == Says::Shot && row.written.contains(&&*word);
            SIZE_WORDS.contains(&&*word) || TRADE.iter().any(|row| named(&row))
        };
        // `1 small shot`
        let is_free = |word: Cow<'_, str>| {
            snell_units::known(&word).is_none() && !matches!(&*word, "x" | "times") && joint(&word).is_none()
        };
        let opens = self.found.is_empty() && !self.get(1).is_some_and(|next| next.glued);
        whole
            && (self.sign(1, &['#']) && self.is_number(2)
                || self.word(1).is_some_and(is_shot)
                // `2, no. 6`
                || self.found.is_empty() && self.sign(1, &[',']) && self.word(2).is_some_and(is_shot)
                || opens && self.word(1).is_some_and(is_free))
    }

    pub(super) fn push_count(&mut self) -> Option<()> {
        let count = self.of(self.get(0)?).to_owned();
        self.push(Kind::Count, 1, Some(count));
        Some(())
    }

    /// `8 in above the point`: where something sits, up to the comma. It is told in words.
    pub(super) fn is_place(&self, ahead: usize) -> bool {
        // `6 in, 18 in up from the anchor`: how long the tag is was said before.
        let has_tag =
            self.part == Part::Dropper && self.found.iter().any(|item| matches!(item.kind, Kind::Length(_)));
        let sits = matches!(self.part, Part::Shot | Part::Float | Part::Ring | Part::Swivel) || has_tag;
        sits && self
            .word(ahead)
            .is_some_and(|word| PLACED.contains(&&*word) || word == "apart")
    }

    pub(super) fn push_place(&mut self) -> Option<()> {
        let rest = &self.atoms[self.at..];
        let length = rest
            .iter()
            .position(|atom| matches!(atom.look, Look::Sign(',' | ';' | '|' | '(' | ')')))
            .unwrap_or(rest.len());
        self.push(Kind::Note, length, None);
        Some(())
    }
}
