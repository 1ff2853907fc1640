//! Numbers with their units: lengths, X sizes, strengths, hundredths of a millimetre.

use super::atoms::Look;
use super::item::{Kind, SHORTEST_PART};
use super::known::surgeon_of;
use super::phrases::{Says, TRADE, plain};
use super::reader::Reader;
use super::trade::Part;
use super::water_units::degrees_of_water;
use crate::number::number;
use snell_units::Dimension;
use std::borrow::Cow;

/// A unit behind a number: how many atoms it takes, what it measures, and its factor.
pub(super) struct Unit {
    atoms: usize,
    plain: String,
    dimension: Dimension,
    factor: f64,
}

impl Reader<'_> {
    /// The unit that stands so far ahead.
    pub(super) fn unit(&self, ahead: usize) -> Option<Unit> {
        let atom = self.get(ahead)?;
        if let Some(degrees) = self.degrees(ahead) {
            return Some(degrees);
        }
        let word = match atom.look {
            // `1n mono` is a slip of `1X`, and no strength in newtons.
            Look::Word if self.of(atom) == "n" => return None,
            Look::Word => self.of(atom).to_owned(),
            Look::Sign(sign) if atom.glued => match sign {
                '"' | '”' | '“' | '″' => "in".to_owned(),
                '\'' | '’' | '‘' | '′' if !self.sign(ahead + 1, &['\'', '’', '′']) => {
                    "ft".to_owned()
                }
                _ => return None,
            },
            Look::Sign(_) | Look::Number | Look::Text(_) => return None,
        };
        let over = self.sign(ahead + 1, &['/']) && self.get(ahead + 1)?.glued;
        let below = self
            .get(ahead + 2)
            .filter(|below| over && below.look == Look::Word && below.glued);
        let whole = below.map(|below| format!("{word}/{}", self.of(below)));
        if let Some(below) = self.per(ahead + 1)
            && let Some(unit) = snell_units::known(&format!("{word}/{below}"))
        {
            return Some(Unit {
                atoms: 3,
                plain: unit.plain.to_string(),
                dimension: unit.dimension,
                factor: unit.factor,
            });
        }
        let (unit, atoms) = match whole.as_deref().and_then(snell_units::known) {
            Some(unit) => (unit, 3),
            None => (snell_units::known(&word)?, 1),
        };
        // `5 in 6X` is no length in inches.
        Some(Unit {
            atoms,
            plain: unit.plain.to_string(),
            dimension: unit.dimension,
            factor: unit.factor,
        })
    }

    /// `°C`
    fn degrees(&self, ahead: usize) -> Option<Unit> {
        let glued = self.get(ahead + 1).is_some_and(|letter| letter.glued);
        let letter = self
            .word(ahead + 1)
            .filter(|_| glued && self.sign(ahead, &['°', 'º']))?;
        let unit = snell_units::known(&format!("°{letter}"))?;
        Some(Unit {
            atoms: 2,
            plain: unit.plain.to_string(),
            dimension: unit.dimension,
            factor: unit.factor,
        })
    }

    pub(super) fn value(&self, ahead: usize) -> Option<f64> {
        let atom = self.get(ahead).filter(|atom| atom.look == Look::Number)?;
        let number = number(self.of(atom), atom.span).ok()?;
        (!number.doubtful).then_some(number.value)
    }

    /// A quantity, or a spread of two.
    pub(super) fn quantity(&mut self) -> Option<()> {
        if let Some((row, count)) = self.known() {
            self.push(Kind::Word(row), count, Some(row.strict.to_owned()));
            return Some(());
        }
        if let Some(words) = self.turns() {
            self.push(Kind::Note, words, None);
            return Some(());
        }
        if self.part == Part::Shot && self.counts_shot() {
            return self.push_count();
        }
        // `12 wraps of lead`, `5 turns a side`
        let wraps = |word: Cow<'_, str>| matches!(&*word, "wraps" | "turns" | "wrap" | "turn");
        if (self.part.is_fly() || self.part.is_line()) && self.word(1).is_some_and(wraps) {
            return self.push_place();
        }
        // `2X-long`, `60 degree eye`: how a hook is made.
        if self.part.is_fly()
            && let Some(atoms) = self.of_hook()
        {
            self.push(Kind::Note, atoms, None);
            return Some(());
        }
        // `10 ft for line 2`
        if self.part == Part::Rod
            && self.found.last().is_some_and(|last| last.kind == Kind::Free)
            && self.value(0).is_some_and(|weight| weight <= 15.0)
            && self.unit(1).is_none()
            && self
                .at
                .checked_sub(1)
                .is_some_and(|before| plain(self.of(self.atoms[before])) == "line")
        {
            self.found.pop();
            if self.found.last().is_some_and(|last| last.kind == Kind::Free) {
                self.found.pop();
            }
            let weight = format!("#{}", self.of(self.atoms[self.at]));
            self.push(Kind::Weight, 1, Some(weight));
            return Some(());
        }
        // `6:4`: where a rod without a reel bends.
        let glued = |ahead: usize| self.get(ahead).is_some_and(|atom| atom.glued);
        if self.part == Part::Rod && self.sign(1, &[':']) && glued(1) && glued(2) && self.is_number(2) {
            self.push(Kind::Note, 3, None);
            return Some(());
        }
        // `3 ips`, as sinking lines are sold.
        if self.part == Part::Line && self.word(1).as_deref() == Some("ips") {
            self.push(Kind::Free, 2, None);
            return Some(());
        }
        if let Some(done) = self.rod_in_feet().or_else(|| self.times_length()) {
            return Some(done);
        }
        let (first, count) = self.single(0)?;
        if matches!(first.0, Kind::Hook | Kind::Count) {
            self.push(first.0, count, Some(first.1));
            return Some(());
        }
        if matches!(first.0, Kind::Length(_)) {
            if let Some(done) = self.seat(&first.1, count) {
                return Some(done);
            }
            if self.is_place(count) {
                return self.push_place();
            }
        }
        // `0.8 go (0.148 mm)`: how thick line is by numbers that are told beside it.
        if self.part.is_line() && self.word(1).as_deref() == Some("go") {
            self.push(Kind::Note, 2, None);
            return Some(());
        }
        // `2 colors orange/white`
        let counts_colours = |word: Cow<'_, str>| COUNTED.contains(&&*word);
        if self.part.is_line_only() && first.0 == Kind::Bare && self.word(count).is_some_and(counts_colours) {
            self.push(Kind::Note, count + 1, None);
            return Some(());
        }
        // `4-wt`
        let is_weight = |word: Cow<'_, str>| matches!(&*word, "wt" | "weight");
        if first.0 == Kind::Bare && self.sign(count, &['-']) && self.word(count + 1).is_some_and(is_weight) {
            let weight = if self.part == Part::Line {
                format!("#{}", first.1)
            } else {
                format!("{} wt", first.1)
            };
            self.push(Kind::Weight, count + 2, Some(weight));
            return Some(());
        }
        self.alone_or_spread(first, count)
    }

    /// `2 x 30 cm`: pieces of one length, one behind the other.
    fn times_length(&mut self) -> Option<()> {
        let is_x = self.word(1).as_deref() == Some("x") && self.get(1).is_some_and(|x| !x.glued);
        let count = self.value(0).filter(|_| self.part == Part::Piece && is_x)?;
        let ((kind, strict), atoms) = self.single(2)?;
        let Kind::Length(si) = kind else { return None };
        if !(2.0..=MOST_PIECES).contains(&count) || count.fract() != 0.0 || si < SHORTEST_PART {
            return None;
        }
        let sum = vec![strict; count as usize].join(" + ");
        self.push(Kind::Length(si * count), 2 + atoms, Some(sum));
        Some(())
    }

    /// How many atoms say how a hook is made: `2X-long`, `1X heavy`, `60 degree`.
    fn of_hook(&self) -> Option<usize> {
        let made = |ahead: usize| {
            let word = self.word(ahead)?;
            matches!(
                &*word,
                "long" | "short" | "fine" | "heavy" | "strong" | "stout" | "wide"
            )
            .then_some(ahead + 1)
        };
        match &*self.word(1)? {
            "x" => made(2).or_else(|| if self.sign(2, &['-']) { made(3) } else { None }),
            "x-long" | "x-short" | "x-fine" | "x-heavy" | "x-strong" | "degree" | "degrees" | "deg" => {
                Some(2)
            }
            _ => None,
        }
    }

    /// Whether a bead's material stands so far ahead.
    fn is_bead(&self, ahead: usize) -> bool {
        self.says(ahead, Says::Bead) || self.word(ahead).as_deref() == Some("bead")
    }

    pub(super) fn says(&self, ahead: usize, says: Says) -> bool {
        let word = self.word(ahead);
        word.is_some_and(|word| {
            TRADE
                .iter()
                .any(|row| row.says == says && row.written.contains(&&*word))
        })
    }

    /// One quantity that begins so far ahead, as the strict line has it, and how many atoms it takes.
    pub(super) fn single(&self, ahead: usize) -> Option<((Kind, String), usize)> {
        let atom = self.get(ahead)?;
        let written = self.of(atom);
        let until = |atoms: usize| atom.span.to(self.atoms[self.at + ahead + atoms - 1].span);
        let glued = |ahead: usize| self.get(ahead).is_some_and(|atom| atom.glued);
        let next = self.word(ahead + 1);

        // `3x surgeon` is tied with three turns.
        let is_knot = || {
            self.word(ahead + 2)
                .is_some_and(|word| word.starts_with("surgeon"))
        };
        if next.as_deref() == Some("x") && glued(ahead + 1) && is_knot() {
            let row = surgeon_of(written)?;
            return Some(((Kind::Word(row), row.strict.to_owned()), 3));
        }
        // `5X`, `2/0X`
        if next.as_deref() == Some("x") && glued(ahead + 1) && self.part != Part::Shot {
            if glued(ahead + 2) && self.is_number(ahead + 2) {
                return None;
            }
            let thick = written
                .strip_suffix("/0")
                .and_then(|whole| whole.parse::<usize>().ok());
            let strict = match thick {
                Some(zeros) if zeros <= 6 => format!("{}X", "0".repeat(zeros)),
                Some(_) => return None,
                None => until(2).of(self.line).to_owned(),
            };
            return Some(((Kind::X, strict), 2));
        }
        // `2 x BB`, `2 off 0.4 g`
        let counts = |word: &str| word == "x" || word == "off" && self.is_number(ahead + 2);
        if next.as_deref().is_some_and(counts) && self.part == Part::Shot {
            return Some(((Kind::Count, written.to_owned()), 2));
        }
        // `20#`
        if self.sign(ahead + 1, &['#']) && glued(ahead + 1) && !self.is_number(ahead + 2) {
            let value = self.value(ahead)?;
            if matches!(self.part, Part::Rod) && value <= 15.0 {
                return Some(((Kind::Weight, format!("#{written}")), 2));
            }
            return Some(((Kind::Mass(value * POUND), format!("{written} lb")), 2));
        }
        // `12/100`
        if let Some(hundredths) = written.strip_suffix("/100").filter(|_| self.part.is_line()) {
            let value: f64 = hundredths.replace(',', ".").parse().ok()?;
            return Some((
                (Kind::Hundredths, format!("{} mm", (value * 1e3).round() / 1e5)),
                1,
            ));
        }
        // `16s`, a hook of that size.
        if self.part.is_fly() && next.as_deref() == Some("s") && glued(ahead + 1) && written.len() == 2 {
            return Some(((Kind::Hook, format!("#{written}")), 2));
        }
        if let Some(unit) = self.unit(ahead + 1) {
            return self.with_unit(ahead, &unit);
        }
        // `10-pound nylon`, `a 6-inch tag`
        if glued(ahead + 1)
            && glued(ahead + 2)
            && self.sign(ahead + 1, &['-', '\u{2010}', '\u{2011}'])
            && let Some(unit) = self.unit(ahead + 2)
            && unit.atoms == 1
            && unit.plain.len() > 1
        {
            let (kind, atoms) = self.with_unit_behind_hyphen(ahead, &unit)?;
            return Some((kind, atoms));
        }
        let value = self.value(ahead)?;
        let decimal = written.contains(['.', ',']);
        // `3/32 tungsten`: as fractions they are of an inch.
        if self.part.is_fly() && value < 0.25 && written.contains('/') && self.is_bead(ahead + 1) {
            return Some(((Kind::Length(value * 0.0254), format!("{written} in")), 1));
        }
        // `2.8 tungsten`, `2.5 gold tung`: beads are measured in millimetres.
        let coloured_bead = decimal && self.says(ahead + 1, Says::Colour) && self.is_bead(ahead + 2);
        if self.part.is_fly()
            && (SMALLEST_BEAD..=LARGEST_BEAD).contains(&value)
            && (self.is_bead(ahead + 1) || coloured_bead)
        {
            return Some((
                (
                    Kind::Length(value * 1e-3),
                    format!("{} mm", written_number(written)),
                ),
                1,
            ));
        }
        // `.011 mono`: so thin a line is counted in inches.
        if decimal && self.part.is_line() && (FINEST_INCH..=STOUTEST_INCH).contains(&value) {
            return Some(((Kind::Hundredths, format!("{} in", written_number(written))), 1));
        }
        if decimal && self.part.is_line() && (FINEST..=STOUTEST).contains(&value) {
            return Some(((Kind::Hundredths, format!("{} mm", written_number(written))), 1));
        }
        // `brass 2.8`
        let has_bead = self.found.iter().any(|item| item.says() == Some(Says::Bead));
        if self.part.is_fly() && decimal && has_bead && (SMALLEST_BEAD..=LARGEST_BEAD).contains(&value) {
            let strict = format!("{} mm", written_number(written));
            return Some(((Kind::Length(value * 1e-3), strict), 1));
        }
        // `ring 1.5`: no ring is measured otherwise.
        if self.part == Part::Ring && self.found.is_empty() && (SMALLEST_BEAD..=LARGEST_BEAD).contains(&value)
        {
            let strict = format!("{} mm", written_number(written));
            return Some(((Kind::Length(value * 1e-3), strict), 1));
        }
        // `double taper 5 floating`
        if self.part == Part::Line && written.parse::<u8>().is_ok_and(|weight| weight <= 15) {
            return Some(((Kind::Weight, format!("#{written}")), 1));
        }
        Some(((Kind::Bare, written.to_owned()), 1))
    }

    /// The same where a hyphen parts the number from its unit.
    fn with_unit_behind_hyphen(&self, ahead: usize, unit: &Unit) -> Option<((Kind, String), usize)> {
        let si = self.value(ahead)? * unit.factor;
        let strict = format!("{} {}", self.of(self.get(ahead)?), unit.plain);
        let kind = match unit.dimension {
            Dimension::LENGTH => Kind::Length(si),
            Dimension::MASS | Dimension::FORCE => Kind::Mass(si),
            _ => return None,
        };
        Some(((kind, strict), 3))
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
        // `12'-6"`
        let dash = usize::from(unit.plain == "ft" && self.joins_inches(ahead + atoms));
        let second = ahead + atoms + point + dash;
        // `18 ft .015 in`: so thin is no length, but how thick a line is.
        let is_thin = self.part.is_line()
            && self
                .value(second)
                .is_some_and(|inches| inches > 0.0 && inches <= STOUTEST_INCH);
        if unit.plain == "ft"
            && self.is_number(second)
            && !is_thin
            && let Some(inches) = self.unit(second + 1).filter(|unit| unit.plain == "in")
        {
            length += self.value(second)? * inches.factor;
            let number = self.get(second).map_or("", |number| self.of(number));
            atoms += point + dash + 1 + inches.atoms;
            strict = match point + dash {
                0 => written(atoms),
                _ => format!("{strict} {number} in"),
            };
        }
        let in_letters = self.word(ahead + 1).is_some();
        if unit.plain == "ft" && in_letters && point + dash == 0 && self.is_inches(second) {
            let inches = self.value(second)?;
            length += inches * 0.0254;
            strict = format!("{strict} {inches} in");
            atoms += 1;
        }
        // The point of `5 in.` is none of the sentence's.
        if self.sign(ahead + atoms, &['.']) && self.get(ahead + atoms).is_some_and(|atom| atom.glued) {
            atoms += 1;
        }
        let kind = match unit.dimension {
            Dimension::LENGTH => Kind::Length(length),
            Dimension::MASS | Dimension::FORCE => Kind::Mass(si),
            Dimension::SPEED => {
                if unit.atoms == 3 && !strict.contains('/') {
                    strict = format!("{} {}", first.span.of(self.line), unit.plain);
                }
                Kind::Speed
            }
            Dimension::TEMPERATURE if self.part == Part::Water && !self.sign(ahead + atoms, &['/']) => {
                Kind::Temperature
            }
            Dimension::NONE if unit.plain == "deg" && self.part == Part::Water => {
                strict = format!("{} {}", first.span.of(self.line), degrees_of_water(value)?);
                Kind::Temperature
            }
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

/// The most pieces of one length that a line tells by their number.
const MOST_PIECES: f64 = 6.0;

/// What a number counts that is told by words of its own.
const COUNTED: &[&str] = &["color", "colors", "colour", "colours"];

/// Kilograms to the pound. Source: NIST SP 811 (2008), appendix B.8, exact.
const POUND: f64 = 0.453_592_37;

/// The beads, in mm, that a bare figure before their material may be. Source: common practice, no source.
const SMALLEST_BEAD: f64 = 1.0;
const LARGEST_BEAD: f64 = 5.0;

/// The diameters, in inches, that a bare figure on a line may be. Source: common practice, no source.
const FINEST_INCH: f64 = 0.003;
const STOUTEST_INCH: f64 = 0.03;

/// The diameters, in mm, that a bare figure on a line may be. Source: common practice, no source.
const FINEST: f64 = 0.05;
const STOUTEST: f64 = 1.0;

fn written_number(written: &str) -> String {
    let plain = written.replace(',', ".");
    if plain.starts_with('.') {
        format!("0{plain}")
    } else {
        plain
    }
}
