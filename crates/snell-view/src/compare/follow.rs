//! A rig that changed only as the rig that it is made from did: that is told
//! once, at the base.

use super::change::Change;

/// What changed of the rigs of one state, by their names.
#[derive(Debug, Default)]
pub struct Bases(Vec<(String, Vec<Change>)>);

impl Bases {
    /// Of rigs and what changed of each.
    pub fn of<'c>(rigs: impl IntoIterator<Item = (&'c str, &'c [Change])>) -> Self {
        let rigs = rigs.into_iter();
        Self(
            rigs.map(|(name, changes)| (name.to_lowercase(), changes.to_vec()))
                .collect(),
        )
    }

    /// Whether a rig made from `base` changed just as that one did.
    pub fn lead(&self, base: &str, changes: &[Change]) -> bool {
        let base = base.to_lowercase();
        let just_so = |(name, changed): &(String, Vec<Change>)| *name == base && changed == changes;
        !changes.is_empty() && self.0.iter().any(just_so)
    }
}
