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
mod waters;

use crate::layout;
use crate::reader::read;
use columns::Look;
use row::{Places, Role, Row, change, rows};
use snell_finding::Edit;
use snell_text::{Span, TextId};
use snell_units::in_order;

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
        let looks = columns::lay(text, &file, &lines);
        edits.extend(lines.iter().zip(&looks).filter_map(|(row, look)| match look {
            Look::Kept => None,
            Look::New(new) => renewed(text, id, row, new),
            Look::Gone => Some(gaps::without(text, id, row.span)),
        }));
        let left: Vec<Row> = lines
            .into_iter()
            .zip(looks)
            .filter(|(_, look)| !matches!(look, Look::Gone))
            .map(|(row, _)| row)
            .collect();
        edits.extend(gaps::edits(text, id, &left));
    }
    in_order(&mut edits, Ord::cmp);
    edits
}

/// The edit that gives a row its new look; a part that another follows on its line gets a line end, too.
fn renewed(text: &str, id: TextId, row: &Row, new: &str) -> Option<Edit> {
    match row.next {
        Some(next) => {
            let parted = format!("{new}{}", gaps::line_break(text, next.line));
            change(text, id, Span::new(row.span.start, next.start), &parted)
        }
        None => change(text, id, row.span, new),
    }
}

/// Where a text has lost its indent, indenting its sound lines would make the
/// broken ones at the margin look like heads. So those are to be mended first.
fn may_indent(text: &str, passage: &[Span], lines: &[Row]) -> bool {
    let kept = lines.iter().any(|line| line.role == Role::Kept);
    !kept || !layout::has_lost_indent(text, passage)
}
