//! The claims of a rig: what is said when an `expect` does not hold, with the
//! lines to blame.

use super::conditions::{Answer, Verdict, verdict};
use super::core::Evaluation;
use crate::evaluate::with_causes;
use crate::lack::Lack;
use crate::missing::Missing;
use crate::project::LineRef;
use crate::rig::{PartId, Settings, What};
use crate::value::Value;
use snell_finding::{Code, Finding};
use snell_syntax::{Claim, Condition};

impl Evaluation<'_, '_> {
    /// Evaluates all that the rig says: every length and setting, lets, joins and claims.
    pub fn run(&self) {
        for (id, part) in self.rig.chain.parts() {
            let _ = match (id, &part.what) {
                (PartId::Section(id), _) if part.length().is_some() => Some(self.section_length(id)),
                (PartId::Dropper(id), _) => Some(self.dropper_length(id)),
                (_, What::Knot { tags: fit, .. } | What::Ring { size: fit }) => {
                    fit.map(|fit| self.value(fit))
                }
                // More distance than there is line is reported where the place is worked out.
                (PartId::Shot(id), What::Shot { mass, .. }) => {
                    let _ = self.shot_sits(id);
                    mass.map(|fit| self.value(fit))
                }
                (PartId::Float(id), What::Float { size, .. }) => {
                    let _ = self.float_sits(id);
                    size.map(|fit| self.value(fit))
                }
                (_, What::Swivel { size, mass }) => [size, mass]
                    .into_iter()
                    .flatten()
                    .map(|fit| self.value(*fit))
                    .last(),
                (
                    _,
                    What::Section { .. }
                    | What::Dropper { .. }
                    | What::Inline(_)
                    | What::Point(_)
                    | What::Shot { .. }
                    | What::Float { .. },
                ) => None,
            };
        }
        let Settings {
            reach,
            tip,
            off_bed,
            drift,
            drag,
            wind,
            // What these say was read with their line.
            stands: _,
            method: _,
            rod: _,
            water: _,
            rules: _,
            cast: _,
            notes: _,
            takes_usual: _,
        } = &self.rig.settings;
        let blown = wind.map(|(speed, _)| speed);
        for fit in [reach, tip, off_bed, drift, drag, &blown].into_iter().flatten() {
            let _ = self.value(*fit);
        }
        for index in 0..self.rig.lets.len() {
            let _ = self.let_value(index);
        }
        for (line, claim) in &self.rig.expects {
            judge(self, *line, claim);
        }
    }
}

/// Judges an `expect` line of a rig and reports what does not hold.
fn judge(evaluation: &Evaluation<'_, '_>, line: LineRef<'_>, claim: &Claim) {
    let finding = match verdict(evaluation, line, claim) {
        Ok(verdict) if verdict.holds => return,
        Ok(verdict) => fails(evaluation, line, claim, &verdict),
        Err(Lack::Faulty) => return,
        Err(Lack::Unknown(missing)) => unknown(evaluation, line, claim, &missing),
    };
    evaluation.faults.report(finding.rig(&evaluation.rig.name));
}

fn unknown(
    evaluation: &Evaluation<'_, '_>,
    line: LineRef<'_>,
    claim: &Claim,
    missing: &[Missing],
) -> Finding {
    let subject = line.written(claim.subject.span);
    let message = format!("`{subject}` cannot be told for `{}`", evaluation.rig.name);
    let mut finding = Finding::fault(Code::ExpectUnknown, line.whole(), message);
    for one in missing {
        if let Some(place) = one.place.filter(|place| *place != line.whole()) {
            finding = finding.label(place, format!("lacks {}", evaluation.words_of(one)));
        }
    }
    let told = evaluation.words_of_all(missing);
    let told: Vec<String> = told.iter().map(ToString::to_string).collect();
    finding.help(format!("say {}", told.join(", and ")))
}

fn fails(evaluation: &Evaluation<'_, '_>, line: LineRef<'_>, claim: &Claim, verdict: &Verdict) -> Finding {
    let subject = line.written(claim.subject.span);
    let (told, value) = match &verdict.found {
        Answer::Value(value) => (written(value, &verdict.limits), Some(value)),
        Answer::Words(carried) => (carried.told(evaluation), None),
    };
    let condition = line.written(claim.condition_span);
    let wanted = match &claim.condition {
        Condition::Is { negated: true, .. } => condition.to_owned(),
        Condition::Is { .. } | Condition::Between(..) | Condition::Bound(..) => {
            format!("not {}", condition.strip_prefix("is ").unwrap_or(condition))
        }
    };
    let message = format!("`{subject}` of `{}` is {told}, {wanted}", evaluation.rig.name);
    // In a derived rig a claim of the base is told at the derived rig's own name.
    let own = evaluation.rig.owns(line);
    let place = if own { line.whole() } else { evaluation.rig.place() };
    let finding = Finding::fault(Code::Expect, place, message);
    let finding = if own {
        finding.here(format!("{subject} is {told}"))
    } else {
        let from = evaluation.rig.base.unwrap_or("its base");
        finding
            .here("of this rig")
            .label(line.whole(), format!("the claim, from {from}"))
    };
    match value {
        Some(value) => with_causes(finding, value),
        None => finding,
    }
}

/// A value in its author's units, or in those of the limits.
fn written(value: &Value, limits: &[Value]) -> String {
    match value
        .system
        .or_else(|| limits.iter().find_map(|limit| limit.system))
    {
        Some(system) => value.written_in(system),
        None => value.written(),
    }
}
