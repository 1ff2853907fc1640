//! Findings as JUnit XML, for builds that count tests.
//!
//! A file is a suite and a rig is a case, with all that is found on its lines
//! or names it; what is left belongs to a case of the file's own. Findings that count are failures, others are
//! output.

use crate::prose::printed;
use crate::trouble::Trouble;
use quick_xml::Writer;
use quick_xml::events::{BytesDecl, BytesEnd, BytesStart, BytesText, Event};
use snell_analysis::Notebook;
use snell_finding::{Finding, Level};
use snell_syntax::BlockKind;
use snell_text::TextId;
use snell_view::Places;
use std::collections::{BTreeMap, HashMap};
use std::io::{self, Write};

/// The case of findings that concern no one rig.
const OF_FILE: &str = "the file";

/// The rigs of a file and what was found in them.
struct Suite<'f> {
    file: String,
    cases: Vec<Case<'f>>,
}

struct Case<'f> {
    name: String,
    findings: Vec<&'f Finding>,
}

impl Suite<'_> {
    fn new(file: &str) -> Self {
        let of_file = Case::new(OF_FILE);
        Self {
            file: file.to_owned(),
            cases: vec![of_file],
        }
    }
}

impl Case<'_> {
    fn new(name: &str) -> Self {
        Self {
            name: name.to_owned(),
            findings: Vec::new(),
        }
    }

    fn fails(&self, bar: Level) -> bool {
        self.findings.iter().any(|finding| finding.level >= bar)
    }
}

/// Writes a suite for each file; findings from `bar` up are failures.
///
/// # Errors
/// The output cannot be written.
pub fn write(
    out: &mut impl Write,
    findings: &[Finding],
    places: &Places<'_>,
    notebook: &Notebook,
    bar: Level,
) -> Result<(), Trouble> {
    let suites = suites(findings, places, notebook);
    let mut xml = Writer::new_with_indent(&mut *out, b' ', 2);
    xml.write_event(Event::Decl(BytesDecl::new("1.0", Some("UTF-8"), None)))?;
    let mut all = BytesStart::new("testsuites");
    all.push_attribute(("name", "snell check"));
    counts(&mut all, suites.iter().flat_map(|suite| &suite.cases), bar);
    xml.write_event(Event::Start(all))?;
    for suite in &suites {
        let mut start = BytesStart::new("testsuite");
        start.push_attribute(("name", &*line(&suite.file)));
        counts(&mut start, suite.cases.iter(), bar);
        xml.write_event(Event::Start(start))?;
        for case in &suite.cases {
            write_case(&mut xml, &suite.file, case, places, bar)?;
        }
        xml.write_event(Event::End(BytesEnd::new("testsuite")))?;
    }
    xml.write_event(Event::End(BytesEnd::new("testsuites")))?;
    Ok(writeln!(out)?)
}

/// Every file in order with its cases.
fn suites<'f>(findings: &'f [Finding], places: &Places<'_>, notebook: &Notebook) -> Vec<Suite<'f>> {
    let mut suites: Vec<Suite<'f>> = Vec::new();
    let file = |place| places.start(place).map(|(file, _)| file).unwrap_or_default();
    // The blocks of each text by where they start, each with its case if it is a rig.
    let mut blocks: HashMap<TextId, BTreeMap<u32, Option<usize>>> = HashMap::new();
    let project = notebook.project();
    let own = project.files().filter(|file| !project.ships(*file));
    for block in own.flat_map(|file| project.blocks(file)) {
        let is_rig = block.head().is_none_or(|head| head.kind == BlockKind::Rig);
        let case = is_rig.then(|| {
            let at = suite_of(&file(block.name_place()), &mut suites);
            suites[at].cases.push(Case::new(&snell_rig::rig::name(block)));
            suites[at].cases.len() - 1
        });
        let place = block
            .head_line()
            .map_or_else(|| block.name_place(), |line| line.whole());
        blocks
            .entry(place.text)
            .or_default()
            .insert(place.span.start, case);
    }
    for finding in findings {
        let place = finding.place();
        let at = suite_of(&file(place), &mut suites);
        let cases = &mut suites[at].cases;
        let above = blocks
            .get(&place.text)
            .and_then(|blocks| blocks.range(..=place.span.start).next_back());
        let here = above.and_then(|(_, case)| *case);
        let named = |case: &Case<'_>| finding.rig.as_ref() == Some(&case.name);
        // The first case is the file's own, and a rig may have its name.
        let elsewhere = cases[1..].iter().position(named).map(|index| index + 1);
        let case = here
            .filter(|case| finding.rig.is_none() || named(&cases[*case]))
            .or(elsewhere)
            .or(here);
        cases[case.unwrap_or(0)].findings.push(finding);
    }
    suites
}

/// The place of a file's suite; it is most often the last one.
fn suite_of(file: &str, suites: &mut Vec<Suite<'_>>) -> usize {
    let known = suites.iter().rposition(|suite| suite.file == file);
    known.unwrap_or_else(|| {
        suites.push(Suite::new(file));
        suites.len() - 1
    })
}

fn counts<'c, 'f: 'c>(
    start: &mut BytesStart<'_>,
    cases: impl Iterator<Item = &'c Case<'f>> + Clone,
    bar: Level,
) {
    let failures = cases.clone().filter(|case| case.fails(bar)).count();
    start.push_attribute(("tests", &*cases.count().to_string()));
    start.push_attribute(("failures", &*failures.to_string()));
    start.push_attribute(("errors", "0"));
}

fn write_case(
    xml: &mut Writer<&mut impl Write>,
    file: &str,
    case: &Case<'_>,
    places: &Places<'_>,
    bar: Level,
) -> io::Result<()> {
    let mut start = BytesStart::new("testcase");
    start.push_attribute(("name", &*line(&case.name)));
    start.push_attribute(("classname", &*line(file)));
    if case.findings.is_empty() {
        return xml.write_event(Event::Empty(start));
    }
    xml.write_event(Event::Start(start))?;
    let (heavy, light): (Vec<&Finding>, Vec<&Finding>) =
        case.findings.iter().partition(|finding| finding.level >= bar);
    for finding in heavy {
        let mut failure = BytesStart::new("failure");
        failure.push_attribute(("type", &*line(&finding.code)));
        failure.push_attribute(("message", &*line(&finding.message)));
        element(xml, failure, &told(finding, places))?;
    }
    if !light.is_empty() {
        let light: Vec<String> = light.iter().map(|finding| told(finding, places)).collect();
        element(xml, BytesStart::new("system-out"), &light.join("\n\n"))?;
    }
    xml.write_event(Event::End(BytesEnd::new("testcase")))
}

fn element(xml: &mut Writer<&mut impl Write>, start: BytesStart<'_>, text: &str) -> io::Result<()> {
    let end = start.to_end().into_owned();
    xml.write_event(Event::Start(start))?;
    xml.write_event(Event::Text(BytesText::new(text)))?;
    xml.write_event(Event::End(end))
}

/// A finding with its places and ways out, one a line.
fn told(finding: &Finding, places: &Places<'_>) -> String {
    let mut lines = vec![format!(
        "{}: {}: {}: {}",
        places.written(finding.place()),
        finding.level.word(),
        finding.code,
        finding.message
    )];
    let labels = finding.labels.iter().filter(|label| !label.text.is_empty());
    lines.extend(labels.map(|label| format!("{}: {}", places.written(label.place), label.text)));
    lines.extend(finding.note.iter().map(|note| format!("note: {note}")));
    lines.extend(finding.help.iter().map(|help| format!("help: {help}")));
    for fix in &finding.fixes {
        let word = if fix.sure {
            "mend"
        } else {
            "mend, if it is what you mean"
        };
        lines.push(format!("{word}: {}", fix.title));
    }
    let lines: Vec<String> = lines.iter().map(|text| line(text)).collect();
    lines.join("\n")
}

/// A text on one line, without the characters that XML 1.0 cannot hold at all.
fn line(text: &str) -> String {
    let held = |letter| match printed(letter) {
        '\u{FFFE}' | '\u{FFFF}' => '\u{FFFD}',
        letter => letter,
    };
    text.chars().map(held).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use snell_analysis::{Kind, LocalDisk};
    use snell_finding::{Code, FindingCode, Fix};
    use snell_text::{Place, Span};
    use std::path::Path;

    #[test]
    fn rigs_are_cases_and_nothing_breaks_the_xml() {
        let text = "rig low\n  hook 14\nrig high\n".to_owned();
        let notebook = Notebook::of_text(Path::new("a & \"b\".rig"), Kind::Rig, text, &LocalDisk);
        let at = |start, end| Place::new(TextId(0), Span::new(start, end));
        let findings = [
            Finding::new(
                Code::UnitMissing,
                Level::Fault,
                at(15, 17),
                "`<14>` & \"no\u{1b}[2J\u{0}\u{ffff}\nunit\"",
            )
            .here("of ]]> what?")
            .rig("low")
            .note("a note")
            .help("say it")
            .fix(Fix::sure("write `#14`", at(15, 15), "#"))
            .fix(Fix::offered("write `14 mm`", at(17, 17), " mm")),
            Finding::new(
                FindingCode::Rule("lead".into()),
                Level::Advice,
                at(22, 26),
                "lead",
            )
            .rig("high"),
            Finding::new(Code::NameUnknown, Level::Caution, at(0, 3), "no"),
        ];
        let mut out = Vec::new();
        let places = Places::new(&notebook, &findings);
        write(&mut out, &findings, &places, &notebook, Level::Caution).unwrap();
        insta::assert_snapshot!(String::from_utf8(out).unwrap());
    }
}
