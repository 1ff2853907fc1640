//! Findings as SARIF 2.1.0 (OASIS standard), for services that show them
//! beside the code.
//!
//! Rules carry their pages as help, mends are fixes. What the standard has no
//! place for stands in property bags.

use crate::inputs::STANDARD_INPUT;
use crate::trouble::Trouble;
use serde_json::{Value, json};
use snell_finding::{Code, Finding, Fix, Label, Level};
use snell_server::address::{System, address, relative};
use snell_text::{Place, TextId};
use snell_view::Places;
use std::collections::BTreeMap;
use std::io::Write;
use std::path::{Component, Path};

const SCHEMA: &str =
    "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json";

/// What the pages that ship are relative to: no place that a reader of the log could look at.
const SHIPPED: &str = "SHIPPED";

/// Writes all findings as one log.
///
/// # Errors
/// The output cannot be written.
pub fn write(out: &mut impl Write, findings: &[Finding], places: &Places<'_>) -> Result<(), Trouble> {
    // Each rule with the first of its findings.
    let mut rules: BTreeMap<&str, &Finding> = BTreeMap::new();
    for finding in findings {
        rules.entry(&finding.code).or_insert(finding);
    }
    let names: Vec<&str> = rules.keys().copied().collect();
    let log = json!({
        "$schema": SCHEMA,
        "version": "2.1.0",
        "runs": [{
            "tool": {"driver": {
                "name": "snell",
                "semanticVersion": env!("CARGO_PKG_VERSION"),
                "rules": rules.iter().map(|(name, first)| rule(name, first)).collect::<Vec<_>>(),
            }},
            "columnKind": "unicodeCodePoints",
            "newlineSequences": ["\r\n", "\n", "\r"],
            "originalUriBaseIds": {SHIPPED: {"description": {"text": "the pages that ship with snell"}}},
            "results": findings.iter().map(|finding| result(finding, &names, places)).collect::<Vec<_>>(),
        }],
    });
    serde_json::to_writer_pretty(&mut *out, &log)?;
    Ok(writeln!(out)?)
}

/// A rule with its page, a fault with what it means; a rule of the user's own with what it says of itself.
fn rule(name: &str, first: &Finding) -> Value {
    let mut rule = json!({"id": name});
    let page = snell_rules::pages().find(|page| page.name == name);
    let fault = first.code.known();
    let own = first.note.as_deref();
    if let Some(page) = page {
        let title = page.text.lines().find_map(|line| line.strip_prefix("# "));
        rule["shortDescription"] = message(title.unwrap_or(name));
        let text = braces(page.text);
        rule["help"] = json!({"text": text, "markdown": text});
    } else if let Some(about) = fault.map(Code::about).or(own) {
        rule["shortDescription"] = message(about);
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
        main["logicalLocations"] = json!([{"name": rig, "kind": "rig"}]);
    }
    let mut result = json!({
        "ruleId": finding.code.name(),
        "ruleIndex": rules.binary_search(&&*finding.code).unwrap_or_default(),
        "level": level,
        "message": message(&finding.message),
        "locations": [main],
    });
    let related = &finding.labels[1..];
    if !related.is_empty() {
        result["relatedLocations"] = related.iter().map(|label| location(label, places)).collect();
    }
    if !finding.fixes.is_empty() {
        result["fixes"] = finding.fixes.iter().map(|fix| fixed(fix, places)).collect();
    }
    for (name, text) in [("note", &finding.note), ("help", &finding.help)] {
        if let Some(text) = text {
            result["properties"][name] = json!(text);
        }
    }
    result
}

/// A message; in all of them braces stand for values to be filled in, so real ones are doubled.
fn message(text: &str) -> Value {
    json!({"text": braces(text)})
}

fn braces(text: &str) -> String {
    text.replace('{', "{{").replace('}', "}}")
}

fn location(label: &Label, places: &Places<'_>) -> Value {
    let mut location = json!({"physicalLocation": {
        "artifactLocation": artifact(label.place.text, places),
        "region": region(label.place, places),
    }});
    if !label.text.is_empty() {
        location["message"] = message(&label.text);
    }
    location
}

/// A text by its URI: relative to where snell ran, or whole where it lies elsewhere.
fn artifact(id: TextId, places: &Places<'_>) -> Value {
    let path = places
        .document(id)
        .map_or(Path::new(""), |document| &document.path);
    if places.ships(id) {
        let name = path.file_name().map(Path::new).unwrap_or(path);
        return json!({"uri": within(name), "uriBaseId": SHIPPED});
    }
    if path.as_os_str() == STANDARD_INPUT {
        return json!({"uri": "stdin", "description": {"text": "standard input"}});
    }
    let outside = path
        .components()
        .any(|part| !matches!(part, Component::Normal(_) | Component::CurDir));
    let whole = outside.then(|| snell_analysis::real(path).or_else(|_| std::path::absolute(path)));
    match whole {
        Some(Ok(whole)) => json!({"uri": address(&whole.to_string_lossy(), System::HERE)}),
        Some(Err(_)) | None => json!({"uri": within(path.strip_prefix(".").unwrap_or(path))}),
    }
}

fn within(path: &Path) -> String {
    relative(&path.to_string_lossy(), System::HERE)
}

/// Lines and columns from 1; the end is the first column behind.
fn region(place: Place, places: &Places<'_>) -> Value {
    let Some(document) = places.document(place.text) else {
        return json!({"startLine": 1});
    };
    // A byte order mark belongs to no line.
    let mark = u32::from(document.text.starts_with('\u{FEFF}'));
    let at = |offset| {
        let at = document.index().line_column(&document.text, offset);
        let column = if at.line == 1 {
            at.column - mark.min(at.column - 1)
        } else {
            at.column
        };
        (at.line, column)
    };
    let (start, end) = (at(place.span.start), at(place.span.end));
    json!({"startLine": start.0, "startColumn": start.1, "endLine": end.0, "endColumn": end.1})
}

/// A mend with its edits, those of one text together.
fn fixed(fix: &Fix, places: &Places<'_>) -> Value {
    let mut texts: Vec<(TextId, Vec<Value>)> = Vec::new();
    for edit in &fix.edits {
        let id = edit.place.text;
        let replacement = json!({
            "deletedRegion": region(edit.place, places),
            "insertedContent": {"text": edit.new},
        });
        match texts.iter_mut().find(|(text, _)| *text == id) {
            Some((_, replacements)) => replacements.push(replacement),
            None => texts.push((id, vec![replacement])),
        }
    }
    let change =
        |(id, replacements)| json!({"artifactLocation": artifact(id, places), "replacements": replacements});
    json!({
        "description": message(&fix.title),
        "artifactChanges": texts.into_iter().map(change).collect::<Vec<_>>(),
        "properties": {"sure": fix.sure},
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use snell_analysis::{Kind, LocalDisk, Notebook};
    use snell_finding::FindingCode;
    use snell_text::Span;

    fn log(path: &str, text: &str, finding: Finding) -> Value {
        let notebook = Notebook::of_text(Path::new(path), Kind::Rig, text.to_owned(), &LocalDisk);
        let findings = [finding];
        let mut out = Vec::new();
        write(&mut out, &findings, &Places::new(&notebook, &findings)).unwrap();
        serde_json::from_slice(&out).unwrap()
    }

    fn at(start: u32, end: u32) -> Place {
        Place::new(TextId(0), Span::new(start, end))
    }

    #[test]
    fn nothing_of_a_finding_is_lost() {
        let finding = Finding::new(Code::UnitMissing, Level::Fault, at(21, 23), "`14` has {no} unit")
            .here("of what?")
            .label(at(8, 11), "in this fly")
            .rig("low")
            .note("a note")
            .help("say it")
            .fix(Fix::sure("write `#14`", at(21, 21), "#"))
            .fix(Fix::offered("write `14 mm`", at(23, 23), " mm"));
        let log = log("my rigs/é.rig", "// 🎣\nfly a\n  hook 14\n", finding);
        insta::assert_snapshot!(serde_json::to_string_pretty(&log).unwrap());
    }

    #[test]
    fn columns_are_characters_and_a_mark_is_none() {
        let region = |text: &str, start, end| {
            let log = log(
                "a.rig",
                text,
                Finding::fault(Code::NameUnknown, at(start, end), "no"),
            );
            log["runs"][0]["results"][0]["locations"][0]["physicalLocation"]["region"].clone()
        };
        let wanted = json!({"startLine": 1, "startColumn": 2, "endLine": 1, "endColumn": 3});
        assert_eq!(region("🎣é", 4, 6), wanted);
        assert_eq!(region("\u{FEFF}ab", 4, 5), wanted);
    }

    #[test]
    fn every_text_has_a_uri() {
        let uri = |path: &str| {
            let log = log(path, "rig a\n", Finding::fault(Code::NameUnknown, at(0, 1), "no"));
            log["runs"][0]["results"][0]["locations"][0]["physicalLocation"]["artifactLocation"]["uri"]
                .clone()
        };
        assert_eq!(uri("-"), "stdin");
        assert_eq!(uri("./a b#1.rig"), "a%20b%231.rig");
        assert_eq!(uri("c:x.rig"), "c%3Ax.rig");
        let above = uri("../nowhere.rig");
        assert!(
            above.as_str().is_some_and(|uri| uri.starts_with("file:///")),
            "{above}"
        );
        if cfg!(unix) {
            assert_eq!(uri("/nowhere/a.rig"), "file:///nowhere/a.rig");
        }
    }

    #[test]
    fn rules_carry_their_pages_and_a_users_own_what_they_say() {
        let rule =
            |finding| log("a.rig", "rig a\n", finding)["runs"][0]["tool"]["driver"]["rules"][0].clone();
        let shipped = rule(Finding::new(
            FindingCode::Rule("fly-spacing".into()),
            Level::Caution,
            at(0, 1),
            "near",
        ));
        assert!(
            shipped["help"]["markdown"]
                .as_str()
                .is_some_and(|page| page.starts_with("# "))
        );
        let own = rule(
            Finding::new(FindingCode::Rule("mine".into()), Level::Caution, at(0, 1), "no").note("Because."),
        );
        assert_eq!(own["shortDescription"]["text"], "Because.");
    }
}
