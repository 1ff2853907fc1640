//! The texts that are open in an editor, each with what was made of it last.

use super::live::{Live, Stop};
use super::overlay::{Overlay, real_of};
use super::walk::ASKED;
use crate::article;
use crate::check::{capped, examine, ordered};
use crate::document::{Document, Kind};
use crate::load::Notebook;
use report::Finding;
use rules::Wanted;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use text::TextId;

/// Open texts by their real path.
#[derive(Default)]
pub struct Desk {
    overlay: Overlay,
    sheets: BTreeMap<PathBuf, Sheet>,
}

/// One open text.
pub struct Sheet {
    path: PathBuf,
    kind: Kind,
    text: Arc<str>,
    /// The text as a notebook; made when something asks for it.
    notebook: Option<Notebook>,
    live: Option<Live>,
    findings: Option<Arc<[Finding]>>,
}

impl Desk {
    /// Puts a text on the desk, or its next state.
    pub fn put(&mut self, path: &Path, kind: Kind, text: Arc<str>) {
        let real = real_of(path);
        if self
            .sheets
            .get(&real)
            .is_some_and(|sheet| sheet.kind == kind && Arc::ptr_eq(&sheet.text, &text))
        {
            return;
        }
        self.overlay.lay(&real, text.clone());
        for (path, sheet) in &mut self.sheets {
            if *path != real && sheet.hangs_on(&real) {
                sheet.forget();
            }
        }
        match self.sheets.get_mut(&real).filter(|sheet| sheet.kind == kind) {
            Some(sheet) => sheet.turn(text),
            None => {
                let sheet = Sheet::new(real.clone(), kind, text);
                self.sheets.insert(real, sheet);
            }
        }
    }

    /// The open texts that use a file, by their real paths.
    pub fn users_of(&self, path: &Path) -> Vec<PathBuf> {
        let real = real_of(path);
        let users = self
            .sheets
            .iter()
            .filter(|(own, sheet)| **own != real && sheet.hangs_on(&real));
        users.map(|(path, _)| path.clone()).collect()
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

    /// A text that the findings of an open text speak of: one that it uses.
    pub fn used(&self, path: &Path, id: TextId) -> Option<&Document> {
        let sheet = self.sheets.get(&real_of(path))?;
        let of_notebook = || sheet.notebook.as_ref()?.document(id);
        sheet
            .live
            .as_ref()
            .and_then(|live| live.document(id))
            .or_else(of_notebook)
    }

    /// What is found in an open text itself.
    pub fn findings(&mut self, path: &Path) -> Option<Arc<[Finding]>> {
        self.findings_unless(path, &|| false)
    }

    /// The same, unless `stop` says that nobody wants it any more.
    pub fn findings_unless(&mut self, path: &Path, stop: Stop<'_>) -> Option<Arc<[Finding]>> {
        let sheet = self.sheets.get_mut(&real_of(path))?;
        sheet.findings(&self.overlay, stop)
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
    fn new(path: PathBuf, kind: Kind, text: Arc<str>) -> Self {
        Self {
            path,
            kind,
            text,
            notebook: None,
            live: None,
            findings: None,
        }
    }

    /// The next state of the text.
    fn turn(&mut self, text: Arc<str>) {
        self.text = text;
        self.notebook = None;
        self.findings = None;
    }

    fn forget(&mut self) {
        self.notebook = None;
        self.live = None;
        self.findings = None;
    }

    /// Whether a change of a file may change what is said of this text.
    fn hangs_on(&self, real: &Path) -> bool {
        let live = self.live.as_ref();
        live.is_none_or(|live| live.hangs_on(real))
    }

    fn notebook(&mut self, overlay: &Overlay) -> &Notebook {
        let Self {
            path,
            kind,
            text,
            notebook,
            ..
        } = self;
        notebook.get_or_insert_with(|| Notebook::of_open(path, *kind, text.to_string(), overlay))
    }

    fn findings(&mut self, overlay: &Overlay, stop: Stop<'_>) -> Option<Arc<[Finding]>> {
        if let Some(known) = &self.findings {
            return Some(known.clone());
        }
        if self.live.as_mut().is_none_or(|live| !live.follow(&self.text)) {
            self.notebook(overlay);
            let notebook = self.notebook.as_ref()?;
            self.live = Live::read(&self.path, self.kind, &self.text, notebook);
        }
        let found = match &mut self.live {
            Some(live) => live.findings(stop)?,
            None => whole_check(self.notebook(overlay)),
        };
        let found: Arc<[Finding]> = self.with_markers(overlay, found).into();
        self.findings = Some(found.clone());
        Some(found)
    }

    /// With what is wrong with the markers of a page. Blocks are followed one by one, markers are not: what they
    /// say hangs on all rigs in sight, and there are few of them.
    fn with_markers(&mut self, overlay: &Overlay, mut found: Vec<Finding>) -> Vec<Finding> {
        if self.live.is_none() || self.kind != Kind::Markdown || text::markers(&self.text).is_empty() {
            return found;
        }
        let of_markers = article::findings_of(self.notebook(overlay), ASKED);
        found.extend(of_markers);
        capped(ordered(found))
    }
}

/// The whole text checked, where it cannot be followed.
fn whole_check(notebook: &Notebook) -> Vec<Finding> {
    let all = examine(notebook, Wanted::Found).findings;
    all.into_iter()
        .filter(|finding| finding.place().text == ASKED)
        .collect()
}
