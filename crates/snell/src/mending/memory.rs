//! Files with changes that are not written yet, as a disk to read them from.
//!
//! It knows no finding, and touches the real disk only when all is to be
//! written.

use super::Mended;
use crate::trouble::Trouble;
use crate::write;
use snell_analysis::{Disk, Document, LocalDisk, Notebook, Unread};
use snell_finding::{Edit, Fix};
use std::cell::RefCell;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

/// A file as it was read, and as it is now.
#[derive(Clone, Debug)]
pub(super) struct Kept {
    /// The path that it is called by.
    path: PathBuf,
    read: String,
    now: String,
    mends: usize,
}

/// The disk of this machine, with changes that are not written.
#[derive(Debug, Default)]
pub(super) struct Memory {
    /// By the real path.
    files: RefCell<BTreeMap<PathBuf, Kept>>,
}

impl Disk for Memory {
    fn read(&self, path: &Path) -> Result<String, Unread> {
        let real = LocalDisk.real(path)?;
        if let Some(kept) = self.files.borrow().get(&real) {
            return Ok(kept.now.clone());
        }
        let text = LocalDisk.read(path)?;
        let kept = Kept {
            path: path.to_owned(),
            read: text.clone(),
            now: text.clone(),
            mends: 0,
        };
        self.files.borrow_mut().insert(real, kept);
        Ok(text)
    }

    fn real(&self, path: &Path) -> Result<PathBuf, Unread> {
        LocalDisk.real(path)
    }

    fn project(&self, real: &Path) -> PathBuf {
        LocalDisk.project(real)
    }
}

impl Memory {
    /// Makes mends; the files that they change as they were before.
    pub(super) fn make<'f>(
        &self,
        notebook: &Notebook,
        mends: impl Iterator<Item = &'f Fix> + Clone,
    ) -> Vec<(PathBuf, Kept)> {
        let mut files = self.files.borrow_mut();
        let mut before = Vec::new();
        for document in notebook.documents() {
            let edits: Vec<Vec<&Edit>> = mends.clone().map(|fix| edits_of(fix, document)).collect();
            let count = edits.iter().filter(|edits| !edits.is_empty()).count();
            let real = LocalDisk.real(&document.path).ok().filter(|_| count > 0);
            let Some((real, kept)) = real.and_then(|real| files.get_mut(&real).map(|kept| (real, kept)))
            else {
                continue;
            };
            before.push((real, kept.clone()));
            let edits = edits.into_iter().flatten();
            let edits = edits.map(|edit| (edit.place.span, with_line_ends(edit, &document.text)));
            kept.now = snell_finding::apply(&document.text, edits);
            kept.path.clone_from(&document.path);
            kept.mends += count;
        }
        before
    }

    pub(super) fn put_back(&self, before: Vec<(PathBuf, Kept)>) {
        self.files.borrow_mut().extend(before);
    }

    /// Writes every file that changed; one in trouble does not hold up the others.
    pub(super) fn write(self) -> Mended {
        let mut mended = Mended::default();
        for kept in self
            .files
            .into_inner()
            .into_values()
            .filter(|kept| kept.now != kept.read)
        {
            match write::replace(&kept.path, &kept.read, &kept.now) {
                Ok(()) => mended.files.push((kept.path, kept.mends)),
                Err(why) => mended.troubles.push(Trouble::unwritten(&kept.path, why)),
            }
        }
        mended
    }
}

fn edits_of<'f>(fix: &'f Fix, document: &Document) -> Vec<&'f Edit> {
    fix.edits
        .iter()
        .filter(|edit| edit.place.text == document.id)
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
