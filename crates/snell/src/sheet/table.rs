//! A table of words in columns; on a narrow screen each row takes lines of its own.

use super::plain::Page;
use crate::prose::{pad, printable, width};
use crate::sheet::entry::named;
use crate::terminal::Terminal;

const INDENT: usize = 2;
const GAP: usize = 2;

/// Writes rows below their heads; the first column is what a row is called.
pub(super) fn table(page: &mut Page<'_>, heads: &[String], rows: &[Vec<String>], terminal: &Terminal) {
    let cell = |row: &Vec<String>, at: usize| row.get(at).map_or(0, |text| width(&printable(text)));
    let wide = |at: usize| {
        rows.iter()
            .map(|row| cell(row, at))
            .max()
            .unwrap_or(0)
            .max(width(&heads[at]))
    };
    let widths: Vec<usize> = (0..heads.len()).map(wide).collect();
    let whole = INDENT + widths.iter().sum::<usize>() + GAP * heads.len().saturating_sub(1);
    if whole > terminal.width {
        return stacked(page, heads, rows, terminal);
    }
    let line = |row: &[String]| {
        let cells = row
            .iter()
            .zip(&widths)
            .map(|(text, width)| pad(&printable(text), *width));
        format!(
            "{}{}",
            " ".repeat(INDENT),
            cells.collect::<Vec<_>>().join(&" ".repeat(GAP))
        )
    };
    page.line(&terminal.quiet(line(heads).trim_end()));
    for row in rows {
        page.line(&line(row));
    }
}

fn stacked(page: &mut Page<'_>, heads: &[String], rows: &[Vec<String>], terminal: &Terminal) {
    for row in rows {
        let Some((name, cells)) = row.split_first() else {
            continue;
        };
        page.gap();
        page.line(&format!(
            "{}{}",
            " ".repeat(INDENT),
            terminal.strong(&printable(name))
        ));
        let cells = heads
            .iter()
            .skip(1)
            .zip(cells)
            .filter(|(_, text)| !text.is_empty());
        let entries: Vec<_> = cells.map(|(head, text)| named(head, text)).collect();
        page.named(&entries);
    }
    page.gap();
}
