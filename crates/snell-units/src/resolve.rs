//! What a written unit means: a row of the table, or a product of rows.
//!
//! Every spelling of a unit ends here, so no other part needs to know that
//! units have plurals. It sees one word at a time and neither the number in
//! front nor the text around.

use crate::dimension::Dimension;
use crate::fault::UnitFault;
use crate::folded::Folded;
use crate::nearest::nearest;
use crate::quantity::{Quantity, System};
use crate::table::{UNITS, Unit};
use rustc_hash::FxHashMap;
use std::borrow::Cow;
use std::sync::LazyLock;

/// What a written unit means.
#[derive(Clone, PartialEq, Debug)]
pub struct Resolved {
    /// The plain spelling: `in` for `Inches`, `ft2/s` for `feet²/sec`.
    pub plain: Cow<'static, str>,
    /// What it measures.
    pub dimension: Dimension,
    /// SI units in one of it.
    pub factor: f64,
    /// Added to the number before the factor; 0 for all but Fahrenheit.
    pub offset: f64,
    /// The family it belongs to; `None` where both use it, or its parts are of
    /// both families.
    pub system: Option<System>,
    /// Its row; `None` for a product that has none.
    pub unit: Option<&'static Unit>,
}

impl Resolved {
    /// The quantity that `number` of this unit is.
    pub fn quantity(&self, number: f64) -> Quantity {
        Quantity::new((number + self.offset) * self.factor, self.dimension)
    }

    /// How many of this unit a quantity is. The dimension is the caller's
    /// business: only the SI number is looked at.
    pub fn number(&self, quantity: Quantity) -> f64 {
        quantity.si / self.factor - self.offset
    }
}

impl From<&'static Unit> for Resolved {
    fn from(unit: &'static Unit) -> Self {
        Self {
            plain: Cow::Borrowed(unit.name),
            dimension: unit.dimension,
            factor: unit.factor,
            offset: unit.offset,
            system: unit.system,
            unit: Some(unit),
        }
    }
}

/// What `word` means as a unit: a row's name or another of its words, or a
/// product such as `in2`, `g/m` or `ft²/s`. Case is ignored. `None` where
/// [`resolve`] says what is wrong.
pub fn known(word: &str) -> Option<Resolved> {
    find(Folded::new(word)?.as_str())
}

/// The same as [`known`], or what may have been meant, which takes longer to find out.
///
/// # Errors
/// If it is not a unit, may be either of two, or multiplies a temperature.
pub fn resolve(word: &str) -> Result<Resolved, UnitFault> {
    // Most units are written as the table has them.
    if let Some(unit) = row(word) {
        return Ok(unit.into());
    }
    let Some(folded) = Folded::new(word) else {
        return Err(UnitFault::Unknown {
            word: word.to_owned(),
            nearest: None,
        });
    };
    let key = folded.as_str();
    find(key).ok_or_else(|| fault(word, key))
}

/// What a folded word means, without a reason where it means nothing.
pub(crate) fn find(key: &str) -> Option<Resolved> {
    row(key).map(Resolved::from).or_else(|| product(key))
}

fn row(key: &str) -> Option<&'static Unit> {
    static ROWS: LazyLock<FxHashMap<String, &'static Unit>> = LazyLock::new(|| {
        let words = |unit: &'static Unit| {
            unit.words
                .iter()
                .chain([&unit.name])
                .map(move |word| (*word, unit))
        };
        let folded = UNITS.iter().flat_map(words);
        folded
            .map(|(word, unit)| (word.to_ascii_lowercase(), unit))
            .collect()
    });
    ROWS.get(key).copied()
}

/// A row to a power, as one side of a product.
pub(crate) struct Part {
    unit: &'static Unit,
    power: u8,
}

impl Part {
    pub fn read(part: &str) -> Option<Self> {
        // `km/h` is a row, but a quotient of quotients is not worth reading.
        if part.contains('/') {
            return None;
        }
        let (base, power) = base_and_power(part);
        let unit = row(base)?;
        Some(Self { unit, power })
    }

    pub fn plain(&self) -> Cow<'static, str> {
        match self.power {
            1 => self.unit.name.into(),
            power => format!("{}{power}", self.unit.name).into(),
        }
    }

    fn factor(&self) -> f64 {
        self.unit.factor.powi(self.power.into())
    }

    fn dimension(&self) -> Dimension {
        (1..self.power).fold(self.unit.dimension, |power, _| power.times(self.unit.dimension))
    }

    pub fn is_temperature(&self) -> bool {
        self.unit.dimension == Dimension::TEMPERATURE
    }
}

pub(crate) fn base_and_power(part: &str) -> (&str, u8) {
    match part.as_bytes() {
        [.., b'2'] => (&part[..part.len() - 1], 2),
        [.., b'3'] => (&part[..part.len() - 1], 3),
        _ => (part, 1),
    }
}

pub(crate) fn parts(key: &str) -> (&str, Option<&str>) {
    match key.split_once('/') {
        Some((above, below)) => (above, Some(below)),
        None => (key, None),
    }
}

fn product(key: &str) -> Option<Resolved> {
    let (above, below) = parts(key);
    let above = Part::read(above)?;
    let below = match below {
        Some(below) => Some(Part::read(below)?),
        None => None,
    };
    if above.is_temperature() || below.as_ref().is_some_and(Part::is_temperature) {
        return None;
    }
    let Some(below) = below else {
        return Some(Resolved {
            plain: above.plain(),
            dimension: above.dimension(),
            factor: above.factor(),
            offset: 0.0,
            system: above.unit.system,
            unit: None,
        });
    };
    let plain = format!("{}/{}", above.plain(), below.plain());
    // `metres/sec` is the row `m/s`, found by its plain spelling.
    if let Some(unit) = row(&plain.to_ascii_lowercase()) {
        return Some(unit.into());
    }
    Some(Resolved {
        plain: plain.into(),
        dimension: above.dimension().over(below.dimension()),
        factor: above.factor() / below.factor(),
        offset: 0.0,
        system: shared(above.unit.system, below.unit.system),
        unit: None,
    })
}

fn shared(above: Option<System>, below: Option<System>) -> Option<System> {
    match (above, below) {
        (Some(above), Some(below)) => (above == below).then_some(above),
        (one, other) => one.or(other),
    }
}

#[cfg(test)]
mod tests;

/// Why `word`, folded to `key`, has no meaning; only for words that have none.
pub(crate) fn fault(word: &str, key: &str) -> UnitFault {
    let word = word.to_owned();
    if matches!(key, "mil" | "mils") {
        return UnitFault::Ambiguous {
            word,
            meanings: &["thou", "mm"],
        };
    }
    let (above, below) = parts(key);
    let sides: Option<Vec<Part>> = [above].into_iter().chain(below).map(Part::read).collect();
    if sides.is_some_and(|sides| sides.iter().any(Part::is_temperature)) {
        return UnitFault::Temperature { word };
    }
    let nearest = match below {
        None => nearest_part(above),
        Some(below) => nearest_part(above)
            .zip(nearest_part(below))
            .map(|(above, below)| format!("{above}/{below}")),
    };
    UnitFault::Unknown {
        word,
        nearest: nearest.filter(|offer| find(&offer.to_ascii_lowercase()).is_some()),
    }
}

/// One side of a product with its spelling put right.
pub(super) fn nearest_part(part: &str) -> Option<String> {
    if let Some(sound) = Part::read(part) {
        return Some(sound.plain().into_owned());
    }
    let (base, power) = base_and_power(part);
    let words = UNITS
        .iter()
        .flat_map(|unit| [unit.name].into_iter().chain(unit.words.iter().copied()));
    // A mark is never what a misspelt word was meant to be.
    let spelt = words.filter(|word| word.bytes().all(|byte| byte.is_ascii_alphabetic()));
    let base = nearest(base, spelt)?;
    Some(match power {
        1 => base.to_owned(),
        power => format!("{base}{power}"),
    })
}
