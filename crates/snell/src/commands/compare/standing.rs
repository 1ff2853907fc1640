//! Reads a text as it stood in a state of the files, and says where it cannot be
//! told in which of several states it stood.

use crate::git::{Blobs, Origin, Repository, TreeDisk};
use crate::trouble::Trouble;
use snell_analysis::{Disk, Kind, LocalDisk, Notebook};
use snell_view::compare::State;
use std::path::Path;

/// A text that git handed over.
pub struct Side<'s> {
    /// Its path from the top.
    pub path: &'s Path,
    /// Where git laid it down.
    pub file: &'s Path,
    /// Its id.
    pub id: &'s str,
}

/// A text as it was read.
#[derive(Default)]
pub struct Read {
    /// Its rigs and other blocks.
    pub state: State,
    /// What could not be told of where it stood.
    pub doubt: Option<String>,
}

/// Reads a text in the first of some states, and looks whether the others would make a difference.
///
/// # Errors
/// Git says no, or the text cannot be read.
pub fn read(repository: &Repository, side: &Side<'_>, origins: &[Origin]) -> Result<Read, Trouble> {
    let blobs = Blobs::of(repository)?;
    let mut first: Option<(Read, &Origin, Asked)> = None;
    for origin in origins {
        let Some(tree) = repository.tree_of(origin)? else {
            return on_disk(side.path, side.file);
        };
        if tree.get(side.path).is_none_or(|id| id != side.id) {
            continue;
        }
        match &mut first {
            None => {
                let disk = TreeDisk::new(&tree, &blobs);
                let notebook = Notebook::open(&[side.path.to_owned()], &disk)?;
                let read = Read {
                    state: own(notebook, side.path),
                    doubt: None,
                };
                first = Some((read, origin, disk.asked()));
            }
            Some((read, taken, asked)) => {
                if asked.iter().any(|(path, id)| tree.get(path) != id.as_ref()) {
                    let taken = named(taken);
                    read.doubt = Some(format!(
                        "read with the files of {taken}; the same text stood beside others too"
                    ));
                    break;
                }
            }
        }
    }
    match first {
        Some((read, ..)) => Ok(read),
        None => unplaced(side.path, side.file),
    }
}

type Asked = std::collections::BTreeMap<std::path::PathBuf, Option<String>>;

fn named(origin: &Origin) -> String {
    match origin {
        Origin::Staged => "what is staged".to_owned(),
        Origin::Revision(commit) => format!("commit {}", commit.get(..10).unwrap_or(commit)),
        Origin::Working => "the working tree".to_owned(),
    }
}

/// A text read in the working tree, as if it stood at a path.
///
/// # Errors
/// It cannot be read.
pub fn on_disk(path: &Path, file: &Path) -> Result<Read, Trouble> {
    let notebook = as_if_at(path, file)?;
    Ok(Read {
        state: own(notebook, path),
        doubt: None,
    })
}

/// A text that no commit and nothing staged holds. If one file of the tree has its name, it is taken to stand there.
///
/// # Errors
/// Git says no, or the text cannot be read.
pub fn nowhere(repository: &Repository, file: &Path) -> Result<Read, Trouble> {
    let staged = repository.staged()?;
    let mut alike = staged.keys().filter(|path| path.file_name() == file.file_name());
    match (alike.next(), alike.next()) {
        (Some(one), None) => unplaced(&repository.top.join(one), file),
        _ => unplaced(file, file),
    }
}

fn unplaced(path: &Path, file: &Path) -> Result<Read, Trouble> {
    let notebook = as_if_at(path, file)?;
    let uses = notebook.documents().len() > 1 || !notebook.missed().is_empty();
    let doubt = || "no commit here holds this text; read with the files of the working tree".to_owned();
    Ok(Read {
        state: own(notebook, path),
        doubt: uses.then(doubt),
    })
}

/// What a notebook's first file holds.
fn own(notebook: Notebook, path: &Path) -> State {
    let own = path.display().to_string();
    let mut state = State::of(notebook, |_, file| file == own).below(path);
    state.blocks.retain(|block| block.file == own);
    state
}

/// The notebook of a file's text, read as if it stood at `path`.
fn as_if_at(path: &Path, file: &Path) -> Result<Notebook, Trouble> {
    let kind = Kind::of(path).unwrap_or(Kind::Rig);
    let text = match LocalDisk.read(file) {
        Ok(text) => text,
        Err(snell_analysis::Unread::NotUtf8(sound)) => sound,
        Err(unread) => return Err(Trouble::unread(file, unread)),
    };
    Ok(Notebook::of_text(path, kind, text, &LocalDisk))
}
