//! The lines of a passage as the layout sees them, and the edit of one.

use crate::hand::several_parts;
use crate::layout::{self, Shape};
use crate::tree::File;
use rustc_hash::FxHashMap;
use snell_finding::Edit;
use snell_text::{Place, Span, TextId};

/// A line of a passage.
pub(super) struct Row {
    /// Its words with what is before them, but without a byte-order mark.
    pub(super) span: Span,
    pub(super) role: Role,
    /// The next part of the same line, which gets a line of its own.
    pub(super) next: Option<Next>,
}

/// A part that follows another on one line.
#[derive(Clone, Copy)]
pub(super) struct Next {
    pub(super) start: u32,
    /// Where their line begins.
    pub(super) line: u32,
}

/// What a line is to the layout.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Role {
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
pub(super) struct Places(FxHashMap<u32, Role>);

impl Places {
    pub(super) fn new(file: &File) -> Self {
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

/// The rows of a passage: one a line, but for a line that holds several parts, which has one for each.
pub(super) fn rows(text: &str, passage: &[Span], places: &Places) -> Vec<Row> {
    passage
        .iter()
        .flat_map(|line| rows_of_line(text, *line, places))
        .collect()
}

fn rows_of_line(text: &str, line: Span, places: &Places) -> Vec<Row> {
    let written = line.of(text);
    let role = |at: u32| places.0.get(&at).copied();
    let row = |span: Span, role: Role| Row {
        span,
        role,
        next: None,
    };
    let mark = if line.start == 0 && written.starts_with('\u{FEFF}') {
        3
    } else {
        0
    };
    let whole = Span::new(line.start + mark, line.end);
    let own = match Shape::of(written) {
        Shape::Blank => Role::Blank,
        Shape::Comment => Role::Comment {
            indented: layout::is_indented(written),
        },
        Shape::Words { .. } => match several(written, line, &role) {
            Several::Rows(rows) => return rows,
            Several::Broken => Role::Kept,
            Several::None => role(line.start).unwrap_or(Role::Kept),
        },
    };
    vec![row(whole, own)]
}

/// What a line is of which several parts may have been read.
enum Several {
    /// They were not: it is one line.
    None,
    Rows(Vec<Row>),
    /// One of them could not be read.
    Broken,
}

fn several(written: &str, line: Span, role: &impl Fn(u32) -> Option<Role>) -> Several {
    let parts = several_parts(written);
    if !parts
        .iter()
        .skip(1)
        .any(|part| role(line.start + part.start).is_some())
    {
        return Several::None;
    }
    let row = |(at, part): (usize, &Span)| {
        let start = if at == 0 { 0 } else { part.start };
        let next = parts.get(at + 1).map(|next| Next {
            start: line.start + next.start,
            line: line.start,
        });
        Some(Row {
            span: Span::new(start, part.end).shifted(line.start),
            role: role(line.start + part.start)?,
            next,
        })
    };
    let rows: Option<Vec<Row>> = parts.iter().enumerate().map(row).collect();
    rows.map_or(Several::Broken, Several::Rows)
}

/// The edit that makes `new` of what stands at `span`, as small as it can be.
pub(super) fn change(text: &str, id: TextId, span: Span, new: &str) -> Option<Edit> {
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
