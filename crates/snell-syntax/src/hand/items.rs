//! What the atoms of a line say, each told by its look: a length, a size, a colour, a knot, or a free word.

use super::atoms::{Atom, Look};
use super::trade::{ABOUT, Part, Row, SHADES, SIZE_WORDS, Says, TRADE, joint};
use crate::number::number;
use crate::vocabulary::Joint;
use crate::words::fold;
use rustc_hash::FxHashMap;
use snell_text::Span;
use snell_units::Dimension;
use std::sync::LazyLock;

/// What an item is.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(super) enum Kind {
    /// In metres; of a spread the larger end.
    Length(f64),
    /// An X size, or two.
    X,
    /// Hundredths of a millimetre, or a bare figure that only millimetres can be.
    Hundredths,
    /// A strength, or a mass; in kg.
    Mass(f64),
    Speed,
    /// `5 wt`
    Weight,
    /// `#14`
    Hook,
    /// `2 x`
    Count,
    /// A number without a unit.
    Bare,
    Word(&'static Row),
    /// A word that the trade's table does not hold.
    Free,
    /// A name, quoted.
    Text,
    Joining(Joint),
    /// `and`, `+`, `/`, `&`
    And,
    /// What stands in brackets, and says nothing of the tables.
    Note,
    /// It parts phrases.
    Comma,
}

/// A stretch of a line with what it says.
#[derive(Clone, Debug)]
pub(super) struct Item {
    pub(super) kind: Kind,
    pub(super) span: Span,
    /// As the strict line has it.
    pub(super) strict: String,
    /// Whether it is said to be about right only.
    pub(super) about: bool,
}

type Phrases = FxHashMap<&'static str, Vec<&'static Row>>;

/// The rows by how they are written.
static PHRASES: LazyLock<Phrases> = LazyLock::new(|| {
    let mut phrases = Phrases::default();
    for row in TRADE {
        for written in row.written {
            phrases.entry(*written).or_default().push(row);
        }
    }
    phrases
});

/// The most words that a row is written with.
const LONGEST: usize = 4;

/// A word or phrase as the tables have it: lower case, plain apostrophes, spaces for hyphens.
pub(super) fn plain(written: &str) -> String {
    fold(written).replace('’', "'").replace('-', " ")
}

/// Reads the atoms of a line whose key says which values it takes. Nothing where a sign has no sense here.
pub(super) fn items(line: &str, atoms: &[Atom], part: Part) -> Option<Vec<Item>> {
    let mut reader = Reader { line, atoms, at: 0, part, found: Vec::new() };
    while reader.at < atoms.len() {
        reader.item()?;
    }
    Some(reader.found)
}

struct Reader<'a> {
    line: &'a str,
    atoms: &'a [Atom],
    at: usize,
    part: Part,
    found: Vec<Item>,
}

impl<'a> Reader<'a> {
    fn of(&self, atom: Atom) -> &'a str {
        atom.span.of(self.line)
    }

    fn get(&self, ahead: usize) -> Option<Atom> {
        self.atoms.get(self.at + ahead).copied()
    }

    fn sign(&self, ahead: usize, signs: &[char]) -> bool {
        matches!(self.get(ahead), Some(Atom { look: Look::Sign(sign), .. }) if signs.contains(&sign))
    }

    fn word(&self, ahead: usize) -> Option<String> {
        let atom = self.get(ahead).filter(|atom| atom.look == Look::Word)?;
        Some(fold(self.of(atom)))
    }

    fn is_number(&self, ahead: usize) -> bool {
        self.get(ahead).is_some_and(|atom| atom.look == Look::Number)
    }

    fn push(&mut self, kind: Kind, atoms: usize, strict: Option<String>) {
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
            '#' => return self.hook(1),
            '(' => return self.bracket(),
            '~' if self.is_number(1) => return self.about(1),
            ',' | ';' | '|' => self.push(Kind::Comma, 1, None),
            // Between spaces: close to a number it would be a minus.
            '-' | '–' | '—' if !self.atoms[self.at].glued && self.get(1).is_some_and(|next| !next.glued) => {
                self.push(Kind::Comma, 1, None);
            }
            '+' | '&' | '/' => self.push(Kind::And, 1, None),
            '@' => self.push(Kind::Joining(Joint::At), 1, None),
            '×' | '*' => self.at += 1,
            '.' if self.at + 1 == self.atoms.len() => self.at += 1,
            _ => return None,
        }
        Some(())
    }

    /// A bracket holds values where all of it is known, else it is a note.
    fn bracket(&mut self) -> Option<()> {
        let mut depth = 0;
        let close = (self.at..self.atoms.len()).find(|at| {
            match self.atoms[*at].look {
                Look::Sign('(') => depth += 1,
                Look::Sign(')') => depth -= 1,
                Look::Number | Look::Word | Look::Text(_) | Look::Sign(_) => {}
            }
            depth == 0
        })?;
        let inner = &self.atoms[self.at + 1..close];
        let (first, last) = (inner.first()?, inner.last()?);
        let span = first.span.to(last.span);
        let known = items(self.line, inner, self.part).filter(|items| items.iter().all(|item| item.is_known()));
        match known {
            Some(items) => self.found.extend(items),
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
    fn hook(&mut self, before: usize) -> Option<()> {
        let digits = self.get(before).filter(|atom| atom.look == Look::Number)?;
        let size = self.of(digits);
        let (whole, zero) = size.split_once('/').unwrap_or((size, "0"));
        if zero != "0" || !whole.bytes().all(|byte| byte.is_ascii_digit()) {
            return None;
        }
        self.push(Kind::Hook, before + 1, Some(format!("#{size}")));
        Some(())
    }

    fn words(&mut self) -> Option<()> {
        let word = self.word(0)?;
        if ABOUT.contains(&&*word) {
            let point = usize::from(self.sign(1, &['.']));
            if self.is_number(1 + point) {
                return self.about(1 + point);
            }
        }
        if word == "x" && !self.atoms[self.at].glued {
            self.at += 1;
            return Some(());
        }
        if let Some(done) = self.size_word() {
            return Some(done);
        }
        let behind = self.word(1).filter(|_| SHADES.contains(&&*word));
        let of_colour = behind.as_deref().and_then(|behind| PHRASES.get(behind)).into_iter().flatten();
        if let Some(row) = of_colour.into_iter().find(|row| row.says == Says::Colour) {
            if self.part.takes(Says::Colour) {
                self.push(Kind::Word(row), 2, Some(format!("{word}-{}", row.strict)));
                return Some(());
            }
        }
        if let Some((row, count)) = self.known() {
            self.push(Kind::Word(row), count, Some(row.strict.to_owned()));
            return Some(());
        }
        if let Some(weight) = self.fly_line(&word) {
            self.push(Kind::Weight, 1, Some(format!("#{weight}")));
            return Some(());
        }
        if let Some(row) = compound_colour(&word) {
            self.push(Kind::Word(row), 1, None);
            return Some(());
        }
        let with = word == "w" && self.sign(1, &['/']) && self.get(1)?.glued;
        match (&*word, joint(&word)) {
            ("and" | "plus", _) => self.push(Kind::And, 1, None),
            (_, Some(Joint::With)) if with => self.push(Kind::Joining(Joint::With), 2, None),
            ("w", _) => self.push(Kind::Free, 1, None),
            (_, Some(joint)) => self.push(Kind::Joining(joint), 1, None),
            _ => {
                self.push(Kind::Free, 1, None);
            }
        }
        Some(())
    }

    /// `size 14`, `sz. 14`, `hook n° 16`: words that only stand before the number of a hook.
    fn size_word(&mut self) -> Option<()> {
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
    fn known(&self) -> Option<(&'static Row, usize)> {
        let mut phrase = String::new();
        let mut best = None;
        for count in 0..LONGEST {
            let Some(word) = self.get(count).filter(|atom| atom.look == Look::Word || atom.look == Look::Number) else {
                break;
            };
            if count > 0 {
                phrase.push(' ');
            }
            phrase.push_str(&plain(self.of(word)));
            let rows = PHRASES.get(&*phrase).into_iter().flatten();
            let mut fitting = rows.filter(|row| self.part.takes(row.says));
            if let Some(row) = fitting.next().filter(|row| self.may_say(row.says)) {
                best = Some((*row, count + 1));
            }
        }
        best
    }

    /// Where a name of the file's own may stand, a word of the table is one.
    fn may_say(&self, says: Says) -> bool {
        let last = self.found.last().map(|item| item.kind);
        match says {
            Says::Knot => match last {
                Some(Kind::Joining(joint)) => joint == Joint::On,
                last => last.is_some(),
            },
            Says::Bed => last.is_some(),
            _ => true,
        }
    }

    /// `WF7`: a fly line by its weight.
    fn fly_line(&self, word: &str) -> Option<u32> {
        if self.part != Part::Line {
            return None;
        }
        let digits = word.trim_start_matches(|c: char| c.is_ascii_alphabetic());
        let letters = &word[..word.len() - digits.len()];
        let weight: u32 = digits.trim_end_matches(|c: char| c.is_ascii_alphabetic()).parse().ok()?;
        (["wf", "dt", "l", "st", "tt"].contains(&letters) && weight <= 15).then_some(weight)
    }
}

/// `dark-olive`: a compound that ends in a colour.
fn compound_colour(word: &str) -> Option<&'static Row> {
    let (_, last) = word.rsplit_once('-')?;
    let rows = PHRASES.get(last)?;
    rows.iter().copied().find(|row| row.says == Says::Colour)
}

/// A unit behind a number: how many atoms it takes, what it measures, and its factor.
struct Unit {
    atoms: usize,
    plain: String,
    dimension: Dimension,
    factor: f64,
}

impl Reader<'_> {
    /// The unit that stands so far ahead.
    fn unit(&self, ahead: usize) -> Option<Unit> {
        let atom = self.get(ahead)?;
        let word = match atom.look {
            Look::Word => self.of(atom).to_owned(),
            Look::Sign(sign) if atom.glued => match sign {
                '"' | '”' | '“' | '″' => "in".to_owned(),
                '\'' | '’' | '‘' | '′' if !self.sign(ahead + 1, &['\'', '’', '′']) => "ft".to_owned(),
                _ => return None,
            },
            Look::Sign(_) | Look::Number | Look::Text(_) => return None,
        };
        let over = self.sign(ahead + 1, &['/']) && self.get(ahead + 1)?.glued;
        let below = self.get(ahead + 2).filter(|below| over && below.look == Look::Word && below.glued);
        let whole = below.map(|below| format!("{word}/{}", self.of(below)));
        let known = |written: &str| snell_units::resolve(written).ok();
        let (unit, atoms) = match whole.as_deref().and_then(known) {
            Some(unit) => (unit, 3),
            None => (known(&word)?, 1),
        };
        // `5 in 6X` is no length in inches.
        Some(Unit {
            atoms,
            plain: unit.plain.to_string(),
            dimension: unit.dimension,
            factor: unit.factor,
        })
    }

    fn value(&self, ahead: usize) -> Option<f64> {
        let atom = self.get(ahead).filter(|atom| atom.look == Look::Number)?;
        let number = number(self.of(atom), atom.span).ok()?;
        (!number.doubtful).then_some(number.value)
    }

    /// A quantity, or a spread of two.
    fn quantity(&mut self) -> Option<()> {
        if let Some((row, count)) = self.known() {
            self.push(Kind::Word(row), count, Some(row.strict.to_owned()));
            return Some(());
        }
        let (first, count) = self.single(0)?;
        if matches!(first.0, Kind::Hook | Kind::Count) {
            self.push(first.0, count, Some(first.1));
            return Some(());
        }
        let dash = self.sign(count, &['-', '–', '—']);
        let to = self.word(count).is_some_and(|word| word == "to") || dash;
        let second = to.then(|| self.is_number(count + 1).then(|| self.single(count + 1))).flatten();
        let Some(Some((second, more))) = second else {
            self.push(first.0, count, Some(first.1));
            return Some(());
        };
        let whole = count + 1 + more;
        let kind = match (first.0, second.0) {
            // `6 to 2 ft` has lost a unit.
            (Kind::Bare, Kind::Length(_) | Kind::Speed) if self.value(0)? > self.value(count + 1)? => return None,
            (Kind::Bare, kind @ (Kind::Length(_) | Kind::Speed)) => kind,
            (Kind::Length(low), Kind::Length(high)) => {
                // A dash between two lengths where the second is the less takes one from the other.
                let apart = dash && !self.get(count)?.glued;
                let of_water = self.part == Part::Water && high > low;
                if apart && !of_water {
                    return None;
                }
                Kind::Length(low.max(high))
            }
            (Kind::X, Kind::X) | (Kind::Bare, Kind::X) => Kind::X,
            (Kind::Speed, Kind::Speed) => Kind::Speed,
            (Kind::Hundredths, Kind::Hundredths) => Kind::Hundredths,
            _ => return None,
        };
        let strict = format!("{} to {}", first.1, second.1);
        // What is written close stays so: `2-3 ft`, `5X-7X`.
        let close = dash && self.get(count)?.glued;
        let written = self.atoms[self.at].span.to(self.atoms[self.at + whole - 1].span);
        let strict = if close && kind != Kind::Hundredths {
            written.of(self.line).to_owned()
        } else {
            strict
        };
        self.push(kind, whole, Some(strict));
        Some(())
    }

    /// One quantity that begins so far ahead, as the strict line has it, and how many atoms it takes.
    fn single(&self, ahead: usize) -> Option<((Kind, String), usize)> {
        let atom = self.get(ahead)?;
        let written = self.of(atom);
        let until = |atoms: usize| atom.span.to(self.atoms[self.at + ahead + atoms - 1].span);
        let glued = |ahead: usize| self.get(ahead).is_some_and(|atom| atom.glued);
        let next = self.word(ahead + 1);

        // `5X`, `2/0X`
        if next.as_deref() == Some("x") && glued(ahead + 1) {
            if glued(ahead + 2) && self.is_number(ahead + 2) {
                return None;
            }
            let thick = written.strip_suffix("/0").and_then(|whole| whole.parse::<usize>().ok());
            let strict = match thick {
                Some(zeros) if zeros <= 6 => format!("{}X", "0".repeat(zeros)),
                Some(_) => return None,
                None => until(2).of(self.line).to_owned(),
            };
            return Some(((Kind::X, strict), 2));
        }
        // `2 x BB`
        if next.as_deref() == Some("x") && self.part == Part::Shot {
            return Some(((Kind::Count, written.to_owned()), 2));
        }
        // `20#`
        if self.sign(ahead + 1, &['#']) && glued(ahead + 1) && !self.is_number(ahead + 2) {
            let value = self.value(ahead)?;
            return Some(((Kind::Mass(value * POUND), format!("{written} lb")), 2));
        }
        // `12/100`
        if let Some(hundredths) = written.strip_suffix("/100").filter(|_| self.part.is_line()) {
            let value: f64 = hundredths.parse().ok()?;
            return Some(((Kind::Hundredths, format!("{} mm", value / 100.0)), 1));
        }
        if let Some(unit) = self.unit(ahead + 1) {
            return self.with_unit(ahead, &unit);
        }
        let value = self.value(ahead)?;
        let decimal = written.contains(['.', ',']);
        if decimal && self.part.is_line() && (FINEST..=STOUTEST).contains(&value) {
            return Some(((Kind::Hundredths, format!("{} mm", written_number(written))), 1));
        }
        Some(((Kind::Bare, written.to_owned()), 1))
    }

    fn with_unit(&self, ahead: usize, unit: &Unit) -> Option<((Kind, String), usize)> {
        let value = self.value(ahead)?;
        let first = self.get(ahead)?;
        let si = value * unit.factor;
        let mut atoms = 1 + unit.atoms;
        let mut length = si;
        let written = |atoms: usize| {
            let last = self.atoms[self.at + ahead + atoms - 1];
            first.span.to(last.span).of(self.line).to_owned()
        };
        let mut strict = written(atoms);
        let point = usize::from(self.sign(ahead + atoms, &['.']));
        let second = ahead + atoms + point;
        if unit.plain == "ft" && self.is_number(second) {
            if let Some(inches) = self.unit(second + 1).filter(|unit| unit.plain == "in") {
                length += self.value(second)? * inches.factor;
                let number = self.get(second).map_or("", |number| self.of(number));
                atoms += point + 1 + inches.atoms;
                strict = match point {
                    0 => written(atoms),
                    _ => format!("{strict} {number} in"),
                };
            }
        }
        // The point of `5 in.` is none of the sentence's.
        if self.sign(ahead + atoms, &['.']) && self.get(ahead + atoms).is_some_and(|atom| atom.glued) {
            atoms += 1;
        }
        let kind = match unit.dimension {
            Dimension::LENGTH => Kind::Length(length),
            Dimension::MASS | Dimension::FORCE => Kind::Mass(si),
            Dimension::SPEED => Kind::Speed,
            Dimension::NONE if unit.plain == "wt" => {
                if self.part == Part::Line {
                    strict = format!("#{}", first.span.of(self.line));
                }
                Kind::Weight
            }
            _ => return None,
        };
        Some(((kind, strict), atoms))
    }
}

/// Kilograms to the pound. Source: NIST SP 811 (2008), appendix B.8, exact.
const POUND: f64 = 0.453_592_37;

/// The diameters, in mm, that a bare figure on a line may be. Source: common practice, no source.
const FINEST: f64 = 0.05;
const STOUTEST: f64 = 1.0;

fn written_number(written: &str) -> String {
    let plain = written.replace(',', ".");
    if plain.starts_with('.') { format!("0{plain}") } else { plain }
}

impl Part {
    /// Whether it is a piece of line, or may say of what its tag is.
    pub(super) const fn is_line(self) -> bool {
        matches!(self, Self::Piece | Self::Line | Self::Dropper)
    }
}

impl Item {
    /// Whether it is a value of the tables, or stands between such.
    pub(super) const fn is_known(&self) -> bool {
        match self.kind {
            Kind::Length(_)
            | Kind::X
            | Kind::Hundredths
            | Kind::Mass(_)
            | Kind::Speed
            | Kind::Weight
            | Kind::Hook
            | Kind::Count
            | Kind::Word(_)
            | Kind::Text
            | Kind::And
            | Kind::Comma => true,
            Kind::Bare | Kind::Free | Kind::Joining(_) | Kind::Note => false,
        }
    }

    /// Whether it is a figure with its unit.
    pub(super) const fn is_quantity(&self) -> bool {
        match self.kind {
            Kind::Length(_)
            | Kind::X
            | Kind::Hundredths
            | Kind::Mass(_)
            | Kind::Speed
            | Kind::Weight
            | Kind::Hook
            | Kind::Count
            | Kind::Bare => true,
            Kind::Word(_) | Kind::Text | Kind::And | Kind::Comma | Kind::Free | Kind::Joining(_) | Kind::Note => false,
        }
    }

    /// What it says, where the trade's table holds it.
    pub(super) const fn says(&self) -> Option<Says> {
        match self.kind {
            Kind::Word(row) => Some(row.says),
            _ => None,
        }
    }
}
