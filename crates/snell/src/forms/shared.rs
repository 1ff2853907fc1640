//! Findings that one cause has in many places: the label of a spool that several rigs are made of, the weight of a fly. A
//! person reads them once.

use snell_finding::{Finding, Label};

/// A finding with those that have the same causes.
pub(super) struct Shared<'f> {
    pub(super) first: &'f Finding,
    /// Where it is found as well.
    pub(super) others: Vec<&'f Finding>,
}

/// Findings in their order, each with those behind it that one rule makes of the very same values.
pub(super) fn shared(findings: &[Finding]) -> Vec<Shared<'_>> {
    let mut all: Vec<Shared<'_>> = Vec::new();
    for finding in findings {
        let same = all.iter_mut().find(|known| is_same(known.first, finding));
        match same {
            Some(known) => known.others.push(finding),
            None => all.push(Shared {
                first: finding,
                others: Vec::new(),
            }),
        }
    }
    all
}

fn is_same(one: &Finding, other: &Finding) -> bool {
    let causes = |finding: &Finding| -> Vec<Label> { finding.labels.iter().skip(1).cloned().collect() };
    one.code == other.code
        && one.level == other.level
        && one.labels.len() > 1
        && one.fixes.is_empty()
        && other.fixes.is_empty()
        && causes(one) == causes(other)
}
