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

use crate::layout::{self, Shape};
use crate::tree::File;
use rustc_hash::FxHashMap;
use snell_finding::Edit;
use snell_text::{Place, Span, TextId};

/// The edits that lay `text` out as a rig file should look. None overlaps
/// another, and taking them leaves nothing to tidy. Outside of the passages
/// nothing is changed.
pub fn tidy(text: &str, id: TextId, passages: &[Vec<Span>]) -> Vec<Edit> {
    let file = crate::read(text, id, passages);
    let places = Places::new(&file);
    let mut edits = Vec::new();
    for passage in passages {
        let lines = lines(text, passage, &places);
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

/// A line of a passage.
struct Row {
    /// Its words with what is before them, but without a byte-order mark.
    span: Span,
    role: Role,
}

/// What a line is to the layout.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Role {
    Blank,
    Comment {
        indented: bool,
    },
    /// Left as it is: broken, or nothing but a full stop.
    Kept,
    Use(usize),
    Head(usize),
    /// A line of a block, both by number.
    Body(usize, usize),
}

/// Which sound line begins where.
struct Places(FxHashMap<u32, Role>);

impl Places {
    fn new(file: &File) -> Self {
        let mut places = FxHashMap::default();
        for (at, used) in file.uses.iter().enumerate() {
            places.insert(used.line.offset, Role::Use(at));
        }
        for (block, read) in file.blocks.iter().enumerate() {
            if let Some(head) = &read.head {
                places.insert(head.offset, Role::Head(block));
            }
            for (at, line) in read.body.iter().enumerate() {
                places.insert(line.offset, Role::Body(block, at));
            }
        }
        Self(places)
    }
}

fn lines(text: &str, passage: &[Span], places: &Places) -> Vec<Row> {
    let row = |span: &Span| {
        let written = span.of(text);
        let role = match Shape::of(written) {
            Shape::Blank => Role::Blank,
            Shape::Comment => Role::Comment {
                indented: layout::is_indented(written),
            },
            Shape::Words { .. } => places.0.get(&span.start).copied().unwrap_or(Role::Kept),
        };
        let mark = if span.start == 0 && written.starts_with('\u{FEFF}') {
            3
        } else {
            0
        };
        Row {
            span: Span::new(span.start + mark, span.end),
            role,
        }
    };
    passage.iter().map(row).collect()
}

/// Where a text has lost its indent, indenting its sound lines would make the
/// broken ones at the margin look like heads. So those are to be mended first.
fn may_indent(text: &str, passage: &[Span], lines: &[Row]) -> bool {
    let kept = lines.iter().any(|line| line.role == Role::Kept);
    !kept || !layout::has_lost_indent(text, passage)
}

/// The edit that makes `new` of what stands at `span`, as small as it can be.
fn change(text: &str, id: TextId, span: Span, new: &str) -> Option<Edit> {
    let old = span.of(text);
    if old == new {
        return None;
    }
    let alike = |(one, other): &(char, char)| one == other;
    let ahead = old.chars().zip(new.chars()).take_while(alike);
    let ahead: usize = ahead.map(|(c, _)| c.len_utf8()).sum();
    let (old_rest, new_rest) = (&old[ahead..], &new[ahead..]);
    let behind = old_rest
        .chars()
        .rev()
        .zip(new_rest.chars().rev())
        .take_while(alike);
    let behind: usize = behind.map(|(c, _)| c.len_utf8()).sum();
    let place = Span::new(span.start + ahead as u32, span.end - behind as u32);
    Some(Edit {
        place: Place::new(id, place),
        new: new_rest[..new_rest.len() - behind].to_owned(),
    })
}
