//! Findings as plain data: a contract with the programs that read them.
//!
//! Names and shapes change only with `VERSION`. Bytes count from 0, lines and
//! columns from 1, columns in characters.

use crate::places::Places;
use schemars::JsonSchema;
use serde::Serialize;
use snell_analysis::Skipped;
use snell_finding::{Edit, Finding, Fix, Label};

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

impl<'f> Report<'f> {
    /// All findings; what was skipped, where it was asked for.
    pub fn of(findings: &'f [Finding], skipped: Option<&'f [Skipped]>, places: &Places<'_>) -> Self {
        Self {
            version: VERSION,
            findings: findings.iter().map(|finding| found(finding, places)).collect(),
            skipped: skipped.map(|skipped| skipped.iter().map(unjudged).collect()),
        }
    }
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
