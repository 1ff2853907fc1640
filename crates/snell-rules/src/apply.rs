//! Rules applied to a rig: what each finds, with the lines to blame, and what
//! could not be told.

use crate::judge::{Breach, Skip, Skipped, breaches, judged};
use crate::mend::{Family, Mends};
use crate::rule::Rule;
use crate::rulebook::Books;
use crate::scope::RuleScope;
use crate::{allow, say};
use snell_finding::{Finding, FindingCode, Fix};
use snell_rig::Evaluation;
use snell_rig::faults::Faults;
use snell_rig::keywords::Decides;
use snell_rig::lack::Lack;
use snell_rig::measure::Thing;
use snell_rig::value::{Cause, Value};
use snell_text::Place;
use snell_units::in_order;
use std::ops::ControlFlow;
use std::rc::Rc;

/// What a rule found.
#[derive(Clone, Debug)]
pub struct Found {
    /// What is to be said.
    pub finding: Finding,
    /// The places to blame, sorted; a base that shows the same blames the same.
    pub blame: Vec<Place>,
    /// Whether every place to blame lies in a rig that this one is made from.
    pub inherited: bool,
    /// What the rule looked at.
    pub thing: Thing,
    /// Whether its rule says what to change.
    pub mendable: bool,
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
    /// How much was worked out for mends.
    pub worked: usize,
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

/// Holds a rig against its rules. Of what its bases are to blame for, no mend is looked for: they show it, as a rule.
pub fn apply<'p>(books: &Books<'_, 'p>, evaluation: &Evaluation<'_, 'p>, wanted: Wanted) -> Outcome {
    let faults = Faults::default();
    let mut outcome = Outcome::default();
    let applied = books.of_rig(evaluation.world, evaluation.rig, &faults);
    let mut skips = Vec::new();
    let judged: Rc<[_]> = judged(&applied, evaluation, &faults).into();
    let breaches = breaches(&judged, &mut skips);
    let heard = allow::heard(books, evaluation, &breaches, &skips, &faults);
    let family = Family::default();
    let mends = Mends::new(books, &family, judged, evaluation);
    for breach in breaches.iter().filter(|breach| heard(breach)) {
        match found(evaluation, breach, &faults) {
            Ok(mut found) => {
                if wanted >= Wanted::Found && !found.inherited {
                    found.finding.fixes = mends.of(breach);
                }
                outcome.found.push(found);
            }
            Err(lack) => skips.extend(skip(breach, lack)),
        }
    }
    let silenced = allow::silenced(books, evaluation.world, evaluation.rig);
    let unheard = |skip: &&Skip<'_, 'p>| !silenced.contains(&skip.applied.rule.name);
    outcome
        .found
        .extend(of_the_water(evaluation, skips.iter().filter(unheard)));
    if wanted == Wanted::Skipped {
        outcome.skipped = skips.iter().filter_map(|skip| skip.told(evaluation)).collect();
    }
    outcome.faults = faults.into_inner();
    outcome.worked = mends.worked();
    outcome
}

/// What some breaches are told as, and what the water forbids; what cannot be told is a skip more.
pub(crate) fn told<'r, 'p>(
    evaluation: &Evaluation<'_, 'p>,
    breaches: &[Breach<'r, 'p>],
    skips: &mut Vec<Skip<'r, 'p>>,
) -> Vec<Found> {
    let mut all = Vec::new();
    for breach in breaches {
        match found(evaluation, breach, &Faults::default()) {
            Ok(found) => all.push(found),
            Err(lack) => skips.extend(skip(breach, lack)),
        }
    }
    all.extend(of_the_water(evaluation, skips.iter()));
    all
}

fn skip<'r, 'p>(breach: &Breach<'r, 'p>, lack: Lack) -> Option<Skip<'r, 'p>> {
    match lack {
        Lack::Unknown(needs) => Some(Skip {
            applied: breach.applied,
            thing: breach.thing,
            needs,
        }),
        Lack::Faulty => None,
    }
}

/// What a rule that decides whether a rig fishes cannot judge because the rig has no such drift there: it does not fish.
/// Told once, however many rules ask for the same.
fn of_the_water<'s, 'p: 's>(
    evaluation: &Evaluation<'_, 'p>,
    mut skips: impl Iterator<Item = &'s Skip<'s, 'p>>,
) -> Option<Found> {
    let skip = skips
        .find(|skip| skip.applied.rule.decides == Some(Decides::Fishing) && skip.lack().is_of_the_water())?;
    let rig = evaluation.rig;
    let water = rig.settings.water.as_ref().map(|water| water.place);
    let inherited = rig.base.is_some() && !water.is_some_and(|place| rig.owns_place(place));
    let place = water.filter(|_| !inherited).unwrap_or_else(|| rig.place());
    let needs = evaluation.words_of_all(&skip.needs);
    let needs: Vec<String> = needs.iter().map(ToString::to_string).collect();
    let message = format!("the flies do not fish here; it would take {}", needs.join(", "));
    let code = FindingCode::Rule(skip.applied.rule.name.to_owned().into());
    Some(Found {
        finding: Finding::new(code, skip.applied.level, place, message).rig(&rig.name),
        blame: vec![water.unwrap_or(place)],
        inherited,
        thing: skip.thing,
        mendable: false,
    })
}

/// Looks for the mends of what was found before, one finding after the other, until enough is known. How much was worked
/// out for them.
pub fn mends<'p>(
    books: &Books<'_, 'p>,
    evaluation: &Evaluation<'_, 'p>,
    found: &[Found],
    enough: &mut dyn FnMut(usize, Vec<Fix>) -> ControlFlow<()>,
) -> usize {
    let applied = books.of_rig(evaluation.world, evaluation.rig, &Faults::default());
    let family = Family::default();
    let judged = judged(&applied, evaluation, &Faults::default());
    let mends = Mends::new(books, &family, judged.into(), evaluation);
    for (index, found) in found.iter().enumerate() {
        let rule = applied
            .iter()
            .find(|applied| found.finding.code == applied.rule.name);
        let of = rule.map(|applied| {
            mends.of(&Breach {
                applied,
                thing: found.thing,
                values: Vec::new(),
            })
        });
        if enough(index, of.unwrap_or_default()).is_break() {
            break;
        }
    }
    mends.worked()
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
fn found<'p>(
    evaluation: &Evaluation<'_, 'p>,
    breach: &Breach<'_, 'p>,
    faults: &Faults,
) -> Result<Found, Lack> {
    let scope = RuleScope::new(evaluation, breach.thing, &breach.applied.limits, faults);
    let (line, _) = breach.applied.rule.say.ok_or(Lack::Faulty)?;
    let (said, values) = say::fill(&scope, line, breach.applied.rule.pieces(), &breach.values)?;
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
    in_order(&mut blame, Ord::cmp);
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
        blame,
        inherited,
        thing: breach.thing,
        mendable: rule.mend.is_some(),
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
