//! A value with the places that it came from, each with its own part.

use snell_rig::Evaluation;
use snell_rig::value::Value;
use snell_view::{Units, Written};
use std::fmt::Write;

/// A value in both systems, and the places that it came from with their parts.
pub(super) fn valued(evaluation: &Evaluation<'_, '_>, value: &Value) -> String {
    let mut text = format!("**{}**", Written::of(value, Units::Both, evaluation).text);
    let mut seen = Vec::new();
    for cause in value.causes.iter() {
        if seen.len() < MOST_CAUSES && !seen.contains(&cause.place) {
            seen.push(cause.place);
            let from = source_line(evaluation, cause.place);
            let _ = write!(text, "\n- {} from `{from}`", cause.written());
        }
    }
    text
}

/// More places than these are no help to a reader.
const MOST_CAUSES: usize = 12;

/// The line of a text that a place lies on.
fn source_line(evaluation: &Evaluation<'_, '_>, place: snell_text::Place) -> String {
    let project = evaluation.world.project;
    let source = project
        .files()
        .map(|file| project.source(file))
        .find(|source| source.file.text == place.text);
    let Some(source) = source else {
        return String::new();
    };
    let text = &source.text;
    let start = text[..place.span.start as usize]
        .rfind(['\n', '\r'])
        .map_or(0, |end| end + 1);
    let end = text[start..]
        .find(['\n', '\r'])
        .map_or(text.len(), |length| start + length);
    text[start..end].trim().replace('`', "'")
}
