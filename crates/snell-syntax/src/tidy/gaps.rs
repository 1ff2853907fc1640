//! Blank lines: one before every block, never two, none at the ends.
//!
//! A line that is put in gets the margin of its neighbour, so that a fence in
//! a quote stays in its quote.

use super::row::{Role, Row, change};
use snell_finding::Edit;
use snell_text::{Place, Span, TextId};

/// The edits that set the blank lines of a passage right.
pub(super) fn edits(text: &str, id: TextId, lines: &[Row]) -> Vec<Edit> {
    let mut edits = Vec::new();
    let mut blanks: Vec<usize> = Vec::new();
    let mut begun = false;
    for (at, line) in lines.iter().enumerate() {
        if line.role == Role::Blank {
            blanks.push(at);
            continue;
        }
        let wanted = usize::from(begun && (opens(lines, at) || !blanks.is_empty()));
        keep(text, id, lines, &blanks, wanted, &mut edits);
        if blanks.is_empty() && wanted == 1 {
            edits.push(put_in(text, id, line.span));
        }
        blanks.clear();
        begun = true;
    }
    keep(text, id, lines, &blanks, 0, &mut edits);
    edits
}

/// Whether a block begins here, its own comments counted in.
fn opens(lines: &[Row], at: usize) -> bool {
    let comment = |at: usize| matches!(lines[at].role, Role::Comment { indented: false });
    if at > 0 && comment(at - 1) {
        return false;
    }
    let first = (at..lines.len()).find(|at| !comment(*at));
    first.is_some_and(|at| matches!(lines[at].role, Role::Head(_)))
}

/// Keeps the first `wanted` of these blank lines, empty, and takes the others out.
fn keep(text: &str, id: TextId, lines: &[Row], blanks: &[usize], wanted: usize, edits: &mut Vec<Edit>) {
    for (count, at) in blanks.iter().enumerate() {
        let span = lines[*at].span;
        if count < wanted {
            edits.extend(change(text, id, span, ""));
        } else {
            edits.push(without(text, id, span));
        }
    }
}

/// Takes a whole line out, its end with it.
pub(super) fn without(text: &str, id: TextId, line: Span) -> Edit {
    let gone = Span::new(line_start(text, line.start), line_end(text, line.end));
    Edit {
        place: Place::new(id, gone),
        new: String::new(),
    }
}

/// The end of a line like those of the text, and the margin of the line that begins at `line`.
pub(super) fn line_break(text: &str, line: u32) -> String {
    let start = line_start(text, line);
    let margin = Span::new(start, line).of(text);
    format!("{}{margin}", line_end_above(text, start))
}

fn line_end_above(text: &str, start: u32) -> &'static str {
    let above = &text[..start as usize];
    if above.ends_with("\r\n") {
        "\r\n"
    } else if above.ends_with('\r') {
        "\r"
    } else {
        "\n"
    }
}

fn put_in(text: &str, id: TextId, before: Span) -> Edit {
    let start = line_start(text, before.start);
    let margin = Span::new(start, before.start)
        .of(text)
        .trim_end_matches([' ', '\t']);
    let end = line_end_above(text, start);
    Edit {
        place: Place::new(id, Span::empty(start)),
        new: format!("{margin}{end}"),
    }
}

/// Where the line in the text begins, its margin counted in.
fn line_start(text: &str, at: u32) -> u32 {
    let before = &text[..at as usize];
    let start = before.rfind(['\n', '\r']).map_or(0, |end| end + 1);
    let mark = if start == 0 && text.starts_with('\u{FEFF}') {
        '\u{FEFF}'.len_utf8()
    } else {
        0
    };
    start.max(mark) as u32
}

/// Where the next line begins.
fn line_end(text: &str, at: u32) -> u32 {
    let rest = &text[at as usize..];
    let length = if rest.starts_with("\r\n") {
        2
    } else {
        usize::from(!rest.is_empty())
    };
    at + length as u32
}
