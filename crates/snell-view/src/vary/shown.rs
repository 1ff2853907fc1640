//! A rig with one thing varied, as it is shown.

use crate::verdict::shown::ShownVerdict;
use crate::written::Written;
use schemars::JsonSchema;
use serde::Serialize;

/// A rig with one thing varied.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct ShownVary {
    /// The rig's name.
    pub name: String,
    /// Its title for people.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub title: Option<String>,
    /// The file that it stands in.
    pub file: String,
    /// What is varied.
    pub target: String,
    /// The rig as it is, then with each value.
    pub rows: Vec<ShownVaried>,
}

/// A rig with one value.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct ShownVaried {
    /// The value; nothing for the rig as it is.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub value: Option<String>,
    /// What it comes to, in the same order in every row.
    pub figures: Vec<ShownFigure>,
    /// What is other than with the rig as it is, on the same draws of what is not known well.
    pub differences: Vec<ShownDifference>,
    /// The verdict on it.
    pub verdict: ShownVerdict,
}

/// A figure of a rig.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct ShownFigure {
    /// What it is, in words for people.
    pub what: String,
    /// The measure that it is.
    pub measure: &'static str,
    /// What it comes to; nothing where it cannot be told.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub value: Option<Written>,
}

/// How a figure differs from that of the rig as it is.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct ShownDifference {
    /// The measure.
    pub measure: &'static str,
    /// In words: `needs 5 in less line`.
    pub words: String,
    /// The middle of the difference, in SI units.
    pub by: f64,
    /// One in ten draws differs by less, and one in ten by more.
    pub between: (f64, f64),
    /// The share of the draws in which it is so.
    pub chance: f64,
}

impl ShownDifference {
    /// How sure it is, in a word.
    pub fn sureness(&self) -> &'static str {
        match self.chance {
            chance if chance >= 0.95 => "sure",
            chance if chance >= 0.8 => "likely",
            _ => "not sure",
        }
    }
}
