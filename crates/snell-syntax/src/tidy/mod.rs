//! A file laid out anew, as edits: keys and sections in columns, one blank
//! line between blocks, numbers and units in their plain form.
//!
//! A line is rewritten leaf by leaf in place, so that nothing that was written
//! is lost; a line that cannot be read stays as it is, and so does one that
//! would say something else. What a line means is not known here.

mod columns;
mod gaps;
mod line;
mod plain;
mod row;

use crate::layout;
use crate::reader::read;
use row::{Places, Role, Row, change, rows};
use snell_finding::Edit;
use snell_text::{Span, TextId};

/// The edits that lay `text` out as a rig file should look. None overlaps
/// another, and taking them leaves nothing to tidy. Outside of the passages
/// nothing is changed.
pub fn tidy(text: &str, id: TextId, passages: &[Vec<Span>]) -> Vec<Edit> {
    let file = read(text, id, passages);
    let places = Places::new(&file);
    let mut edits = Vec::new();
    for passage in passages {
        let lines = rows(text, passage, &places);
        if !may_indent(text, passage, &lines) {
            continue;
        }
        let laid = columns::lay(text, &file, &lines);
        let changes = lines.iter().zip(&laid);
        edits.extend(changes.filter_map(|(line, new)| change(text, id, line.span, new.as_deref()?)));
        edits.extend(gaps::edits(text, id, &lines));
    }
    edits.sort();
    edits
}

/// Where a text has lost its indent, indenting its sound lines would make the
/// broken ones at the margin look like heads. So those are to be mended first.
fn may_indent(text: &str, passage: &[Span], lines: &[Row]) -> bool {
    let kept = lines.iter().any(|line| line.role == Role::Kept);
    !kept || !layout::has_lost_indent(text, passage)
}
