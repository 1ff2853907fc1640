//! Findings as JSON: a contract with the programs that read it.
//!
//! Names and shapes change only with `VERSION`. Bytes count from 0, lines and
//! columns from 1, columns in characters.

use super::places::Places;
use crate::trouble::Trouble;
use schemars::JsonSchema;
use serde::Serialize;
use snell_analysis::Skipped;
use snell_finding::{Edit, Finding, Fix, Label};
use std::io::Write;

/// The version of this form.
pub const VERSION: u32 = 1;

/// All findings in one value.
#[derive(Serialize, JsonSchema)]
pub struct Report<'f> {
    /// The version of this form.
    version: u32,
    /// What was found, in the order of the files.
    findings: Vec<Found<'f>>,
    /// Rules that could not be judged, where they were asked for.
    #[serde(skip_serializing_if = "Option::is_none")]
    skipped: Option<Vec<Unjudged<'f>>>,
}

/// A finding.
#[derive(Serialize, JsonSchema)]
struct Found<'f> {
    /// The name of the rule or fault.
    rule: &'f str,
    /// How much it weighs.
    level: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    rig: Option<&'f str>,
    message: &'f str,
    #[serde(skip_serializing_if = "Option::is_none")]
    note: Option<&'f str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    help: Option<&'f str>,
    labels: Vec<Labelled<'f>>,
    mends: Vec<Mend<'f>>,
}

#[derive(Serialize, JsonSchema)]
struct Labelled<'f> {
    /// The file; empty where the text has none.
    file: String,
    start: u32,
    end: u32,
    /// From 1.
    line: u32,
    /// In characters, from 1.
    column: u32,
    text: &'f str,
    /// Whether it is the main place.
    primary: bool,
}

#[derive(Serialize, JsonSchema)]
struct Mend<'f> {
    title: &'f str,
    /// Whether it can only mean what was meant.
    sure: bool,
    edits: Vec<Edited<'f>>,
}

#[derive(Serialize, JsonSchema)]
struct Edited<'f> {
    file: String,
    start: u32,
    end: u32,
    new: &'f str,
}

#[derive(Serialize, JsonSchema)]
struct Unjudged<'f> {
    rule: &'f str,
    rig: &'f str,
    of: &'f str,
    needs: Vec<String>,
}

/// Writes all findings as one value; what was skipped, where it was asked for.
///
/// # Errors
/// The output cannot be written.
pub fn write(
    out: &mut impl Write,
    findings: &[Finding],
    skipped: Option<&[Skipped]>,
    places: &Places<'_>,
) -> Result<(), Trouble> {
    let findings = findings.iter().map(|finding| found(finding, places)).collect();
    let report = Report {
        version: VERSION,
        findings,
        skipped: skipped.map(|skipped| skipped.iter().map(unjudged).collect()),
    };
    serde_json::to_writer_pretty(&mut *out, &report)?;
    Ok(writeln!(out)?)
}

fn unjudged(skipped: &Skipped) -> Unjudged<'_> {
    Unjudged {
        rule: &skipped.rule,
        rig: &skipped.rig,
        of: &skipped.of,
        needs: skipped.needs.iter().map(ToString::to_string).collect(),
    }
}

fn found<'f>(finding: &'f Finding, places: &Places<'_>) -> Found<'f> {
    let labels = finding.labels.iter().enumerate();
    Found {
        rule: &finding.code,
        level: finding.level.word(),
        rig: finding.rig.as_deref(),
        message: &finding.message,
        note: finding.note.as_deref(),
        help: finding.help.as_deref(),
        labels: labels
            .map(|(index, label)| labelled(label, index == 0, places))
            .collect(),
        mends: finding.fixes.iter().map(|fix| mend(fix, places)).collect(),
    }
}

fn labelled<'f>(label: &'f Label, primary: bool, places: &Places<'_>) -> Labelled<'f> {
    let (file, line, column) = match places.start(label.place) {
        Some((file, at)) => (file, at.line, at.column),
        None => (String::new(), 1, 1),
    };
    Labelled {
        file,
        start: label.place.span.start,
        end: label.place.span.end,
        line,
        column,
        text: &label.text,
        primary,
    }
}

fn mend<'f>(fix: &'f Fix, places: &Places<'_>) -> Mend<'f> {
    Mend {
        title: &fix.title,
        sure: fix.sure,
        edits: fix.edits.iter().map(|edit| edited(edit, places)).collect(),
    }
}

fn edited<'f>(edit: &'f Edit, places: &Places<'_>) -> Edited<'f> {
    let document = places.document(edit.place.text);
    Edited {
        file: document
            .map(|document| document.path.display().to_string())
            .unwrap_or_default(),
        start: edit.place.span.start,
        end: edit.place.span.end,
        new: &edit.new,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use snell_analysis::{Kind, LocalDisk, Notebook};
    use snell_finding::{Code, Level};
    use snell_text::{Place, Span, TextId};
    use std::path::Path;

    #[test]
    fn the_shape_is_the_contract() {
        let text = "// é\nfly a\n  hook 14\n".to_owned();
        let notebook = Notebook::of_text(Path::new("a.rig"), Kind::Rig, text, &LocalDisk);
        let place = Place::new(TextId(0), Span::new(19, 21));
        let finding = Finding::new(Code::UnitMissing, Level::Fault, place, "no unit")
            .here("of what?")
            .label(Place::new(TextId(0), Span::new(6, 9)), "in this fly")
            .rig("low")
            .note("a note")
            .help("say it")
            .fix(Fix::sure(
                "write `#14`",
                Place::new(TextId(0), Span::empty(19)),
                "#",
            ));
        let mut out = Vec::new();
        let findings = [finding];
        write(&mut out, &findings, None, &Places::new(&notebook, &findings)).unwrap();
        insta::assert_snapshot!(String::from_utf8(out).unwrap());
    }
}
