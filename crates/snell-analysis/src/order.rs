//! Findings in the order in which they are told, each once and no more than a
//! person would read.

use rustc_hash::FxHashSet;
use snell_finding::{Code, Finding, Limit};
use snell_text::Place;
use snell_units::in_order;

/// How many findings of one text are told.
const MOST: usize = Limit::Findings.count();

/// No more findings of one text than a person would read; one tells of those left out.
pub fn capped(findings: Vec<Finding>) -> Vec<Finding> {
    let mut kept: Vec<Finding> = Vec::with_capacity(findings.len().min(MOST + 1));
    let (mut of_text, mut text) = (0, None);
    for finding in findings {
        if text != Some(finding.place().text) {
            (of_text, text) = (0, Some(finding.place().text));
        }
        of_text += 1;
        if of_text <= MOST {
            kept.push(finding);
        } else if of_text == MOST + 1 {
            let message = "this text has more findings than are told at once; those above are the first";
            let place = finding.place();
            kept.push(
                Finding::fault(Code::FindingsLeftOut, place, message)
                    .help("mend the first ones and check again"),
            );
        }
    }
    kept
}

/// In the order of the texts; what a base and the rigs made from it both report is kept once.
pub fn ordered(mut findings: Vec<Finding>) -> Vec<Finding> {
    let mut seen: FxHashSet<(&str, Place, &str)> = FxHashSet::default();
    let of = findings
        .iter()
        .map(|finding| (&*finding.code, finding.place(), &*finding.message));
    let firsts: Vec<bool> = of.map(|of| seen.insert(of)).collect();
    let mut firsts = firsts.into_iter();
    findings.retain(|_| firsts.next().unwrap_or(true));
    in_order(&mut findings, |one, other| one.place().cmp(&other.place()));
    findings
}
