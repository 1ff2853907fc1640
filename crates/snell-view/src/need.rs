//! What is assumed or not known of a rig, and what would have to be said.

use schemars::JsonSchema;
use serde::{Serialize, Serializer};
use snell_rig::Evaluation;
use snell_rig::evaluation::{AssumedWords, MissingWords};
use snell_rig::lack::Lack;
use std::fmt;

/// What keeps a measure from being told.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Need {
    /// Something that the rig leaves unsaid.
    Missing(MissingWords),
    /// A fault.
    Mended,
}

impl fmt::Display for Need {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Missing(words) => words.fmt(out),
            Self::Mended => out.write_str("a fault to be mended"),
        }
    }
}

impl Serialize for Need {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

/// What a lack needs.
pub fn needs_of(evaluation: &Evaluation<'_, '_>, lack: &Lack) -> Vec<Need> {
    match lack {
        Lack::Unknown(missing) => {
            let words = evaluation.words_of_all(missing).into_iter();
            words.map(Need::Missing).collect()
        }
        Lack::Faulty => vec![Need::Mended],
    }
}

/// What a lack needs, for people.
pub fn told_needs(evaluation: &Evaluation<'_, '_>, lack: &Lack) -> Vec<String> {
    let needs = needs_of(evaluation, lack).into_iter();
    needs.map(|need| need.to_string()).collect()
}

/// Something assumed.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct ShownAssumed {
    /// What it is about.
    pub what: String,
    /// What was taken.
    pub value: String,
    /// Why.
    pub why: String,
    /// Of a knot, which: `butt to taper`, `of slate`.
    #[serde(skip)]
    pub knot: Option<String>,
}

impl ShownAssumed {
    /// Whether it is a knot that the rig leaves unsaid.
    pub fn is_of_a_knot(&self) -> bool {
        self.knot.is_some()
    }

    /// All that was assumed of a rig so far.
    pub fn all(evaluation: &Evaluation<'_, '_>) -> Vec<Self> {
        let assumed = evaluation.all_assumed().into_iter();
        assumed.map(Self::from).collect()
    }
}

impl From<AssumedWords> for ShownAssumed {
    fn from(words: AssumedWords) -> Self {
        Self {
            what: words.what,
            value: words.value,
            why: words.why.into_owned(),
            knot: words.knot,
        }
    }
}
