//! The answer of a fit, in at most three lines: what to change, what that brings, and what is dangerous there.

use super::shown::{Outcome, ShownFinding, ShownFit};
use crate::verdict::shown::ShownVerdict;

/// The lines, the change first.
pub(super) fn answer(fit: &ShownFit) -> Vec<String> {
    let way = fit.ways.first();
    let (change, brings) = match (fit.outcome, way) {
        (Outcome::Untold, _) => (
            format!("nothing can be told without {}", fit.needs.join(", ")),
            None,
        ),
        (Outcome::Right, _) => (nothing_to_change(fit), None),
        (Outcome::Ways, Some(way)) => (way.changes.join(", and "), then(&way.verdict)),
        (Outcome::Nearest | Outcome::BrokenOff, Some(way)) => (
            format!(
                "{}; nearest to it: {}",
                nothing_found(fit.outcome),
                way.changes.join(", and ")
            ),
            way.leaves.first().map(leaving),
        ),
        (Outcome::Nearest | Outcome::BrokenOff | Outcome::Ways, None) => (
            nothing_found(fit.outcome).to_owned(),
            fit.against.first().map(leaving),
        ),
    };
    let verdict = way.map_or(&fit.verdict, |way| &way.verdict);
    [Some(change), brings, verdict.dangerous()]
        .into_iter()
        .flatten()
        .collect()
}

fn nothing_to_change(fit: &ShownFit) -> String {
    let reason = fit
        .verdict
        .fishes
        .as_ref()
        .and_then(|fishes| fishes.reasons.first());
    match (reason, fit.verdict.how()) {
        (Some(reason), _) => format!("no change at the bank makes it fish here: {}", reason.message),
        (None, Some(how)) => format!("nothing to change: {how}"),
        (None, None) => "nothing to change".to_owned(),
    }
}

fn then(verdict: &ShownVerdict) -> Option<String> {
    verdict.how().map(|how| format!("then {how}"))
}

fn leaving(finding: &ShownFinding) -> String {
    format!("that leaves: {}", finding.message)
}

const fn nothing_found(outcome: Outcome) -> &'static str {
    match outcome {
        Outcome::BrokenOff => "there are too many changes to try them all, and the search was broken off",
        Outcome::Right | Outcome::Ways | Outcome::Nearest | Outcome::Untold => {
            "nothing within three changes makes it fish here"
        }
    }
}
