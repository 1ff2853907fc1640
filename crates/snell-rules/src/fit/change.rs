//! One change at the bank, as plain numbers that can be compared.

use snell_rig::keywords::Cast;
use snell_rig::thing::{DropperId, FlyId, SectionId};
use snell_units::in_order;

/// What is changed; numbers count from the reel.
#[derive(Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Debug)]
pub enum Target {
    /// The length of a section.
    Section(SectionId),
    /// The length of a dropper's tag.
    Tag(DropperId),
    /// A fly.
    Fly(FlyId),
    /// How the flies are laid on the water.
    Cast,
}

/// What it becomes.
#[derive(Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Debug)]
pub enum To {
    /// A length, in steps of what a person cuts to.
    Length(u32),
    /// A fly, by its number among those that could be tied there.
    Fly(usize),
    /// A cast.
    Cast(Cast),
}

/// A change.
#[derive(Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Debug)]
pub struct Change {
    /// What is changed.
    pub target: Target,
    /// What it becomes.
    pub to: To,
}

/// Changes with one more, in order, so that equal sets are equal.
pub(super) fn with(changes: &[Change], change: Change) -> Vec<Change> {
    let mut all = changes.to_vec();
    all.push(change);
    in_order(&mut all, Ord::cmp);
    all
}

/// Changes without that of one target.
pub(super) fn without(changes: &[Change], target: Target) -> Vec<Change> {
    let others = changes.iter().filter(|change| change.target != target);
    others.copied().collect()
}
