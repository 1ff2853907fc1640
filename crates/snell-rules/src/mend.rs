//! Mends: which one length, changed alone, makes a rule hold.
//!
//! Each plain length of a part is tried by itself: solved for, rounded to what
//! a person would cut, and the whole rig judged again. One that raises a new
//! finding is dropped.

use crate::apply::{Breach, breaches};
use crate::length;
use crate::rulebook::{Applied, Books};
use crate::scope::RuleScope;
use snell_finding::{Edit, Fix};
use snell_rig::Evaluation;
use snell_rig::evaluate::evaluate;
use snell_rig::evaluation::verdict;
use snell_rig::faults::Faults;
use snell_rig::fit::Fit;
use snell_rig::measure::Thing;
use snell_rig::rig::Part;
use snell_rig::value::Value;
use snell_syntax::{ExprKind, Single, SingleKind};
use snell_text::{Place, Span};
use snell_units::{Dimension, System};
use std::cell::OnceCell;

/// A length that may be changed.
struct Candidate<'e, 'p> {
    name: String,
    part: &'e Part<'p>,
    fit: Fit<'p>,
    value: Value,
}

/// What a rig is found guilty of: rules by name and thing, claims by place.
type Codes = Vec<(String, Option<Thing>)>;

/// The mends of one rig's breaches.
pub(crate) struct Mends<'a, 'w, 'p> {
    books: &'a Books<'w, 'p>,
    applied: &'a [Applied<'p>],
    evaluation: &'a Evaluation<'w, 'p>,
    /// What the rig is found guilty of as it is.
    before: OnceCell<Codes>,
}

impl<'a, 'w, 'p> Mends<'a, 'w, 'p> {
    pub(crate) fn new(
        books: &'a Books<'w, 'p>,
        applied: &'a [Applied<'p>],
        evaluation: &'a Evaluation<'w, 'p>,
    ) -> Self {
        Self {
            books,
            applied,
            evaluation,
            before: OnceCell::new(),
        }
    }

    /// The mends of a breach: one is sure, several are offered.
    pub(crate) fn of(&self, breach: &Breach<'_, 'p>) -> Vec<Fix> {
        if breach.applied.rule.mend.is_none() || self.evaluation.rig.broken {
            return Vec::new();
        }
        let before = self.before.get_or_init(|| codes(self.applied, self.evaluation));
        let mend = |candidate: &Candidate<'_, 'p>| {
            let length = solved(self.applied, self.evaluation, breach, candidate, before)?;
            let own = self.evaluation.rig.owns_place(candidate.fit.place());
            if own && self.harms_another(candidate, length) {
                return None;
            }
            written(self.evaluation, candidate, length)
        };
        let mut fixes: Vec<Fix> = candidates(self.evaluation).iter().filter_map(mend).collect();
        let sure = fixes.len() == 1;
        fixes.iter_mut().for_each(|fix| fix.sure = sure);
        fixes
    }
}

impl<'p> Mends<'_, '_, 'p> {
    /// Whether a length of this rig's own raises a finding in a rig that is made from it.
    fn harms_another(&self, candidate: &Candidate<'_, 'p>, length: f64) -> bool {
        let world = self.books.world();
        self.books
            .made_from(self.evaluation.rig.block.id)
            .iter()
            .any(|block| {
                // What is wrong with that rig as it stands is told where it is read.
                let faults = Faults::default();
                let rig = snell_rig::rig::read(world, world.project.block(*block), &faults);
                let applied = self.books.of_rig(&rig, &faults);
                let evaluation = Evaluation::new(world, &rig);
                let before = codes(&applied, &evaluation);
                let after = codes(&applied, &suppose(&evaluation, candidate, length));
                after.iter().any(|code| !before.contains(code))
            })
    }
}

/// Every part whose length is one plain quantity.
fn candidates<'e, 'p>(evaluation: &'e Evaluation<'_, 'p>) -> Vec<Candidate<'e, 'p>> {
    let chain = &evaluation.rig.chain;
    let sections = chain
        .sections()
        .map(|(id, section)| (chain.section_name(id), section.part));
    let droppers = chain
        .droppers()
        .map(|id| (chain.dropper_name(id), chain.dropper(id).part));
    let plain = |(name, part): (String, &'e Part<'p>)| {
        let fit = part.length()?;
        let plain = matches!(&fit.expr.kind, ExprKind::Single(single) if is_quantity(single));
        let value = evaluation.value(fit).ok().filter(|_| plain)?;
        Some(Candidate {
            name,
            part,
            fit,
            value,
        })
    };
    sections.chain(droppers).filter_map(plain).collect()
}

fn is_quantity(single: &Single) -> bool {
    matches!(single.kind, SingleKind::Feet(..) | SingleKind::Number(_, Some(_)))
}

fn codes(applied: &[Applied<'_>], evaluation: &Evaluation<'_, '_>) -> Codes {
    let faults = Faults::default();
    let breaches = breaches(applied, evaluation, &faults, &mut Vec::new());
    let rules = breaches
        .iter()
        .map(|breach| (breach.applied.rule.name.to_owned(), Some(breach.thing)));
    let claims = evaluation
        .broken_claims()
        .into_iter()
        .map(|place| (format!("{place:?}"), None));
    rules.chain(claims).collect()
}

/// The length that makes the rule hold and raises nothing new.
fn solved<'p>(
    applied: &[Applied<'p>],
    evaluation: &Evaluation<'_, 'p>,
    breach: &Breach<'_, 'p>,
    candidate: &Candidate<'_, 'p>,
    before: &Codes,
) -> Option<f64> {
    let off = |length: f64| {
        let supposed = suppose(evaluation, candidate, length);
        distance(&supposed, breach.applied, breach.thing)
    };
    let exact = length::root(candidate.value.si(), off)?;
    length::cuts(exact, system(candidate)).find(|length| {
        let supposed = suppose(evaluation, candidate, *length);
        // The rule itself is asked first: it is the likeliest to be still broken.
        !is_broken(breach, &supposed) && codes(applied, &supposed).iter().all(|code| before.contains(code))
    })
}

/// Whether a rule is still broken at the same thing.
fn is_broken(breach: &Breach<'_, '_>, supposed: &Evaluation<'_, '_>) -> bool {
    let faults = Faults::default();
    let scope = RuleScope::new(supposed, breach.thing, &breach.applied.limits, &faults);
    breach
        .applied
        .rule
        .keep
        .iter()
        .any(|(line, claim)| !verdict(&scope, *line, claim).is_ok_and(|verdict| verdict.holds))
}

/// How far the measure that a rule would mend is from its value.
pub(crate) fn distance<'p>(
    evaluation: &Evaluation<'_, 'p>,
    applied: &Applied<'p>,
    thing: Thing,
) -> Option<f64> {
    let mend = applied.rule.mend?;
    let faults = Faults::default();
    let scope = RuleScope::new(evaluation, thing, &applied.limits, &faults);
    let what = evaluate(&scope, mend.line, mend.what).ok()?;
    let to = evaluate(&scope, mend.line, mend.to).ok()?;
    Some(what.si() - to.si())
}

fn suppose<'w, 'p>(
    evaluation: &Evaluation<'w, 'p>,
    candidate: &Candidate<'_, 'p>,
    length: f64,
) -> Evaluation<'w, 'p> {
    let value = candidate.value.clone().with(length, Dimension::LENGTH);
    evaluation.supposing(candidate.fit.place(), value)
}

fn system(candidate: &Candidate<'_, '_>) -> System {
    candidate.value.system.unwrap_or(System::Metric)
}

/// The edit that writes a length: at its own place, or in a derived rig as a `change` line.
fn written(evaluation: &Evaluation<'_, '_>, candidate: &Candidate<'_, '_>, length: f64) -> Option<Fix> {
    let value = candidate.value.clone().with(length, Dimension::LENGTH);
    let new = snell_units::write(value.quantity, system(candidate));
    let title = format!("make {} {new}", candidate.name);
    let place = candidate.fit.place();
    if evaluation.rig.owns_place(place) {
        return Some(Fix::offered(title, place, new));
    }
    let target = candidate.part.target.as_deref()?;
    let edit = change_line(evaluation, target, &new)?;
    Some(Fix {
        title,
        sure: false,
        edits: vec![edit],
    })
}

/// A `change` line behind the last line of the rig's own block, with that line's margin.
fn change_line(evaluation: &Evaluation<'_, '_>, target: &str, new: &str) -> Option<Edit> {
    let block = evaluation.rig.block;
    let last = block.lines().last().or_else(|| block.head_line())?;
    let text = &last.source.text;
    let offset = last.line.offset as usize;
    let start = text[..offset].rfind(['\n', '\r']).map_or(0, |end| end + 1);
    let end = text[offset..]
        .find(['\n', '\r'])
        .map_or(text.len(), |length| offset + length);
    let margin = &text[start..offset];
    let line_end = if text[end..].starts_with("\r\n") {
        "\r\n"
    } else {
        "\n"
    };
    Some(Edit {
        place: Place::new(last.text_id(), Span::empty(end as u32)),
        new: format!("{line_end}{margin}  change {target} to {new}"),
    })
}
