//! Rules held against the things of a rig: which break, which cannot be told,
//! and on which written values each of that hangs.

use crate::gathering::Applied;
use crate::rule::Guard;
use crate::scope::RuleScope;
use snell_rig::Evaluation;
use snell_rig::evaluation::MissingWords;
use snell_rig::evaluation::{Answer, Written, verdict};
use snell_rig::faults::Faults;
use snell_rig::lack::Lack;
use snell_rig::measure::{Kind, Thing};
use snell_rig::missing::Missing;
use snell_rig::value::Value;
use snell_syntax::Condition;
use std::sync::Arc;

/// What a rule found at one thing, before it is made a finding.
pub(crate) struct Breach<'r, 'p> {
    pub(crate) applied: &'r Applied<'p>,
    pub(crate) thing: Thing,
    /// What was found, and what it was held against.
    pub(crate) values: Vec<Value>,
}

/// A rule that could not be judged at one thing, before it is told.
pub(crate) struct Skip<'r, 'p> {
    pub(crate) applied: &'r Applied<'p>,
    pub(crate) thing: Thing,
    pub(crate) needs: Arc<[Missing]>,
}

impl<'p> Skip<'_, 'p> {
    /// Why it could not be judged.
    pub(crate) fn lack(&self) -> Lack {
        Lack::Unknown(self.needs.clone())
    }

    /// What is told of it; a rule about something that this kind of rig need not have has nothing to ask.
    pub(crate) fn told(&self, evaluation: &Evaluation<'_, 'p>) -> Option<Skipped> {
        if self.lack().is_of_other_kind() {
            return None;
        }
        Some(Skipped {
            rule: self.applied.rule.name.to_owned(),
            rig: evaluation.rig.name.clone(),
            of: evaluation.rig.name_of(self.thing),
            needs: evaluation.words_of_all(&self.needs),
        })
    }
}

/// One rule held against a rig.
pub(crate) struct Judged<'r, 'p> {
    pub(crate) applied: &'r Applied<'p>,
    /// What hangs whether it speaks of this rig at all.
    pub(crate) speaks_on: Written,
    pub(crate) things: Vec<JudgedThing>,
}

/// One rule held against one thing of a rig.
pub(crate) struct JudgedThing {
    pub(crate) thing: Thing,
    pub(crate) on: Written,
    /// What was found where it is broken.
    pub(crate) outcome: Result<Option<Vec<Value>>, Lack>,
}

impl Judged<'_, '_> {
    pub(crate) fn is_broken_at(&self, thing: Thing) -> bool {
        self.things
            .iter()
            .any(|known| known.thing == thing && known.is_broken())
    }
}

impl JudgedThing {
    pub(crate) fn is_broken(&self) -> bool {
        matches!(self.outcome, Ok(Some(_)))
    }
}

/// Holds a rig against rules, one after the other.
pub(crate) struct Judge<'e, 'w, 'p> {
    evaluation: &'e Evaluation<'w, 'p>,
    faults: &'e Faults,
    /// Answers in words that hold of the rig as a whole. Most rules of a rulebook ask the same, such as its method.
    asked: Vec<Asked<'p>>,
}

/// A question of words to the rig as it is written, whether the answer holds, and on what that hangs.
struct Asked<'p> {
    subject: &'p str,
    condition: &'p str,
    holds: bool,
    on: Written,
}

impl<'e, 'w, 'p> Judge<'e, 'w, 'p> {
    pub(crate) fn new(evaluation: &'e Evaluation<'w, 'p>, faults: &'e Faults) -> Self {
        Self {
            evaluation,
            faults,
            asked: Vec::new(),
        }
    }

    /// One rule at everything that it looks at.
    pub(crate) fn rule<'r>(&mut self, applied: &'r Applied<'p>) -> Judged<'r, 'p> {
        let evaluation = self.evaluation;
        let (speaks, speaks_on) = evaluation.hanging_on(|| self.speaks(applied));
        let things = match &speaks {
            Ok(false) => Vec::new(),
            speaks => self.each(applied, speaks),
        };
        Judged {
            applied,
            speaks_on,
            things,
        }
    }

    /// A rule at every thing of its kind on the rig.
    fn each(&self, applied: &Applied<'p>, speaks: &Result<bool, Lack>) -> Vec<JudgedThing> {
        let chain = &self.evaluation.rig.chain;
        let at = |thing| self.thing(applied, thing, speaks);
        match applied.rule.each {
            Some(Kind::Section) => chain.sections().map(|(id, _)| at(Thing::Section(id))).collect(),
            Some(Kind::Join) => chain.joins().map(|id| at(Thing::Join(id))).collect(),
            Some(Kind::Dropper) => chain.droppers().map(|id| at(Thing::Dropper(id))).collect(),
            Some(Kind::Gap) => chain.gaps().map(|id| at(Thing::Gap(id))).collect(),
            Some(Kind::Fly) => chain.flies().map(|(id, _)| at(Thing::Fly(id))).collect(),
            Some(Kind::Shot) => chain.shots().map(|id| at(Thing::Shot(id))).collect(),
            Some(Kind::Rig | Kind::Rod | Kind::Water) | None => vec![at(Thing::Rig)],
        }
    }

    fn thing(&self, applied: &Applied<'p>, thing: Thing, speaks: &Result<bool, Lack>) -> JudgedThing {
        let (outcome, on) = self.evaluation.hanging_on(|| match speaks {
            Ok(_) => self.breach(applied, thing),
            Err(lack) => Err(lack.clone()),
        });
        JudgedThing { thing, on, outcome }
    }

    /// What a rule that speaks of the rig finds at one thing, where it is broken.
    pub(crate) fn breach(&self, applied: &Applied<'p>, thing: Thing) -> Result<Option<Vec<Value>>, Lack> {
        let rule = &applied.rule;
        let scope = RuleScope::new(self.evaluation, thing, &applied.limits, self.faults);
        let of_thing = rule.when.iter().filter(|guard| !guard.asks_the_rig(rule.each));
        for guard in of_thing {
            if verdict(&scope, guard.line, guard.claim)?.holds == guard.silences {
                return Ok(None);
            }
        }
        let mut values = Vec::new();
        let mut broken = false;
        for (line, claim) in &rule.keep {
            let verdict = verdict(&scope, *line, claim)?;
            if !verdict.holds {
                broken = true;
                if let Answer::Value(value) = verdict.found {
                    values.push(value);
                }
                values.extend(verdict.limits);
            }
        }
        Ok(broken.then_some(values))
    }

    /// Whether a rule speaks, by what it asks the rig as a whole.
    fn speaks(&mut self, applied: &Applied<'p>) -> Result<bool, Lack> {
        let rule = &applied.rule;
        for guard in rule.when.iter().filter(|guard| guard.asks_the_rig(rule.each)) {
            if self.holds(applied, guard)? == guard.silences {
                return Ok(false);
            }
        }
        Ok(true)
    }

    fn holds(&mut self, applied: &Applied<'p>, guard: &Guard<'p>) -> Result<bool, Lack> {
        let subject = guard.line.written(guard.claim.subject.span);
        let condition = guard.line.written(guard.claim.condition_span);
        let same = |asked: &&Asked<'_>| (asked.subject, asked.condition) == (subject, condition);
        if let Some(known) = self.asked.iter().find(same) {
            self.evaluation.hang_on(&known.on);
            return Ok(known.holds);
        }
        let scope = RuleScope::new(self.evaluation, Thing::Rig, &applied.limits, self.faults);
        let (verdict, on) = self
            .evaluation
            .hanging_on(|| verdict(&scope, guard.line, guard.claim));
        let holds = verdict?.holds;
        if matches!(guard.claim.condition, Condition::Is { .. }) {
            self.asked.push(Asked {
                subject,
                condition,
                holds,
                on,
            });
        }
        Ok(holds)
    }
}

/// Some rules, each held against a rig.
pub(crate) fn judged<'r, 'p>(
    applied: &'r [Applied<'p>],
    evaluation: &Evaluation<'_, 'p>,
    faults: &Faults,
) -> Vec<Judged<'r, 'p>> {
    let mut judge = Judge::new(evaluation, faults);
    applied.iter().map(|applied| judge.rule(applied)).collect()
}

/// Every breach of some rules, in the rules' order.
pub(crate) fn breaches<'r, 'p>(
    judged: &[Judged<'r, 'p>],
    skips: &mut Vec<Skip<'r, 'p>>,
) -> Vec<Breach<'r, 'p>> {
    let mut breaches = Vec::new();
    for Judged { applied, things, .. } in judged {
        for JudgedThing { thing, outcome, .. } in things {
            match outcome {
                Ok(Some(values)) => breaches.push(Breach {
                    applied,
                    thing: *thing,
                    values: values.clone(),
                }),
                Err(Lack::Unknown(needs)) => skips.push(Skip {
                    applied,
                    thing: *thing,
                    needs: Arc::clone(needs),
                }),
                Ok(None) | Err(Lack::Faulty) => {}
            }
        }
    }
    breaches
}

/// A rule that could not be judged.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Skipped {
    /// The rule.
    pub rule: String,
    /// The rig.
    pub rig: String,
    /// What the rule looked at: a part's name, or the rig's.
    pub of: String,
    /// What is missing.
    pub needs: Vec<MissingWords>,
}
