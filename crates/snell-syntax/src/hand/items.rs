//! What the atoms of a line say, each told by its look: a length, a size, a colour, a knot, or a free word.

use super::atoms::{Atom, Look};
use super::item::{Item, Kind};
use super::opening::is_full_stop;
use super::phrases::{PHRASES, Row, Says, compound_colour, plain};
use super::slip;
use super::trade::{ABOUT, NUMBERS, Part, SENTENCE_WORDS, SHADES, SHADES_BEHIND, joint};
use crate::vocabulary::Joint;
use crate::words::fold;

/// Reads the atoms of a line whose key says which values it takes. Nothing where a sign has no sense here.
pub(super) fn items(line: &str, atoms: &[Atom], part: Part) -> Option<Vec<Item>> {
    read(line, atoms, part, false)
}

/// The same of what a bracket holds, where the name of a knot needs nothing before it.
fn within_bracket(line: &str, atoms: &[Atom], part: Part) -> Option<Vec<Item>> {
    read(line, atoms, part, true)
}

fn read(line: &str, atoms: &[Atom], part: Part, in_bracket: bool) -> Option<Vec<Item>> {
    let mut reader = Reader {
        line,
        atoms,
        at: 0,
        part,
        in_bracket,
        found: Vec::new(),
    };
    while reader.at < atoms.len() {
        reader.item()?;
    }
    let mut found = reader.found;
    hook_by_number(&mut found, part);
    part_by_plus(&mut found);
    Some(found)
}

/// `4 ft + 5X fluoro`: what cannot be put together is parted.
fn part_by_plus(found: &mut [Item]) {
    for at in 1..found.len().saturating_sub(1) {
        let (before, behind) = (&found[at - 1], &found[at + 1]);
        let lengths = [before, behind].map(|item| matches!(item.kind, Kind::Length(_)));
        let says = before.is_quantity()
            || matches!(
                before.says(),
                Some(Says::Line | Says::Bead | Says::Build | Says::Knot)
            );
        let value = matches!(behind.kind, Kind::Free | Kind::Word(_)) || behind.is_quantity();
        if found[at].kind == Kind::And && says && value && lengths != [true, true] {
            found[at].kind = Kind::Comma;
        }
    }
}

/// A plain number on a fly that shows no other hook is its size: `16 perdigon`.
fn hook_by_number(found: &mut [Item], part: Part) {
    let bare = |item: &Item| item.kind == Kind::Bare;
    let has_hook = found.iter().any(|item| item.kind == Kind::Hook);
    if !part.is_fly() || has_hook || found.iter().filter(|item| bare(item)).count() != 1 {
        return;
    }
    // Hooks go by even numbers. Source: common practice, no source.
    let size = |written: &str| {
        written
            .parse::<u8>()
            .is_ok_and(|size| size % 2 == 0 && (4..=28).contains(&size))
    };
    if let Some(item) = found.iter_mut().find(|item| bare(item) && size(&item.strict)) {
        item.kind = Kind::Hook;
        item.strict = format!("#{}", item.strict);
    }
}

pub(super) struct Reader<'a> {
    pub(super) line: &'a str,
    pub(super) atoms: &'a [Atom],
    pub(super) at: usize,
    pub(super) part: Part,
    pub(super) in_bracket: bool,
    pub(super) found: Vec<Item>,
}

impl<'a> Reader<'a> {
    pub(super) fn of(&self, atom: Atom) -> &'a str {
        atom.span.of(self.line)
    }

    pub(super) fn get(&self, ahead: usize) -> Option<Atom> {
        self.atoms.get(self.at + ahead).copied()
    }

    pub(super) fn sign(&self, ahead: usize, signs: &[char]) -> bool {
        matches!(self.get(ahead), Some(Atom { look: Look::Sign(sign), .. }) if signs.contains(&sign))
    }

    pub(super) fn word(&self, ahead: usize) -> Option<String> {
        let atom = self.get(ahead).filter(|atom| atom.look == Look::Word)?;
        Some(fold(self.of(atom)))
    }

    pub(super) fn is_number(&self, ahead: usize) -> bool {
        self.get(ahead).is_some_and(|atom| atom.look == Look::Number)
    }

    pub(super) fn push(&mut self, kind: Kind, atoms: usize, strict: Option<String>) {
        let (first, last) = (self.atoms[self.at], self.atoms[self.at + atoms - 1]);
        let span = first.span.to(last.span);
        self.found.push(Item {
            kind,
            span,
            strict: strict.unwrap_or_else(|| span.of(self.line).to_owned()),
            about: false,
        });
        self.at += atoms;
    }

    fn item(&mut self) -> Option<()> {
        let atom = self.atoms[self.at];
        match atom.look {
            Look::Number => self.quantity(),
            Look::Text(inner) => {
                self.push(Kind::Text, 1, Some(inner.of(self.line).trim().to_owned()));
                Some(())
            }
            Look::Word => self.words(),
            Look::Sign(sign) => self.signs(sign),
        }
    }

    fn signs(&mut self, sign: char) -> Option<()> {
        match sign {
            '#' if self.part == Part::Shot => return self.shot_number(1),
            '#' => return self.hook(1),
            '(' | '[' => return self.bracket(),
            '~' if self.is_number(1) => return self.about(1),
            ',' | ';' | '|' => self.push(Kind::Comma, 1, None),
            // `bob flj:` is a key that has slipped.
            ':' if self.part.is_fly()
                && matches!(self.found.as_slice(), [only] if only.kind == Kind::Free) =>
            {
                return None;
            }
            ':' if self.at > 0 => self.push(Kind::Comma, 1, None),
            // Between spaces: close to a number it would be a minus.
            '-' | '–' | '—' if !self.atoms[self.at].glued && self.get(1).is_some_and(|next| !next.glued) =>
            {
                self.push(Kind::Comma, 1, None);
            }
            // Between spaces it parts phrases, and colours as well.
            '/' if !self.atoms[self.at].glued
                && self.get(1).is_some_and(|next| !next.glued)
                && self.word(1).is_none_or(|word| joint(&word).is_none()) =>
            {
                self.push(Kind::Comma, 1, None);
            }
            '+' | '&' | '/' => self.push(Kind::And, 1, None),
            '@' => self.push(Kind::Joining(Joint::At), 1, None),
            '×' | '*' if self.part == Part::Shot && self.is_number(1) => return self.times(1),
            '×' | '*' => self.at += 1,
            // `2.5 mm?`
            '?' if self.atoms[self.at].glued => {
                self.found.last_mut()?.about = true;
                self.at += 1;
            }
            '.' if self.at + 1 == self.atoms.len() => self.at += 1,
            '.' if is_full_stop(self.atoms, self.at) => self.push(Kind::Comma, 1, None),
            _ => return None,
        }
        Some(())
    }

    /// A bracket holds values where all of it is known, else it is a note.
    fn bracket(&mut self) -> Option<()> {
        let mut depth = 0;
        let close = (self.at..self.atoms.len()).find(|at| {
            match self.atoms[*at].look {
                Look::Sign('(' | '[') => depth += 1,
                Look::Sign(')' | ']') => depth -= 1,
                Look::Number | Look::Word | Look::Text(_) | Look::Sign(_) => {}
            }
            depth == 0
        })?;
        let inner = &self.atoms[self.at + 1..close];
        let (first, last) = (inner.first()?, inner.last()?);
        let span = first.span.to(last.span);
        let known = within_bracket(self.line, inner, self.part).filter(|items| {
            // A word among values that is none may be a slip of one, which is asked; among other words it is prose.
            let free = items.iter().filter(|item| !item.is_known()).count();
            let words = items.iter().filter(|item| item.says().is_some()).count();
            let slips = |item: &Item| {
                item.kind == Kind::Free && slip::check(self.line, self.part, item.span).is_err()
            };
            let one_slips = words > 0 && items.iter().any(slips);
            free == 0
                || (free == 1 || one_slips)
                    && words > 0
                    && items
                        .iter()
                        .all(|item| item.is_known() || item.kind == Kind::Free)
        });
        let known = known.filter(|items| !says_again(self.found.last(), items));
        match known {
            Some(items) => {
                self.found.extend(items);
                // No name reaches out of the bracket.
                self.at = close;
                self.push(Kind::Comma, 1, None);
                return Some(());
            }
            None => self.found.push(Item {
                kind: Kind::Note,
                span,
                strict: span.of(self.line).to_owned(),
                about: false,
            }),
        }
        self.at = close + 1;
        Some(())
    }

    fn about(&mut self, words: usize) -> Option<()> {
        let before = self.found.len();
        self.at += words;
        self.quantity()?;
        if let Some(item) = self.found.get_mut(before) {
            item.about = true;
        }
        Some(())
    }

    /// A size: the number behind so many atoms.
    pub(super) fn hook(&mut self, before: usize) -> Option<()> {
        let digits = self.get(before).filter(|atom| atom.look == Look::Number)?;
        let size = self.of(digits);
        let (whole, zero) = size.split_once('/').unwrap_or((size, "0"));
        if zero != "0" || !whole.bytes().all(|byte| byte.is_ascii_digit()) {
            return None;
        }
        self.push(Kind::Hook, before + 1, Some(format!("#{size}")));
        Some(())
    }

    /// `…, less at the butt if windy`: a phrase that is a sentence, and shows no figure. How many atoms it is.
    fn spoken(&self) -> Option<usize> {
        let begins = self.found.last().is_some_and(|last| last.kind == Kind::Comma);
        let rest = &self.atoms[self.at..];
        let length = rest
            .iter()
            .position(|atom| matches!(atom.look, Look::Sign(',' | ';' | '|')))
            .unwrap_or(rest.len());
        let is_word = |atom: &Atom| matches!(atom.look, Look::Word | Look::Sign('.'));
        let is_told = (0..length).any(|at| {
            self.word(at)
                .is_some_and(|word| SENTENCE_WORDS.contains(&&*word) && word != "not")
        });
        let are_words = rest[..length].iter().all(is_word);
        // `leave the long end for the dropper`: of a piece of line nobody tells so much by a name.
        let is_long = self.part.is_line_only()
            && length >= LONG_REMARK
            && !self.tells(length)
            && (0..length).all(|at| self.word(at).is_none_or(|word| !counts(&word)));
        (begins && length >= FEWEST_SPOKEN && are_words && (is_told || is_long)).then_some(length)
    }

    fn words(&mut self) -> Option<()> {
        let word = self.word(0)?;
        if let Some(words) = self.spoken() {
            self.push(Kind::Note, words, None);
            return Some(());
        }
        if ABOUT.contains(&&*word) {
            let point = usize::from(self.sign(1, &['.']));
            if self.is_number(1 + point) {
                return self.about(1 + point);
            }
        }
        if let Some(done) = self.length_in_words() {
            return Some(done);
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
        // `left from the triple surgeon's knot`
        if word == "from" && self.is_behind_knot() {
            let article = usize::from(self.word(1).is_some_and(|next| matches!(&*next, "a" | "the")));
            self.push(Kind::Joining(Joint::On), 1 + article, None);
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
        if let Some(weight) = self.fly_line(&word) {
            self.push(Kind::Weight, 1, Some(format!("#{weight}")));
            return Some(());
        }
        if let Some((row, colours)) = self.colours_in_one(&word) {
            self.push(Kind::Word(row), 1, Some(colours));
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
        let refers = word == "same" && matches!(&*next, "knot" | "knots" | "again");
        (lacks || refers && article == 0).then_some(2 + article)
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
        let (first, second) = word.split_once('-')?;
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

    fn is_behind_number(&self) -> bool {
        let before = self.at.checked_sub(1).map(|before| self.atoms[before].look);
        self.atoms[self.at].glued && before == Some(Look::Number)
    }
}

/// What a fly is told to be without.
const LACKED: &[&str] = &["bead", "beads", "beadhead", "tag", "weight", "lead", "flash"];

/// `15 ft (4.5 m)`: the length before it in another unit, as near as people round.
fn says_again(before: Option<&Item>, within: &[Item]) -> bool {
    const ROUNDED: f64 = 0.05;
    let length = |item: &Item| {
        if let Kind::Length(si) = item.kind {
            Some(si)
        } else {
            None
        }
    };
    let [only] = within else { return false };
    let said = before.and_then(length).zip(length(only));
    said.is_some_and(|(said, again)| (said - again).abs() <= ROUNDED * said)
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

impl Part {
    /// Whether it is a piece of line, or may say of what its tag is.
    pub(super) const fn is_line(self) -> bool {
        matches!(self, Self::Piece | Self::Line | Self::Dropper)
    }
}
