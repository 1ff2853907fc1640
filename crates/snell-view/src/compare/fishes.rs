//! Whether a rig fishes in its water, and that it does now or no more.

use crate::verdict::against;
use crate::with_usual;
use schemars::JsonSchema;
use serde::Serialize;
use snell_rig::project::BlockRef;
use snell_rules::Books;
use std::fmt;

/// Whether a rig fishes in its water.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Fishes {
    /// It does.
    Yes,
    /// It does not: what stands against it first.
    No(String),
}

impl Fishes {
    /// Of a rig as it is written; nothing where that cannot be told.
    pub(super) fn of<'p>(books: &Books<'_, 'p>, block: BlockRef<'p>) -> Option<Self> {
        match with_usual(books.world(), block, |evaluation| against(books, evaluation))? {
            None => Some(Self::Yes),
            Some(reason) => Some(Self::No(reason)),
        }
    }
}

/// Whether a rig that did not fish in its water fishes there now, or the other way round.
#[derive(Clone, Debug, Serialize, JsonSchema, PartialEq, Eq)]
pub struct FishesNow {
    /// Whether it does now.
    pub yes: bool,
    /// What stood or stands against it.
    pub reason: String,
}

impl FishesNow {
    pub(super) fn of(was: Option<&Fishes>, now: Option<&Fishes>) -> Option<Self> {
        match (was?, now?) {
            (Fishes::No(reason), Fishes::Yes) => Some(Self {
                yes: true,
                reason: reason.clone(),
            }),
            (Fishes::Yes, Fishes::No(reason)) => Some(Self {
                yes: false,
                reason: reason.clone(),
            }),
            (Fishes::Yes, Fishes::Yes) | (Fishes::No(_), Fishes::No(_)) => None,
        }
    }
}

impl fmt::Display for FishesNow {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.yes {
            true => write!(out, "it fishes in its water now; before, {}", self.reason),
            false => write!(out, "it does not fish in its water any more: {}", self.reason),
        }
    }
}
