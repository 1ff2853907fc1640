//! The columns of a block: its keys in one, the lengths of its sections in
//! another, so that what follows them stands in line.

use super::line::{Laid, lay as lay_line, says_the_same};
use super::row::{Role, Row};
use super::waters;
use crate::layout::is_space;
use crate::reader::{read, whole};
use crate::tree::{Block, File, Form, Line};
use crate::vocabulary::BlockKind;
use rustc_hash::FxHashMap;
use snell_text::TextId;

/// The room of a key with the space behind it, at least.
const KEY_COLUMN: usize = 8;

/// Keys and lengths longer than this do not widen their column.
const WIDEST: usize = 16;

/// The columns of one block.
#[derive(Clone, Copy)]
struct Columns {
    key: usize,
    length: usize,
}

/// What becomes of a row.
pub(super) enum Look {
    /// It stays as it is.
    Kept,
    New(String),
    /// Another row says what it says.
    Gone,
}

/// The new look of every line.
pub(super) fn lay(text: &str, file: &File, lines: &[Row]) -> Vec<Look> {
    let mut laid: Vec<_> = lines.iter().map(|row| lay_row(text, file, row)).collect();
    let gone = waters::put_together(file, lines, &mut laid);
    let columns = columns(lines, &laid);
    let finish = |(row, laid): (&Row, &Option<Laid>)| match row.role {
        Role::Comment { indented } => {
            let comment = row.span.of(text).trim_matches(is_space);
            Some(format!("{}{comment}", if indented { "  " } else { "" }))
        }
        Role::Blank | Role::Kept | Role::Use(_) | Role::Head(_) | Role::Body(..) => {
            let laid = laid.as_ref()?;
            let old = laid.strict.unwrap_or(row.span.of(text));
            let (new, kind) = if let Role::Body(block, _) = row.role {
                (body(laid, columns[&block]), Some(kind(&file.blocks[block])))
            } else {
                (with_comment(laid.values.clone(), laid), None)
            };
            let same = !laid.reworded || says_the_same(laid.entry, old, &new);
            (same && (laid.strict.is_some() || stays_strict(kind, old, &new))).then_some(new)
        }
    };
    let looks = lines.iter().zip(&laid).zip(gone);
    looks
        .map(|(row, gone)| match (gone, finish(row)) {
            (true, _) => Look::Gone,
            (false, Some(new)) => Look::New(new),
            (false, None) => Look::Kept,
        })
        .collect()
}

/// The kind of a block, by its head or what was left of one.
fn kind(block: &Block) -> BlockKind {
    match block.head.as_ref().map(|head| &*head.form) {
        Some(Form::Block(head)) => head.kind,
        // Lines without a head are a rig's.
        Some(Form::Use(_) | Form::Change(_) | Form::Bind(_) | Form::Claim(_) | Form::Plain(_)) | None => {
            BlockKind::Rig
        }
    }
}

/// Whether a strict line, in a block of its kind, is still read as strict: with other words parted by spaces it may
/// be one in its author's own hand, which says something else or is refused.
fn stays_strict(kind: Option<BlockKind>, old: &str, new: &str) -> bool {
    let words = |line| str::split(line, is_space).filter(|word| !word.is_empty());
    if words(old).eq(words(new)) {
        return true;
    }
    let by_itself = |line: &str| {
        let text = match kind {
            Some(kind) => format!("{} a\n  {}", kind.word(), line.trim_start_matches(is_space)),
            None => line.to_owned(),
        };
        read(&text, TextId::default(), &whole(&text))
    };
    let (old, new) = (by_itself(old), by_itself(new));
    let mut lines = new.blocks.iter().flat_map(|block| {
        let own_head = block.head.iter().filter(|_| kind.is_none());
        own_head.chain(&block.body)
    });
    let codes = |file: &File| {
        file.findings
            .iter()
            .map(|finding| finding.code.to_string())
            .collect::<Vec<_>>()
    };
    lines.all(|line| line.reading.is_none()) && codes(&old) == codes(&new)
}

fn lay_row<'a>(text: &'a str, file: &'a File, row: &Row) -> Option<Laid<'a>> {
    let line: &'a Line = match row.role {
        Role::Use(at) => &file.uses[at].line,
        Role::Head(block) => file.blocks[block].head.as_ref()?,
        Role::Body(block, at) => &file.blocks[block].body[at],
        Role::Blank | Role::Comment { .. } | Role::Kept => return None,
    };
    let end = row.span.end as usize;
    // A broken head has no tokens.
    if let Some(reading) = &line.reading {
        return Some(lay_line(&reading.strict, line));
    }
    (!line.tokens.is_empty()).then(|| lay_line(&text[line.offset as usize..end], line))
}

fn columns(lines: &[Row], laid: &[Option<Laid<'_>>]) -> FxHashMap<usize, Columns> {
    let mut columns = FxHashMap::default();
    for (row, laid) in lines.iter().zip(laid) {
        let Role::Body(block, _) = row.role else { continue };
        let column = columns.entry(block).or_insert(Columns {
            key: KEY_COLUMN,
            length: 0,
        });
        let Some(laid) = laid else { continue };
        let fits = |cell: &str| Some(width(cell)).filter(|width| *width <= WIDEST);
        column.key = column.key.max(fits(&laid.key).map_or(0, |width| width + 1));
        if laid.is_section {
            column.length = column.length.max(fits(&laid.values).map_or(0, |width| width + 2));
        }
    }
    columns
}

fn body(laid: &Laid<'_>, columns: Columns) -> String {
    let mut line = "  ".to_owned();
    let mut cell = |text: &str, column: usize| {
        line.push_str(text);
        let room = column.saturating_sub(width(text)).max(1);
        line.extend(std::iter::repeat_n(' ', room));
    };
    cell(&laid.key, columns.key);
    if laid.is_section {
        cell(&laid.values, columns.length);
    } else if !laid.values.is_empty() {
        cell(&laid.values, 0);
    }
    line.push_str(&laid.rest);
    with_comment(line.trim_end_matches(' ').to_owned(), laid)
}

fn with_comment(mut line: String, laid: &Laid<'_>) -> String {
    if let Some(comment) = &laid.comment {
        line.push_str("  ");
        line.push_str(comment);
    }
    line
}

fn width(cell: &str) -> usize {
    cell.chars().count()
}
