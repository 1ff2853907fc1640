//! The files of one revision, as a disk that a notebook can be read from: `use`
//! lines are followed within that revision.

use crate::git::blobs::Blobs;
use crate::git::repository::Repository;
use crate::trouble::Trouble;
use snell_analysis::{Disk, Kind, Unread, without_turns};
use std::cell::RefCell;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

/// Ids of texts by their path from the top.
pub type Tree = BTreeMap<PathBuf, String>;

/// Stands for the top of the tree in real paths. No file of a tree can lie below this name, so a path that
/// leaves the top is seen to leave it.
const TOP: &str = ".git";

impl Repository {
    /// Every rig file and page of a revision.
    ///
    /// # Errors
    /// Git says no.
    pub fn tree(&self, revision: &str) -> Result<Tree, Trouble> {
        let told = self.ask(&["ls-tree", "-r", "-z", "--full-tree", revision])?;
        let entries = told.split(|byte| *byte == 0).filter_map(|entry| {
            let entry = std::str::from_utf8(entry).ok()?;
            let (about, path) = entry.split_once('\t')?;
            let mut words = about.split(' ');
            let (mode, _, id) = (words.next()?, words.next()?, words.next()?);
            is_text(mode, Path::new(path)).then(|| (PathBuf::from(path), id.to_owned()))
        });
        Ok(entries.collect())
    }
}

/// A path from the top, of one that a tree gave as real or that has turns.
pub fn from_top(path: &Path) -> PathBuf {
    without_turns(path.strip_prefix(TOP).unwrap_or(path))
}

/// The real path of one from the top.
pub fn in_tree(path: &Path) -> PathBuf {
    Path::new(TOP).join(path)
}

/// Whether an entry of a tree is a plain file that snell reads; a link leads who knows where.
pub fn is_text(mode: &str, path: &Path) -> bool {
    mode.starts_with("100") && Kind::is_searched_for(path)
}

/// One revision as a disk. Paths are those from the top.
pub struct TreeDisk<'t> {
    tree: &'t Tree,
    blobs: &'t Blobs,
    asked: RefCell<BTreeMap<PathBuf, Option<String>>>,
}

impl<'t> TreeDisk<'t> {
    /// The disk of a tree.
    pub fn new(tree: &'t Tree, blobs: &'t Blobs) -> Self {
        Self {
            tree,
            blobs,
            asked: RefCell::default(),
        }
    }

    /// Every path that was asked for, with the id of what was there.
    pub fn asked(self) -> BTreeMap<PathBuf, Option<String>> {
        self.asked.into_inner()
    }

    fn find(&self, path: &Path) -> Result<(PathBuf, &'t String), Unread> {
        let path = from_top(path);
        let id = self.tree.get(&path);
        self.asked.borrow_mut().insert(path.clone(), id.cloned());
        id.map(|id| (path, id)).ok_or(Unread::Missing)
    }
}

impl Disk for TreeDisk<'_> {
    fn read(&self, path: &Path) -> Result<String, Unread> {
        let (_, id) = self.find(path)?;
        self.blobs.text(id)
    }

    fn real(&self, path: &Path) -> Result<PathBuf, Unread> {
        let (path, _) = self.find(path)?;
        Ok(in_tree(&path))
    }

    fn project(&self, _: &Path) -> PathBuf {
        PathBuf::from(TOP)
    }
}
