//! The lines of a passage as the layout sees them, and the edit of one.

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

pub(super) fn rows(text: &str, passage: &[Span], places: &Places) -> Vec<Row> {
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
