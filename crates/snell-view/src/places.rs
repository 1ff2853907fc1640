//! The texts that places lie in: those of the notebook, and the pages that
//! ship with snell.
//!
//! It finds a text and its name for people; it changes and judges nothing.

use snell_analysis::{Document, Kind, Notebook};
use snell_finding::Finding;
use snell_text::{LineColumn, Place, TextId};
use std::path::Path;

/// Finds texts by number.
pub struct Places<'n> {
    notebook: &'n Notebook,
    shipped: Vec<Document>,
}

impl<'n> Places<'n> {
    /// The places of a notebook, and those that its findings have in shipped pages.
    pub fn new(notebook: &'n Notebook, findings: &[Finding]) -> Self {
        let mut shipped: Vec<Document> = Vec::new();
        for label in findings.iter().flat_map(|finding| &finding.labels) {
            let id = label.place.text;
            let known = notebook.document(id).is_some() || shipped.iter().any(|document| document.id == id);
            shipped.extend((!known).then(|| page(id)).flatten());
        }
        Self { notebook, shipped }
    }

    /// The text with this number.
    pub fn document(&self, id: TextId) -> Option<&Document> {
        let shipped = || self.shipped.iter().find(|document| document.id == id);
        self.notebook.document(id).or_else(shipped)
    }

    /// Whether a text is a page that ships.
    pub fn ships(&self, id: TextId) -> bool {
        self.notebook.document(id).is_none()
    }

    /// A text's name for people, and where a place starts in it.
    pub fn start(&self, place: Place) -> Option<(String, LineColumn)> {
        let document = self.document(place.text)?;
        let at = document.index().line_column(&document.text, place.span.start);
        Some((document.path.display().to_string(), at))
    }

    /// `file:line:column`.
    pub fn written(&self, place: Place) -> String {
        self.start(place).map_or_else(String::new, |(file, at)| {
            format!("{file}:{}:{}", at.line, at.column)
        })
    }
}

/// A page that ships.
fn page(id: TextId) -> Option<Document> {
    let (name, text) = snell_rig::shelf::page(id).or_else(|| snell_rules::page(id))?;
    let path = Path::new("shipped").join(name).with_extension("md");
    Some(Document::new(id, path, Kind::MARKDOWN, text.into()))
}
