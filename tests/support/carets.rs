//! Caret fixtures: below a faulty line stands a comment whose carets show
//! which words the fault must point at, and the fault's name.
//!
//! What is expected is read from the carets and what is found from the
//! findings, both as lists of marks, so that a test compares them whole.

use snell_analysis::Notebook;
use snell_finding::Finding;

/// A place with a fault's name. Lines and columns count from 1, columns in characters, the end left out.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub struct Mark {
    /// The faulty line.
    pub line: usize,
    /// The first character.
    pub start: usize,
    /// One past the last character.
    pub end: usize,
    /// The fault.
    pub name: String,
}

/// The marks that the carets of a text ask for.
pub fn marked(text: &str) -> Vec<Mark> {
    let lines = text.lines().enumerate();
    lines.filter_map(|(index, line)| caret(index, line)).collect()
}

/// `index` counts from 0, so it is the number of the line above.
fn caret(index: usize, line: &str) -> Option<Mark> {
    let comment = line.trim_start().strip_prefix("//")?;
    let name = comment
        .trim_start()
        .strip_prefix('^')?
        .trim_start_matches('^')
        .trim();
    let column = |byte: usize| line[..byte].chars().count() + 1;
    Some(Mark {
        line: index,
        start: column(line.find('^')?),
        end: column(line.rfind('^')? + 1),
        name: name.to_owned(),
    })
}

/// The marks of findings in a notebook's first text. An empty place is marked by the character before it.
pub fn found(notebook: &Notebook, findings: &[Finding]) -> Vec<Mark> {
    let text = &*notebook.documents()[0].text;
    let mark = |finding: &Finding| {
        let span = finding.place().span;
        let before = &text[..span.start as usize];
        let start_of_line = before.rfind('\n').map_or(0, |at| at + 1);
        let start = text[start_of_line..span.start as usize]
            .trim_start_matches('\u{FEFF}')
            .chars()
            .count()
            + 1;
        let wide = span.of(text).chars().count();
        Mark {
            line: before.matches('\n').count() + 1,
            start: if wide == 0 { start - 1 } else { start },
            end: start + wide,
            name: finding.code.to_string(),
        }
    };
    let mut marks: Vec<Mark> = findings.iter().map(mark).collect();
    marks.sort();
    marks
}
