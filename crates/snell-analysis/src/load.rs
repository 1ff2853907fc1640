//! A notebook: texts with the files in them, `use` lines followed.

use crate::disk::{Disk, FILE_LIMIT, Unread};
use crate::document::{Document, Kind};
use rustc_hash::FxHashMap;
use snell_finding::{Code, Finding};
use snell_rig::{FileId, Project, Source};
use snell_syntax::Reader;
use snell_text::{Place, Span, TextId};
use std::collections::VecDeque;
use std::path::{Component, Path, PathBuf};
use std::sync::Arc;

/// Texts and the files in them, ready to be evaluated.
pub struct Notebook {
    documents: Vec<Document>,
    project: Project,
    findings: Vec<Finding>,
    /// Files that were to be used and could not be read.
    missed: Vec<PathBuf>,
    /// Files by their real path.
    known: FxHashMap<PathBuf, FileId>,
    reader: Reader,
    /// Files whose `use` lines are still to be followed.
    waiting: VecDeque<Waiting>,
}

/// A file before its `use` lines are followed.
struct Waiting {
    id: FileId,
    source: Source,
    real: Option<PathBuf>,
}

impl Default for Notebook {
    fn default() -> Self {
        Self {
            documents: Vec::new(),
            project: snell_rules::project(),
            findings: Vec::new(),
            missed: Vec::new(),
            known: FxHashMap::default(),
            reader: Reader::default(),
            waiting: VecDeque::new(),
        }
    }
}

impl Notebook {
    /// Reads files, and the files that they use.
    ///
    /// # Errors
    /// A path that was named is not there, is a folder, or is refused by the system. A file that is
    /// there but is not a text is a finding.
    pub fn open(paths: &[PathBuf], disk: &dyn Disk) -> Result<Self, (PathBuf, Unread)> {
        let mut notebook = Self::default();
        for path in paths {
            notebook
                .add_path(path, disk)
                .map_err(|unread| (path.clone(), unread))?;
        }
        notebook.follow(disk);
        Ok(notebook)
    }

    /// Reads files, and the files that they use; one that is not there, or is refused, is left out.
    pub fn of_those_that_can_be_read(paths: &[PathBuf], disk: &dyn Disk) -> Self {
        let mut notebook = Self::default();
        for path in paths {
            // A folder's other files still count.
            let _ = notebook.add_path(path, disk);
        }
        notebook.follow(disk);
        notebook
    }

    /// A notebook of one text that stands nowhere on a disk, named `path` for people; what it uses is
    /// looked up beside `path`.
    pub fn of_text(path: &Path, kind: Kind, text: String, disk: &dyn Disk) -> Self {
        let mut notebook = Self::default();
        let beside = disk.real(
            path.parent()
                .filter(|parent| !parent.as_os_str().is_empty())
                .unwrap_or(Path::new(".")),
        );
        let real = beside
            .ok()
            .map(|folder| folder.join(path.file_name().unwrap_or(path.as_os_str())));
        notebook.add_text(path, kind, text, real);
        notebook.follow(disk);
        notebook
    }

    /// A notebook of one text that is open somewhere, in whatever state; one that is too large to be read is a
    /// finding.
    pub fn of_open(path: &Path, kind: Kind, text: String, disk: &dyn Disk) -> Self {
        if text.len() as u64 <= FILE_LIMIT {
            return Self::of_text(path, kind, text, disk);
        }
        let mut notebook = Self::default();
        notebook.add_unread(path, kind, String::new(), &Unread::TooLarge.to_string());
        notebook
    }

    /// A notebook of what is read already. What was found in reading is not in it.
    pub fn of_read(documents: Vec<Document>, project: Project) -> Self {
        Self {
            documents,
            project,
            ..Self::default()
        }
    }

    fn add_path(&mut self, path: &Path, disk: &dyn Disk) -> Result<(), Unread> {
        let kind = Kind::of(path).unwrap_or(Kind::Rig);
        let real = disk.real(path)?;
        if self.known.contains_key(&real) {
            return Ok(());
        }
        match disk.read(path) {
            Ok(text) => self.add_text(path, kind, text, Some(real)),
            Err(Unread::NotUtf8(sound)) => {
                self.add_unread(path, kind, sound, "it is not text in UTF-8 from here on")
            }
            Err(Unread::TooLarge) => {
                self.add_unread(path, kind, String::new(), &Unread::TooLarge.to_string())
            }
            Err(other) => return Err(other),
        }
        Ok(())
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

    fn add_text(&mut self, path: &Path, kind: Kind, text: String, real: Option<PathBuf>) {
        let text: Arc<str> = Arc::from(text);
        let id = self.add_document(path, kind, text.clone());
        let document = &mut self.documents[id.0 as usize];
        document.real.clone_from(&real);
        let document = &*document;
        let name = document.rig_name();
        for passages in document.files() {
            let file = self.reader.read(&text, id, &passages);
            let next = FileId(self.project.next().0 + self.waiting.len() as u32);
            if let (Kind::Rig, Some(real)) = (kind, &real) {
                self.known.insert(real.clone(), next);
            }
            self.waiting.push_back(Waiting {
                id: next,
                source: Source {
                    name: name.clone(),
                    text: text.clone(),
                    file,
                    uses: Vec::new(),
                },
                real: real.clone(),
            });
        }
    }

    /// Follows the `use` lines of every waiting file, and of those that they bring in.
    fn follow(&mut self, disk: &dyn Disk) {
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
                match self.resolve(&written, from.as_deref(), disk) {
                    Ok(file) => resolved.push((file, index)),
                    Err((code, why, help)) => {
                        if self.findings.len() >= snell_syntax::FINDING_LIMIT {
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
        disk: &dyn Disk,
    ) -> Result<FileId, (Code, String, &'static str)> {
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
            .map_err(|unread| missed(plain(&joined), unread))?;
        if !real.starts_with(&project) {
            return Err(outside("a link leads it out of the project folder"));
        }
        if Kind::of(&real) != Some(Kind::Rig) {
            let help = "only `.rig` files can be used; move the shared blocks to one";
            return Err((Code::UseMarkdown, "it is no `.rig` file".to_owned(), help));
        }
        if let Some(known) = self.known.get(&real) {
            return Ok(*known);
        }
        let text = disk.read(&real).map_err(|unread| missed(real.clone(), unread))?;
        let shown = self.shown(&joined, from);
        self.add_text(&shown, Kind::Rig, text, Some(real.clone()));
        self.known
            .get(&real)
            .copied()
            .ok_or_else(|| missing("it holds nothing".to_owned()))
    }

    /// The path of a used file as people would write it: beside the path of the file that uses it.
    fn shown(&self, joined: &Path, from: &Path) -> PathBuf {
        let user = self.waiting.front().map(|waiting| waiting.source.file.text);
        let document = user.and_then(|text| self.document(text));
        let (Some(document), Some(folder)) = (document, from.parent()) else {
            return joined.to_owned();
        };
        match (document.path.parent(), joined.strip_prefix(folder)) {
            (Some(parent), Ok(rest)) => parent.join(rest),
            _ => joined.to_owned(),
        }
    }

    /// The texts, in the order in which they were read.
    pub fn documents(&self) -> &[Document] {
        &self.documents
    }

    /// A text that was read.
    pub fn document(&self, id: TextId) -> Option<&Document> {
        self.documents.get(id.0 as usize)
    }

    /// The files to evaluate.
    pub fn project(&self) -> &Project {
        &self.project
    }

    /// The paths of files that were to be used and could not be read.
    pub fn missed(&self) -> &[PathBuf] {
        &self.missed
    }

    /// What was found in reading.
    pub fn reading(&self) -> &[Finding] {
        &self.findings
    }
}

/// Whether a path stays below a folder, by its words alone.
fn inside(path: &Path, folder: &Path) -> bool {
    plain(path).starts_with(folder)
}

/// A path without turns, by its words alone.
fn plain(path: &Path) -> PathBuf {
    let mut plain = PathBuf::new();
    for part in path.components() {
        match part {
            Component::ParentDir => {
                plain.pop();
            }
            Component::CurDir => {}
            part => plain.push(part),
        }
    }
    plain
}
