//! Rigs evaluated, in lines that stay where they are when others change: what
//! `git diff` and `git log -p` show instead of the text of a rig file.
//!
//! One thing a line and no columns, so that no line changes for the sake of
//! another.

use crate::prose::printable;
use snell_view::compare::{Card, OtherBlock, figures};

/// Writes every rig and then every other block.
pub fn write(cards: &[Card], blocks: &[OtherBlock]) -> String {
    let mut lines = Vec::new();
    for card in cards {
        let title = card
            .shown
            .title
            .as_ref()
            .map_or_else(String::new, |title| format!(" \"{title}\""));
        lines.push(format!("rig {}{title}", card.shown.name));
        lines.extend(
            card.says
                .iter()
                .map(|says| format!("  {} {}", says.key, says.text)),
        );
        for piece in card.pieces.iter() {
            lines.push(format!("  {}", piece.in_words()));
            let knot = piece
                .traits
                .iter()
                .filter_map(snell_view::compare::Trait::as_knot_line);
            lines.extend(knot.map(|knot| format!("  {knot}")));
        }
        lines.extend(figures(&card.shown).iter().map(|figure| format!("  = {figure}")));
        if !card.sound {
            lines.push("  (not all of it could be read)".to_owned());
        }
        lines.push(String::new());
    }
    for block in blocks {
        lines.push(block.head());
        lines.extend(block.lines().map(|line| format!("  {line}")));
        lines.push(String::new());
    }
    let mut text = String::new();
    for line in lines {
        text.push_str(&printable(&line));
        text.push('\n');
    }
    text
}
