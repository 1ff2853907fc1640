//! A card as plain data: what stands in each cell, and what it stands on.

use crate::card::cell::Wading;
use crate::need::ShownAssumed;
use crate::shown::Row;
use crate::written::Written;
use indexmap::IndexMap;
use schemars::JsonSchema;
use serde::Serialize;
use snell_rules::Applied;
use snell_units::System;

/// A rig's card.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct ShownCard {
    /// The rig's name.
    pub name: String,
    /// Its title for people.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub title: Option<String>,
    /// The file that it stands in.
    pub file: String,
    /// What it stands on besides depth and speed.
    pub inputs: IndexMap<&'static str, Written>,
    /// The limits of the rules that were asked, by rule.
    pub limits: IndexMap<&'static str, Written>,
    /// Whether the flies are the trade's bead sizes on the rig's point fly.
    pub beads: bool,
    /// The flies that were tried, the lightest first.
    pub flies: Vec<ShownFly>,
    /// Depths, the least first.
    pub depths: Vec<Written>,
    /// Speeds of the surface, the least first.
    pub speeds: Vec<Written>,
    /// Of each depth, the cells by speed.
    pub cells: Vec<Vec<ShownCell>>,
    /// What was taken because the rig leaves it unsaid.
    pub assumed: Vec<ShownAssumed>,
    /// The rig line by line.
    #[serde(skip)]
    pub rig: Vec<Row>,
    /// Why some flies in sight were not tried.
    #[serde(skip)]
    pub left_out: Option<String>,
    /// The day over some waters in a line, where it was asked for.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub day: Option<String>,
    /// What is missing where there is no card.
    pub needs: Vec<String>,
    /// The units that it is written in.
    #[serde(skip)]
    pub system: System,
}

/// A fly that was tried.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct ShownFly {
    /// Its name.
    pub name: String,
    /// Its title, or what it is.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub what: Option<String>,
    /// What it weighs.
    pub mass: Written,
    /// Its speed in still water, where it can be told.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub sinks: Option<Written>,
}

/// What fishes a depth at a speed.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct ShownCell {
    /// The fly and what it wants.
    #[serde(flatten)]
    pub answer: ShownAnswer,
    /// How hard the water is to stand in.
    pub wading: Wading,
}

/// A cell's answer.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum ShownAnswer {
    /// A fly fishes it.
    Fished(Box<ShownFished>),
    /// None does.
    Unfished(#[schemars(with = "String")] Why),
}

/// A fly that fishes a cell.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct ShownFished {
    /// Its name.
    pub fly: String,
    /// Line under water, rounded up to what a person would cut.
    pub tippet: Written,
    /// The same, as the drift says it.
    #[serde(rename = "tippet-needed")]
    pub needed: Written,
    /// From landing until it is down.
    #[serde(rename = "sink-time")]
    pub sink_time: Written,
    /// How far it goes meanwhile.
    #[serde(rename = "sink-run")]
    pub sink_run: Written,
}

/// Why nothing at hand fishes a cell.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub struct Why {
    /// The rule that stands against the flies, or that there is no drift.
    pub word: String,
    /// What that means.
    pub means: String,
}

impl Why {
    /// A rule stands against it.
    pub(super) fn rule(applied: Option<&Applied<'_>>) -> Self {
        applied.map_or_else(Self::no_drift, |applied| Self {
            word: applied.rule.name.to_owned(),
            means: applied.rule.about.unwrap_or_default().to_owned(),
        })
    }

    /// None has a drift there: too shallow, or the line streams out flat.
    pub(super) fn no_drift() -> Self {
        Self {
            word: "no drift".to_owned(),
            means: "none drifts there: too shallow, or the line streams out flat".to_owned(),
        }
    }
}

impl Serialize for Why {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&self.word)
    }
}
