//! Mends: which one length, changed alone, makes a rule hold.
//!
//! Each plain length of a part on which the rule hangs is tried by itself:
//! solved for, rounded to what a person would cut, and all that hangs on it
//! judged again. One that raises a new finding is dropped. The work is bounded.

use crate::gathering::Applied;
use crate::judge::{Breach, Judge, Judged, judged};
use crate::length;
use crate::rulebook::Books;
use crate::scope::RuleScope;
use snell_finding::{Edit, Fix, Limit};
use snell_rig::Evaluation;
use snell_rig::evaluate::evaluate;
use snell_rig::evaluation::{Written, verdict};
use snell_rig::faults::Faults;
use snell_rig::fit::Fit;
use snell_rig::measure::Thing;
use snell_rig::project::LineRef;
use snell_rig::rig::{Part, Rig};
use snell_rig::thing::{DropperId, SectionId};
use snell_rig::value::Value;
use snell_syntax::{Claim, Single, SingleKind};
use snell_text::{Place, Span};
use snell_units::{Dimension, System};
use std::cell::{Cell, OnceCell};
use std::rc::Rc;
use std::sync::Arc;

/// The most work that is done for the mends of one finding, in values worked out and verdicts given: some hundredths
/// of a second. What is not tried by then is not offered.
const MOST_WORK: usize = Limit::MendWork.count();

/// The same for all findings of one rig. Whoever asks for the mends of one finding by itself still gets them.
const MOST_WORK_OF_RIG: usize = Limit::RigMendWork.count();

/// How much more a state of the rig in its water takes than another value.
const STATE_WORK: usize = 200;

/// A part with a length, by its number.
#[derive(Clone, Copy)]
enum Piece {
    Section(SectionId),
    Tag(DropperId),
}

/// A length that may be changed.
struct Candidate<'e, 'p> {
    piece: Piece,
    part: &'e Part<'p>,
    fit: Fit<'p>,
    value: Value,
    /// Itself, among the written values of the rig.
    at: Written,
}

/// A rig with the rules that it is held against.
type Member<'p> = (Rig<'p>, Arc<[Applied<'p>]>);

/// The rigs that are made from a rig, which its mends must not harm; read when they are first asked for.
#[derive(Default)]
pub(crate) struct Family<'p>(OnceCell<Vec<Member<'p>>>);

/// The mends of one rig's breaches.
pub(crate) struct Mends<'a, 'w, 'p> {
    books: &'a Books<'w, 'p>,
    family: &'a Family<'p>,
    /// Its rules, held against the rig as it is.
    judged: Rc<[Judged<'a, 'p>]>,
    evaluation: &'a Evaluation<'w, 'p>,
    candidates: OnceCell<Vec<Candidate<'a, 'p>>>,
    /// What the rig is found guilty of as it is.
    as_is: OnceCell<Verdicts<'a, 'p>>,
    /// The same of the rigs that are made from it.
    of_family: OnceCell<Vec<(Evaluation<'a, 'p>, Verdicts<'a, 'p>)>>,
    /// The work that was done for all findings.
    worked: Cell<usize>,
}

/// Every verdict on a rig, each with what it hangs on.
struct Verdicts<'r, 'p> {
    rules: Rc<[Judged<'r, 'p>]>,
    /// The rule that a supposed length broke last: the likeliest to be broken by the next one, so it is asked first.
    broke_last: Cell<usize>,
    claims: Vec<(LineRef<'p>, &'p Claim, bool, Written)>,
}

/// The work that was done for one finding.
#[derive(Default)]
struct Work(Cell<usize>);

impl Work {
    /// Notes that a rig was asked for some verdicts, and what was worked out for them; nothing once that is too much.
    fn asked(&self, verdicts: usize, of: &Evaluation<'_, '_>) -> Option<()> {
        let work = verdicts + of.worked_out() + of.states_asked() * STATE_WORK;
        self.0.set(self.0.get() + work);
        self.is_left().then_some(())
    }

    fn is_left(&self) -> bool {
        self.0.get() < MOST_WORK
    }
}

impl<'a, 'w, 'p> Mends<'a, 'w, 'p> {
    pub(crate) fn new(
        books: &'a Books<'w, 'p>,
        family: &'a Family<'p>,
        judged: Rc<[Judged<'a, 'p>]>,
        evaluation: &'a Evaluation<'w, 'p>,
    ) -> Self {
        Self {
            books,
            family,
            judged,
            evaluation,
            candidates: OnceCell::new(),
            as_is: OnceCell::new(),
            of_family: OnceCell::new(),
            worked: Cell::new(0),
        }
    }

    /// The mends of a breach: one is sure, several are offered. Where the work runs out none is sure.
    pub(crate) fn of(&self, breach: &Breach<'_, 'p>) -> Vec<Fix> {
        let given_up = self.worked.get() >= MOST_WORK_OF_RIG;
        if given_up || breach.applied.rule.mend.is_none() || self.evaluation.rig.broken {
            return Vec::new();
        }
        let evaluation = self.evaluation;
        let (_, on) = evaluation.hanging_on(|| distance(evaluation, breach.applied, breach.thing));
        let work = Work::default();
        let mut fixes = Vec::new();
        let candidates = self.candidates.get_or_init(|| candidates(evaluation));
        for candidate in candidates.iter().filter(|candidate| candidate.at.meets(&on)) {
            let Some(length) = self.solved(breach, candidate, &work) else {
                continue;
            };
            let own = evaluation.rig.owns_place(candidate.fit.place());
            if !(own && self.harms_family(candidate, length, &work)) {
                fixes.extend(written(evaluation, candidate, length));
            }
        }
        let sure = fixes.len() == 1 && work.is_left();
        fixes.iter_mut().for_each(|fix| fix.sure = sure);
        self.worked.set(self.worked.get() + work.0.get());
        fixes
    }

    /// How much work was done for the mends so far.
    pub(crate) fn worked(&self) -> usize {
        self.worked.get()
    }

    /// The length that makes the rule hold and raises nothing new; nothing where it is not found in time.
    fn solved(&self, breach: &Breach<'_, 'p>, candidate: &Candidate<'_, 'p>, work: &Work) -> Option<f64> {
        let evaluation = self.evaluation;
        let off = |length: f64| {
            let supposed = suppose(evaluation, candidate, length);
            let off = distance(&supposed, breach.applied, breach.thing);
            work.asked(0, &supposed)?;
            off
        };
        let exact = length::root(candidate.value.si(), off)?;
        let as_is = self.as_is.get_or_init(|| verdicts(&self.judged, evaluation));
        length::cuts(exact, system(candidate)).find(|length| {
            let supposed = suppose(evaluation, candidate, *length);
            // The rule itself is asked first: it is the likeliest to be still broken.
            !is_broken(breach, &supposed) && raises_nothing(as_is, &supposed, &candidate.at, work)
        })
    }

    /// Whether a length of this rig's own raises a finding in a rig that is made from it, or may do so.
    fn harms_family(&self, candidate: &Candidate<'_, 'p>, length: f64, work: &Work) -> bool {
        let world = self.books.world();
        let members = self.family.0.get_or_init(|| {
            let blocks = self.books.made_from(self.evaluation.rig.block.id).iter();
            let member = |block: &snell_rig::BlockId| {
                // What is wrong with that rig as it stands is told where it is read.
                let faults = Faults::default();
                let rig = snell_rig::read(world, world.project.block(*block), &faults);
                let applied = self.books.of_rig(world, &rig, &faults);
                (rig, applied)
            };
            blocks.map(member).collect()
        });
        let of_family = self.of_family.get_or_init(|| {
            let as_it_is = |(rig, applied): &'a Member<'p>| {
                let evaluation = Evaluation::new(world, rig);
                let judged = judged(applied, &evaluation, &Faults::default());
                let verdicts = verdicts(&judged.into(), &evaluation);
                (evaluation, verdicts)
            };
            members.iter().map(as_it_is).collect()
        });
        of_family.iter().any(|(evaluation, as_is)| {
            let at = evaluation.written_at(candidate.fit.place());
            !raises_nothing(as_is, &suppose(evaluation, candidate, length), &at, work)
        })
    }
}

fn verdicts<'r, 'p>(rules: &Rc<[Judged<'r, 'p>]>, evaluation: &Evaluation<'_, 'p>) -> Verdicts<'r, 'p> {
    let claims = evaluation.rig.expects.iter().map(|(line, claim)| {
        let (broken, on) = evaluation.hanging_on(|| is_claim_broken(evaluation, *line, claim));
        (*line, *claim, broken, on)
    });
    Verdicts {
        claims: claims.collect(),
        broke_last: Cell::new(0),
        rules: Rc::clone(rules),
    }
}

fn is_claim_broken<'p>(evaluation: &Evaluation<'_, 'p>, line: LineRef<'p>, claim: &Claim) -> bool {
    verdict(evaluation, line, claim).is_ok_and(|verdict| !verdict.holds)
}

/// Whether a rig with one value supposed breaks nothing that it does not break as it is. Only what hangs on the value
/// is judged again.
fn raises_nothing<'p>(
    as_is: &Verdicts<'_, 'p>,
    supposed: &Evaluation<'_, 'p>,
    at: &Written,
    work: &Work,
) -> bool {
    let faults = Faults::default();
    let mut judge = Judge::new(supposed, &faults);
    let mut asked = 0;
    let mut is_raised = |judged: &Judged<'_, 'p>| {
        if judged.speaks_on.meets(at) {
            let now = judge.rule(judged.applied).things;
            asked += now.len();
            return now
                .iter()
                .any(|now| now.is_broken() && !judged.is_broken_at(now.thing));
        }
        let hanging = judged
            .things
            .iter()
            .filter(|known| known.on.meets(at) && !known.is_broken());
        hanging.into_iter().any(|known| {
            asked += 1;
            matches!(judge.breach(judged.applied, known.thing), Ok(Some(_)))
        })
    };
    let last = as_is.broke_last.get();
    let raised = as_is.rules.get(last).is_some_and(&mut is_raised) || {
        let first = as_is.rules.iter().position(is_raised);
        first.inspect(|rule| as_is.broke_last.set(*rule)).is_some()
    };
    let mut claims = as_is.claims.iter().filter(|(.., on)| on.meets(at));
    let raised = raised
        || claims.any(|(line, claim, was_broken, _)| !was_broken && is_claim_broken(supposed, *line, claim));
    work.asked(asked, supposed).is_some() && !raised
}

/// Every part whose length is one plain quantity.
fn candidates<'e, 'p>(evaluation: &'e Evaluation<'_, 'p>) -> Vec<Candidate<'e, 'p>> {
    let chain = &evaluation.rig.chain;
    let sections = chain
        .sections()
        .map(|(id, section)| (Piece::Section(id), section.part));
    let droppers = chain
        .droppers()
        .map(|id| (Piece::Tag(id), chain.dropper(id).part));
    let plain = |(piece, part): (Piece, &'e Part<'p>)| {
        let fit = part.length()?;
        let plain = fit.expr.single().is_some_and(is_quantity);
        let value = evaluation.value(fit).ok().filter(|_| plain)?;
        Some(Candidate {
            piece,
            part,
            fit,
            value,
            at: evaluation.written_at(fit.place()),
        })
    };
    sections.chain(droppers).filter_map(plain).collect()
}

fn is_quantity(single: &Single) -> bool {
    matches!(single.kind, SingleKind::Feet(..) | SingleKind::Number(_, Some(_)))
}

/// Whether a rule is still broken at the same thing.
fn is_broken<'p>(breach: &Breach<'_, 'p>, supposed: &Evaluation<'_, 'p>) -> bool {
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

fn suppose<'s, 'p>(
    evaluation: &'s Evaluation<'_, 'p>,
    candidate: &Candidate<'_, 'p>,
    length: f64,
) -> Evaluation<'s, 'p> {
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
    let chain = &evaluation.rig.chain;
    let name = match candidate.piece {
        Piece::Section(id) => chain.section_name(id),
        Piece::Tag(id) => chain.dropper_name(id),
    };
    let title = format!("make {name} {new}");
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
    let offset = last.offset() as usize;
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
