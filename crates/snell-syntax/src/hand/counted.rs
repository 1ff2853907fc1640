//! Quantities in whole words: `two feet`, `a foot and a half`, `three and a half to four feet`, `twelve pound`.

use super::item::Kind;
use super::reader::Reader;
use super::trade::{NUMBERS, Part};
use snell_units::Dimension;
use std::borrow::Cow;

/// A quantity in words: its figures as the strict line has them, the larger as a value, and how many atoms it is.
struct Counted {
    figures: Vec<f64>,
    unit: String,
    atoms: usize,
}

/// What a unit of a length or a mass is, and how many of the standard ones it is.
fn measures(unit: &str) -> Option<(Dimension, f64)> {
    let unit = snell_units::known(unit)?;
    matches!(
        unit.dimension,
        Dimension::LENGTH | Dimension::MASS | Dimension::FORCE
    )
    .then_some((unit.dimension, unit.factor))
}

/// A number in words: `four`, `twenty-four`.
fn number(word: &str) -> Option<f64> {
    let of = |word: &str| {
        let row = NUMBERS.iter().find(|(words, _)| words.contains(&word))?;
        (row.1 > 0).then(|| f64::from(row.1))
    };
    match word.split_once('-') {
        Some((tens, ones)) => {
            let (tens, ones) = (of(tens)?, of(ones)?);
            (tens >= TWENTY && ones < TEN).then_some(tens + ones)
        }
        None => of(word),
    }
}

const TEN: f64 = 10.0;
const TWENTY: f64 = 20.0;

impl Reader<'_> {
    fn is(&self, ahead: usize, word: &str) -> bool {
        self.word(ahead).as_deref() == Some(word)
    }

    pub(super) fn is_article(&self, ahead: usize) -> bool {
        self.is(ahead, "a") || self.is(ahead, "an")
    }

    /// `and a half`, `and a quarter`
    fn and_a_part(&self, ahead: usize) -> Option<f64> {
        let begins = self.is(ahead, "and") && self.is_article(ahead + 1);
        match &*self.word(ahead + 2).filter(|_| begins)? {
            "half" => Some(0.5),
            "quarter" => Some(0.25),
            _ => None,
        }
    }

    /// A number so far ahead, and how many atoms it is: `half`, `a half`, `half a`, `three and a half`.
    fn count_in_words(&self, ahead: usize) -> Option<(f64, usize)> {
        if self.is(ahead, "half") {
            return Some((0.5, 1 + usize::from(self.is_article(ahead + 1))));
        }
        if self.is_article(ahead) && self.is(ahead + 1, "half") {
            return Some((0.5, 2));
        }
        let whole = number(&self.word(ahead)?)?;
        Some(match self.and_a_part(ahead + 1) {
            Some(part) => (whole + part, 4),
            None => (whole, 1),
        })
    }

    /// The unit of a length or a strength so far ahead, in letters enough to be no other word.
    fn unit_in_words(&self, ahead: usize) -> Option<String> {
        let word = self.word(ahead).filter(|word| word.len() > 1 && word != "in")?;
        measures(&word).is_some().then(|| word.into_owned())
    }

    fn counted(&self, ahead: usize) -> Option<Counted> {
        // `a five-inch tag`
        let in_one = |word: Cow<'_, str>| {
            let (count, unit) = word.split_once('-')?;
            measures(unit)?;
            Some((number(count)?, unit.to_owned()))
        };
        if let Some((count, unit)) = self.word(ahead).and_then(in_one) {
            return Some(Counted {
                figures: vec![count],
                unit,
                atoms: 1,
            });
        }
        let (first, mut at) = self.count_in_words(ahead)?;
        let mut figures = vec![first];
        if self.is(ahead + at, "to")
            && let Some((second, more)) = self.count_in_words(ahead + at + 1)
        {
            figures.push(second);
            at += 1 + more;
        }
        let unit = self.unit_in_words(ahead + at)?;
        at += 1;
        // `a foot and a half`
        if let Some(part) = self.and_a_part(ahead + at)
            && let Some(last) = figures.last_mut()
            && last.fract() == 0.0
        {
            *last += part;
            at += 3;
        }
        Some(Counted {
            figures,
            unit,
            atoms: at,
        })
    }

    /// Whether a quantity in words stands so far ahead.
    pub(super) fn is_in_words(&self, ahead: usize) -> bool {
        self.counted(ahead).is_some()
    }

    /// A quantity in words.
    pub(super) fn in_words(&mut self) -> Option<()> {
        if matches!(self.part, Part::Method | Part::Note | Part::Catch | Part::Day) {
            return None;
        }
        let Counted { figures, unit, atoms } = self.counted(0)?;
        let (dimension, factor) = measures(&unit)?;
        let value = figures.iter().copied().fold(0.0, f64::max);
        let written: Vec<String> = figures.iter().map(|figure| format!("{figure} {unit}")).collect();
        if dimension != Dimension::LENGTH {
            self.push(Kind::Mass(value * factor), atoms, Some(written.join(" to ")));
            return Some(());
        }
        // `half a metre to 1.2 m`
        if self.part == Part::Water
            && self.is(atoms, "to")
            && let Some(((Kind::Length(deep), deeper), more)) = self.single(atoms + 1)
            && deep > value * factor
        {
            let spread = format!("{} to {deeper}", written.join(" to "));
            self.push(Kind::Length(deep), atoms + 1 + more, Some(spread));
            return Some(());
        }
        let written = written.join(" to ");
        // `a foot a second`
        if self.part == Part::Water
            && let Some(below) = self.per(atoms)
        {
            self.push(Kind::Speed, atoms + 2, Some(format!("{written}/{below}")));
            return Some(());
        }
        if let Some(done) = self.seat(&written, atoms) {
            return Some(done);
        }
        if self.is_place(atoms) {
            return self.push_place();
        }
        self.push(Kind::Length(value * factor), atoms, Some(written));
        Some(())
    }
}
