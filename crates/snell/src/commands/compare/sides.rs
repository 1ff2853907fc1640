//! What the two words of `compare` stand for: paths, rigs of files, and what
//! git keeps.

use crate::git::{Blobs, Repository, TreeDisk};
use crate::inputs;
use crate::trouble::Trouble;
use snell_analysis::Notebook;
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
}

/// What changed between what the words stand for.
///
/// # Errors
/// A word means nothing, or what it means cannot be read.
pub fn compared(was: Option<&str>, now: Option<&str>) -> Result<Comparison, Trouble> {
    let here = Path::new(".");
    let (was, now) = match (was, now) {
        (Some(was), Some(now)) => (side(was)?, side(now)?),
        (one, _) => {
            let repository = Repository::needed(here)?;
            match one.map(side).transpose()? {
                Some(Side {
                    from: From::Path(path),
                    rig,
                }) => {
                    let committed = repository.below_top(&path)?;
                    let side = |from| Side {
                        from,
                        rig: rig.clone(),
                    };
                    (
                        side(From::Revision(LAST.to_owned(), committed)),
                        side(From::Path(path)),
                    )
                }
                Some(side) => {
                    let From::Revision(_, below) = &side.from else {
                        return Err(Trouble::Git("a path or a revision is needed".to_owned()));
                    };
                    let path = From::Path(repository.top.join(below));
                    let rig = side.rig.clone();
                    (side, Side { from: path, rig })
                }
                None => {
                    let below = PathBuf::from(&repository.prefix);
                    let committed = From::Revision(LAST.to_owned(), below);
                    let side = |from| Side { from, rig: None };
                    (side(committed), side(From::Path(here.to_owned())))
                }
            }
        }
    };
    let (before, after) = (was.state()?, now.state()?);
    Ok(
        match (
            &was.rig,
            &now.rig,
            before.cards.as_slice(),
            after.cards.as_slice(),
        ) {
            (Some(_), Some(_), [before, ..], [after, ..]) => compare_two(before, after),
            _ => compare(&before, &after),
        },
    )
}

/// What a word stands for: a path that is there first, then a rig of one, then what git knows.
fn side(word: &str) -> Result<Side, Trouble> {
    let whole = |from| Side { from, rig: None };
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
        let real = path
            .canonicalize()
            .map_err(|error| Trouble::unread(path, error))?;
        let top = self
            .top
            .canonicalize()
            .map_err(|error| Trouble::unread(&self.top, error))?;
        let outside = || Trouble::unread(path, "it lies outside this git repository; name both sides");
        Ok(real.strip_prefix(top).map_err(|_| outside())?.to_owned())
    }
}

impl Side {
    fn state(&self) -> Result<State, Trouble> {
        let state = match &self.from {
            From::Path(path) => State::of(&inputs::open(std::slice::from_ref(path), None)?, |name, _| {
                self.wants(name)
            }),
            From::Revision(revision, below) => {
                let repository = Repository::needed(Path::new("."))?;
                let tree = repository.tree(revision)?;
                let blobs = Blobs::of(&repository)?;
                let files: Vec<PathBuf> = tree
                    .keys()
                    .filter(|file| file.starts_with(below))
                    .cloned()
                    .collect();
                let notebook = Notebook::open(&files, &TreeDisk::new(&tree, &blobs))?;
                State::of(&notebook, |name, _| self.wants(name))
            }
        };
        match &self.rig {
            Some(rig) if state.cards.is_empty() => Err(Trouble::Unknown {
                what: "rig",
                name: rig.clone(),
                places: format!("`{}`", self.place()),
                near: None,
            }),
            Some(_) => Ok(State {
                blocks: Vec::new(),
                ..state
            }),
            None => Ok(state),
        }
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
        }
    }
}
