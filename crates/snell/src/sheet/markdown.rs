//! A sheet as Markdown: a heading, pipe tables and lists that every reader of
//! Markdown renders alike.

use super::{ESTIMATES, Named, Sheet};
use crate::prose::printable;

/// A picture as a page of Markdown can hold it.
#[derive(Debug)]
pub enum Figure {
    /// Drawn in letters.
    Letters(String),
    /// A file beside the page, by its address from there.
    File {
        /// The address.
        address: String,
        /// What it shows, for those who do not see it.
        told: String,
    },
}

/// Writes a sheet with its pictures.
pub fn write(sheet: &Sheet, pictures: &[Figure]) -> String {
    let title = sheet
        .title
        .as_deref()
        .map(|title| format!(": {}", escaped(title)))
        .unwrap_or_default();
    let mut page = format!("## {}{title}\n\n", escaped(&sheet.name));
    let from = sheet
        .from
        .as_deref()
        .map(|from| format!(", made from {}", escaped(from)))
        .unwrap_or_default();
    page.push_str(&format!("{}{from}\n", escaped(&sheet.place)));
    pairs(&mut page, &sheet.settings);
    for figure in pictures {
        page.push_str(&format!("\n{}", pictured(figure)));
    }
    table(&mut page, sheet);
    figures(&mut page, "measure", &sheet.measures);
    figures(&mut page, ESTIMATES, &sheet.estimates);
    pairs(&mut page, &sheet.remarks);
    list(&mut page, "Assumed", &sheet.assumed);
    list(&mut page, "Unknown", &sheet.unknown);
    page
}

fn pictured(figure: &Figure) -> String {
    match figure {
        Figure::Letters(rows) => fenced(rows),
        // Between angle brackets an address may hold blanks; these two it may not.
        Figure::File { address, told } => {
            let address = address.replace('<', "%3C").replace('>', "%3E");
            format!("![{}](<{}>)\n", escaped(told), printable(&address))
        }
    }
}

/// A fence that no row of the text can close.
fn fenced(text: &str) -> String {
    let longest = text.lines().map(|line| {
        line.trim_start()
            .chars()
            .take_while(|letter| *letter == '`')
            .count()
    });
    let fence = "`".repeat(longest.max().unwrap_or(0).max(2) + 1);
    format!("{fence}text\n{text}{fence}\n")
}

fn table(page: &mut String, sheet: &Sheet) {
    if sheet.parts.is_empty() {
        return;
    }
    let row = |cells: Vec<String>| format!("| {} |\n", cells.join(" | "));
    let headings = sheet
        .columns
        .iter()
        .map(|column| column.heading().to_owned())
        .collect();
    let rule = sheet
        .columns
        .iter()
        .map(|column| if column.is_of_figures() { "---:" } else { "---" }.to_owned());
    page.push('\n');
    page.push_str(&row(headings));
    page.push_str(&row(rule.collect()));
    for part in &sheet.parts {
        page.push_str(&row(sheet
            .columns
            .iter()
            .map(|column| escaped(part.cell(*column)))
            .collect()));
    }
}

fn figures(page: &mut String, heading: &str, all: &[Named]) {
    if all.is_empty() {
        return;
    }
    page.push_str(&format!("\n| {heading} | value |\n| --- | ---: |\n"));
    for one in all {
        page.push_str(&format!("| {} | {} |\n", escaped(&one.name), escaped(&one.text)));
    }
}

fn pairs(page: &mut String, all: &[Named]) {
    let lines = all
        .iter()
        .map(|one| format!("- {}: {}\n", escaped(&one.name), escaped(&one.text)));
    let lines: String = lines.collect();
    if !lines.is_empty() {
        page.push_str(&format!("\n{lines}"));
    }
}

fn list(page: &mut String, heading: &str, items: &[String]) {
    if !items.is_empty() {
        let lines: String = items
            .iter()
            .map(|item| format!("- {}\n", escaped(item)))
            .collect();
        page.push_str(&format!("\n{heading}:\n\n{lines}"));
    }
}

/// With every character escaped that Markdown would read as more than itself. Names joined by hyphens
/// and figures stay as they are.
fn escaped(text: &str) -> String {
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
}
