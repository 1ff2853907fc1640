//! What a stretch of a line says: the kinds of values, words and signs.

use super::phrases::{Row, Says};
use crate::vocabulary::Joint;
use snell_text::Span;

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
    /// Of the water.
    Temperature,
    /// `5 wt`
    Weight,
    /// `#14`
    Hook,
    /// `2 x`
    Count,
    /// A number without a unit.
    Bare,
    /// How far a shot or a float sits over what lies lower, and over what, where that is said.
    Seat(Option<&'static str>),
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

/// A shorter length on a piece of line is its diameter, in metres.
pub(super) const SHORTEST_PART: f64 = 0.004;

/// The largest bead; a longer length is that of a tag. Source: common practice, no source.
pub(super) const LARGEST_BEAD: f64 = 0.0075;

impl Item {
    /// Whether it is a value of the tables, or stands between such.
    pub(super) const fn is_known(&self) -> bool {
        match self.kind {
            Kind::Length(_)
            | Kind::X
            | Kind::Hundredths
            | Kind::Mass(_)
            | Kind::Speed
            | Kind::Temperature
            | Kind::Weight
            | Kind::Hook
            | Kind::Count
            | Kind::Seat(_)
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
            | Kind::Temperature
            | Kind::Weight
            | Kind::Hook
            | Kind::Count
            | Kind::Seat(_)
            | Kind::Bare => true,
            Kind::Word(_)
            | Kind::Text
            | Kind::And
            | Kind::Comma
            | Kind::Free
            | Kind::Joining(_)
            | Kind::Note => false,
        }
    }

    /// What it says, where the trade's table holds it.
    pub(super) const fn says(&self) -> Option<Says> {
        match self.kind {
            Kind::Word(row) => Some(row.says),
            Kind::Length(_)
            | Kind::X
            | Kind::Hundredths
            | Kind::Mass(_)
            | Kind::Speed
            | Kind::Temperature
            | Kind::Weight
            | Kind::Hook
            | Kind::Count
            | Kind::Seat(_)
            | Kind::Bare
            | Kind::Free
            | Kind::Text
            | Kind::Joining(_)
            | Kind::And
            | Kind::Note
            | Kind::Comma => None,
        }
    }
}
