//! What a rig at the bank comes to with some changes made: where its point
//! rides, when it is down, and what is found of it.

use crate::fit::shown::{ShownFinding, ShownState};
use crate::need::{ShownAssumed, told_needs};
use crate::verdict::{shown::ShownVerdict, verdict as verdict_on};
use crate::written::{Units, Written};
use snell_finding::{Code, Level};
use snell_rig::Evaluation;
use snell_rig::evaluation::verdict;
use snell_rig::lack::Lack;
use snell_rig::measure::{self, Drifting, Thing};
use snell_rig::value::Value;
use snell_rules::fit::{Bank, Change, is_sum};
use snell_rules::{Wanted, apply};
use snell_syntax::Claim;
use snell_units::{Dimension, System};

/// Tells of one rig at the bank.
pub(super) struct Teller<'a, 'b, 'w, 'p> {
    pub(super) bank: &'a Bank<'b, 'w, 'p>,
    pub(super) units: Units,
}

impl Teller<'_, '_, '_, '_> {
    /// How it fares.
    pub(super) fn state(&self, changes: &[Change]) -> ShownState {
        self.bank
            .with(changes, |evaluation| match measure::drifting(evaluation) {
                Ok(state) => self.drifting(evaluation, &state),
                Err(lack @ Lack::Unknown(_)) => ShownState {
                    needs: told_needs(evaluation, &lack),
                    ..ShownState::default()
                },
                Err(Lack::Faulty) => ShownState::default(),
            })
    }

    /// The verdict on it.
    pub(super) fn verdict(&self, changes: &[Change]) -> ShownVerdict {
        let books = self.bank.books();
        self.bank
            .with(changes, |evaluation| verdict_on(books, evaluation, self.units))
    }

    fn drifting(&self, evaluation: &Evaluation<'_, '_>, state: &Drifting) -> ShownState {
        let time = measure::of_rig("sink-time").map(|measure| evaluation.measure(measure, Thing::Rig));
        let point = state.drift.rides.first();
        let line = state.line.si();
        let short = state.needed.filter(|needed| line < *needed);
        ShownState {
            off_bed: point.map(|ride| self.coarse(evaluation, ride.off_bed.value.max(0.0))),
            sink_time: time.and_then(Result::ok).map(|time| {
                let tenth = (time.si() * 10.0).round() / 10.0;
                Written {
                    value: Some(time.si()),
                    ..Written::of(&Value::plain(tenth, Dimension::TIME), self.units, evaluation)
                }
            }),
            needs: Vec::new(),
            short: short.map(|needed| {
                let text = |si| self.coarse(evaluation, si).text;
                (text(needed), text(line))
            }),
        }
    }

    /// A length as finely as a drift can be told: to a centimetre or half an inch.
    fn coarse(&self, evaluation: &Evaluation<'_, '_>, si: f64) -> Written {
        let step = match evaluation.system() {
            System::Metric => 0.01,
            System::Imperial => 0.0127,
        };
        let rounded = Value::plain((si / step).round() * step, Dimension::LENGTH);
        Written {
            value: Some(si),
            ..Written::of(&rounded, self.units, evaluation)
        }
    }

    /// A length as a person would say it.
    pub(super) fn length(&self, value: &Value) -> String {
        self.bank
            .with(&[], |evaluation| Written::of(value, self.units, evaluation).text)
    }

    pub(super) fn assumed(&self) -> Vec<ShownAssumed> {
        self.bank.with(&[], |evaluation| {
            let _ = measure::drifting(evaluation);
            ShownAssumed::all(evaluation)
        })
    }

    /// What is found of it: by its rules, and of what it claims.
    pub(super) fn found(&self, changes: &[Change]) -> Vec<ShownFinding> {
        let books = self.bank.books();
        self.bank.with(changes, |evaluation| {
            let found = apply(books, evaluation, Wanted::Bare).found.into_iter();
            let by_rules = found.map(|found| ShownFinding {
                rule: found.finding.code.to_string(),
                level: found.finding.level.word(),
                message: found.finding.message,
            });
            let broken = broken(evaluation).filter(|(line, claim)| !is_sum(evaluation, *line, claim));
            let claims = broken.map(|(line, claim)| ShownFinding {
                rule: Code::Expect.to_string(),
                level: Level::Fault.word(),
                message: format!(
                    "the rig's own `expect {} {}` does not hold",
                    line.written(claim.subject.span),
                    line.written(claim.condition_span)
                ),
            });
            by_rules.chain(claims).collect()
        })
    }

    /// What the rig claims to come to, where it comes to something else now, as a line of its own.
    pub(super) fn restated(&self, changes: &[Change]) -> Vec<String> {
        self.bank.with(changes, |evaluation| {
            let sums = broken(evaluation).filter(|(line, claim)| is_sum(evaluation, *line, claim));
            let now = sums.filter_map(|(line, claim)| {
                let found = match verdict(evaluation, line, claim).ok()?.found {
                    snell_rig::evaluation::Answer::Value(value) => value,
                    snell_rig::evaluation::Answer::Words(..) => return None,
                };
                let subject = line.written(claim.subject.span);
                Some(format!("expect {subject} about {}", evaluation.written(&found)))
            });
            now.collect()
        })
    }
}

/// The claims that do not hold.
fn broken<'p>(
    evaluation: &Evaluation<'_, 'p>,
) -> impl Iterator<Item = (snell_rig::project::LineRef<'p>, &'p Claim)> {
    let claims = evaluation.rig.expects.iter().copied();
    claims.filter(|(line, claim)| verdict(evaluation, *line, claim).is_ok_and(|verdict| !verdict.holds))
}
