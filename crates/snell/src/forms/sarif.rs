//! Findings as SARIF 2.1.0 (OASIS standard), for services that show them
//! beside the code.
//!
//! Rules carry their pages as help, mends are fixes. What the standard has no
//! place for stands in property bags.

use super::places::Places;
use crate::trouble::Trouble;
use percent_encoding::{AsciiSet, NON_ALPHANUMERIC, utf8_percent_encode};
use report::{Edit, Finding, Fix, Label, Level};
use serde_json::{Value, json};
use std::io::Write;
use text::Place;

const SCHEMA: &str = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json";

/// What a path keeps in a URI (RFC 3986: unreserved, and the slash).
const PATH: &AsciiSet = &NON_ALPHANUMERIC.remove(b'-').remove(b'.').remove(b'_').remove(b'~').remove(b'/');

/// Writes all findings as one log.
///
/// # Errors
/// The output cannot be written.
pub fn write(out: &mut impl Write, findings: &[Finding], places: &Places<'_>) -> Result<(), Trouble> {
    let mut rules: Vec<&str> = findings.iter().map(|finding| &*finding.code).collect();
    rules.sort_unstable();
    rules.dedup();
    let results: Vec<Value> = findings.iter().map(|finding| result(finding, &rules, places)).collect();
    let log = json!({
        "$schema": SCHEMA,
        "version": "2.1.0",
        "runs": [{
            "tool": {"driver": {
                "name": "snell",
                "version": env!("CARGO_PKG_VERSION"),
                "rules": rules.iter().map(|name| rule(name)).collect::<Vec<_>>(),
            }},
            "columnKind": "unicodeCodePoints",
            "results": results,
        }],
    });
    serde_json::to_writer_pretty(&mut *out, &log)?;
    Ok(writeln!(out)?)
}

fn rule(name: &str) -> Value {
    let page = rules::pages().find(|page| page.name == name);
    let about = notebook::fault_names().find(|(fault, _)| *fault == name).map(|(_, about)| about);
    let mut rule = json!({"id": name});
    match (page, about) {
        (Some(page), _) => {
            let title = page.text.lines().find_map(|line| line.strip_prefix("# ")).unwrap_or(name);
            rule["shortDescription"] = json!({"text": title});
            rule["help"] = json!({"text": page.text, "markdown": page.text});
        }
        (None, Some(about)) => rule["shortDescription"] = json!({"text": about}),
        (None, None) => {}
    }
    rule
}

fn result(finding: &Finding, rules: &[&str], places: &Places<'_>) -> Value {
    let level = match finding.level {
        Level::Fault => "error",
        Level::Caution => "warning",
        Level::Advice => "note",
    };
    let mut main = location(&finding.labels[0], places);
    if let Some(rig) = &finding.rig {
        main["logicalLocations"] = json!([{"name": rig, "kind": "object"}]);
    }
    let related: Vec<Value> = finding.labels[1..].iter().map(|label| location(label, places)).collect();
    let mut result = json!({
        "ruleId": finding.code,
        "ruleIndex": rules.binary_search(&&*finding.code).unwrap_or_default(),
        "level": level,
        "message": {"text": finding.message},
        "locations": [main],
    });
    if !related.is_empty() {
        result["relatedLocations"] = json!(related);
    }
    if !finding.fixes.is_empty() {
        result["fixes"] = finding.fixes.iter().map(|fix| fixed(fix, places)).collect();
    }
    let more = [("note", &finding.note), ("help", &finding.help)];
    for (name, text) in more.into_iter().filter_map(|(name, text)| Some((name, text.as_ref()?))) {
        result["properties"][name] = json!(text);
    }
    result
}

fn location(label: &Label, places: &Places<'_>) -> Value {
    let mut location = json!({
        "physicalLocation": {"artifactLocation": artifact(label.place, places), "region": region(label.place, places)},
    });
    if !label.text.is_empty() {
        location["message"] = json!({"text": label.text});
    }
    location
}

fn artifact(place: Place, places: &Places<'_>) -> Value {
    let path = places.document(place.text).map(|document| document.path.display().to_string()).unwrap_or_default();
    let path = path.replace(std::path::MAIN_SEPARATOR, "/");
    json!({"uri": utf8_percent_encode(&path, PATH).to_string()})
}

/// Lines and columns from 1; the end is the first column behind.
fn region(place: Place, places: &Places<'_>) -> Value {
    let Some(document) = places.document(place.text) else {
        return json!({"startLine": 1});
    };
    let at = |offset| document.index().line_column(&document.text, offset);
    let (start, end) = (at(place.span.start), at(place.span.end));
    json!({"startLine": start.line, "startColumn": start.column, "endLine": end.line, "endColumn": end.column})
}

fn fixed(fix: &Fix, places: &Places<'_>) -> Value {
    let change = |edit: &Edit| {
        json!({
            "artifactLocation": artifact(edit.place, places),
            "replacements": [{"deletedRegion": region(edit.place, places), "insertedContent": {"text": edit.new}}],
        })
    };
    json!({
        "description": {"text": fix.title},
        "artifactChanges": fix.edits.iter().map(change).collect::<Vec<_>>(),
        "properties": {"sure": fix.sure},
    })
}
