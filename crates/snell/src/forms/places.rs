//! The texts that places lie in: those of the notebook, and the pages that
//! ship with snell.
//!
//! It finds a text and its name for people; it changes and judges nothing.

use notebook::{Document, Kind, Notebook};
use std::cell::OnceCell;
use std::path::Path;
use text::{LineColumn, Place, TextId};

/// Finds texts by number.
pub struct Places<'n> {
    notebook: &'n Notebook,
    shipped: OnceCell<Vec<Document>>,
}

impl<'n> Places<'n> {
    /// The places of a notebook.
    pub fn new(notebook: &'n Notebook) -> Self {
        Self {
            notebook,
            shipped: OnceCell::new(),
        }
    }

    /// The text with this number.
    pub fn document(&self, id: TextId) -> Option<&Document> {
        self.notebook.document(id).or_else(|| {
            let shipped = self.shipped.get_or_init(shipped);
            shipped.iter().find(|document| document.id == id)
        })
    }

    /// A text's name for people, and where a place starts in it.
    pub fn start(&self, place: Place) -> Option<(String, LineColumn)> {
        let document = self.document(place.text)?;
        let at = document.index().line_column(&document.text, place.span.start);
        Some((document.path.display().to_string(), at))
    }

    /// `file:line:column`.
    pub fn written(&self, place: Place) -> String {
        self.start(place).map_or_else(String::new, |(file, at)| format!("{file}:{}:{}", at.line, at.column))
    }
}

/// The shipped pages, numbered from the top down.
fn shipped() -> Vec<Document> {
    let pages = (0..).map_while(|index| {
        let id = TextId(u32::MAX - index);
        rig::shelf::page(id).map(|(name, text)| (id, name, text))
    });
    let read = |(id, name, text): (TextId, &str, &str)| {
        let path = Path::new("shipped").join(name).with_extension("md");
        Document::new(id, path, Kind::Markdown, text.into())
    };
    pages.map(read).collect()
}
