//! Findings as JUnit XML, for builds that count tests.
//!
//! A file is a suite and a rig is a case; what is found outside rigs belongs
//! to a case of the file's own. Findings that count are failures, others are
//! output.

use super::places::Places;
use crate::trouble::Trouble;
use quick_xml::Writer;
use quick_xml::events::{BytesDecl, BytesEnd, BytesStart, BytesText, Event};
use report::{Finding, Level};
use std::io::{self, Write};

/// The case of findings that concern no one rig.
const OF_FILE: &str = "the file";

struct Case<'f> {
    name: String,
    findings: Vec<&'f Finding>,
}

/// Writes a suite for each file: `rigs` are the names and files of all rigs, findings from `bar` up are failures.
///
/// # Errors
/// The output cannot be written.
pub fn write(
    out: &mut impl Write,
    findings: &[Finding],
    places: &Places<'_>,
    rigs: &[(String, String)],
    bar: Level,
) -> Result<(), Trouble> {
    let suites = suites(findings, places, rigs);
    let mut xml = Writer::new_with_indent(&mut *out, b' ', 2);
    xml.write_event(Event::Decl(BytesDecl::new("1.0", Some("UTF-8"), None)))?;
    let mut all = BytesStart::new("testsuites");
    all.push_attribute(("name", "snell check"));
    xml.write_event(Event::Start(all))?;
    for (file, cases) in &suites {
        suite(&mut xml, file, cases, places, bar)?;
    }
    xml.write_event(Event::End(BytesEnd::new("testsuites")))?;
    Ok(writeln!(out)?)
}

/// Every file in order with its cases.
fn suites<'f>(findings: &'f [Finding], places: &Places<'_>, rigs: &[(String, String)]) -> Vec<(String, Vec<Case<'f>>)> {
    let mut suites: Vec<(String, Vec<Case<'f>>)> = Vec::new();
    let own = |file: &str| {
        let name = OF_FILE.to_owned();
        (file.to_owned(), vec![Case { name, findings: Vec::new() }])
    };
    for (rig, file) in rigs {
        if suites.last().is_none_or(|(last, _)| last != file) {
            suites.push(own(file));
        }
        if let Some((_, cases)) = suites.last_mut() {
            let name = rig.clone();
            cases.push(Case { name, findings: Vec::new() });
        }
    }
    for finding in findings {
        let file = places.start(finding.place()).map(|(file, _)| file).unwrap_or_default();
        let at = suites.iter().position(|(name, _)| *name == file).unwrap_or_else(|| {
            suites.push(own(&file));
            suites.len() - 1
        });
        let cases = &mut suites[at].1;
        let of_rig = |case: &Case<'_>| finding.rig.as_ref().is_some_and(|rig| *rig == case.name);
        let case = cases.iter().position(of_rig).unwrap_or(0);
        cases[case].findings.push(finding);
    }
    suites
}

fn suite(
    xml: &mut Writer<&mut impl Write>,
    file: &str,
    cases: &[Case<'_>],
    places: &Places<'_>,
    bar: Level,
) -> io::Result<()> {
    let fails = |case: &&Case<'_>| case.findings.iter().any(|finding| finding.level >= bar);
    let mut start = BytesStart::new("testsuite");
    start.push_attribute(("name", file));
    start.push_attribute(("tests", &*cases.len().to_string()));
    start.push_attribute(("failures", &*cases.iter().filter(fails).count().to_string()));
    start.push_attribute(("errors", "0"));
    xml.write_event(Event::Start(start))?;
    for case in cases {
        write_case(xml, file, case, places, bar)?;
    }
    xml.write_event(Event::End(BytesEnd::new("testsuite")))
}

fn write_case(
    xml: &mut Writer<&mut impl Write>,
    file: &str,
    case: &Case<'_>,
    places: &Places<'_>,
    bar: Level,
) -> io::Result<()> {
    let mut start = BytesStart::new("testcase");
    start.push_attribute(("name", &*case.name));
    start.push_attribute(("classname", file));
    if case.findings.is_empty() {
        return xml.write_event(Event::Empty(start));
    }
    xml.write_event(Event::Start(start))?;
    for finding in case.findings.iter().filter(|finding| finding.level >= bar) {
        let mut failure = BytesStart::new("failure");
        failure.push_attribute(("type", &*finding.code));
        failure.push_attribute(("message", &*plain(&finding.message)));
        element(xml, failure, &told(finding, places))?;
    }
    let lighter = case.findings.iter().filter(|finding| finding.level < bar);
    let lighter: Vec<String> = lighter.map(|finding| told(finding, places)).collect();
    if !lighter.is_empty() {
        element(xml, BytesStart::new("system-out"), &lighter.join("\n"))?;
    }
    xml.write_event(Event::End(BytesEnd::new("testcase")))
}

fn element(xml: &mut Writer<&mut impl Write>, start: BytesStart<'_>, text: &str) -> io::Result<()> {
    let end = start.to_end().into_owned();
    xml.write_event(Event::Start(start))?;
    xml.write_event(Event::Text(BytesText::new(&plain(text))))?;
    xml.write_event(Event::End(end))
}

fn told(finding: &Finding, places: &Places<'_>) -> String {
    let mut told = format!(
        "{}: {}: {}: {}",
        places.written(finding.place()),
        finding.level.word(),
        finding.code,
        finding.message
    );
    for more in [&finding.note, &finding.help].into_iter().flatten() {
        told.push('\n');
        told.push_str(more);
    }
    told
}

/// Without the characters that XML 1.0 cannot hold at all.
fn plain(text: &str) -> String {
    text.chars().filter(|c| !c.is_control() || matches!(c, '\n' | '\t')).collect()
}
