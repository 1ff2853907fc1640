//! What is said in whole words: lengths such as `two feet` and `a foot and a half`, and where a piece of line lies.

use super::atoms::Look;
use super::item::Kind;
use super::items::Reader;
use super::phrases::{PHRASES, Says, plain};
use super::trade::{NUMBERS, Part, joint};
use snell_units::Dimension;

/// Words that begin what is said of where a piece or a fly lies.
const WHERE: &[&str] = &[
    "from",
    "between",
    "below",
    "above",
    "under",
    "underneath",
    "straight",
    "down",
    "up",
    "for",
    "off",
    "at",
    "along",
];

/// What pieces and flies lie between.
const PLACES: &[&str] = &[
    "point",
    "dropper",
    "droppers",
    "fly",
    "flies",
    "ring",
    "sighter",
    "leader",
    "float",
    "indicator",
    "bung",
    "dry",
    "nymph",
    "nymphs",
    "swivel",
    "line",
    "reel",
    "bob",
    "tail",
    "start",
];

/// Words that begin a remark which goes on to the end of its phrase: `from the packet`, `between boulders`.
const PROSE: &[&str] = &["from", "between", "along", "under", "until", "because"];

/// A shorter remark may be a value that has slipped.
const FEWEST_PROSE: usize = 2;

impl Reader<'_> {
    /// How many atoms from here on say where something lies: `from ring to dropper`, `to the first dropper`.
    pub(super) fn aside(&self, word: &str) -> Option<usize> {
        let takes = matches!(
            self.part,
            Part::Piece | Part::Line | Part::Dropper | Part::Fly | Part::Float | Part::Water
        );
        if !takes || self.found.is_empty() || self.known().is_some() {
            return None;
        }
        let rest = &self.atoms[self.at..];
        let end = |atom: &super::atoms::Atom| match atom.look {
            Look::Word => false,
            Look::Number | Look::Text(_) => true,
            Look::Sign(sign) => sign != '/' && sign != '&',
        };
        let length = rest.iter().position(end).unwrap_or(rest.len());
        let is_place = (1..length).any(|at| self.word(at).is_some_and(|word| PLACES.contains(&&*word)));
        let begins = WHERE.contains(&word) || joint(word).is_some_and(|joint| joint.word() == "to");
        let is_prose = PROSE.contains(&word) && length >= FEWEST_PROSE && !self.tells(length);
        (begins && is_place || is_prose).then_some(length)
    }

    /// Whether one of so many atoms from here on is a value of the line.
    pub(super) fn tells(&self, length: usize) -> bool {
        (0..length).any(|ahead| {
            let word = self.get(ahead).map(|atom| plain(self.of(atom)));
            let rows = word.and_then(|word| PHRASES.get(&*word)).into_iter().flatten();
            rows.into_iter().any(|row| {
                self.part.takes(row.says) && !matches!(row.says, Says::Bed | Says::Extent | Says::Filler)
            })
        })
    }

    /// `two feet`, `half a metre`, `a foot and a half`, `two and a half feet`
    pub(super) fn length_in_words(&mut self) -> Option<()> {
        if matches!(self.part, Part::Method | Part::Note | Part::Catch | Part::Day) {
            return None;
        }
        let word = |ahead: usize| self.word(ahead);
        let number = |ahead: usize| {
            let word = word(ahead)?;
            let row = NUMBERS.iter().find(|(words, _)| words.contains(&&*word))?;
            (row.1 > 0).then(|| f64::from(row.1))
        };
        let unit = |ahead: usize| {
            let word = word(ahead).filter(|word| word.len() > 2)?;
            snell_units::known(&word).filter(|unit| unit.dimension == Dimension::LENGTH)?;
            Some(word)
        };
        let is_half = |ahead: usize| word(ahead).as_deref() == Some("half");
        let and_a_half = |ahead: usize| {
            word(ahead).as_deref() == Some("and")
                && word(ahead + 1).as_deref() == Some("a")
                && is_half(ahead + 2)
        };
        let (value, unit, atoms) = if is_half(0) {
            let article = usize::from(matches!(word(1).as_deref(), Some("a" | "an")));
            (0.5, unit(1 + article)?, 2 + article)
        } else {
            let whole = number(0)?;
            if and_a_half(1) {
                (whole + 0.5, unit(4)?, 5)
            } else {
                let unit = unit(1)?;
                if and_a_half(2) {
                    (whole + 0.5, unit, 5)
                } else {
                    (whole, unit, 2)
                }
            }
        };
        let factor = snell_units::known(&unit)?.factor;
        // `half a metre to 1.2 m`
        if self.part == Part::Water
            && word(atoms).as_deref() == Some("to")
            && let Some(((Kind::Length(deep), deeper), more)) = self.single(atoms + 1)
            && deep > value * factor
        {
            let spread = format!("{value} {unit} to {deeper}");
            self.push(Kind::Length(deep), atoms + 1 + more, Some(spread));
            return Some(());
        }
        if let Some(done) = self.seat(&format!("{value} {unit}"), atoms) {
            return Some(done);
        }
        if self.is_place(atoms) {
            return self.push_place();
        }
        self.push(
            Kind::Length(value * factor),
            atoms,
            Some(format!("{value} {unit}")),
        );
        Some(())
    }
}
