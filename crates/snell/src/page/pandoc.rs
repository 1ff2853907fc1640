//! Pieces as blocks of pandoc's document tree, and figures as its inlines.
//!
//! Source: the JSON of `pandoc -t json`, types of pandoc-types 1.23 (tables as
//! they are since 1.21).

use super::{Piece, Table};
use serde_json::{Value, json};

/// Pieces as blocks.
pub fn blocks(pieces: &[Piece]) -> Vec<Value> {
    pieces.iter().map(block).collect()
}

/// A text as inlines.
pub fn inlines(text: &str) -> Vec<Value> {
    let mut inlines = Vec::new();
    for word in text.split_whitespace() {
        if !inlines.is_empty() {
            inlines.push(json!({"t": "Space"}));
        }
        inlines.push(json!({"t": "Str", "c": word}));
    }
    inlines
}

fn block(piece: &Piece) -> Value {
    match piece {
        Piece::Text(text) => paragraph(inlines(text)),
        Piece::Table(one) => table(one),
        Piece::List(items) => json!({"t": "BulletList", "c": items_of(items)}),
        Piece::Steps(items) => {
            let style = json!([1, {"t": "Decimal"}, {"t": "Period"}]);
            json!({"t": "OrderedList", "c": [style, items_of(items)]})
        }
        Piece::Picture { link, instead } => {
            let image = json!({"t": "Image", "c": [no_attributes(), inlines(instead), [link, ""]]});
            paragraph(vec![image])
        }
    }
}

fn paragraph(inlines: Vec<Value>) -> Value {
    json!({"t": "Para", "c": inlines})
}

fn plain(text: &str) -> Value {
    json!({"t": "Plain", "c": inlines(text)})
}

fn items_of(items: &[String]) -> Vec<Value> {
    items.iter().map(|item| json!([plain(item)])).collect()
}

fn no_attributes() -> Value {
    json!(["", [], []])
}

fn table(table: &Table) -> Value {
    let column = |(_, from_right): &(String, bool)| {
        let side = if *from_right { "AlignRight" } else { "AlignLeft" };
        json!([{"t": side}, {"t": "ColWidthDefault"}])
    };
    let cell = |text: &str| json!([no_attributes(), {"t": "AlignDefault"}, 1, 1, [plain(text)]]);
    let row = |cells: Vec<Value>| json!([no_attributes(), cells]);
    let heads = row(table.heads.iter().map(|(head, _)| cell(head)).collect());
    let rows: Vec<Value> = table
        .rows
        .iter()
        .map(|cells| row(cells.iter().map(|text| cell(text)).collect()))
        .collect();
    let columns: Vec<Value> = table.heads.iter().map(column).collect();
    json!({"t": "Table", "c": [
        no_attributes(),
        [null, []],
        columns,
        [no_attributes(), [heads]],
        [[no_attributes(), 0, [], rows]],
        [no_attributes(), []],
    ]})
}
