//! A sheet as Markdown: a heading, pipe tables and lists that every reader of
//! Markdown renders alike.

use super::Sheet;
use crate::page;
use crate::page::markdown::{self, escaped};
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
    let from = sheet
        .from
        .as_deref()
        .map(|from| format!(", made from {}", escaped(from)))
        .unwrap_or_default();
    let mut parts = vec![
        format!("## {}{title}\n", escaped(&sheet.name)),
        format!("{}{from}\n", escaped(&sheet.place)),
    ];
    let answer = sheet.answer.iter().map(|line| format!("- {}\n", escaped(line)));
    parts.push(answer.collect());
    parts.extend(page::pairs(&sheet.settings).map(|settings| markdown::write(&[settings])));
    parts.extend(pictures.iter().map(pictured));
    parts.push(markdown::write(&page::below_settings(sheet)));
    parts.retain(|part| !part.is_empty());
    parts.join("\n")
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
