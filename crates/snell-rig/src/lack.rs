//! Why there is no value: a fault stands in the way, or something is missing.

use crate::missing::Missing;
use crate::value::Value;
use std::sync::Arc;

/// Why there is no value.
#[derive(Clone, Debug, PartialEq)]
pub enum Lack {
    /// The rig does not say enough; what it would need.
    Unknown(Arc<[Missing]>),
    /// A fault stands in the way, and has been reported.
    Faulty,
}

impl Lack {
    /// Whether it only says that the rig is of another kind.
    pub fn is_of_other_kind(&self) -> bool {
        match self {
            Self::Unknown(missing) => missing.iter().any(|one| one.what.is_of_other_kind()),
            Self::Faulty => false,
        }
    }

    /// Whether the water lets the rig do no such thing, however much more were said.
    pub fn is_of_the_water(&self) -> bool {
        match self {
            Self::Unknown(missing) => missing.iter().any(|one| one.what.is_of_the_water()),
            Self::Faulty => false,
        }
    }
}

impl From<Missing> for Lack {
    fn from(missing: Missing) -> Self {
        Self::Unknown(Arc::new([missing]))
    }
}

/// A value, or why there is none.
pub type Outcome = Result<Value, Lack>;

/// Every value, or all that is missing; a fault wins over what is unknown.
///
/// # Errors
/// Why one of them is none.
pub fn all(outcomes: impl IntoIterator<Item = Outcome>) -> Result<Vec<Value>, Lack> {
    let mut values = Vec::new();
    let mut missing: Vec<Missing> = Vec::new();
    for outcome in outcomes {
        match outcome {
            Ok(value) => values.push(value),
            Err(Lack::Faulty) => return Err(Lack::Faulty),
            Err(Lack::Unknown(more)) => {
                for one in more.iter() {
                    if !missing.contains(one) {
                        missing.push(*one);
                    }
                }
            }
        }
    }
    if missing.is_empty() {
        Ok(values)
    } else {
        Err(Lack::Unknown(missing.into()))
    }
}
