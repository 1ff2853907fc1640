//! Why a word is not a unit, and what may have been meant.
//!
//! Only ever reached for words that have no meaning, so it may take its time.
//! It offers whole words that can stand in place of the one written.

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
