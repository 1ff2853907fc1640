//! The blocks that ship: pages in this language, read once a process.

use crate::blocks::Read;
use crate::project::{Project, Source};
use crate::world::World;
use snell_syntax::File;
use snell_text::{FenceTag, Span, TextId};
use std::sync::{Arc, LazyLock};

/// The pages that ship, by name.
const PAGES: &[(&str, &str)] = &[
    ("materials", include_str!("../shelf/materials.md")),
    ("knots", include_str!("../shelf/knots.md")),
    ("beds", include_str!("../shelf/beds.md")),
    ("dressings", include_str!("../shelf/dressings.md")),
];

static SOURCES: LazyLock<Vec<Arc<Source>>> = LazyLock::new(|| {
    let read = |(index, (name, page)): (usize, &(&str, &str))| {
        Arc::new(Source {
            name: (*name).to_owned(),
            text: Arc::from(*page),
            file: read_page(page, id(index)),
            uses: Vec::new(),
        })
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

/// The shipped files.
pub(crate) fn sources() -> Vec<Arc<Source>> {
    SOURCES.clone()
}

/// The blocks of the shipped files, each as it reads in every project: they see nothing but each other.
pub(crate) fn read() -> &'static [Vec<Read<'static>>] {
    static PROJECT: LazyLock<Project> = LazyLock::new(Project::default);
    static READ: LazyLock<Vec<Vec<Read<'static>>>> = LazyLock::new(|| World::of_shelf(&PROJECT));
    &READ
}

/// The name and text of a shipped page, for reports that point into it.
pub fn page(text: TextId) -> Option<(&'static str, &'static str)> {
    PAGES.get((u32::MAX - text.0) as usize).copied()
}
