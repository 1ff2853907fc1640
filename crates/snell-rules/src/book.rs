//! The pages that ship: each a rule with its reason and its examples.
//!
//! The folder of a page is the rulebook that takes it in. A folder without a
//! page for its rulebook gets one that takes in every rule of the folder, and
//! those of every rig.

use snell_rig::Project;
use snell_rig::project::Source;
use snell_syntax::Reader;
use snell_text::{Span, TextId};
use std::sync::{Arc, LazyLock};

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

static SOURCES: LazyLock<Vec<Arc<Source>>> = LazyLock::new(|| {
    // One reader for all: many lines of the book are alike.
    let mut reader = Reader::new();
    let mut sources = Vec::with_capacity(PAGES.len() + BOOKS.len());
    for (index, (_, name, text, lines)) in PAGES.iter().enumerate() {
        sources.push(source(&mut reader, name, text, index, &passages(lines)));
    }
    for (index, (folder, text)) in BOOKS.iter().enumerate() {
        sources.push(source(
            &mut reader,
            folder,
            text,
            PAGES.len() + index,
            &snell_syntax::whole(text),
        ));
    }
    sources
});

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

fn source(reader: &mut Reader, name: &str, text: &str, index: usize, passages: &[Vec<Span>]) -> Arc<Source> {
    let id = TextId(FIRST_TEXT - index as u32);
    Arc::new(Source {
        name: name.to_owned(),
        text: Arc::from(text),
        file: reader.read(text, id, passages),
        uses: Vec::new(),
    })
}

/// A project in which the book is on the shelf.
pub fn project() -> Project {
    Project::with_shipped(&SOURCES)
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
