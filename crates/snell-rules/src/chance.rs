//! How likely a rule holds when what is not known well of a rig and its water is as it may be.

use crate::gathering::Applied;
use crate::judge::Judge;
use crate::scope::RuleScope;
use snell_rig::Evaluation;
use snell_rig::evaluation::{Meaning, Subjects, verdict};
use snell_rig::faults::Faults;
use snell_rig::measure::{Drawn, Input, Measure, Thing};
use snell_rig::project::LineRef;
use snell_syntax::{Bound, Claim, Condition};

/// The chance of one thing that a rule asks.
#[derive(Clone, Copy, Debug)]
pub struct Chance {
    /// What is asked about.
    pub thing: Thing,
    /// Which figure of it.
    pub measure: &'static Measure,
    /// The share of the draws in which it holds.
    pub holds: f64,
    /// What it hangs on most.
    pub moved_by: Option<Input>,
}

/// The chances of all that a rule asks and that is drawn.
pub(crate) fn chances<'p>(applied: &Applied<'p>, evaluation: &Evaluation<'_, 'p>) -> Vec<Chance> {
    let faults = Faults::default();
    let things = Judge::new(evaluation, &faults).rule(applied).things;
    let of_thing = |thing: Thing| {
        let scope = RuleScope::new(evaluation, thing, &applied.limits, &faults);
        let keeps = applied.rule.keep.iter();
        keeps
            .filter_map(|(line, claim)| one(&scope, *line, claim))
            .collect::<Vec<_>>()
    };
    things.iter().flat_map(|judged| of_thing(judged.thing)).collect()
}

fn one<'p>(scope: &RuleScope<'_, '_, 'p>, line: LineRef<'p>, claim: &Claim) -> Option<Chance> {
    let Condition::Bound(bound, _) = &claim.condition else {
        return None;
    };
    let Ok(Meaning::Measure(measure, thing)) = scope.meaning(line, claim.subject.path()?) else {
        return None;
    };
    let drawn: Drawn = measure.drawn(scope.evaluation, thing)?;
    let limit = verdict(scope, line, claim).ok()?.limits.first()?.si();
    let holds = match bound {
        Bound::AtMost | Bound::Under => drawn.chance_below(limit),
        Bound::AtLeast | Bound::Over => drawn.chance_above(limit),
        Bound::About => return None,
    };
    Some(Chance {
        thing,
        measure,
        holds,
        moved_by: drawn.dominated_by().map(|(input, _)| input),
    })
}
