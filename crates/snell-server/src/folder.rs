//! The files of a project folder, as `snell check` would walk it: all of them,
//! or the reason why not.

use ignore::WalkBuilder;
use snell_analysis::{Disk, Kind, LocalDisk};
use snell_finding::Limit;
use std::path::{Path, PathBuf};

/// A folder with more in it is no notebook's, and would take too long to walk.
const MOST_ENTRIES: usize = Limit::FolderEntries.count();

/// Why not every file of a folder was found.
#[derive(Debug, thiserror::Error)]
pub enum Unwalked {
    /// There is too much in it.
    #[error(
        "`{0}` holds more than {MOST_ENTRIES} files and folders, too many to look through: open the notebook's own \
         folder, or leave the others out by an ignore file"
    )]
    TooMany(String),
    /// The system says no.
    #[error("not every folder could be looked through: {0}")]
    System(#[from] ignore::Error),
    /// A file is there but no text.
    #[error("`{0}` could not be read: {1}")]
    Unread(String, String),
}

/// The rig files and pages of the project folder that a file stands in.
///
/// # Errors
/// Why they are not all.
pub fn around(path: &Path) -> Result<Vec<PathBuf>, Unwalked> {
    let real = snell_analysis::real_of(path);
    below(&LocalDisk.project(&real))
}

/// The rig files and pages below a folder; what an ignore file names is passed over.
///
/// # Errors
/// Why they are not all.
pub fn below(folder: &Path) -> Result<Vec<PathBuf>, Unwalked> {
    walked(folder, MOST_ENTRIES)
}

fn walked(folder: &Path, most: usize) -> Result<Vec<PathBuf>, Unwalked> {
    // A text that was never saved may stand in a folder that is not there.
    if !folder.exists() {
        return Ok(Vec::new());
    }
    let mut walk = WalkBuilder::new(folder);
    walk.require_git(false).sort_by_file_path(Path::cmp);
    let mut files = Vec::new();
    for (count, entry) in walk.build().enumerate() {
        if count >= most {
            return Err(Unwalked::TooMany(folder.display().to_string()));
        }
        let path = entry?.into_path();
        if Kind::is_searched_for(&path) && path.is_file() {
            files.push(path);
        }
    }
    Ok(files)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_folder_of_too_much_is_told() {
        let here = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
        let all = walked(&here, MOST_ENTRIES).expect("it holds little");
        assert!(all.is_empty(), "it holds no rigs");
        let told = walked(&here, 3)
            .expect_err("it holds more than three")
            .to_string();
        assert!(
            told.contains("files and folders, too many to look through"),
            "{told}"
        );
    }
}
