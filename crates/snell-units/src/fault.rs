//! Why a word is not a unit, and what may have been meant.
//!
//! Only ever reached for words that have no meaning, so it may take its time.
//! It offers whole words that can stand in place of the one written.

use crate::resolve::{Part, base_and_power, find, parts};
use crate::{UNITS, nearest};
use thiserror::Error;

/// Why a word is not a unit.
#[derive(Clone, PartialEq, Eq, Debug, Error)]
pub enum UnitFault {
    /// No unit is spelt so.
    #[error("`{word}` is not a unit{}", did_you_mean(nearest))]
    Unknown {
        /// The whole word as written.
        word: String,
        /// A whole word that would do in its place.
        nearest: Option<String>,
    },
    /// The word means different things to different people.
    #[error("`{word}` can mean {}; write the one you mean", either(meanings))]
    Ambiguous {
        /// The whole word as written.
        word: String,
        /// The units it may mean.
        meanings: &'static [&'static str],
    },
    /// A temperature scale has a zero of its own, so it has no products.
    #[error("`{word}`: a temperature cannot be multiplied or divided")]
    Temperature {
        /// The whole word as written.
        word: String,
    },
}

fn did_you_mean(nearest: &Option<String>) -> String {
    match nearest {
        Some(nearest) => format!("; did you mean `{nearest}`?"),
        None => String::new(),
    }
}

fn either(meanings: &[&str]) -> String {
    let quoted: Vec<String> = meanings.iter().map(|unit| format!("`{unit}`")).collect();
    quoted.join(" or ")
}

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
fn nearest_part(part: &str) -> Option<String> {
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
