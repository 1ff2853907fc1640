//! What the two words of `compare` stand for: paths, rigs of files, and what
//! git keeps.

use crate::git::{Blobs, Repository, Tree, TreeDisk};
use crate::inputs;
use crate::trouble::Trouble;
use snell_analysis::{LocalDisk, Notebook};
use snell_view::compare::{Comparison, State, compare, compare_two};
use std::path::{Path, PathBuf};

/// What was committed last.
const LAST: &str = "HEAD";

/// One side.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Side {
    from: From,
    rig: Option<String>,
}

/// Where a side is read from.
#[derive(Debug, Clone, PartialEq, Eq)]
enum From {
    /// A path on the disk.
    Path(PathBuf),
    /// A path from the top of a revision; empty for all of it.
    Revision(String, PathBuf),
    /// A path from the top of what is staged.
    Staged(PathBuf),
}

/// What changed between what the words stand for.
///
/// # Errors
/// A word means nothing, or what it means cannot be read.
pub fn compared(was: Option<&str>, now: Option<&str>) -> Result<Comparison, Trouble> {
    let here = Path::new(".");
    let (was, now) = match (was, now) {
        (Some(was), Some(now)) => (side(was)?, side(now)?),
        (Some(one), None) => match range(one)? {
            Some(both) => both,
            None => against_the_other(side(one)?)?,
        },
        (None, _) => {
            let repository = Repository::needed(here)?;
            let committed = From::Revision(LAST.to_owned(), PathBuf::from(&repository.prefix));
            (Side::whole(committed), Side::whole(From::Path(here.to_owned())))
        }
    };
    told(&was, &now)
}

/// What changed from what was committed last, or from what a word stands for, to what is staged.
///
/// # Errors
/// The word means nothing that git keeps, or what it means cannot be read.
pub fn staged(was: Option<&str>) -> Result<Comparison, Trouble> {
    let repository = Repository::needed(Path::new("."))?;
    let Some(word) = was else {
        let below = PathBuf::from(&repository.prefix);
        let committed = From::Revision(LAST.to_owned(), below.clone());
        return told(&Side::whole(committed), &Side::whole(From::Staged(below)));
    };
    let Side { from, rig } = side(word)?;
    let (from, below) = match from {
        From::Path(path) => {
            let below = repository.below_top(&path)?;
            (From::Revision(LAST.to_owned(), below.clone()), below)
        }
        From::Revision(revision, below) => (From::Revision(revision, below.clone()), below),
        From::Staged(below) => (From::Staged(below.clone()), below),
    };
    let now = Side {
        from: From::Staged(below),
        rig: rig.clone(),
    };
    told(&Side { from, rig }, &now)
}

/// One side with the one that goes with it: a path beside what was committed last, a revision beside the working tree.
fn against_the_other(one: Side) -> Result<(Side, Side), Trouble> {
    let repository = Repository::needed(Path::new("."))?;
    let rig = one.rig.clone();
    Ok(match &one.from {
        From::Path(path) => {
            let from = From::Revision(LAST.to_owned(), repository.below_top(path)?);
            (Side { from, rig }, one)
        }
        From::Revision(_, below) | From::Staged(below) => {
            let from = From::Path(repository.top.join(below));
            (one, Side { from, rig })
        }
    })
}

fn told(was: &Side, now: &Side) -> Result<Comparison, Trouble> {
    let kept = |side: &Side| !matches!(side.from, From::Path(_));
    // What git keeps is called by its path from the top, and so is what it is held against.
    let top = match kept(was) || kept(now) {
        true => Some(Repository::needed(Path::new("."))?),
        false => None,
    };
    let (before, after) = (was.state(top.as_ref())?, now.state(top.as_ref())?);
    let rigs = (before.cards.first(), after.cards.first());
    Ok(match (&was.rig, &now.rig, rigs) {
        (Some(_), Some(_), (Some(one), Some(other))) => compare_two(&before.whole(one), &after.whole(other)),
        (Some(_) | None, ..) => compare(&before, &after),
    })
}

/// `A..B` is both, `A...B` the state from which both were made, and B. What is left out is what was committed last.
fn range(word: &str) -> Result<Option<(Side, Side)>, Trouble> {
    let since_parted = word.split_once("...");
    let Some((was, now)) = since_parted.or_else(|| word.split_once("..")) else {
        return Ok(None);
    };
    if Path::new(word).exists() {
        return Ok(None);
    }
    let Some(repository) = Repository::of(Path::new("."))? else {
        return Ok(None);
    };
    let commit = |word: &str| repository.commit(if word.is_empty() { LAST } else { word });
    let (Some(mut was), Some(now)) = (commit(was), commit(now)) else {
        return Ok(None);
    };
    if since_parted.is_some() {
        let parted = repository.ask(&["merge-base", &was, &now]);
        let nothing = |_| {
            Trouble::Git(format!(
                "the two sides of `{word}` were made from nothing in common"
            ))
        };
        was = String::from_utf8_lossy(&parted.map_err(nothing)?)
            .trim()
            .to_owned();
    }
    let below = PathBuf::from(&repository.prefix);
    let side = |commit| Side::whole(From::Revision(commit, below.clone()));
    Ok(Some((side(was), side(now))))
}

/// What a word stands for: a path that is there first, then a rig of one, then what git knows.
fn side(word: &str) -> Result<Side, Trouble> {
    let whole = Side::whole;
    if Path::new(word).exists() {
        return Ok(whole(From::Path(PathBuf::from(word))));
    }
    if let Some((file, rig)) = word.rsplit_once(':')
        && !rig.is_empty()
        && Path::new(file).exists()
    {
        return Ok(Side {
            from: From::Path(PathBuf::from(file)),
            rig: Some(rig.to_owned()),
        });
    }
    let missing = || {
        Trouble::unread(
            Path::new(word),
            "it is neither a path nor a revision that git knows",
        )
    };
    let repository = Repository::of(Path::new("."))?.ok_or_else(missing)?;
    let Some((revision, path)) = word.split_once(':') else {
        let commit = repository.commit(word).ok_or_else(missing)?;
        return Ok(whole(From::Revision(commit, PathBuf::from(&repository.prefix))));
    };
    let commit = repository.commit(revision).ok_or_else(missing)?;
    let tree = repository.tree(&commit)?;
    let path_of = |path: &str| match path.strip_prefix("./") {
        Some(rest) => PathBuf::from(&repository.prefix).join(rest),
        None => PathBuf::from(path),
    };
    let there = |path: &Path| tree.keys().any(|file| file.starts_with(path));
    if there(&path_of(path)) {
        return Ok(whole(From::Revision(commit, path_of(path))));
    }
    match path.rsplit_once(':') {
        Some((file, rig)) if there(&path_of(file)) => Ok(Side {
            from: From::Revision(commit, path_of(file)),
            rig: Some(rig.to_owned()),
        }),
        _ => Err(Trouble::unread(
            Path::new(word),
            "that revision has no rig file there",
        )),
    }
}

impl Repository {
    /// A path of the disk as one from the top of the working tree.
    fn below_top(&self, path: &Path) -> Result<PathBuf, Trouble> {
        let real = snell_analysis::real(path).map_err(|error| Trouble::unread(path, error))?;
        let top = snell_analysis::real(&self.top).map_err(|error| Trouble::unread(&self.top, error))?;
        let outside = || Trouble::unread(path, "it lies outside this git repository; name both sides");
        Ok(real.strip_prefix(top).map_err(|_| outside())?.to_owned())
    }
}

impl Repository {
    /// Whether a file of the disk is this repository's to keep, and not that of another one that lies in a folder of
    /// it, as a submodule does.
    fn keeps(&self, file: &Path) -> bool {
        let Ok(below) = self.below_top(file) else {
            return true;
        };
        let folders = below.ancestors().skip(1);
        let mut folders = folders.filter(|folder| !folder.as_os_str().is_empty());
        !folders.any(|folder| self.top.join(folder).join(".git").symlink_metadata().is_ok())
    }
}

impl Side {
    fn whole(from: From) -> Self {
        Self { from, rig: None }
    }

    /// What it holds; in a repository, its files called by their paths from the top.
    fn state(&self, repository: Option<&Repository>) -> Result<State, Trouble> {
        let mut state = match (&self.from, repository) {
            (From::Path(path), None) => self
                .on_disk(&inputs::files(std::slice::from_ref(path))?)?
                .below(path),
            (From::Path(path), Some(repository)) => {
                let mut files = inputs::files(std::slice::from_ref(path))?;
                files.retain(|file| repository.keeps(file));
                let mut state = self.on_disk(&files)?;
                state.call_files(|file| {
                    let path = repository.below_top(Path::new(file));
                    path.map_or_else(|_| file.to_owned(), |path| path.display().to_string())
                });
                let root = repository.below_top(path).unwrap_or_else(|_| path.clone());
                state.below(root)
            }
            (From::Revision(revision, below), _) => {
                let repository = Repository::needed(Path::new("."))?;
                let tree = repository.tree(revision)?;
                self.in_tree(&repository, &tree, below)?
            }
            (From::Staged(below), _) => {
                let repository = Repository::needed(Path::new("."))?;
                let tree = repository.staged()?;
                self.in_tree(&repository, &tree, below)?
            }
        };
        match &self.rig {
            Some(rig) if state.cards.is_empty() => Err(Trouble::Unknown {
                what: "rig",
                name: rig.clone(),
                places: format!("`{}`", self.place()),
                near: None,
            }),
            Some(_) => {
                state.blocks.clear();
                Ok(state)
            }
            None => Ok(state),
        }
    }

    fn on_disk(&self, files: &[PathBuf]) -> Result<State, Trouble> {
        let notebook = Notebook::open(files, &LocalDisk)?;
        Ok(State::of(notebook, |name, _| self.wants(name)))
    }

    fn in_tree(&self, repository: &Repository, tree: &Tree, below: &Path) -> Result<State, Trouble> {
        let blobs = Blobs::of(repository)?;
        let files = tree.keys().filter(|file| file.starts_with(below));
        let files: Vec<PathBuf> = files.cloned().collect();
        let notebook = Notebook::open(&files, &TreeDisk::new(tree, &blobs))?;
        Ok(State::of(notebook, |name, _| self.wants(name)).below(below))
    }

    fn wants(&self, name: &str) -> bool {
        self.rig
            .as_ref()
            .is_none_or(|rig| rig.to_lowercase() == name.to_lowercase())
    }

    fn place(&self) -> String {
        match &self.from {
            From::Path(path) => path.display().to_string(),
            From::Revision(revision, path) => format!("{revision}:{}", path.display()),
            From::Staged(path) => format!("what is staged of {}", path.display()),
        }
    }
}
