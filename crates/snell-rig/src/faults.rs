//! Where faults are kept until they are told.

use crate::lack::Lack;
use snell_finding::{Code, Finding, Limit};
use std::cell::{Cell, RefCell};

/// Where an evaluation leaves its faults.
#[derive(Debug, Default)]
pub struct Faults {
    kept: RefCell<Vec<Finding>>,
    left_out: Cell<usize>,
}

/// How many findings are kept in one place; a person mends the first ones and checks again.
const MOST_FINDINGS: usize = Limit::Findings.count();

impl Faults {
    /// Keeps a finding.
    pub fn report(&self, finding: Finding) {
        let mut kept = self.kept.borrow_mut();
        if kept.len() < MOST_FINDINGS {
            kept.push(finding);
        } else {
            self.left_out.set(self.left_out.get() + 1);
        }
    }

    /// Keeps a finding and stands for the value that it spoils.
    pub fn lack(&self, finding: Finding) -> Lack {
        self.report(finding);
        Lack::Faulty
    }

    /// All findings kept, and one that tells of those left out.
    pub fn into_inner(self) -> Vec<Finding> {
        let mut kept = self.kept.into_inner();
        if let (count @ 1.., Some(last)) = (self.left_out.get(), kept.last()) {
            let message = format!("{count} more faults are not told; those above are the first");
            let finding = Finding::fault(Code::FindingsLeftOut, last.place(), message);
            kept.push(finding.help("mend the first ones and check again"));
        }
        kept
    }
}
