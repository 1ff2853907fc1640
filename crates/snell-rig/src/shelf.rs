//! The pages that ship, in this language, read once a process.

use snell_syntax::File;
use snell_text::{FenceTag, Span, TextId};
use std::sync::LazyLock;

/// A page that ships.
pub(crate) struct Page {
    pub(crate) name: &'static str,
    pub(crate) text: &'static str,
    pub(crate) file: File,
}

/// The pages by name.
const PAGES: &[(&str, &str)] = &[
    ("materials", include_str!("../shelf/materials.md")),
    ("knots", include_str!("../shelf/knots.md")),
    ("beds", include_str!("../shelf/beds.md")),
    ("dressings", include_str!("../shelf/dressings.md")),
];

/// Every page, read.
pub(crate) static READ: LazyLock<Vec<Page>> = LazyLock::new(|| {
    let read = |(index, (name, text)): (usize, &(&'static str, &'static str))| Page {
        name,
        text,
        file: read_page(text, id(index)),
    };
    PAGES.iter().enumerate().map(read).collect()
});

/// Shipped texts are numbered from the top down, those of a notebook from the bottom up.
fn id(index: usize) -> TextId {
    TextId(u32::MAX - index as u32)
}

fn read_page(page: &str, id: TextId) -> File {
    let shared = snell_text::fences(page)
        .into_iter()
        .filter(|fence| fence.tag == FenceTag::Shared);
    let passages: Vec<Vec<Span>> = shared.map(|fence| fence.lines).collect();
    snell_syntax::read(page, id, &passages)
}

/// The name and text of a shipped page, for reports that point into it.
pub fn page(text: TextId) -> Option<(&'static str, &'static str)> {
    PAGES.get((u32::MAX - text.0) as usize).copied()
}
