//! The claims of a rig: what is said when an `expect` does not hold, with the
//! lines to blame.

use super::conditions::{Answer, Subjects, Verdict, verdict};
use super::{Evaluation, Meaning};
use crate::evaluate::with_causes;
use crate::faults;
use crate::project::LineRef;
use crate::value::{Lack, Need, Value};
use snell_finding::Finding;
use snell_syntax::{Claim, Condition, Word};

impl<'p> Subjects<'p> for Evaluation<'_, 'p> {
    fn meaning(&self, line: LineRef<'_>, path: &[Word]) -> Result<Meaning, Lack> {
        Evaluation::meaning(self, line, path)
    }

    fn evaluation(&self) -> &Evaluation<'_, 'p> {
        self
    }
}

/// Judges an `expect` line of a rig and reports what does not hold.
pub(super) fn judge(evaluation: &Evaluation<'_, '_>, line: LineRef<'_>, claim: &Claim) {
    let finding = match verdict(evaluation, line, claim) {
        Ok(verdict) if verdict.holds => return,
        Ok(verdict) => fails(evaluation, line, claim, &verdict),
        Err(Lack::Faulty) => return,
        Err(Lack::Unknown(needs)) => unknown(evaluation, line, claim, &needs),
    };
    evaluation.faults.report(finding.rig(&evaluation.rig.name));
}

fn unknown(evaluation: &Evaluation<'_, '_>, line: LineRef<'_>, claim: &Claim, needs: &[Need]) -> Finding {
    let subject = line.written(claim.subject.span);
    let message = format!("`{subject}` cannot be told for `{}`", evaluation.rig.name);
    let mut finding = Finding::fault(faults::EXPECT_UNKNOWN, line.whole(), message);
    for need in needs {
        if let Some(place) = need.place.filter(|place| *place != line.whole()) {
            finding = finding.label(place, format!("lacks {}", need.what));
        }
    }
    let told: Vec<&str> = needs.iter().map(|need| need.what.as_str()).collect();
    finding.help(format!("say {}", told.join(", and ")))
}

fn fails(evaluation: &Evaluation<'_, '_>, line: LineRef<'_>, claim: &Claim, verdict: &Verdict) -> Finding {
    let subject = line.written(claim.subject.span);
    let (told, value) = match &verdict.found {
        Answer::Value(value) => (written(value, &verdict.limits), Some(value)),
        Answer::Words(words, _) => (words.join(", "), None),
    };
    let condition = line.written(claim.condition_span);
    let wanted = match &claim.condition {
        Condition::Is { negated: true, .. } => condition.to_owned(),
        _ => format!("not {}", condition.strip_prefix("is ").unwrap_or(condition)),
    };
    let message = format!("`{subject}` of `{}` is {told}, {wanted}", evaluation.rig.name);
    // In a derived rig a claim of the base is told at the derived rig's own name.
    let own = evaluation.rig.owns(line);
    let place = if own { line.whole() } else { evaluation.rig.place() };
    let finding = Finding::fault(faults::EXPECT, place, message);
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
