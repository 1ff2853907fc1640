//! The texts that are open in an editor, each with what was made of it last.

use super::hints::{self, Lens};
use super::live::{Live, Others, Stop};
use super::overlay::{Overlay, real_of};
use super::walk::ASKED;
use snell_analysis::Notebook;
use snell_analysis::{Document, Kind};
use snell_analysis::{capped, ordered};
use snell_article::examine;
use snell_finding::Finding;
use snell_rules::Wanted;
use snell_text::{Span, TextId};
use std::collections::{BTreeMap, BTreeSet};
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
    path: PathBuf,
    kind: Kind,
    text: Arc<str>,
    /// The text as a notebook; made when something asks for it.
    notebook: Option<Notebook>,
    live: Option<Live>,
    findings: Option<Arc<[Finding]>>,
}

impl Desk {
    /// Puts a text on the desk, or its next state. Tells the other open texts that this one may change what is
    /// said of: they were forgotten.
    pub fn put(&mut self, path: &Path, kind: Kind, text: Arc<str>) -> Vec<PathBuf> {
        let real = real_of(path);
        let known = self.sheets.get(&real);
        if known.is_some_and(|sheet| sheet.kind == kind && Arc::ptr_eq(&sheet.text, &text)) {
            return Vec::new();
        }
        self.overlay.lay(&real, text.clone());
        match self.sheets.get_mut(&real).filter(|sheet| sheet.kind == kind) {
            Some(sheet) => sheet.turn(text.clone()),
            None => {
                let sheet = Sheet::new(real.clone(), kind, text.clone());
                self.sheets.insert(real.clone(), sheet);
            }
        }
        self.forget_where(|sheet| {
            sheet.path != real && (sheet.reads_otherwise(&real, &text) || sheet.missed().contains(&real))
        })
    }

    /// Files changed on the disk. Tells the open texts that used them or missed one: they were forgotten.
    pub fn changed(&mut self, files: &[PathBuf]) -> Vec<PathBuf> {
        let files: BTreeSet<PathBuf> = files.iter().map(|file| real_of(file)).collect();
        self.forget_where(|sheet| sheet.uses_one_of(&files))
    }

    /// Takes every text off the desk that is not `open` any more. Tells the others that used one of them: they
    /// were forgotten.
    pub fn keep(&mut self, open: impl Fn(&Path) -> bool) -> Vec<PathBuf> {
        let closed: BTreeSet<PathBuf> = self.sheets.keys().filter(|path| !open(path)).cloned().collect();
        for path in &closed {
            self.overlay.lift(path);
            self.sheets.remove(path);
        }
        self.forget_where(|sheet| sheet.uses_one_of(&closed))
    }

    fn forget_where(&mut self, stale: impl Fn(&Sheet) -> bool) -> Vec<PathBuf> {
        let stale = self.sheets.values_mut().filter(|sheet| stale(sheet));
        stale.map(Sheet::forget).collect()
    }

    /// The notebook of an open text: the text first, then the files that it uses.
    pub fn notebook(&mut self, path: &Path) -> Option<&Notebook> {
        let sheet = self.sheets.get_mut(&real_of(path))?;
        Some(sheet.notebook(&self.overlay))
    }

    /// Asks of an open text near a place: of the blocks that touch a span, and of all that those hang on.
    pub fn near<T>(&mut self, path: &Path, within: Span, ask: impl FnOnce(&Notebook) -> T) -> Option<T> {
        let sheet = self.sheets.get_mut(&real_of(path))?;
        Some(sheet.near(&self.overlay, within, Others::Unseen, ask))
    }

    /// The same, with the names of all other blocks in sight, and all rigs to be read, if not evaluated.
    pub fn near_named<T>(
        &mut self,
        path: &Path,
        within: Span,
        ask: impl FnOnce(&Notebook) -> T,
    ) -> Option<T> {
        let sheet = self.sheets.get_mut(&real_of(path))?;
        Some(sheet.near(&self.overlay, within, Others::Named, ask))
    }

    /// The totals of every rig of an open text.
    pub fn lenses(&mut self, path: &Path) -> Vec<Lens> {
        let sheet = self.sheets.get_mut(&real_of(path));
        sheet.map(|sheet| sheet.lenses(&self.overlay)).unwrap_or_default()
    }

    /// A text that the findings of an open text speak of: one that it uses.
    pub fn used(&self, path: &Path, id: TextId) -> Option<&Document> {
        let sheet = self.sheets.get(&real_of(path))?;
        sheet.used().iter().find(|document| document.id == id)
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

    /// Forgets what was read; the sheet's path.
    fn forget(&mut self) -> PathBuf {
        self.notebook = None;
        self.live = None;
        self.findings = None;
        self.path.clone()
    }

    /// The texts that were read for this one.
    fn used(&self) -> &[Document] {
        match (&self.live, &self.notebook) {
            (Some(live), _) => live.used(),
            (None, Some(notebook)) => notebook.documents().get(1..).unwrap_or_default(),
            (None, None) => &[],
        }
    }

    /// Whether one of some files was read for this text, or should have been.
    fn uses_one_of(&self, files: &BTreeSet<PathBuf>) -> bool {
        let mut used = self.used().iter();
        used.any(|document| document.real.as_ref().is_some_and(|real| files.contains(real)))
            || self.missed().iter().any(|missed| files.contains(missed))
    }

    /// Whether a file was read for this text and says something else now.
    fn reads_otherwise(&self, file: &Path, now: &str) -> bool {
        let mut used = self.used().iter();
        used.any(|document| document.real.as_deref() == Some(file) && *document.text != *now)
    }

    /// The files that were to be read for this text and were not there.
    fn missed(&self) -> &[PathBuf] {
        match (&self.live, &self.notebook) {
            (Some(live), _) => live.missed(),
            (None, Some(notebook)) => notebook.missed(),
            (None, None) => &[],
        }
    }

    /// The text as it was read afresh; what follows it from then on goes with it.
    fn read(&mut self, overlay: &Overlay) -> Notebook {
        let notebook = Notebook::of_open(&self.path, self.kind, self.text.to_string(), overlay);
        self.live = Live::read(&self.path, self.kind, &self.text, &notebook);
        notebook
    }

    fn notebook(&mut self, overlay: &Overlay) -> &Notebook {
        if self.notebook.is_none() {
            let followed = self
                .live
                .as_mut()
                .and_then(|live| live.follow(&self.text).then(|| live.notebook()));
            self.notebook = Some(followed.unwrap_or_else(|| self.read(overlay)));
        }
        self.notebook.get_or_insert_default()
    }

    /// What is followed of the text, brought up to it; nothing where it cannot be followed.
    fn followed(&mut self, overlay: &Overlay) -> Option<&mut Live> {
        if self.live.as_mut().is_none_or(|live| !live.follow(&self.text)) {
            self.notebook = Some(self.read(overlay));
        }
        self.live.as_mut()
    }

    fn near<T>(
        &mut self,
        overlay: &Overlay,
        within: Span,
        others: Others,
        ask: impl FnOnce(&Notebook) -> T,
    ) -> T {
        match self.followed(overlay) {
            Some(live) => ask(&live.near(within, others)),
            None => ask(self.notebook(overlay)),
        }
    }

    fn lenses(&mut self, overlay: &Overlay) -> Vec<Lens> {
        match self.followed(overlay) {
            Some(live) => live.lenses(),
            None => hints::lenses(self.notebook(overlay)),
        }
    }

    fn findings(&mut self, overlay: &Overlay, stop: Stop<'_>) -> Option<Arc<[Finding]>> {
        if let Some(known) = &self.findings {
            return Some(known.clone());
        }
        self.followed(overlay);
        let found = match (&mut self.live, &self.notebook) {
            (Some(live), _) => live.findings(stop)?,
            (None, Some(notebook)) => whole_check(notebook),
            (None, None) => return None,
        };
        let found: Arc<[Finding]> = self.with_markers(overlay, found).into();
        self.findings = Some(found.clone());
        Some(found)
    }

    /// With what is wrong with the markers of a page. Blocks are followed one by one, markers are not: what they
    /// say hangs on all rigs in sight, and there are few of them.
    fn with_markers(&mut self, overlay: &Overlay, mut found: Vec<Finding>) -> Vec<Finding> {
        if self.live.is_none() || self.kind != Kind::Markdown || snell_text::markers(&self.text).is_empty() {
            return found;
        }
        let of_markers = snell_article::findings_of(self.notebook(overlay), ASKED);
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

#[cfg(test)]
mod tests {
    use super::*;
    use snell_analysis::FILE_LIMIT;

    #[test]
    fn what_is_too_large_to_be_read_says_so_until_it_is_not() {
        let (mut desk, path) = (Desk::default(), Path::new("large.rig"));
        let codes = |desk: &mut Desk| -> Vec<String> {
            let found = desk.findings(path).expect("it lies on the desk");
            found.iter().map(|finding| finding.code.to_string()).collect()
        };
        let large = " ".repeat(FILE_LIMIT as usize + 1);
        desk.put(path, Kind::Rig, large.into());
        assert_eq!(codes(&mut desk), ["file-unread"]);
        desk.put(path, Kind::Rig, "rig a\n  tippet 1\n".into());
        assert_eq!(codes(&mut desk), ["unit-missing"]);
        assert_eq!(desk.keep(|_| false), Vec::<PathBuf>::new());
        assert!(desk.findings(path).is_none());
    }
}
