//! A sheet as Markdown: a heading, pipe tables and lists that every reader of
//! Markdown renders alike.

use super::Sheet;
use crate::page;
use crate::page::markdown::{self, escaped};

/// Writes a sheet, with its picture as rows of text.
pub fn write(sheet: &Sheet, picture: Option<&str>) -> String {
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
    parts.extend(page::pairs(&sheet.settings).map(|settings| markdown::write(&[settings])));
    parts.extend(picture.map(fenced));
    parts.push(markdown::write(&page::below_settings(sheet)));
    parts.retain(|part| !part.is_empty());
    parts.join("\n")
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
