//! The files of a project folder, as `snell check` would walk it.

use ignore::WalkBuilder;
use snell_analysis::{Disk, Kind, LocalDisk};
use std::path::{Path, PathBuf};

/// A folder with more files, or deeper, is no notebook's; nor is one with so much else in it.
const MOST: usize = 2_000;
const MOST_ENTRIES: usize = 50_000;
const DEEPEST: usize = 8;

/// The rig files and pages of the project folder that a file stands in.
pub fn around(path: &Path) -> Vec<PathBuf> {
    let real = snell_ide::real_of(path);
    below(&LocalDisk.project(&real))
}

/// The rig files and pages below a folder; what an ignore file names is passed over.
pub fn below(folder: &Path) -> Vec<PathBuf> {
    let mut walk = WalkBuilder::new(folder);
    walk.require_git(false)
        .max_depth(Some(DEEPEST))
        .sort_by_file_path(Path::cmp);
    let entries = walk
        .build()
        .take(MOST_ENTRIES)
        .filter_map(Result::ok)
        .map(ignore::DirEntry::into_path);
    entries
        .filter(|path| Kind::of(path).is_some() && path.is_file())
        .take(MOST)
        .collect()
}
