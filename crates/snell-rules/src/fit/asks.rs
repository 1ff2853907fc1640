//! What is asked of a rig that is to be right: the rules above advice and those that decide whether it fishes, its own
//! claims, and a drift.
//!
//! What a rig claims to come to is its own sum: it moves with the lengths where
//! they cannot keep it.

use crate::gathering::Applied;
use crate::judge::{breaches, judged};
use crate::rulebook::Books;
use crate::scope::RuleScope;
use crate::{allow, mend};
use rustc_hash::FxHashSet;
use snell_finding::Level;
use snell_rig::Evaluation;
use snell_rig::evaluation::{Answer, Subjects, Verdict, verdict};
use snell_rig::faults::Faults;
use snell_rig::lack::Lack;
use snell_rig::measure::{self, Thing};
use snell_rig::project::LineRef;
use snell_syntax::{Bound, Claim, Condition};
use snell_units::{Dimension, in_order};
use std::sync::Arc;

/// One thing that is asked.
#[derive(Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Debug)]
pub(super) enum Ask {
    /// A rule, by its number.
    Rule(usize),
    /// A claim of the rig's, by its number.
    Claim(usize),
    /// That there is a drift, where a rig of this kind has one.
    Drift,
}

/// What stands against a rig.
#[derive(Clone, Debug)]
pub(super) struct Against {
    pub(super) ask: Ask,
    pub(super) thing: Thing,
    /// What was found, and what it was held against.
    pub(super) figures: Vec<f64>,
}

impl Against {
    /// How far what was found is from what would do, where that is one figure.
    pub(super) fn gap(&self) -> Option<f64> {
        match self.figures[..] {
            [found, limit] => Some((found - limit).abs()),
            [found, one, other] => Some((one.min(other) - found).max(found - one.max(other)).max(0.0)),
            _ => None,
        }
    }
}

/// All that is asked, what is quickly told first.
pub(super) struct Asks<'p> {
    applied: Arc<[Applied<'p>]>,
    /// Each with how many states of the rig in its water it asks for.
    all: Vec<(Ask, usize)>,
    /// The claims that are the rig's own sums.
    sums: FxHashSet<Ask>,
}

impl<'p> Asks<'p> {
    /// What is asked of a rig.
    pub(super) fn of(books: &Books<'_, 'p>, evaluation: &Evaluation<'_, 'p>) -> Self {
        let applied = books.of_rig(evaluation.world, evaluation.rig, &Faults::default());
        let silenced = allow::silenced(books, evaluation.world, evaluation.rig);
        let counts = |applied: &Applied<'p>| {
            (applied.level > Level::Advice || applied.rule.decides.is_some())
                && !silenced.contains(&applied.rule.name)
                && !mutes(applied, evaluation)
        };
        let rules = applied.iter().enumerate();
        let rules = rules.filter(|(_, applied)| counts(applied));
        let rules = rules.map(|(index, _)| Ask::Rule(index));
        let claims = evaluation.rig.expects.iter().enumerate();
        let claims = claims.filter(|(_, (_, claim))| !is_about(claim));
        let (sums, claims): (Vec<_>, Vec<_>) =
            claims.partition(|(_, (line, claim))| is_sum(evaluation, *line, claim));
        let numbered = |claims: Vec<(usize, _)>| claims.into_iter().map(|(index, _)| Ask::Claim(index));
        let sums: FxHashSet<Ask> = numbered(sums).collect();
        let claims = numbered(claims).chain(sums.iter().copied());
        let mut asks = Self {
            applied: applied.clone(),
            all: Vec::new(),
            sums: sums.clone(),
        };
        let all = rules.chain(claims).chain([Ask::Drift]);
        asks.all = all
            .map(|ask| {
                let fresh = Evaluation::new(evaluation.world, evaluation.rig);
                asks.against(ask, &fresh);
                (ask, fresh.states_asked())
            })
            .collect();
        in_order(&mut asks.all, |(one, states), (other, others)| {
            states.cmp(others).then(one.cmp(other))
        });
        asks
    }

    /// The claims that are kept where they can be, and move with the rig where not.
    pub(super) fn sums(&self) -> &FxHashSet<Ask> {
        &self.sums
    }

    pub(super) fn all(&self) -> impl Iterator<Item = (Ask, usize)> {
        self.all.iter().copied()
    }

    /// How much it weighs; what the rig itself claims was meant for its own water.
    pub(super) fn level(&self, ask: Ask) -> Level {
        match ask {
            Ask::Rule(index) => self.applied[index].level,
            Ask::Claim(_) => Level::Advice,
            Ask::Drift => Level::Fault,
        }
    }

    /// The name of its rule, where it is one.
    pub(super) fn rule(&self, ask: Ask) -> Option<&str> {
        match ask {
            Ask::Rule(index) => Some(self.applied[index].rule.name),
            Ask::Claim(_) | Ask::Drift => None,
        }
    }

    /// Whether its rule says what to change.
    pub(super) fn has_mend(&self, ask: Ask) -> bool {
        match ask {
            Ask::Rule(index) => self.applied[index].rule.mend.is_some(),
            Ask::Claim(_) | Ask::Drift => false,
        }
    }

    /// Where one thing that is asked does not hold. What cannot be told is not held against the rig.
    pub(super) fn against(&self, ask: Ask, evaluation: &Evaluation<'_, 'p>) -> Vec<Against> {
        let of_rig = |figures| {
            vec![Against {
                ask,
                thing: Thing::Rig,
                figures,
            }]
        };
        match ask {
            Ask::Rule(index) => {
                let rule = std::slice::from_ref(&self.applied[index]);
                let mut skips = Vec::new();
                let breaches = breaches(&judged(rule, evaluation, &Faults::default()), &mut skips);
                let against = breaches.into_iter().map(|breach| Against {
                    ask,
                    thing: breach.thing,
                    figures: breach.values.iter().map(snell_rig::value::Value::si).collect(),
                });
                // Where the water lets the rig do no such thing, no figure can be told.
                let of_the_water = skips
                    .iter()
                    .filter(|skip| skip.applied.rule.decides.is_some() && skip.lack().is_of_the_water());
                let of_the_water = of_the_water.map(|skip| Against {
                    ask,
                    thing: skip.thing,
                    figures: Vec::new(),
                });
                against.chain(of_the_water).collect()
            }
            Ask::Claim(index) => {
                let (line, claim) = evaluation.rig.expects[index];
                match verdict(evaluation, line, claim) {
                    Ok(verdict) if !verdict.holds => of_rig(figures(&verdict)),
                    _ => Vec::new(),
                }
            }
            Ask::Drift => match measure::drifting(evaluation) {
                Err(lack @ Lack::Unknown(_)) if !lack.is_of_other_kind() => of_rig(Vec::new()),
                _ => Vec::new(),
            },
        }
    }

    /// How far each figure is from what would do, what a rule says to mend first; `None` where it cannot be told.
    pub(super) fn offs(&self, against: &Against, evaluation: &Evaluation<'_, 'p>) -> Vec<Option<f64>> {
        match against.ask {
            Ask::Rule(index) => {
                let applied = &self.applied[index];
                let faults = Faults::default();
                let scope = RuleScope::new(evaluation, against.thing, &applied.limits, &faults);
                let keeps = applied.rule.keep.iter();
                let mut offs = vec![mend::distance(evaluation, applied, against.thing)];
                offs.extend(keeps.flat_map(|(line, claim)| from_limits(&scope, *line, claim)));
                offs
            }
            Ask::Claim(index) => {
                let (line, claim) = evaluation.rig.expects[index];
                from_limits(evaluation, line, claim)
            }
            Ask::Drift => Vec::new(),
        }
    }
}

fn is_about(claim: &Claim) -> bool {
    matches!(claim.condition, Condition::Bound(Bound::About, _))
}

/// Whether a claim only says what a rig comes to: about some figure, or between two lengths that are added up. It
/// is said anew of a rig whose lengths are others; a length that is only bounded on one side is a wish.
pub fn is_sum(evaluation: &Evaluation<'_, '_>, line: LineRef<'_>, claim: &Claim) -> bool {
    let fresh = Evaluation::new(evaluation.world, evaluation.rig);
    let of_length = || match verdict(&fresh, line, claim) {
        Ok(Verdict {
            found: Answer::Value(value),
            ..
        }) => value.dimension() == Dimension::LENGTH && fresh.states_asked() == 0,
        _ => false,
    };
    is_about(claim) || matches!(claim.condition, Condition::Between(..)) && of_length()
}

/// Whether the rig is none that a rule speaks of, by words that no change touches, such as its method.
fn mutes<'p>(applied: &Applied<'p>, evaluation: &Evaluation<'_, 'p>) -> bool {
    let faults = Faults::default();
    let scope = RuleScope::new(evaluation, Thing::Rig, &applied.limits, &faults);
    let rule = &applied.rule;
    let mut in_words = rule.when.iter().filter(|guard| {
        guard.asks_the_rig(rule.each) && matches!(guard.claim.condition, Condition::Is { .. })
    });
    in_words.any(|guard| {
        verdict(&scope, guard.line, guard.claim).is_ok_and(|verdict| verdict.holds == guard.silences)
    })
}

fn figures(verdict: &Verdict) -> Vec<f64> {
    let found = match &verdict.found {
        Answer::Value(value) => Some(value.si()),
        Answer::Words(..) => None,
    };
    found
        .into_iter()
        .chain(verdict.limits.iter().map(snell_rig::value::Value::si))
        .collect()
}

/// How far what a condition is about is from each of its limits.
fn from_limits(scope: &dyn Subjects<'_>, line: LineRef<'_>, claim: &Claim) -> Vec<Option<f64>> {
    match verdict(scope, line, claim) {
        Ok(Verdict {
            found: Answer::Value(value),
            limits,
            ..
        }) => limits.iter().map(|limit| Some(value.si() - limit.si())).collect(),
        _ => vec![None, None],
    }
}
