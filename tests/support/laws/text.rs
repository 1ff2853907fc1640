//! Any text is read and checked without a panic, every finding points into its
//! text, and laying it out changes no rig and is done in one go.

use crate::essence::{Essence, essences};
use snell_analysis::{Kind, LocalDisk, Notebook};
use snell_finding::Code;
use snell_text::{Place, TextId};
use std::path::Path;

/// A file or a page of any bytes; the first one says which, and how much is asked: every rig's figures take a
/// hundred times as long as its findings.
pub fn holds(bytes: &[u8]) {
    let Some((head, text)) = bytes.split_first() else {
        return;
    };
    let text = String::from_utf8_lossy(text);
    let kind = [Kind::Rig, Kind::MARKDOWN][usize::from(head % 2)];
    let with_figures = head / 2 % 8 == 0;
    if with_figures {
        sound(kind, &text);
    } else {
        found_in_place(&opened(kind, &text));
    }
    match kind {
        Kind::Rig if with_figures => keeps_its_meaning(&text),
        Kind::Rig => is_laid_out_at_once(&text),
        Kind::Page(_) | Kind::Published => {}
    }
}

fn opened(kind: Kind, text: &str) -> Notebook {
    Notebook::of_text(Path::new("asked.rig"), kind, text.to_owned(), &LocalDisk)
}

/// The text that a place lies in: of the notebook, or of a page that ships.
fn text_of(book: &Notebook, place: Place) -> &str {
    match book.document(place.text) {
        Some(document) => &document.text,
        None => snell_rig::shelf::page(place.text).map_or("", |(_, page)| page),
    }
}

fn in_its_text(book: &Notebook, place: Place) {
    let text = text_of(book, place);
    let (start, end) = (place.span.start as usize, place.span.end as usize);
    assert!(
        start <= end && end <= text.len(),
        "{place:?} of {} bytes",
        text.len()
    );
    assert!(
        text.is_char_boundary(start) && text.is_char_boundary(end),
        "{place:?} cuts a character"
    );
}

/// Checks a text and holds every place of every finding against it.
///
/// # Panics
/// A finding says nothing, or points at nothing or beyond its line; or not every rig is shown.
#[track_caller]
pub fn sound(kind: Kind, text: &str) {
    let book = opened(kind, text);
    found_in_place(&book);
    let shown = snell_view::show(&book, snell_view::Units::Both, |_, _| true);
    assert_eq!(shown.len(), snell_view::names(&book).len());
}

#[track_caller]
fn found_in_place(book: &Notebook) {
    for finding in snell_article::check(book) {
        assert!(!finding.labels.is_empty() && !finding.message.is_empty());
        for label in &finding.labels {
            in_its_text(book, label.place);
            let words = label.place.span.of(text_of(book, label.place));
            assert!(!words.contains('\n'), "{finding:?} goes on over a line's end");
        }
        assert!(!finding.place().span.is_empty(), "{finding:?} points at nothing");
        for edit in finding.fixes.iter().flat_map(|fix| &fix.edits) {
            in_its_text(book, edit.place);
        }
    }
}

fn tidied(text: &str) -> String {
    let edits = snell_syntax::tidy(text, TextId(0), &snell_syntax::whole(text));
    snell_finding::apply(text, edits.into_iter().map(|edit| (edit.place.span, edit.new)))
}

/// The rigs of a text, and its faults by name in order. What is not understood is a note or a comment once it is laid out,
/// and told no more.
fn meaning(text: &str) -> (Vec<Essence>, Vec<String>) {
    let book = opened(Kind::Rig, text);
    let found = snell_article::check(&book).into_iter();
    let told = found.filter(|finding| finding.code != Code::WordsUnread);
    let faults = told.map(|finding| finding.code.to_string());
    (essences(&book), faults.collect())
}

/// Lays a file out, once and again.
///
/// # Panics
/// A rig or a fault is then another, or the second time changes something.
#[track_caller]
pub fn keeps_its_meaning(text: &str) {
    let once = tidied(text);
    assert_eq!(meaning(text), meaning(&once), "\n{text}\nwas laid out as\n{once}");
    is_laid_out_at_once(text);
}

/// Lays a text out twice.
///
/// # Panics
/// The second time changes something.
#[track_caller]
pub fn is_laid_out_at_once(text: &str) {
    let once = tidied(text);
    assert_eq!(once, tidied(&once), "it is not laid out at once:\n{text}");
}
