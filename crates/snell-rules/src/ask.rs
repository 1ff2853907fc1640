//! One rule asked by itself, apart from a check: whether a rig as it would be
//! breaks it, and what its figures are for that rig.
//!
//! Who only wants to know what would be asks here, so that no figure of a rule
//! is written down twice.

use crate::gathering::Applied;
use crate::judge::{breaches, judged};
use crate::scope::RuleScope;
use snell_rig::Evaluation;
use snell_rig::faults::Faults;
use snell_rig::lack::{Lack, Outcome};
use snell_rig::measure::Thing;

impl<'p> Applied<'p> {
    /// Whether a rig breaks the rule. Of what a rig of its kind need not have, nothing is asked.
    ///
    /// # Errors
    /// What the rig leaves unsaid, so that the rule cannot be judged.
    pub fn is_broken_by(&self, evaluation: &Evaluation<'_, 'p>) -> Result<bool, Lack> {
        let mut skips = Vec::new();
        let judged = judged(std::slice::from_ref(self), evaluation, &Faults::default());
        let broken = breaches(&judged, &mut skips);
        if !broken.is_empty() {
            return Ok(true);
        }
        let lack = skips
            .iter()
            .map(|skip| skip.lack())
            .find(|lack| !lack.is_of_other_kind());
        lack.map_or(Ok(false), Err)
    }

    /// What one of the rule's figures comes to for a rig, as its rulebooks set it.
    ///
    /// # Errors
    /// It has no such figure, or the figure cannot be told.
    pub fn limit(&self, evaluation: &Evaluation<'_, 'p>, name: &str) -> Outcome {
        let limit = self
            .limits
            .iter()
            .find(|limit| limit.name == name)
            .ok_or(Lack::Faulty)?;
        let faults = Faults::default();
        RuleScope::new(evaluation, Thing::Rig, &self.limits, &faults).limit(limit)
    }
}
