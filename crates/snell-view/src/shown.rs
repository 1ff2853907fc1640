//! A rig as it is shown.

use crate::need::{Need, ShownAssumed};
use crate::said::SaidPart;
use crate::verdict::shown::ShownVerdict;
use crate::written::Written;
use indexmap::IndexMap;
use schemars::JsonSchema;
use serde::Serialize;

/// Measures by name.
pub type Measures = IndexMap<&'static str, Written>;

/// The version of [`ShownRigs`].
pub const RIGS_VERSION: u32 = 1;

/// All rigs in one value: a contract with the programs that read it.
#[derive(Serialize, JsonSchema)]
pub struct ShownRigs<'r, T = ShownRig> {
    /// The version of this form.
    version: u32,
    /// The rigs, in the order of their files.
    rigs: &'r [T],
}

impl<'r, T> From<&'r [T]> for ShownRigs<'r, T> {
    fn from(rigs: &'r [T]) -> Self {
        Self {
            version: RIGS_VERSION,
            rigs,
        }
    }
}

/// A rig as it is shown.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct ShownRig {
    /// Its name.
    pub name: String,
    /// Its title for people.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub title: Option<String>,
    /// The file that it stands in.
    pub file: String,
    /// Its line in that file, from 1.
    pub line: u32,
    /// The rig that it is made from.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub from: Option<String>,
    /// Notes for people.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub notes: Vec<String>,
    /// Its rod and water as they are written.
    pub settings: IndexMap<&'static str, String>,
    /// The verdict on it in its water; nothing where it was not asked.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub verdict: Option<ShownVerdict>,
    /// Its own measures.
    pub measures: Measures,
    /// Every part as its line says it, from the reel down.
    pub parts: Vec<SaidPart>,
    /// Pieces of line from the reel down.
    pub sections: Vec<ShownPart>,
    /// Where they meet.
    pub joins: Vec<ShownPart>,
    /// Tags.
    pub droppers: Vec<ShownPart>,
    /// Between flies.
    pub gaps: Vec<ShownPart>,
    /// Flies in order.
    pub flies: Vec<ShownPart>,
    /// What was taken because the rig leaves it unsaid.
    pub assumed: Vec<ShownAssumed>,
    /// What cannot be told.
    pub unknown: Vec<ShownUnknown>,
    /// The rig line by line, for a table.
    #[serde(skip)]
    pub rows: Vec<Row>,
}

/// A part of a rig with its measures.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct ShownPart {
    /// Its label or name.
    pub name: String,
    /// Its measures.
    pub measures: Measures,
}

/// A measure that cannot be told.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct ShownUnknown {
    /// The measure.
    pub measure: &'static str,
    /// The part that it is of; the whole rig where there is none.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub part: Option<String>,
    /// What is missing.
    #[schemars(with = "Vec<String>")]
    pub needs: Vec<Need>,
}

/// What a row shows.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Place {
    /// A piece of line.
    Section,
    /// What sits between pieces: a ring, a shot, a float.
    Between,
    /// A tag or a fly.
    Fly,
}

/// One row.
#[derive(Clone, Debug)]
pub struct Row {
    /// What it shows.
    pub place: Place,
    /// Its name.
    pub part: String,
    /// Its finished length.
    pub length: Option<Written>,
    /// From its lower end along the line to the point.
    pub to_point: Option<Written>,
    /// Its diameter.
    pub diameter: Option<Written>,
    /// What its label claims.
    pub rated: Option<Written>,
    /// What it is, in the author's words.
    pub what: String,
    /// The knot at its lower end.
    pub knot: String,
}
