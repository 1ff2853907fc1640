//! What is told of a text that was typed in is what is told of the same text
//! when it is opened, in every way to count columns.

use super::typed::Typed;
use crate::Edit;
use snell_analysis::Kind;
use snell_text::{Encoding, LineIndex, Span};
use std::path::Path;

/// What parts the text and its edits from one another.
const APART: u8 = 0;

/// The first byte says what kind of text it is and how columns are counted; then come the text and its edits, parted
/// by noughts. An edit is two bytes for where, one for how much goes, and what comes.
pub fn holds(bytes: &[u8]) {
    let Some((head, rest)) = bytes.split_first() else {
        return;
    };
    let (kind, path) = match head % 2 {
        0 => (Kind::Rig, "typed.rig"),
        _ => (Kind::MARKDOWN, "typed.md"),
    };
    let encoding = [Encoding::Utf8, Encoding::Utf16, Encoding::Utf32][usize::from(head / 2 % 3)];
    let mut pieces = rest.split(|byte| *byte == APART);
    let first = String::from_utf8_lossy(pieces.next().unwrap_or_default()).into_owned();
    let mut typed = Typed::open(Path::new(path), kind, &first);
    let mut text = first;
    for piece in pieces.take(8) {
        let edit = made(&mut text, piece, encoding);
        typed.edit(&[edit], encoding);
        assert_eq!(*typed.text(), *text);
    }
    typed.compare(true, true, "as it was left");
}

/// Makes an edit in a text, and tells it as an editor would.
fn made(text: &mut String, piece: &[u8], encoding: Encoding) -> Edit {
    let byte = |at: usize| usize::from(piece.get(at).copied().unwrap_or_default());
    let new = String::from_utf8_lossy(piece.get(3..).unwrap_or_default()).into_owned();
    let start = between(text, (byte(0) * 256 + byte(1)) % (text.len() + 1));
    let end = between(text, (start + byte(2)).min(text.len()));
    let index = LineIndex::new(text);
    let place = |at: usize| index.position(text, at as u32, encoding);
    let places = Some((place(start), place(end)));
    text.replace_range(std::ops::Range::from(Span::from(start..end)), &new);
    Edit { places, new }
}

/// The nearest place below at which an editor can point: not within a letter, nor in the middle of one line end.
fn between(text: &str, at: usize) -> usize {
    let at = (0..=at)
        .rev()
        .find(|at| text.is_char_boundary(*at))
        .unwrap_or_default();
    at - usize::from(text[..at].ends_with('\r') && text[at..].starts_with('\n'))
}
