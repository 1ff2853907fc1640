//! What is wrong with the asked text, and the ways out of it where somebody
//! looks at them.

use super::walk::ASKED;
use snell_analysis::{Notebook, Stop};
use snell_finding::{Edit, Finding};
use snell_text::Span;

/// What is found in the asked text, without the mends that rules propose; nothing if it was stopped.
pub fn findings(notebook: &Notebook, stop: Stop<'_>) -> Option<Vec<Finding>> {
    let found = notebook.ask(|query| query.findings_in(ASKED, stop))?;
    Some(with_markers(notebook, found))
}

/// What is found at a span of the asked text, with all ways out.
pub fn found_near(notebook: &Notebook, near: Span) -> Vec<Finding> {
    let touches = |finding: &Finding| {
        let place = finding.place().span;
        place.start <= near.end && near.start <= place.end
    };
    let found = notebook.ask(|query| {
        let mut found = query.findings_in(ASKED, &|| false).unwrap_or_default();
        found.retain(|finding| touches(finding));
        query.with_mends(found)
    });
    let mut found = with_markers(notebook, found);
    found.retain(touches);
    found
}

/// The edits of all slips of reading that have one sure way out. What a rule proposes was found alone, and is
/// left to be taken alone.
pub fn all_sure(findings: &[Finding]) -> Vec<Edit> {
    let mut edits: Vec<Edit> = Vec::new();
    for finding in findings.iter().filter(|finding| finding.code.known().is_some()) {
        let [fix] = finding.fixes.as_slice() else { continue };
        let apart = |edit: &Edit| {
            edits.iter().all(|other| {
                let (one, other) = (edit.place, other.place);
                one.text != other.text || one.span.end < other.span.start || other.span.end < one.span.start
            })
        };
        if fix.sure && fix.edits.iter().all(apart) {
            edits.extend(fix.edits.iter().cloned());
        }
    }
    edits
}

/// With what is wrong with the markers of a page.
#[cfg(feature = "articles")]
fn with_markers(notebook: &Notebook, mut found: Vec<Finding>) -> Vec<Finding> {
    let page = notebook
        .document(ASKED)
        .filter(|document| document.kind.is_article());
    if page.is_none_or(|page| page.page().markers.is_empty()) {
        return found;
    }
    found.extend(snell_article::findings_of(notebook, ASKED));
    snell_analysis::capped(snell_analysis::ordered(found))
}

#[cfg(not(feature = "articles"))]
fn with_markers(_: &Notebook, found: Vec<Finding>) -> Vec<Finding> {
    found
}
