//! The texts that are open in an editor, each with what was made of it last.

use super::overlay::{Overlay, real_of};
use crate::check::examine;
use crate::document::Kind;
use crate::load::Notebook;
use report::Finding;
use rules::Wanted;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Open texts by their real path.
#[derive(Default)]
pub struct Desk {
    overlay: Overlay,
    sheets: BTreeMap<PathBuf, Sheet>,
}

/// One open text.
pub struct Sheet {
    /// Its real path.
    pub path: PathBuf,
    kind: Kind,
    text: Arc<str>,
    notebook: Option<Notebook>,
    findings: Option<Arc<[Finding]>>,
}

impl Desk {
    /// Puts a text on the desk, or its next state.
    pub fn put(&mut self, path: &Path, kind: Kind, text: Arc<str>) {
        let real = real_of(path);
        if self.sheets.get(&real).is_some_and(|sheet| sheet.kind == kind && Arc::ptr_eq(&sheet.text, &text)) {
            return;
        }
        self.overlay.lay(&real, text.clone());
        // What others made of it is stale.
        for sheet in self.sheets.values_mut() {
            sheet.forget();
        }
        self.sheets.insert(real.clone(), Sheet { path: real, kind, text, notebook: None, findings: None });
    }

    /// Takes a text off the desk.
    pub fn take(&mut self, path: &Path) {
        let real = real_of(path);
        self.overlay.lift(&real);
        self.sheets.remove(&real);
        self.forget();
    }

    /// Forgets what was read from the disk, which has changed.
    pub fn forget(&mut self) {
        self.sheets.values_mut().for_each(Sheet::forget);
    }

    /// The notebook of an open text: the text first, then the files that it uses.
    pub fn notebook(&mut self, path: &Path) -> Option<&Notebook> {
        let sheet = self.sheets.get_mut(&real_of(path))?;
        Some(sheet.notebook(&self.overlay))
    }

    /// What is found in an open text itself.
    pub fn findings(&mut self, path: &Path) -> Option<Arc<[Finding]>> {
        let sheet = self.sheets.get_mut(&real_of(path))?;
        Some(sheet.findings(&self.overlay))
    }

    /// The same, unless `stop` says that nobody wants it any more.
    pub fn findings_unless(&mut self, path: &Path, stop: &dyn Fn() -> bool) -> Option<Arc<[Finding]>> {
        let found = self.findings(path)?;
        (!stop()).then_some(found)
    }

    /// A notebook of many files, open texts before what is on the disk; files that cannot be read are left out.
    pub fn folder(&self, files: &[PathBuf]) -> Notebook {
        let mut files: Vec<PathBuf> = files.iter().map(|file| real_of(file)).collect();
        files.extend(self.sheets.keys().cloned());
        files.sort();
        files.dedup();
        Notebook::of_those_that_can_be_read(&files, &self.overlay)
    }
}

impl Sheet {
    fn forget(&mut self) {
        self.notebook = None;
        self.findings = None;
    }

    fn notebook(&mut self, overlay: &Overlay) -> &Notebook {
        let Self { path, kind, text, notebook, .. } = self;
        notebook.get_or_insert_with(|| Notebook::of_text(path, *kind, text.to_string(), overlay))
    }

    fn findings(&mut self, overlay: &Overlay) -> Arc<[Finding]> {
        if let Some(known) = &self.findings {
            return known.clone();
        }
        let notebook = self.notebook(overlay);
        let all = examine(notebook, Wanted::Found).findings;
        let own = all.into_iter().filter(|finding| finding.place().text == super::walk::ASKED);
        let own: Arc<[Finding]> = own.collect();
        self.findings = Some(own.clone());
        own
    }
}
