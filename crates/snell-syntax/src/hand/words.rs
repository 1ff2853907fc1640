//! Words in a line: those of the trade, those that join values, and free ones.

use super::atoms::{Atom, Look};
use super::item::{Item, Kind};
use super::phrases::{PHRASES, Row, Says, compound_colour, plain};
use super::reader::Reader;
use super::spoken::NEAR;
use super::trade::{ABOUT, LACKED, NUMBERS, Part, QUALITIES, SENTENCE_WORDS, SHADES, SHADES_BEHIND, joint};
use crate::vocabulary::Joint;
use std::borrow::Cow;

impl Reader<'_> {
    /// `…, less at the butt if windy`: a phrase that is a sentence, and shows no figure. How many atoms it is.
    fn spoken(&self) -> Option<usize> {
        // `… so you only lose the bottom one`
        let tells_why =
            |word: Cow<'_, str>| matches!(&*word, "so" | "because" | "since" | "when" | "while" | "if");
        // `12 ft of 10 lb mono is plenty on a short rod`
        let judges = |word: Cow<'_, str>| matches!(&*word, "is" | "was" | "does" | "seems" | "works");
        let is_told_of = self.found.last().is_some_and(Item::is_known);
        let begins = self.found.last().is_some_and(|last| last.kind == Kind::Comma)
            || !self.found.is_empty() && self.word(0).is_some_and(tells_why)
            || is_told_of && self.word(0).is_some_and(judges);
        if !begins {
            return None;
        }
        let rest = &self.atoms[self.at..];
        let length = rest
            .iter()
            .position(|atom| matches!(atom.look, Look::Sign(',' | ';' | '|')))
            .unwrap_or(rest.len());
        let is_word = |atom: &Atom| matches!(atom.look, Look::Word | Look::Sign('.'));
        if length < FEWEST_SPOKEN || !rest[..length].iter().all(is_word) {
            return None;
        }
        // `improved clinch trust me`, `tungsten I think`
        let says_value = self
            .known()
            .is_some_and(|(row, _)| matches!(row.says, Says::Knot | Says::Line | Says::Bead | Says::Bend));
        let is_told = || {
            (0..length.min(NEAR)).any(|at| {
                self.word(at)
                    .is_some_and(|word| SENTENCE_WORDS.contains(&&*word) && word != "not")
            })
        };
        // `leave the long end for the dropper`: of a piece of line nobody tells so much by a name.
        let is_long = || {
            self.part.is_line_only()
                && length >= LONG_REMARK
                && !self.tells(length)
                && (0..length).all(|at| self.word(at).is_none_or(|word| !counts(&word)))
        };
        (!says_value && (is_told() || is_long())).then_some(length)
    }

    pub(super) fn words(&mut self) -> Option<()> {
        let word = self.word(0)?;
        if let Some(words) = self.spoken() {
            self.push(Kind::Note, words, None);
            return Some(());
        }
        // `half orange, half white`, `stiff nylon`
        if self.part.is_line_only()
            && QUALITIES.contains(&&*word)
            && self.known().is_none()
            && !self.is_in_words(0)
            && !self.is_behind_number()
        {
            self.push(Kind::Note, 1, None);
            return Some(());
        }
        if self.verb(&word) {
            return Some(());
        }
        if let Some(words) = self.leads_on(&word) {
            self.push(Kind::Note, words, None);
            return Some(());
        }
        if ABOUT.contains(&&*word) {
            let point = usize::from(self.sign(1, &['.']));
            if self.is_number(1 + point) {
                return self.about(1 + point);
            }
            let at = self.at;
            if self.is_in_words(1 + point) {
                if let Some(done) = self.about(1 + point) {
                    return Some(done);
                }
                self.at = at;
            }
        }
        if let Some(done) = self.in_words() {
            return Some(done);
        }
        // `left from the triple surgeon's knot`
        if word == "from" && self.is_behind_knot() {
            let article = usize::from(self.word(1).is_some_and(|next| matches!(&*next, "a" | "the")));
            self.push(Kind::Joining(Joint::On), 1 + article, None);
            return Some(());
        }
        if let Some(words) = self.aside(&word) {
            self.push(Kind::Note, words, None);
            return Some(());
        }
        if !self.found.is_empty()
            && let Some(words) = self.hedge()
        {
            self.push(Kind::Note, words, None);
            return Some(());
        }
        // `leader 4 ft 6 again`: of what the piece above is made of.
        if word == "again"
            && self.part == Part::Piece
            && self.get(1).is_none()
            && self.found.iter().all(|item| matches!(item.kind, Kind::Length(_)))
            && let Some(row) = PHRASES.get("same again").and_then(|rows| rows.first())
        {
            self.push(Kind::Word(row), 1, Some(row.strict.to_owned()));
            return Some(());
        }
        if let Some(words) = self.tells_none(&word).or_else(|| self.counts_colours(&word)) {
            self.push(Kind::Note, words, None);
            return Some(());
        }
        // `three turn surgeon` is a name of its own.
        if let Some(words) = self.turns().filter(|_| self.known().is_none()) {
            self.push(Kind::Note, words, None);
            return Some(());
        }
        if self.part == Part::Shot
            && let Some(done) = self.of_shot(&word)
        {
            return Some(done);
        }
        // `from 0,45 to 0,18`
        let spans = || {
            let (_, atoms) = self.single(1)?;
            self.word(1 + atoms).filter(|word| word == "to")
        };
        if word == "from" && self.part == Part::Piece && !self.found.is_empty() && spans().is_some() {
            self.at += 1;
            return Some(());
        }
        if word == "x" && !self.atoms[self.at].glued {
            self.at += 1;
            return Some(());
        }
        if let Some(done) = self.size_word() {
            return Some(done);
        }
        let behind = self.word(1).filter(|_| SHADES.contains(&&*word));
        let of_colour = behind
            .as_deref()
            .and_then(|behind| PHRASES.get(behind))
            .into_iter()
            .flatten();
        if let Some(row) = of_colour.into_iter().find(|row| row.says == Says::Colour)
            && self.part.takes(Says::Colour)
        {
            self.push(Kind::Word(row), 2, Some(format!("{word}-{}", row.strict)));
            return Some(());
        }
        if let Some((row, count)) = self.known() {
            // `orange fluo`
            let shade = self
                .word(count)
                .filter(|_| row.says == Says::Colour && count == 1);
            if let Some(shade) = shade.filter(|shade| SHADES_BEHIND.contains(&&**shade)) {
                self.push(Kind::Word(row), 2, Some(format!("{shade}-{}", row.strict)));
                return Some(());
            }
            self.push(Kind::Word(row), count, Some(row.strict.to_owned()));
            return Some(());
        }
        // `line no. 4 floating`
        let point = usize::from(self.sign(1, &['.']));
        if self.part == Part::Line && word == "no" && self.is_number(1 + point) {
            let weight = self.get(1 + point).map_or("", |atom| self.of(atom));
            let weight = format!("#{weight}");
            self.push(Kind::Weight, 2 + point, Some(weight));
            return Some(());
        }
        if let Some((weight, atoms)) = self.fly_line(&word) {
            self.push(Kind::Weight, atoms, Some(format!("#{weight}")));
            return Some(());
        }
        if let Some((row, colours)) = self.colours_in_one(&word) {
            self.push(Kind::Word(row), 1, Some(colours));
            return Some(());
        }
        if let Some(row) = self.shortened(&word) {
            self.push(Kind::Word(row), 1, Some(row.strict.to_owned()));
            return Some(());
        }
        if let Some(row) = compound_colour(&word) {
            self.push(Kind::Word(row), 1, None);
            return Some(());
        }
        let with = word == "w" && self.sign(1, &['/']) && self.get(1)?.glued;
        match (&*word, joint(&word)) {
            ("and" | "plus", _) => self.push(Kind::And, 1, None),
            // `pink n yellow`, `chartreuse over orange`
            ("n" | "over" | "then", _) if self.parts_colours() => {
                self.push(Kind::And, 1, Some("and".to_owned()));
            }
            (_, Some(Joint::With)) if with => self.push(Kind::Joining(Joint::With), 2, None),
            // A word that stands close to a number is a misspelt unit.
            _ if self.is_behind_number() => return None,
            // `pheasant tail w a 2 mm bead`
            ("w", _)
                if self.found.last().is_some_and(|last| last.kind == Kind::Free)
                    && (self.is_article(1) || self.is_number(1)) =>
            {
                self.push(Kind::Joining(Joint::With), 1, None);
            }
            ("w", _) => self.push(Kind::Free, 1, None),
            (_, Some(_))
                if self.found.last().is_some_and(|last| last.kind == Kind::Free) && self.joins_nothing() =>
            {
                self.push(Kind::Free, 1, None);
            }
            (_, Some(joint)) => self.push(Kind::Joining(joint), 1, None),
            _ => self.push(Kind::Free, 1, None),
        }
        Some(())
    }

    /// Whether the word here stands between two colours of a line.
    fn parts_colours(&self) -> bool {
        let behind = self.get(1).map(|atom| plain(self.of(atom)));
        let rows = behind.and_then(|word| PHRASES.get(&*word)).into_iter().flatten();
        self.part.is_line_only()
            && self.found.last().and_then(Item::says) == Some(Says::Colour)
            && rows.into_iter().any(|row| row.says == Says::Colour)
    }

    /// Whether the name of a knot follows, with an article or not.
    fn is_behind_knot(&self) -> bool {
        let article = usize::from(self.word(1).is_some_and(|next| matches!(&*next, "a" | "the")));
        let behind = Self {
            at: self.at + 1 + article,
            found: Vec::new(),
            in_bracket: true,
            ..*self
        };
        behind.at < behind.atoms.len() && behind.known().is_some_and(|(row, _)| row.says == Says::Knot)
    }

    /// `no bead`, `without a tag`, `same knot`: how many words say what a fly or a piece is without, or has as another.
    fn tells_none(&self, word: &str) -> Option<usize> {
        let article = usize::from(
            self.word(1)
                .is_some_and(|next| matches!(&*next, "a" | "any" | "the")),
        );
        let next = self.word(1 + article)?;
        let lacks = matches!(word, "no" | "without") && self.part.is_fly() && LACKED.contains(&&*next);
        // `10 lb mono, same as last time`
        let has_line = self.found.iter().any(|item| item.says() == Some(Says::Line));
        // `tippet same again, 5 ft`: what it is made of.
        let says_stuff = next == "again" && self.part == Part::Piece && !has_line;
        let refers = word == "same" && matches!(&*next, "knot" | "knots" | "again") && !says_stuff;
        if let Some(words) = self.denies(word) {
            return Some(words);
        }
        let is_same =
            word == "same" && next == "as" || word == "the" && next == "same" && self.word(2).is_some();
        if is_same && has_line {
            let end = |atom: &Atom| matches!(atom.look, Look::Sign(_) | Look::Number);
            let rest = &self.atoms[self.at..];
            return Some(rest.iter().position(end).unwrap_or(rest.len()));
        }
        (lacks || refers && article == 0).then_some(2 + article)
    }

    /// `no taper needed`: how many atoms say what a piece of line is not.
    fn denies(&self, word: &str) -> Option<usize> {
        if !matches!(word, "no" | "not" | "without") || !self.part.is_line_only() {
            return None;
        }
        let behind = Self {
            at: self.at + 1,
            found: Vec::new(),
            ..*self
        };
        let denied = || match behind.known() {
            Some((row, _)) => Some(row),
            None => behind.shortened(&behind.word(0)?),
        };
        let says = behind.get(0).and_then(|_| denied())?.says;
        if !matches!(says, Says::Build | Says::Colour | Says::Line | Says::Wire) {
            return None;
        }
        let rest = &self.atoms[self.at..];
        Some(
            rest.iter()
                .position(|atom| atom.look != Look::Word)
                .unwrap_or(rest.len()),
        )
    }

    /// `two colours`, `two-colour`, before the colours themselves or alone.
    fn counts_colours(&self, word: &str) -> Option<usize> {
        if !self.part.is_line_only() || self.known().is_some() {
            return None;
        }
        let coloured = |word: &str| {
            let stem = word.trim_end_matches("ed").trim_end_matches('s');
            matches!(stem, "color" | "colour")
        };
        let counts = |word: &str| matches!(word, "two" | "three" | "bi" | "tri" | "2" | "3");
        match word.split_once('-') {
            Some((number, said)) => (counts(number) && coloured(said)).then_some(1),
            None if counts(word) => self.word(1).filter(|next| coloured(next)).map(|_| 2),
            None => ["bi", "tri"]
                .iter()
                .any(|count| word.strip_prefix(count).is_some_and(coloured))
                .then_some(1),
        }
    }

    /// `red-yellow` on a piece of line: two colours, and no shade of one.
    fn colours_in_one(&self, word: &str) -> Option<(&'static Row, String)> {
        let colour = |word: &str| {
            let rows = PHRASES.get(word)?;
            rows.iter().copied().find(|row| row.says == Says::Colour)
        };
        let (first, second) = word
            .split_once('-')
            .filter(|(first, _)| !SHADES.contains(first))?;
        let (first, second) = (colour(first)?, colour(second)?);
        self.part
            .is_line_only()
            .then(|| (first, format!("{} {}", first.strict, second.strict)))
    }

    /// `tied on with a davy`, `floatant on`
    fn joins_nothing(&self) -> bool {
        let ends = self.get(1).is_none_or(|next| next.look == Look::Sign(','));
        let joins = self
            .word(1)
            .is_some_and(|next| matches!(joint(&next), Some(Joint::With)));
        ends || joins
    }

    pub(super) fn is_behind_number(&self) -> bool {
        let before = self.at.checked_sub(1).map(|before| self.atoms[before].look);
        self.atoms[self.at].glued && before == Some(Look::Number)
    }
}

/// Whether a word is a number.
fn counts(word: &str) -> bool {
    NUMBERS
        .iter()
        .any(|(written, count)| *count > 1 && written.contains(&word))
}

/// So long a phrase is a remark.
const LONG_REMARK: usize = 4;

/// A shorter phrase may be a value that has slipped.
pub(super) const FEWEST_SPOKEN: usize = 3;
