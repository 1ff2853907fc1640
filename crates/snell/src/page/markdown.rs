//! Pieces as Markdown that every reader of it renders alike. Tables are laid
//! out, for those who read the source.

use super::{Piece, Table};
use crate::prose::{pad, printable, width};

/// A column is at least as wide as a rule that all readers take for one.
const NARROWEST: usize = 3;

/// Writes pieces with an empty line between each two.
pub fn write(pieces: &[Piece]) -> String {
    let written: Vec<String> = pieces.iter().map(piece).collect();
    written.join("\n")
}

/// One piece, its last line ended.
fn piece(piece: &Piece) -> String {
    match piece {
        Piece::Text(text) => format!("{}\n", escaped(text)),
        Piece::Table(one) => table(one),
        Piece::List(items) => items
            .iter()
            .map(|item| format!("- {}\n", escaped(item)))
            .collect(),
        Piece::Steps(items) => {
            let numbered = items.iter().enumerate();
            numbered
                .map(|(index, item)| format!("{}. {}\n", index + 1, escaped(item)))
                .collect()
        }
        Piece::Picture { link, instead } => format!("![{}]({})\n", escaped(instead), target(link)),
    }
}

/// A link as it stands between parentheses.
fn target(link: &str) -> String {
    if link.contains([' ', '(', ')']) {
        format!("<{link}>")
    } else {
        link.to_owned()
    }
}

fn table(table: &Table) -> String {
    let rows: Vec<Vec<String>> = table
        .rows
        .iter()
        .map(|row| row.iter().map(|cell| escaped(cell)).collect())
        .collect();
    let heads: Vec<String> = table.heads.iter().map(|(head, _)| escaped(head)).collect();
    let widths: Vec<usize> = (0..heads.len())
        .map(|column| {
            let cells = rows.iter().chain([&heads]).map(|row| width(&row[column]));
            cells.max().unwrap_or(0).max(NARROWEST)
        })
        .collect();
    let line = |cells: &[String]| {
        let cell = |((cell, wide), (_, from_right)): ((&String, &usize), &(String, bool))| {
            if *from_right {
                format!("{}{cell}", " ".repeat(wide.saturating_sub(width(cell))))
            } else {
                pad(cell, *wide)
            }
        };
        let cells: Vec<String> = cells.iter().zip(&widths).zip(&table.heads).map(cell).collect();
        format!("| {} |\n", cells.join(" | "))
    };
    let rule: Vec<String> = table
        .heads
        .iter()
        .zip(&widths)
        .map(|((_, from_right), wide)| {
            if *from_right {
                format!("{}:", "-".repeat(wide - 1))
            } else {
                "-".repeat(*wide)
            }
        })
        .collect();
    let mut lines = line(&heads);
    lines.push_str(&line(&rule));
    lines.extend(rows.iter().map(|row| line(row)));
    lines
}

/// With every character escaped that Markdown would read as more than itself. Names joined by hyphens
/// and figures stay as they are.
pub fn escaped(text: &str) -> String {
    let mut safe = String::with_capacity(text.len());
    let starts_line = text.starts_with(['#', '+', '-', '>', '=', '~']);
    for (index, letter) in printable(text).chars().enumerate() {
        let always = matches!(
            letter,
            '\\' | '`' | '*' | '_' | '[' | ']' | '<' | '>' | '|' | '&' | '~'
        );
        if always || (index == 0 && starts_line) {
            safe.push('\\');
        }
        safe.push(letter);
    }
    safe
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_breaks_a_table() {
        assert_eq!(escaped("a|b\n*c*"), "a\\|b \\*c\\*");
        assert_eq!(escaped("#14 2.8 mm"), "\\#14 2.8 mm");
        assert_eq!(escaped("three-turn-surgeon"), "three-turn-surgeon");
        assert_eq!(escaped("<b>"), "\\<b\\>");
    }

    #[test]
    fn tables_are_laid_out() {
        let heads = vec![("part".to_owned(), false), ("length".to_owned(), true)];
        let rows = vec![
            vec!["a|b".to_owned(), "1 m".to_owned()],
            vec!["butt".to_owned(), "10 m".to_owned()],
        ];
        assert_eq!(
            write(&[Piece::Table(Table { heads, rows })]),
            "| part | length |\n| ---- | -----: |\n| a\\|b |    1 m |\n| butt |   10 m |\n"
        );
    }

    #[test]
    fn a_picture_with_a_space_in_its_name() {
        let picture = Piece::Picture {
            link: "my rig.svg".to_owned(),
            instead: "a [rig]".to_owned(),
        };
        assert_eq!(write(&[picture]), "![a \\[rig\\]](<my rig.svg>)\n");
    }
}
