//! The files of each state of a history: their texts in git, and how they read.

use crate::git::{Blobs, Step, Tree, TreeDisk};
use crate::trouble::Trouble;
use snell_analysis::{Analysis, Notebook};
use snell_history::{Commit, FileRead};
use std::collections::{BTreeMap, HashMap};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// The paths that were asked for while a file was read, each with the text that was there.
pub type Asked = Arc<BTreeMap<PathBuf, Option<String>>>;

/// A file as it was read, and what it was made from.
pub struct Known {
    pub read: Arc<FileRead>,
    pub asked: Asked,
}

/// A file that was opened, with the paths that were asked for meanwhile.
pub struct Opened {
    pub notebook: Notebook,
    pub asked: Asked,
}

/// The files that a commit changed, as far as they were opened before they are asked for.
pub type Files = Vec<(PathBuf, Opened)>;

/// Opens a file of a tree, with the files that it uses there.
pub fn opened(analysis: &Analysis, blobs: &Blobs, ids: &Tree, path: &Path) -> Result<Opened, Trouble> {
    let disk = TreeDisk::new(ids, blobs);
    let notebook = analysis.open(&[path.to_owned()], &disk)?;
    let asked = Arc::new(disk.asked());
    Ok(Opened { notebook, asked })
}

/// The files of one commit.
#[derive(Clone, Default)]
pub struct State {
    pub ids: Tree,
    pub read: BTreeMap<PathBuf, Arc<Known>>,
}

impl State {
    /// Takes in which texts a commit changed.
    pub fn change(&mut self, step: &Step) {
        for (path, id) in &step.changed {
            match id {
                Some(id) => self.ids.insert(path.clone(), id.clone()),
                None => self.ids.remove(path),
            };
        }
    }
}

/// The states that later commits are still to be made from.
pub struct States {
    kept: HashMap<usize, State>,
    children: Vec<usize>,
}

impl States {
    pub fn of(commits: &[Commit]) -> Self {
        let mut children = vec![0; commits.len()];
        for parent in commits.iter().flat_map(|commit| &commit.parents) {
            children[*parent] += 1;
        }
        Self {
            kept: HashMap::new(),
            children,
        }
    }

    /// The state that a commit began from: moved where no other commit is to be made from it, so that a long
    /// history is not copied at each of its steps.
    pub fn first_parent(&mut self, commit: &Commit) -> State {
        let Some(first) = commit.parents.first() else {
            return State::default();
        };
        let state = if self.children[*first] == 1 {
            self.kept.remove(first)
        } else {
            self.kept.get(first).cloned()
        };
        state.unwrap_or_default()
    }

    pub fn put(&mut self, number: usize, commit: &Commit, state: State) {
        for parent in &commit.parents {
            self.children[*parent] -= 1;
            if self.children[*parent] == 0 {
                self.kept.remove(parent);
            }
        }
        self.kept.insert(number, state);
    }

    /// The state of a commit that no other one is made from.
    pub fn last(mut self, number: usize) -> State {
        self.kept.remove(&number).unwrap_or_default()
    }
}
