//! A fit as it is shown.

use crate::fit::added::Addition;
use crate::need::ShownAssumed;
use crate::verdict::shown::ShownVerdict;
use schemars::JsonSchema;
use serde::Serialize;

/// A rig fitted to a water.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct ShownFit {
    /// The rig's name.
    pub name: String,
    /// Its title for people.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub title: Option<String>,
    /// The file that it stands in.
    pub file: String,
    /// The water in words.
    pub water: String,
    /// The answer in words, in at most three lines: what to change, what that brings, what is dangerous.
    pub answer: Vec<String>,
    /// What the fit came to.
    pub outcome: Outcome,
    /// The rig in that water with nothing changed.
    pub as_it_is: ShownState,
    /// The verdict on it there with nothing changed.
    pub verdict: ShownVerdict,
    /// What is found of it there that a way removes, and that weighs more than advice.
    pub against: Vec<ShownFinding>,
    /// The ways, the best first.
    pub ways: Vec<ShownWay>,
    /// What is found above advice and that no change removes.
    pub stays: Vec<ShownFinding>,
    /// What was taken because the rig leaves it unsaid.
    pub assumed: Vec<ShownAssumed>,
    /// What the rig claims to come to, as it would have to be said in this water with nothing changed.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub restated: Vec<String>,
    /// What is missing where nothing can be told.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub needs: Vec<String>,
    /// Whether the rig says how it is fished; if not, only the rules for every rig were asked.
    pub has_method: bool,
    /// The rig as it is in this water, as the language writes it, where it is right and the water is not its own.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub addition: Option<Addition>,
}

/// What a fit came to.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Outcome {
    /// The rig is right as it is, or nothing that a change could remove stands against it.
    Right,
    /// Every way makes it right.
    Ways,
    /// No set of up to three changes makes it right; the ways come nearest.
    Nearest,
    /// The same, and not every set was tried.
    BrokenOff,
    /// Nothing can be told of it.
    Untold,
}

/// Something found.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct ShownFinding {
    /// The rule, or `expect` for a claim of the rig's own.
    pub rule: String,
    /// How much it weighs, by its word.
    pub level: &'static str,
    /// What is said.
    pub message: String,
}

/// How a rig fares in the water.
#[derive(Clone, Debug, Default, PartialEq, Serialize, JsonSchema)]
pub struct ShownState {
    /// How high off the bed the point rides; nothing where there is no drift.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub off_bed: Option<crate::Written>,
    /// When the point is down.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub sink_time: Option<crate::Written>,
    /// What is missing where there is no drift.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub needs: Vec<String>,
    /// Line that has to be under water, and that which can be, where it does not reach.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub short: Option<(String, String)>,
}

/// One way to make a rig right.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct ShownWay {
    /// The changes, each as one says it at the bank.
    pub changes: Vec<String>,
    /// The rig with them made.
    pub state: ShownState,
    /// The verdict on it with them made.
    pub verdict: ShownVerdict,
    /// What is found of it above advice and that another way, or none, removes.
    pub leaves: Vec<ShownFinding>,
    /// What is advised against with the changes made, and is not without.
    pub advice: Vec<ShownFinding>,
    /// What the rig claims to come to, as it has to be said now.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub restated: Vec<String>,
    /// The rig as the language writes it, to be put beside the one that it is made from.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub addition: Option<Addition>,
}

/// What a fit is told while it goes on: how much work is done, and how much is done at the most.
pub type Told<'t> = &'t mut dyn FnMut(usize, usize);
