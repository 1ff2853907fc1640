//! The outline of a text: its blocks and the parts of its rigs; and the blocks
//! of many texts by name.

use super::told::is_rig;
use super::walk::{ASKED, blocks_of, extent};
use snell_analysis::Notebook;
use snell_finding::Limit;
use snell_rig::blocks::line_key;
use snell_rig::keywords::PartKind;
use snell_rig::project::{BlockRef, LineRef};
use snell_syntax::{BlockKind, Joint};
use snell_text::{Place, Span};

/// An entry of the outline.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Symbol {
    /// Its name.
    pub name: String,
    /// A few words beside it: its kind and title, or its line.
    pub detail: String,
    /// What it is; `None` for a part of a rig.
    pub kind: Option<BlockKind>,
    /// All of it.
    pub extent: Span,
    /// Its name's place.
    pub place: Place,
    /// The parts of a rig.
    pub parts: Vec<Symbol>,
}

/// The outline of the asked text, as far as an editor should be sent it.
pub fn outline(notebook: &Notebook) -> Vec<Symbol> {
    let mut room = Limit::OutlineEntries.count();
    let fits = |symbol: &Symbol| {
        let entries = 1 + symbol.parts.len();
        let is_room = entries <= room;
        room = room.saturating_sub(entries);
        is_room
    };
    let all = blocks_of(notebook.project(), ASKED).map(of_block);
    all.take_while(fits).collect()
}

/// The blocks of all texts whose name or title holds the letters of `asked` in their order.
pub fn find(notebook: &Notebook, asked: &str) -> Vec<Symbol> {
    let project = notebook.project();
    let own = project.files().filter(|file| !project.ships(*file));
    own.flat_map(|file| project.blocks(file))
        .filter(|block| {
            holds(&snell_rig::rig::name(*block), asked)
                || block.title().is_some_and(|title| holds(title, asked))
        })
        .map(|block| Symbol {
            parts: Vec::new(),
            ..of_block(block)
        })
        .collect()
}

fn holds(name: &str, asked: &str) -> bool {
    let mut letters = name.chars().flat_map(char::to_lowercase);
    asked
        .chars()
        .flat_map(char::to_lowercase)
        .all(|wanted| letters.any(|letter| letter == wanted))
}

fn of_block(block: BlockRef<'_>) -> Symbol {
    let kind = block.head().map_or(BlockKind::Rig, |head| head.kind);
    let detail = match block.title() {
        Some(title) => format!("{}, {title}", kind.word()),
        None => kind.word().to_owned(),
    };
    let part = |line: &LineRef<'_>| PartKind::of(line_key(*line).0).is_some();
    let parts = if is_rig(block) {
        block.lines().filter(part).map(of_part).collect()
    } else {
        Vec::new()
    };
    let extent = extent(block);
    let place = block.name_place();
    Symbol {
        name: snell_rig::rig::name(block),
        detail,
        kind: Some(kind),
        // A name that stands alone is all there is of a block.
        extent: extent.to(place.span),
        place,
        parts,
    }
}

fn of_part(line: LineRef<'_>) -> Symbol {
    let (key, place) = line_key(line);
    let mut label = None;
    super::walk::each_expr(&line.line.form, &mut |joint, expr| {
        if joint == Some(Joint::As) {
            label = Some(line.written(expr.span));
        }
    });
    Symbol {
        name: label.map_or_else(|| key.to_owned(), |label| format!("{key} {label}")),
        detail: line.behind_key(),
        kind: None,
        extent: line.whole().span,
        place,
        parts: Vec::new(),
    }
}
