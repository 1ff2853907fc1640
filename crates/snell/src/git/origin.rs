//! Where a text that git hands over stood: git's drivers are told the text, and
//! some the id of it, but never the commit. The commits that brought it in or
//! took it out are looked for, and so is what is staged.

use super::program;
use super::tree::{Tree, is_text};
use crate::git::repository::Repository;
use crate::trouble::Trouble;
use std::path::{Path, PathBuf};

/// Opens what is told of a commit; no path and no id begins so.
const OPEN: char = '\u{1}';

/// So many states are looked at: those nearest to now.
const MOST: usize = 16;

/// A state of the files that a text stood in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Origin {
    /// What is staged.
    Staged,
    /// A commit, or what a word of git's names by it.
    Revision(String),
    /// The working tree.
    Working,
}

/// A change of one file in a commit: what it was and what it is.
#[derive(Debug)]
struct Change {
    commit: String,
    parent: Option<String>,
    old: String,
    new: String,
    path: PathBuf,
    old_path: PathBuf,
}

/// All that the history says of some texts.
#[derive(Debug, Default)]
pub struct Origins {
    changes: Vec<Change>,
    staged: Tree,
}

impl Repository {
    /// What became of a file, under any of some paths, or wherever it holds one text.
    ///
    /// # Errors
    /// Git says no.
    pub fn origins(&self, of: Asked<'_>) -> Result<Origins, Trouble> {
        let mut command = self.command([
            "log",
            "--all",
            "--topo-order",
            "-m",
            "--raw",
            "--no-abbrev",
            "-z",
            "-M",
        ]);
        command.args([
            "--no-ext-diff",
            "--no-textconv",
            "--no-color",
            "--format=%x01%H%x00%P%x00",
        ]);
        match of {
            Asked::Paths(paths) => command.arg("--").args(paths),
            Asked::Text(id) => command.arg(format!("--find-object={id}")),
        };
        // A repository without commits has no history to be asked for.
        let told = program::run(command)?.unwrap_or_default();
        Ok(Origins {
            changes: changes(&String::from_utf8_lossy(&told)),
            staged: self.staged()?,
        })
    }

    /// Every rig file and page that is staged; of one that is not merged, as this side has it.
    ///
    /// # Errors
    /// Git says no.
    pub fn staged(&self) -> Result<Tree, Trouble> {
        let told = self.ask(&["ls-files", "--stage", "--full-name", "-z"])?;
        let entries = told.split(|byte| *byte == 0).filter_map(|entry| {
            let (about, path) = std::str::from_utf8(entry).ok()?.split_once('\t')?;
            let mut words = about.split(' ');
            let (mode, id, stage) = (words.next()?, words.next()?, words.next()?);
            let wanted = matches!(stage, "0" | "2") && is_text(mode, Path::new(path));
            wanted.then(|| (PathBuf::from(path), id.to_owned()))
        });
        Ok(entries.collect())
    }

    /// The id that git gives a file's text.
    ///
    /// # Errors
    /// Git says no.
    pub fn id_of(&self, file: &Path) -> Result<String, Trouble> {
        let mut command = self.command(["hash-object", "--no-filters", "--"]);
        command.arg(file);
        let told = program::run(command)?.map_err(Trouble::Git)?;
        Ok(String::from_utf8_lossy(&told).trim().to_owned())
    }

    /// The files of a state; nothing for the working tree, which is read as it lies there.
    ///
    /// # Errors
    /// Git says no.
    pub fn tree_of(&self, origin: &Origin) -> Result<Option<Tree>, Trouble> {
        match origin {
            Origin::Staged => self.staged().map(Some),
            Origin::Revision(commit) => self.tree(commit).map(Some),
            Origin::Working => Ok(None),
        }
    }
}

/// What is asked of a history.
#[derive(Clone, Copy, Debug)]
pub enum Asked<'a> {
    /// Files at some paths from the top.
    Paths(&'a [&'a str]),
    /// A text, by its id.
    Text(&'a str),
}

impl Origins {
    /// The states that two texts stood in where one commit made the one into the other: before it, and after it.
    pub fn of_pair(&self, was: (&str, &str), now: (&str, &str)) -> Vec<(Origin, Origin)> {
        let staged = |(path, id): (&str, &str)| self.is_staged(Path::new(path), id);
        let same = |id: &str, other: &str| id == other || is_none(id) && is_none(other);
        let of = |change: &&Change| {
            same(&change.old, was.1)
                && same(&change.new, now.1)
                && (is_none(was.1) || change.old_path == Path::new(was.0))
                && (is_none(now.1) || change.path == Path::new(now.0))
        };
        let mut pairs: Vec<(Origin, Origin)> = Vec::new();
        for change in self.changes.iter().filter(of).take(MOST) {
            // What a commit without parents brought stood nowhere before.
            let before = change.parent.clone().unwrap_or_else(|| change.commit.clone());
            pairs.push((Origin::Revision(before), Origin::Revision(change.commit.clone())));
        }
        if pairs.is_empty() && staged(now) && !is_none(was.1) {
            pairs.extend(
                self.of_text(was.0, was.1)
                    .into_iter()
                    .map(|before| (before, Origin::Staged)),
            );
        }
        pairs
    }

    /// The states that a text at a path stood in: where it was brought in, before it was taken out, and what is
    /// staged.
    pub fn of_text(&self, path: &str, id: &str) -> Vec<Origin> {
        let path = Path::new(path);
        let mut found: Vec<Origin> = Vec::new();
        let brought = self
            .changes
            .iter()
            .filter(|one| one.new == id && one.path == path);
        found.extend(brought.map(|one| Origin::Revision(one.commit.clone())));
        let taken = self
            .changes
            .iter()
            .filter(|one| one.old == id && one.old_path == path);
        found.extend(taken.filter_map(|one| Some(Origin::Revision(one.parent.clone()?))));
        found.extend(self.is_staged(path, id).then_some(Origin::Staged));
        found.dedup();
        found.truncate(MOST);
        found
    }

    /// The paths at which a text ever stood.
    pub fn paths(&self, id: &str) -> Vec<PathBuf> {
        let here = self.changes.iter().flat_map(|one| {
            let now = (one.new == id).then(|| one.path.clone());
            now.into_iter()
                .chain((one.old == id).then(|| one.old_path.clone()))
        });
        let staged = self.staged.iter().filter(|(_, other)| *other == id);
        let mut paths: Vec<PathBuf> = here.chain(staged.map(|(path, _)| path.clone())).collect();
        paths.sort();
        paths.dedup();
        paths
    }

    fn is_staged(&self, path: &Path, id: &str) -> bool {
        self.staged.get(path).is_some_and(|other| other == id)
    }
}

/// Whether an id is that of no text: git writes zeros, or of a missing file a dot.
pub fn is_none(id: &str) -> bool {
    id == "." || id.bytes().all(|byte| byte == b'0')
}

fn changes(told: &str) -> Vec<Change> {
    let mut changes = Vec::new();
    let mut words = told.split('\0');
    let (mut commit, mut parents, mut at) = (String::new(), Vec::new(), 0);
    while let Some(word) = words.next() {
        let word = word.trim_start_matches('\n');
        if let Some(id) = word.strip_prefix(OPEN) {
            // A merge is told once for each of its parents, in their order.
            at = if id == commit { at + 1 } else { 0 };
            commit = id.to_owned();
            parents = words
                .next()
                .unwrap_or_default()
                .split(' ')
                .map(str::to_owned)
                .collect();
        } else if let Some(about) = word.strip_prefix(':') {
            let mut about = about.split(' ').skip(2);
            let (Some(old), Some(new), Some(status)) = (about.next(), about.next(), about.next()) else {
                continue;
            };
            let old_path = PathBuf::from(words.next().unwrap_or_default());
            let renamed = status.starts_with(['R', 'C']);
            let path = if renamed {
                words.next().map(PathBuf::from)
            } else {
                None
            };
            changes.push(Change {
                commit: commit.clone(),
                parent: parents
                    .get(at)
                    .filter(|parent: &&String| !parent.is_empty())
                    .cloned(),
                old: old.to_owned(),
                new: new.to_owned(),
                path: path.unwrap_or_else(|| old_path.clone()),
                old_path,
            });
        }
    }
    changes
}
