//! The verdict as plain data.

use schemars::JsonSchema;
use serde::Serialize;

/// The verdict on a rig in its water.
#[derive(Clone, Debug, Default, Serialize, JsonSchema)]
pub struct ShownVerdict {
    /// Whether it fishes; nothing where no rule asks it of such a rig.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub fishes: Option<ShownFishes>,
    /// Where it parts when a fly is snagged.
    pub parts: Vec<ShownParting>,
    /// What carries the cast; nothing where a mass is not known.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub casts: Option<ShownCast>,
    /// How often the fly on each tag can be changed.
    pub left: Vec<ShownLeft>,
    /// What is dangerous in its water.
    pub danger: Vec<ShownReason>,
    /// The answer in words, in at most three lines.
    pub answer: Vec<String>,
}

/// Whether a rig fishes.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct ShownFishes {
    /// Whether it does; nothing where that cannot be told.
    pub yes: Option<bool>,
    /// How its flies ride there, in words; nothing where there is no drift.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub how: Option<String>,
    /// How likely each thing that is asked and drawn holds, the least likely first.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub chances: Vec<ShownChance>,
    /// What stands against it.
    pub reasons: Vec<ShownReason>,
    /// What is missing where it cannot be told.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub needs: Vec<String>,
}

/// How likely one thing that is asked holds, in draws of what is not known well.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct ShownChance {
    /// The measure that is asked about.
    pub measure: &'static str,
    /// What it is of, where it is not of the rig.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub of: Option<String>,
    /// The share of the draws in which it holds.
    pub chance: f64,
    /// What to find out, for what it hangs on most.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub hangs_on: Option<&'static str>,
}

/// What a rule found.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct ShownReason {
    /// The rule.
    pub rule: String,
    /// What it says.
    pub message: String,
}

/// Where a rig parts when one of its flies is snagged.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct ShownParting {
    /// The fly.
    pub snagged: String,
    /// The places where it may part, the weakest first.
    pub at: Vec<ShownBreak>,
    /// Whether one place is clearly the weakest.
    pub sure: bool,
}

/// A place where a rig may part.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct ShownBreak {
    /// The place in words.
    pub place: String,
    /// The flies that are lost with it.
    pub lost: Vec<String>,
}

/// What carries a cast, and what it has to carry, in kilograms.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct ShownCast {
    /// What carries it.
    pub by: ShownCastBy,
    /// The flies and shots.
    pub flies: f64,
    /// The line beyond the tip.
    pub line: f64,
    /// All that is out, the leader's pieces too.
    pub all: f64,
    /// For people.
    pub text: String,
}

/// What carries a cast: that which is half of what is out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum ShownCastBy {
    /// The flies.
    Flies,
    /// The line beyond the tip.
    Line,
    /// Both together.
    Both,
    /// Neither: the leader outweighs them.
    Neither,
}

/// How often the fly on a tag can be changed.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct ShownLeft {
    /// The fly on the tag.
    pub fly: String,
    /// How often.
    pub changes: u32,
}
