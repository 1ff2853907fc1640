//! Files with changes that are not written yet, laid over the disk.
//!
//! It knows no finding, and touches the real disk only when all is to be
//! written.

use crate::trouble::Trouble;
use crate::write;
use snell_analysis::{Document, Notebook, Overlay};
use snell_finding::{Edit, Fix};
use std::collections::BTreeMap;
use std::path::PathBuf;
use std::sync::Arc;

/// A file as it was read first, and as it is now.
#[derive(Clone, Debug)]
pub(super) struct Draft {
    /// The path that it is called by.
    path: PathBuf,
    read: Arc<str>,
    now: Arc<str>,
    mends: usize,
}

/// The drafts, by the real path of each file.
#[derive(Clone, Debug, Default)]
pub(super) struct Drafts {
    files: BTreeMap<PathBuf, Draft>,
    /// The disk with what they say now.
    pub(super) overlay: Overlay,
}

impl Drafts {
    /// These with mends made in the texts of a notebook that was read of them.
    pub(super) fn with<'f>(&self, notebook: &Notebook, mends: impl Iterator<Item = &'f Fix> + Clone) -> Self {
        let mut drafts = self.clone();
        for document in notebook.documents() {
            let edits: Vec<Vec<&Edit>> = mends.clone().map(|fix| edits_of(fix, document)).collect();
            let count = edits.iter().filter(|edits| !edits.is_empty()).count();
            let Some(real) = document.real.as_ref().filter(|_| count > 0) else {
                continue;
            };
            let edits = edits.into_iter().flatten();
            let edits = edits.map(|edit| (edit.place.span, with_line_ends(edit, &document.text)));
            let now: Arc<str> = snell_finding::apply(&document.text, edits).into();
            drafts.overlay.lay(real, now.clone());
            let draft = drafts.files.entry(real.clone()).or_insert_with(|| Draft {
                path: document.path.clone(),
                read: document.text.clone(),
                now: now.clone(),
                mends: 0,
            });
            draft.now = now;
            draft.mends += count;
        }
        drafts
    }

    /// Writes every file that changed; one in trouble does not hold up the others.
    pub(super) fn write(self) -> Mended {
        let mut mended = Mended::default();
        for draft in self.files.into_values().filter(|draft| draft.now != draft.read) {
            match write::replace(&draft.path, &draft.read, &draft.now) {
                Ok(()) => mended.files.push((draft.path, draft.mends)),
                Err(why) => mended.troubles.push(Trouble::unwritten(&draft.path, why)),
            }
        }
        mended
    }
}

fn edits_of<'f>(fix: &'f Fix, document: &Document) -> Vec<&'f Edit> {
    let is_writable = document.kind.is_source();
    fix.edits
        .iter()
        .filter(|edit| is_writable && edit.place.text == document.id)
        .collect()
}

/// What comes, with the line ends that its text has.
pub(super) fn with_line_ends(edit: &Edit, text: &str) -> String {
    if !edit.new.contains(['\n', '\r']) {
        return edit.new.clone();
    }
    let before = &text[..edit.place.span.start as usize];
    let end = match before.rfind(['\n', '\r']) {
        Some(at) if before[at..].starts_with('\r') => "\r",
        Some(at) if before[..at].ends_with('\r') => "\r\n",
        _ => "\n",
    };
    edit.new.replace("\r\n", "\n").replace('\n', end)
}

/// What came of mending.
#[derive(Debug, Default)]
pub struct Mended {
    /// The files that were changed, and how many mends went into each.
    pub files: Vec<(PathBuf, usize)>,
    /// Mends that were not made, each with why.
    pub left: Vec<String>,
    /// Files that could not be changed.
    pub troubles: Vec<Trouble>,
}
