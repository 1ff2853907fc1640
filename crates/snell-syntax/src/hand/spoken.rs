//! What is said in whole words: lengths such as `two feet` and `a foot and a half`, and where a piece of line lies.

use super::atoms::Look;
use super::item::Kind;
use super::items::Reader;
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
    "start",
];

impl Reader<'_> {
    /// How many atoms from here on say where something lies: `from ring to dropper`, `to the first dropper`.
    pub(super) fn aside(&self, word: &str) -> Option<usize> {
        let takes = matches!(self.part, Part::Piece | Part::Dropper | Part::Fly);
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
        (begins && is_place).then_some(length)
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
        self.push(
            Kind::Length(value * factor),
            atoms,
            Some(format!("{value} {unit}")),
        );
        Some(())
    }
}
