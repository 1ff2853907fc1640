//! From paths to a notebook: files read, `use` lines followed within the project
//! folder.

use crate::disk::{Disk, FILE_LIMIT, LocalDisk, Unread, without_turns};
use crate::document::{Document, Kind};
use crate::engine::Analysis;
use crate::notebook::Notebook;
use crate::unread;
use rustc_hash::FxHashMap;
use snell_finding::{Code, Finding, Limit};
use snell_rig::{FileId, Project, Source};
use snell_text::{Place, Span, TextId};
use std::collections::VecDeque;
use std::path::{Component, Path, PathBuf};
use std::sync::Arc;

impl Default for Notebook {
    fn default() -> Self {
        Reading::new(&Analysis::default(), &LocalDisk).done()
    }
}

impl Notebook {
    /// See [`Analysis::open`].
    ///
    /// # Errors
    /// The same.
    pub fn open(paths: &[PathBuf], disk: &dyn Disk) -> Result<Self, (PathBuf, Unread)> {
        Analysis::default().open(paths, disk)
    }

    /// See [`Analysis::of_text`].
    pub fn of_text(path: &Path, kind: Kind, text: String, disk: &dyn Disk) -> Self {
        Analysis::default().of_text(path, kind, text, disk)
    }
}

impl Analysis {
    /// Reads files, and the files that they use.
    ///
    /// # Errors
    /// A path that was named is not there, is a folder, or is refused by the system. A file that is
    /// there but is not a text is a finding.
    pub fn open(&self, paths: &[PathBuf], disk: &dyn Disk) -> Result<Notebook, (PathBuf, Unread)> {
        let mut reading = Reading::new(self, disk);
        for path in paths {
            reading.add_path(path).map_err(|unread| (path.clone(), unread))?;
        }
        Ok(reading.done())
    }

    /// Reads files, and the files that they use; also those that are not there, are refused or are no text.
    pub fn of_those_that_can_be_read(
        &self,
        paths: &[PathBuf],
        disk: &dyn Disk,
    ) -> (Notebook, Vec<(PathBuf, Unread)>) {
        let mut reading = Reading::new(self, disk);
        let mut left_out = Vec::new();
        for path in paths {
            // A folder's other files still count.
            match reading.add_path(path) {
                Ok(None) => {}
                Ok(Some(unread)) | Err(unread) => left_out.push((path.clone(), unread)),
            }
        }
        (reading.done(), left_out)
    }

    /// A notebook of one text that stands nowhere on a disk, named `path` for people; what it uses is
    /// looked up beside `path`.
    pub fn of_text(&self, path: &Path, kind: Kind, text: impl Into<Arc<str>>, disk: &dyn Disk) -> Notebook {
        let mut reading = Reading::new(self, disk);
        let beside = disk.real(
            path.parent()
                .filter(|parent| !parent.as_os_str().is_empty())
                .unwrap_or(Path::new(".")),
        );
        let real = beside
            .ok()
            .map(|folder| folder.join(path.file_name().unwrap_or(path.as_os_str())));
        reading.add_text(path, kind, text.into(), real);
        reading.done()
    }

    /// A notebook of one text that is open somewhere, in whatever state; one that is too large to be read is a
    /// finding.
    pub fn of_open(&self, path: &Path, kind: Kind, text: Arc<str>, disk: &dyn Disk) -> Notebook {
        if text.len() as u64 <= FILE_LIMIT {
            return self.of_text(path, kind, text, disk);
        }
        let mut reading = Reading::new(self, disk);
        reading.add_unread(path, kind, String::new(), &Unread::TooLarge.to_string());
        reading.done()
    }
}

/// A notebook in the making.
struct Reading<'r> {
    analysis: &'r Analysis,
    disk: &'r dyn Disk,
    documents: Vec<Document>,
    project: Project,
    findings: Vec<Finding>,
    missed: Vec<PathBuf>,
    /// Files by their real path.
    known: FxHashMap<PathBuf, FileId>,
    /// Files whose `use` lines are still to be followed.
    waiting: VecDeque<Waiting>,
}

/// A file before its `use` lines are followed.
struct Waiting {
    id: FileId,
    source: Source,
    real: Option<PathBuf>,
}

impl<'r> Reading<'r> {
    fn new(analysis: &'r Analysis, disk: &'r dyn Disk) -> Self {
        Self {
            analysis,
            disk,
            documents: Vec::new(),
            project: snell_rules::project(),
            findings: Vec::new(),
            missed: Vec::new(),
            known: FxHashMap::default(),
            waiting: VecDeque::new(),
        }
    }

    fn done(mut self) -> Notebook {
        self.follow();
        Notebook {
            documents: self.documents,
            project: self.project,
            findings: self.findings,
            missed: self.missed,
            analysis: self.analysis.clone(),
        }
    }

    /// Reads a file; a file that is there but is no text is a finding, and why it was not read.
    fn add_path(&mut self, path: &Path) -> Result<Option<Unread>, Unread> {
        let kind = Kind::of(path).unwrap_or(Kind::Rig);
        let real = self.disk.real(path)?;
        if self.known.contains_key(&real) {
            return Ok(None);
        }
        match self.disk.read(path) {
            Ok(text) => self.add_text(path, kind, text.into(), Some(real)),
            Err(Unread::NotUtf8(sound)) => {
                self.add_unread(path, kind, sound, "it is not text in UTF-8 from here on");
                return Ok(Some(Unread::NotUtf8(String::new())));
            }
            Err(Unread::TooLarge) => {
                self.add_unread(path, kind, String::new(), &Unread::TooLarge.to_string());
                return Ok(Some(Unread::TooLarge));
            }
            Err(other) => return Err(other),
        }
        Ok(None)
    }

    /// A file that is there but cannot be read: a finding of its own.
    fn add_unread(&mut self, path: &Path, kind: Kind, sound: String, why: &str) {
        let id = self.add_document(path, kind, Arc::from(sound));
        let end = self
            .documents
            .last()
            .map_or(0, |document| document.text.len() as u32);
        let message = format!("`{}` was not read: {why}", path.display());
        let finding = Finding::fault(Code::FileUnread, Place::new(id, Span::empty(end)), message);
        self.findings
            .push(finding.help("save it as plain text in UTF-8, or leave it out"));
    }

    fn add_document(&mut self, path: &Path, kind: Kind, text: Arc<str>) -> TextId {
        let id = TextId(self.documents.len() as u32);
        self.documents
            .push(Document::new(id, path.to_owned(), kind, text));
        id
    }

    fn add_text(&mut self, path: &Path, kind: Kind, text: Arc<str>, real: Option<PathBuf>) {
        let id = self.add_document(path, kind, text);
        let document = &mut self.documents[id.0 as usize];
        document.real.clone_from(&real);
        let document = &*document;
        let text = document.text.clone();
        let name = document.rig_name();
        self.findings
            .extend(unread::findings(document).take(Limit::Findings.count()));
        let is_shared = document.is_shared();
        for (number, file) in self.analysis.text(document).files(id).into_iter().enumerate() {
            let next = FileId(self.project.next().0 + self.waiting.len() as u32);
            if let (true, 0, Some(real)) = (is_shared, number, &real) {
                self.known.insert(real.clone(), next);
            }
            self.waiting.push_back(Waiting {
                id: next,
                source: Source::new(name.clone(), text.clone(), file),
                real: real.clone(),
            });
        }
    }

    /// Follows the `use` lines of every waiting file, and of those that they bring in.
    fn follow(&mut self) {
        while let Some(mut waiting) = self.waiting.pop_front() {
            // Its number is taken before those that it brings in are given theirs.
            let uses = std::mem::take(&mut waiting.source.file.uses);
            self.waiting.push_front(waiting);
            let mut resolved = Vec::new();
            for (index, used) in uses.iter().enumerate() {
                let front = &self.waiting[0];
                let place = used.line.place(front.source.file.text, used.path.span);
                let written = used
                    .path
                    .inner
                    .shifted(used.line.offset)
                    .of(&front.source.text)
                    .to_owned();
                let from = front.real.clone();
                match self.resolve(&written, from.as_deref()) {
                    Ok(file) => resolved.push((file, index)),
                    Err((code, why, help)) => {
                        if self.findings.len() >= Limit::Findings.count() {
                            continue;
                        }
                        let message = format!("`{written}` cannot be used: {why}");
                        self.findings
                            .push(Finding::fault(code, place, message).help(help));
                    }
                }
            }
            if let Some(mut done) = self.waiting.pop_front() {
                done.source.file.uses = uses;
                done.source.uses = resolved;
                self.findings.append(&mut done.source.file.findings);
                let added = self.project.add(done.source);
                debug_assert_eq!(added, done.id, "files are added in the order of their numbers");
            }
        }
    }

    /// The file that a `use` line means.
    fn resolve(
        &mut self,
        written: &str,
        from: Option<&Path>,
    ) -> Result<FileId, (Code, String, &'static str)> {
        let disk = self.disk;
        const STAY: &str =
            "a path is relative to this file, has forward slashes, and stays in the project folder";
        let missing = |why: String| (Code::UseMissing, why, STAY);
        let outside = |why: &str| (Code::UseOutside, why.to_owned(), STAY);
        if written.contains('\\') {
            return Err(outside("its path has a backslash"));
        }
        let path = Path::new(written);
        let ordinary = |part: Component<'_>| {
            matches!(
                part,
                Component::Normal(_) | Component::CurDir | Component::ParentDir
            )
        };
        if written.is_empty() || !path.components().all(ordinary) || written.contains(':') {
            return Err(outside("its path is not relative"));
        }
        let Some(from) = from else {
            return Err(missing("this text stands in no folder".to_owned()));
        };
        let folder = from.parent().unwrap_or(from);
        let project = disk.project(from);
        let joined = folder.join(path);
        // Judged before the disk is asked, so that no path outside is even looked at.
        if !inside(&joined, &project) {
            return Err(outside("its path leaves the project folder"));
        }
        let mut missed = |path: PathBuf, unread: Unread| {
            self.missed.push(path);
            missing(unread.to_string())
        };
        let real = disk
            .real(&joined)
            .map_err(|unread| missed(without_turns(&joined), unread))?;
        if !real.starts_with(&project) {
            return Err(outside("a link leads it out of the project folder"));
        }
        let kind = match Kind::of(&real).filter(|kind| kind.is_source()) {
            Some(kind) => kind,
            None => {
                let help = "a `.rig` file can be used, and a page that has rigs in its fences";
                return Err((
                    Code::UseMarkdown,
                    "it is neither a rig file nor a page".to_owned(),
                    help,
                ));
            }
        };
        if let Some(known) = self.known.get(&real) {
            return Ok(*known);
        }
        let text = disk.read(&real).map_err(|unread| missed(real.clone(), unread))?;
        let shown = self.shown(&joined, from);
        self.add_text(&shown, kind, text.into(), Some(real.clone()));
        self.known.get(&real).copied().ok_or_else(|| {
            let help = "others can use what stands in a plain `rig` fence, and nothing in `rig alone`";
            (
                Code::UseMarkdown,
                "no rig that others may use stands in it".to_owned(),
                help,
            )
        })
    }

    /// The path of a used file as people would write it: beside the path of the file that uses it.
    fn shown(&self, joined: &Path, from: &Path) -> PathBuf {
        let user = self.waiting.front().map(|waiting| waiting.source.file.text);
        let document = user.and_then(|text| self.documents.get(text.0 as usize));
        let (Some(document), Some(folder)) = (document, from.parent()) else {
            return joined.to_owned();
        };
        match (document.path.parent(), joined.strip_prefix(folder)) {
            (Some(parent), Ok(rest)) => parent.join(rest),
            _ => joined.to_owned(),
        }
    }
}

/// Whether a path stays below a folder, by its words alone.
fn inside(path: &Path, folder: &Path) -> bool {
    without_turns(path).starts_with(folder)
}
