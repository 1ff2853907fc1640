//! What a line of a rig is read as, as `tidy` lays it out.

#![allow(clippy::unwrap_used, reason = "a test may stop at what it did not expect")]

use snell_syntax::{File, read, tidy, whole};
use snell_text::TextId;

pub fn of(text: &str) -> File {
    read(text, TextId(0), &whole(text))
}

pub fn tidied(text: &str) -> String {
    let edits = tidy(text, TextId(0), &whole(text));
    let edits = edits.into_iter().map(|edit| (edit.place.span, edit.new));
    snell_finding::apply(text, edits)
}

/// What a line of a rig is read as, its words one space apart.
pub fn read_as(line: &str) -> String {
    read_within("rig", line)
}

/// The same of a line of another block.
pub fn read_within(block: &str, line: &str) -> String {
    let text = format!("{block} a\n  {line}\n");
    let tidied = tidied(&text);
    let words: Vec<&str> = tidied.lines().nth(1).unwrap().split_whitespace().collect();
    words.join(" ")
}
