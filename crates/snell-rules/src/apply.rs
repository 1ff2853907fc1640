//! Rules applied to a rig: what each finds, with the lines to blame, and what
//! could not be told.

use crate::allow;
use crate::mend::Mends;
use crate::rule::{Guard, Rule};
use crate::rulebook::{Applied, Books};
use crate::say;
use crate::scope::RuleScope;
use snell_finding::{Finding, FindingCode, Fix};
use snell_rig::BlockId;
use snell_rig::Evaluation;
use snell_rig::evaluation::{Answer, MissingWords, verdict};
use snell_rig::faults::Faults;
use snell_rig::lack::Lack;
use snell_rig::measure::{Kind, Thing};
use snell_rig::missing::Missing;
use snell_rig::value::{Cause, Value};
use snell_syntax::Condition;
use snell_text::Place;
use std::sync::Arc;

/// What a rule found.
#[derive(Clone, Debug)]
pub struct Found {
    /// What is to be said.
    pub finding: Finding,
    /// The rig.
    pub rig: BlockId,
    /// The places to blame, sorted; a base that shows the same blames the same.
    pub blame: Vec<Place>,
    /// Whether every place to blame lies in a rig that this one is made from.
    pub inherited: bool,
}

impl Found {
    fn with(mut self, fixes: Vec<Fix>) -> Self {
        self.finding.fixes = fixes;
        self
    }
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
    thing: Thing,
    needs: Arc<[Missing]>,
}

impl Skip<'_, '_> {
    /// Why it could not be judged.
    pub(crate) fn lack(&self) -> Lack {
        Lack::Unknown(self.needs.clone())
    }

    /// What is told of it; a rule about something that this kind of rig need not have has nothing to ask.
    fn told(&self, evaluation: &Evaluation<'_, '_>) -> Option<Skipped> {
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

/// What came of one rig.
#[derive(Default)]
pub struct Outcome {
    /// What the rules found, silenced ones left out.
    pub found: Vec<Found>,
    /// Faults of rules and rulebooks, and idle `allow` lines.
    pub faults: Vec<Finding>,
    /// What could not be told.
    pub skipped: Vec<Skipped>,
}

/// How much is wanted of a check; each holds what the one before it does.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Wanted {
    /// What was found, without mends: solving for them takes longer than all the rest.
    Bare,
    /// With mends.
    Found,
    /// Also the rules that could not be judged.
    Skipped,
}

/// Holds a rig against its rules.
pub fn apply<'p>(books: &Books<'_, 'p>, evaluation: &Evaluation<'_, 'p>, wanted: Wanted) -> Outcome {
    let faults = Faults::default();
    let mut outcome = Outcome::default();
    let applied = books.of_rig(evaluation.rig, &faults);
    let mut skips = Vec::new();
    let breaches = breaches(&applied, evaluation, &faults, &mut skips);
    let heard = allow::heard(books, evaluation, &breaches, &skips, &faults);
    let mends = Mends::new(books, &applied, evaluation);
    for breach in breaches.iter().filter(|breach| heard(breach)) {
        let scope = RuleScope::new(evaluation, breach.thing, &breach.applied.limits, &faults);
        match found(&scope, breach) {
            Ok(found) if wanted == Wanted::Bare => outcome.found.push(found),
            Ok(found) => outcome.found.push(found.with(mends.of(breach))),
            Err(Lack::Unknown(needs)) => skips.push(Skip {
                applied: breach.applied,
                thing: breach.thing,
                needs,
            }),
            Err(Lack::Faulty) => {}
        }
    }
    if wanted == Wanted::Skipped {
        outcome.skipped = skips.iter().filter_map(|skip| skip.told(evaluation)).collect();
    }
    outcome.faults = faults.into_inner();
    outcome
}

/// Every breach of the rules, in the rules' order.
pub(crate) fn breaches<'r, 'p>(
    applied: &'r [Applied<'p>],
    evaluation: &Evaluation<'_, 'p>,
    faults: &Faults,
    skips: &mut Vec<Skip<'r, 'p>>,
) -> Vec<Breach<'r, 'p>> {
    let mut breaches = Vec::new();
    let mut asked = Vec::new();
    for applied in applied {
        let rule = &applied.rule;
        let (of_rig, of_thing): (Vec<&Guard<'p>>, _) =
            rule.when.iter().partition(|guard| guard.asks_the_rig(rule.each));
        let whole = RuleScope::new(evaluation, Thing::Rig, &applied.limits, faults);
        let open = rig_passes(&whole, &of_rig, &mut asked);
        if matches!(open, Ok(false)) {
            continue;
        }
        for thing in things(evaluation, rule.each) {
            let scope = RuleScope::new(evaluation, thing, &applied.limits, faults);
            let judged = open.clone().and_then(|_| judge(applied, &scope, &of_thing));
            match judged {
                Ok(breach) => breaches.extend(breach),
                Err(Lack::Unknown(needs)) => skips.push(Skip {
                    applied,
                    thing,
                    needs,
                }),
                Err(Lack::Faulty) => {}
            }
        }
    }
    breaches
}

/// A question of words to the rig as it is written, and whether the answer holds.
type Asked<'p> = (&'p str, &'p str, bool);

/// Whether a rule speaks, by what it asks the rig as a whole. Most rules of a rulebook ask the same of it, such
/// as its method, so answers of words are kept.
fn rig_passes<'p>(
    scope: &RuleScope<'_, '_, 'p>,
    guards: &[&Guard<'p>],
    asked: &mut Vec<Asked<'p>>,
) -> Result<bool, Lack> {
    for guard in guards {
        let subject = guard.line.written(guard.claim.subject.span);
        let condition = guard.line.written(guard.claim.condition_span);
        let known = asked
            .iter()
            .find(|asked| (asked.0, asked.1) == (subject, condition));
        let holds = match known {
            Some((_, _, holds)) => *holds,
            None => verdict(scope, guard.line, guard.claim)?.holds,
        };
        if known.is_none() && matches!(guard.claim.condition, Condition::Is { .. }) {
            asked.push((subject, condition, holds));
        }
        if holds == guard.silences {
            return Ok(false);
        }
    }
    Ok(true)
}

/// Whether a rule speaks, by some of its guards.
fn passes(scope: &RuleScope<'_, '_, '_>, guards: &[&Guard<'_>]) -> Result<bool, Lack> {
    for guard in guards {
        if verdict(scope, guard.line, guard.claim)?.holds == guard.silences {
            return Ok(false);
        }
    }
    Ok(true)
}

/// Every thing of a kind on the rig.
fn things(evaluation: &Evaluation<'_, '_>, each: Option<Kind>) -> Vec<Thing> {
    let chain = &evaluation.rig.chain;
    match each {
        Some(Kind::Section) => chain.sections().map(|(id, _)| Thing::Section(id)).collect(),
        Some(Kind::Join) => chain.joins().map(Thing::Join).collect(),
        Some(Kind::Dropper) => chain.droppers().map(Thing::Dropper).collect(),
        Some(Kind::Gap) => chain.gaps().map(Thing::Gap).collect(),
        Some(Kind::Fly) => chain.flies().map(|(id, _)| Thing::Fly(id)).collect(),
        Some(Kind::Shot) => chain.shots().map(Thing::Shot).collect(),
        Some(Kind::Rig | Kind::Rod | Kind::Water) | None => vec![Thing::Rig],
    }
}

fn judge<'r, 'p>(
    applied: &'r Applied<'p>,
    scope: &RuleScope<'_, '_, 'p>,
    guards: &[&Guard<'p>],
) -> Result<Option<Breach<'r, 'p>>, Lack> {
    let rule = &applied.rule;
    if !passes(scope, guards)? {
        return Ok(None);
    }
    let mut values = Vec::new();
    let mut broken = false;
    for (line, claim) in &rule.keep {
        let verdict = verdict(scope, *line, claim)?;
        if !verdict.holds {
            broken = true;
            if let Answer::Value(value) = verdict.found {
                values.push(value);
            }
            values.extend(verdict.limits);
        }
    }
    Ok(broken.then_some(Breach {
        applied,
        thing: scope.thing,
        values,
    }))
}

/// Each place that values came from once, in the order in which it is met; a figure that the rule itself
/// writes is no line of the rig to blame.
fn causes<'v>(rule: &Rule<'_>, values: impl Iterator<Item = &'v Value>) -> Vec<Cause> {
    let mut kept: Vec<Cause> = Vec::new();
    for cause in values.flat_map(|value| value.causes.iter()) {
        let of_rule = rule.writes(cause.place);
        if !of_rule && !kept.iter().any(|other| other.place == cause.place) {
            kept.push(*cause);
        }
    }
    kept
}

/// A breach as it is told.
fn found(scope: &RuleScope<'_, '_, '_>, breach: &Breach<'_, '_>) -> Result<Found, Lack> {
    let evaluation = scope.evaluation;
    let line = breach.applied.rule.say_line.ok_or(Lack::Faulty)?;
    let (said, values) = say::fill(scope, line, &breach.applied.rule.say)?;
    let rig = evaluation.rig;
    let own = |place: &Place| rig.owns_place(*place);
    let part = place_of(evaluation, breach.thing);
    let causes = causes(&breach.applied.rule, breach.values.iter().chain(&values));
    let mut labels: Vec<(Place, String)> = causes
        .iter()
        .map(|cause| (cause.place, cause.written()))
        .collect();
    if labels.is_empty() {
        labels.push((part, String::new()));
    }
    let inherited = rig.base.is_some() && !labels.iter().any(|(place, _)| own(place));
    let main = labels.iter().position(|(place, _)| own(place));
    let mut blame: Vec<Place> = labels.iter().map(|(place, _)| *place).collect();
    blame.sort_unstable();
    let (place, here) = match main {
        Some(index) => labels.remove(index),
        None if inherited => (rig.place(), "in this rig".to_owned()),
        None => (part, String::new()),
    };
    let rule = &breach.applied.rule;
    let mut finding = Finding::new(
        FindingCode::Rule(rule.name.to_owned().into()),
        breach.applied.level,
        place,
        said,
    )
    .here(here)
    .rig(&rig.name);
    for (place, told) in labels {
        let told = match rig.base.filter(|_| !own(&place) && in_base(evaluation, place)) {
            Some(base) if told.is_empty() => format!("from {base}"),
            Some(base) => format!("{told}, from {base}"),
            None => told,
        };
        finding = finding.label(place, told);
    }
    if let Some(about) = rule.about {
        finding = finding.note(about);
    }
    Ok(Found {
        finding,
        rig: rig.block.id,
        blame,
        inherited,
    })
}

/// Whether a place lies in one of the rigs that this one is made from.
fn in_base(evaluation: &Evaluation<'_, '_>, place: Place) -> bool {
    let bases = snell_rig::blocks::lineage(&evaluation.world.names, evaluation.rig.block).unwrap_or_default();
    let lines = bases.iter().flat_map(|block| block.lines());
    lines
        .into_iter()
        .any(|line| line.text_id() == place.text && line.whole().span.holds(place.span))
}

/// The line that writes a thing; of the whole rig, its name.
fn place_of(evaluation: &Evaluation<'_, '_>, thing: Thing) -> Place {
    let part = evaluation.rig.chain.part_of(thing);
    part.map_or_else(|| evaluation.rig.place(), snell_rig::rig::Part::place)
}
