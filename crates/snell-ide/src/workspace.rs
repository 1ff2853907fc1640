//! The texts that are open in an editor, and snapshots of them to be asked.
//!
//! A snapshot never changes: whoever holds one asks it for as long as it takes,
//! while others type. What one snapshot worked out is there for the next.

use crate::findings::findings;
use snell_analysis::{Analysis, Disk, Kind, Notebook, Overlay, Stop, Unread, real_of};
use snell_finding::Finding;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, MutexGuard, OnceLock, PoisonError};

/// Open texts by their real path.
#[derive(Default)]
pub struct Workspace {
    analysis: Analysis,
    open: Mutex<Open>,
}

#[derive(Default)]
struct Open {
    overlay: Overlay,
    snapshots: BTreeMap<PathBuf, Snapshot>,
}

/// One state of an open text, with all that it uses as that stood then.
#[derive(Clone)]
pub struct Snapshot {
    path: PathBuf,
    kind: Kind,
    text: Arc<str>,
    overlay: Overlay,
    analysis: Analysis,
    read: Arc<Read>,
}

/// What a snapshot was asked for so far.
#[derive(Default)]
struct Read {
    notebook: OnceLock<Notebook>,
    findings: OnceLock<Arc<[Finding]>>,
}

impl Workspace {
    fn open(&self) -> MutexGuard<'_, Open> {
        // Whoever panicked over it left whole entries behind.
        self.open.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Puts a text there, or its next state. Tells the other open texts that this one may change what is said of.
    pub fn put(&self, path: &Path, kind: Kind, text: Arc<str>) -> Vec<PathBuf> {
        let real = real_of(path);
        let mut open = self.open();
        let known = open.snapshots.get(&real);
        if known.is_some_and(|known| {
            known.kind == kind && (Arc::ptr_eq(&known.text, &text) || known.text == text)
        }) {
            return Vec::new();
        }
        open.overlay.lay(&real, text.clone());
        let snapshot = Snapshot {
            path: real.clone(),
            kind,
            text,
            overlay: open.overlay.clone(),
            analysis: self.analysis.clone(),
            read: Arc::default(),
        };
        open.snapshots.insert(real.clone(), snapshot);
        let text = open.overlay.text(&real).cloned();
        open.forget_where(|snapshot| snapshot.path != real && snapshot.uses(&real, text.as_deref()))
    }

    /// Takes a text away. Tells the others that used it.
    pub fn close(&self, path: &Path) -> Vec<PathBuf> {
        let real = real_of(path);
        let mut open = self.open();
        open.overlay.lift(&real);
        open.snapshots.remove(&real);
        open.forget_where(|snapshot| snapshot.uses(&real, None))
    }

    /// Files may have changed on the disk. Tells the open texts for which one of them says something else.
    pub fn changed(&self, files: &[PathBuf]) -> Vec<PathBuf> {
        let files: Vec<PathBuf> = files.iter().map(|file| real_of(file)).collect();
        self.look_again_where(|snapshot| files.iter().any(|file| snapshot.uses(file, None)))
    }

    /// Looks at every file again that open texts use. Tells the texts for which one of them says something else.
    pub fn look_again(&self) -> Vec<PathBuf> {
        self.look_again_where(|_| true)
    }

    fn look_again_where(&self, wanted: impl Fn(&Snapshot) -> bool) -> Vec<PathBuf> {
        let snapshots: Vec<Snapshot> = self.open().snapshots.values().cloned().collect();
        // The disk is read while nobody waits for the workspace.
        let stale = snapshots
            .into_iter()
            .filter(|snapshot| wanted(snapshot) && snapshot.is_stale());
        let stale: Vec<Snapshot> = stale.collect();
        self.open()
            .forget_where(|snapshot| stale.iter().any(|stale| stale.is(snapshot)))
    }

    /// The newest state of an open text.
    pub fn snapshot(&self, path: &Path) -> Option<Snapshot> {
        self.open().snapshots.get(&real_of(path)).cloned()
    }

    /// A notebook of many files, open texts before what is on the disk; and the files that cannot be read.
    pub fn folder(&self, files: &[PathBuf]) -> (Notebook, Vec<(PathBuf, Unread)>) {
        let (overlay, open) = {
            let open = self.open();
            let paths: Vec<PathBuf> = open.snapshots.keys().cloned().collect();
            (open.overlay.clone(), paths)
        };
        let mut files: Vec<PathBuf> = files.iter().map(|file| real_of(file)).chain(open).collect();
        files.sort_unstable();
        files.dedup();
        self.analysis.of_those_that_can_be_read(&files, &overlay)
    }

    /// How many answers about blocks had to be worked out so far.
    pub fn worked_out(&self) -> usize {
        self.analysis.worked_out()
    }
}

impl Open {
    /// Has texts read again, with their files as they are now.
    fn forget_where(&mut self, stale: impl Fn(&Snapshot) -> bool) -> Vec<PathBuf> {
        let mut forgotten = Vec::new();
        for snapshot in self.snapshots.values_mut().filter(|snapshot| stale(snapshot)) {
            snapshot.overlay = self.overlay.clone();
            snapshot.read = Arc::default();
            forgotten.push(snapshot.path.clone());
        }
        forgotten
    }
}

impl Snapshot {
    /// The text with the files that it uses: the text is the first.
    pub fn notebook(&self) -> &Notebook {
        self.read.notebook.get_or_init(|| {
            self.analysis
                .of_open(&self.path, self.kind, self.text.clone(), &self.overlay)
        })
    }

    /// Whether this is that very snapshot.
    pub fn is(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.read, &other.read)
    }

    /// Whether the same text was read, with the same files beside it: what one says, the other says too.
    pub fn reads_as(&self, other: &Self) -> bool {
        if self.is(other) {
            return true;
        }
        let (these, those) = (self.notebook(), other.notebook());
        let files = |notebook: &Notebook| {
            let documents = notebook.documents().iter();
            documents
                .map(|document| (document.real.clone(), document.text.clone()))
                .collect::<Vec<_>>()
        };
        self.kind == other.kind && these.missed() == those.missed() && files(these) == files(those)
    }

    /// What is found in the text, without the mends that rules propose; nothing if it was stopped.
    pub fn findings(&self, stop: Stop<'_>) -> Option<Arc<[Finding]>> {
        if let Some(known) = self.read.findings.get() {
            return Some(known.clone());
        }
        let found = findings(self.notebook(), stop)?;
        Some(self.read.findings.get_or_init(|| found.into()).clone())
    }

    /// The text.
    pub fn text(&self) -> &Arc<str> {
        &self.text
    }

    /// Whether a file was read for this text, or would have been, and says something else than `now`; a text that was
    /// not read yet may use any.
    fn uses(&self, file: &Path, now: Option<&str>) -> bool {
        let Some(notebook) = self.read.notebook.get() else {
            return true;
        };
        let mut used = notebook.documents().iter().skip(1);
        used.any(|document| document.real.as_deref() == Some(file) && now != Some(&*document.text))
            || notebook.missed().iter().any(|missed| missed == file)
    }

    /// Whether a file that was read for this text says something else now, or one that was missed is there.
    fn is_stale(&self) -> bool {
        let Some(notebook) = self.read.notebook.get() else {
            return false;
        };
        let used = notebook.documents().iter().skip(1);
        let mut read = used.filter_map(|document| Some((document.real.as_ref()?, &document.text)));
        read.any(|(path, text)| self.overlay.read(path).ok().as_deref() != Some(text))
            || notebook
                .missed()
                .iter()
                .any(|missed| self.overlay.read(missed).is_ok())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::findings::found_near;
    use snell_analysis::FILE_LIMIT;
    use snell_text::Span;

    fn codes(workspace: &Workspace, path: &Path) -> Vec<String> {
        let snapshot = workspace.snapshot(path).expect("it is open");
        let found = snapshot.findings(&|| false).expect("nobody stops it");
        found.iter().map(|finding| finding.code.to_string()).collect()
    }

    #[test]
    fn what_is_too_large_to_be_read_says_so_until_it_is_not() {
        let (workspace, path) = (Workspace::default(), Path::new("large.rig"));
        let large = " ".repeat(FILE_LIMIT as usize + 1);
        workspace.put(path, Kind::Rig, large.into());
        assert_eq!(codes(&workspace, path), ["file-unread"]);
        workspace.put(path, Kind::Rig, "rig a\n  tippet 1\n".into());
        assert_eq!(codes(&workspace, path), ["unit-missing"]);
        assert_eq!(workspace.close(path), Vec::<PathBuf>::new());
        assert!(workspace.snapshot(path).is_none());
    }

    #[test]
    fn a_text_reads_as_before_unless_it_uses_what_was_opened() {
        let folder = tempfile::tempdir().unwrap();
        let [a, b, c] = ["a.rig", "b.rig", "c.rig"].map(|name| folder.path().join(name));
        let workspace = Workspace::default();
        let newest = || workspace.snapshot(&a).expect("it is open");
        workspace.put(&a, Kind::Rig, "use \"b.rig\"\nrig a\n".into());
        let alone = newest();
        // It was not read yet, so it may use any.
        assert_eq!(workspace.put(&c, Kind::Rig, "rig c\n".into()).len(), 1);
        assert!(!newest().is(&alone) && newest().reads_as(&alone));
        workspace.put(&b, Kind::Rig, "rig b\n".into());
        assert!(!newest().reads_as(&alone));
    }

    #[test]
    fn a_used_file_that_changed_or_came_is_seen_when_one_looks_again() {
        let folder = tempfile::tempdir().unwrap();
        let (path, used) = (folder.path().join("a.rig"), folder.path().join("flies.rig"));
        let text = "use \"flies.rig\"\nrig a\n  tippet 20 in of 6X fluoro\n  point slate\n";
        let workspace = Workspace::default();
        workspace.put(&path, Kind::Rig, text.into());
        assert!(codes(&workspace, &path).contains(&"use-missing".to_owned()));
        assert!(workspace.look_again().is_empty(), "nothing has changed");
        std::fs::write(&used, "fly slate\n  hook #14\n").unwrap();
        assert_eq!(workspace.look_again().len(), 1);
        assert!(!codes(&workspace, &path).contains(&"name-unknown".to_owned()));
        std::fs::write(&used, "fly shale\n  hook #14\n").unwrap();
        assert_eq!(workspace.look_again().len(), 1);
        assert!(codes(&workspace, &path).contains(&"name-unknown".to_owned()));
        assert!(workspace.look_again().is_empty());
    }

    /// A keystroke asks for what it changes, however long the text.
    #[test]
    fn a_keystroke_works_out_what_hangs_on_it_and_nothing_else() {
        let rig = |number: usize| {
            format!(
                "rig r{number}\n  method tight-line\n  water run\n  sighter 20 cm of 0.20 mm nylon\n  ring 2 mm\n  \
                 tippet {} cm of 6X fluoro\n  point #14 2.8 mm tungsten\n\n",
                30 + number % 7
            )
        };
        let water = "water run\n  depth 50 cm\n  surface 1.4 m/s\n  bed cobble\n\n";
        let path = Path::new("typed.rig");
        for rigs in [20, 40] {
            let workspace = Workspace::default();
            let before: String = std::iter::once(water.to_owned())
                .chain((0..rigs).map(rig))
                .collect();
            workspace.put(path, Kind::Rig, before.as_str().into());
            codes(&workspace, path);
            let first = workspace.worked_out();
            assert_eq!(first, rigs + 1);
            // Of one rig, above all others.
            let after = before.replacen("tippet 30 cm", "tippet 130 cm", 1);
            workspace.put(path, Kind::Rig, after.as_str().into());
            codes(&workspace, path);
            assert_eq!(workspace.worked_out() - first, 1);
            // A comment above all moves every block and changes none.
            let moved = format!("// a comment\n{after}");
            workspace.put(path, Kind::Rig, moved.as_str().into());
            codes(&workspace, path);
            assert_eq!(workspace.worked_out() - first, 1);
            // The water of all of them.
            let other = moved.replacen("depth 50 cm", "depth 60 cm", 1);
            workspace.put(path, Kind::Rig, other.as_str().into());
            codes(&workspace, path);
            assert_eq!(workspace.worked_out() - first, 1 + rigs + 1);
        }
    }

    #[test]
    fn mends_are_looked_for_where_they_are_asked_for() {
        let text = "rig a\n  method tight-line\n  tippet 32 in of 6X fluoro\n  dropper 8 in with #16 2 mm tungsten\n  \
                    tippet 12 in of 6X fluoro\n  point #14 2.8 mm tungsten\n";
        let (workspace, path) = (Workspace::default(), Path::new("a.rig"));
        workspace.put(path, Kind::Rig, text.into());
        let snapshot = workspace.snapshot(path).expect("it is open");
        let at = text.find("12 in").expect("it is there") as u32;
        let near = found_near(snapshot.notebook(), Span::empty(at));
        let spacing = near.iter().find(|finding| finding.code == "fly-spacing");
        assert_eq!(spacing.expect("they stand too near").fixes.len(), 1);
    }
}
