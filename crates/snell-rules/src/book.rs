//! The pages that ship: each a rule with its reason and its examples.
//!
//! The folder of a page is the rulebook that takes it in. A folder without a
//! page for its rulebook gets one that takes in every rule of the folder, and
//! those of every rig.

use snell_rig::{Project, Shelf};
use snell_text::{Span, TextId};
use std::sync::LazyLock;

/// A page of the book.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Page {
    /// The folder that it stands in: the rulebook that takes it in.
    pub folder: &'static str,
    /// Its name, which is its rule's.
    pub name: &'static str,
    /// Its text.
    pub text: &'static str,
}

/// Folder, name, text, and the lines of the page's plain fences; a fence ends with an empty pair.
type Listed = (&'static str, &'static str, &'static str, &'static [(u32, u32)]);

const PAGES: &[Listed] = include!(concat!(env!("OUT_DIR"), "/pages.rs"));

/// The rulebook of rules that every rig is held against.
const EVERY_RIG: &str = "every-rig";
/// The rulebook of rules that guard people and fish.
pub(crate) const SAFETY: &str = "safety";

/// Texts of the book are numbered from here down, below those of the shelf.
const FIRST_TEXT: u32 = u32::MAX - 1000;

/// Every page, by folder and name.
pub fn pages() -> impl Iterator<Item = Page> {
    PAGES
        .iter()
        .map(|(folder, name, text, _)| Page { folder, name, text })
}

static SHELF: LazyLock<Shelf> = LazyLock::new(|| {
    let mut shelf = Shelf::new();
    for (index, (_, name, text, lines)) in PAGES.iter().enumerate() {
        shelf.add(name, text, text_id(index), &passages(lines));
    }
    for (index, (folder, text)) in BOOKS.iter().enumerate() {
        shelf.add(
            folder,
            text,
            text_id(PAGES.len() + index),
            &snell_syntax::whole(text),
        );
    }
    shelf
});

fn text_id(index: usize) -> TextId {
    TextId(FIRST_TEXT - index as u32)
}

/// The rulebooks of folders that have no page for it.
static BOOKS: LazyLock<Vec<(&'static str, String)>> = LazyLock::new(|| {
    let mut folders: Vec<&'static str> = pages().map(|page| page.folder).collect();
    folders.dedup();
    let own = |folder: &str| pages().any(|page| page.folder == folder && page.name == folder);
    folders
        .into_iter()
        .filter(|folder| !own(folder))
        .map(|folder| (folder, rulebook(folder)))
        .collect()
});

fn rulebook(folder: &str) -> String {
    let rules: Vec<&str> = pages()
        .filter(|page| page.folder == folder)
        .map(|page| page.name)
        .collect();
    let common = if matches!(folder, EVERY_RIG | SAFETY) {
        ""
    } else {
        "  with every-rig\n"
    };
    format!("rulebook {folder}\n{common}  with {}\n", rules.join(", "))
}

fn passages(lines: &[(u32, u32)]) -> Vec<Vec<Span>> {
    let fences = lines
        .split(|line| *line == (0, 0))
        .filter(|fence| !fence.is_empty());
    fences
        .map(|fence| fence.iter().map(|(start, end)| Span::new(*start, *end)).collect())
        .collect()
}

/// A project in which the book is on the shelf.
pub fn project() -> Project {
    Project::on(&SHELF)
}

/// The name and text of a shipped page, for reports that point into it.
pub fn page(text: TextId) -> Option<(&'static str, &'static str)> {
    let index = FIRST_TEXT.checked_sub(text.0)? as usize;
    let written = PAGES.get(index).map(|(_, name, text, _)| (*name, *text));
    written.or_else(|| {
        let (folder, text) = BOOKS.get(index - PAGES.len())?;
        Some((*folder, text.as_str()))
    })
}
