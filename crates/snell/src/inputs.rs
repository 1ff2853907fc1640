//! From the paths on a command line to the files that are read.
//!
//! Folders are walked, ignore files respected; a path that is named is taken
//! whatever its ending. It reads no file itself.

use crate::trouble::Trouble;
use ignore::WalkBuilder;
use snell_analysis::{Disk, Kind, LocalDisk, Notebook, from_reader};
use std::collections::HashSet;
use std::io::stdin;
use std::path::{Path, PathBuf};

/// The word for standard input.
pub const STANDARD_INPUT: &str = "-";

/// Whether the paths are standard input.
///
/// # Errors
/// It stands beside other paths.
pub fn is_standard_input(paths: &[PathBuf]) -> Result<bool, Trouble> {
    let named = paths.iter().any(|path| path.as_os_str() == STANDARD_INPUT);
    if named && paths.len() > 1 {
        Err(Trouble::InputNotAlone)
    } else {
        Ok(named)
    }
}

/// A notebook of the files and folders, or of standard input for `-`, which is read as if it stood
/// at `stdin_name`.
///
/// # Errors
/// A path is not there or is refused.
pub fn open(paths: &[PathBuf], stdin_name: Option<&Path>) -> Result<Notebook, Trouble> {
    if is_standard_input(paths)? {
        return from_standard_input(stdin_name);
    }
    Ok(Notebook::open(&files(paths)?, &LocalDisk)?)
}

fn from_standard_input(name: Option<&Path>) -> Result<Notebook, Trouble> {
    let name = name.unwrap_or(Path::new(STANDARD_INPUT));
    let text = standard_input()?;
    let kind = Kind::of(name).unwrap_or(Kind::Rig);
    Ok(Notebook::of_text(name, kind, text, &LocalDisk))
}

/// The text on standard input.
///
/// # Errors
/// It is no text, or too large.
pub fn standard_input() -> Result<String, Trouble> {
    from_reader(stdin().lock()).map_err(|unread| Trouble::unread(Path::new(STANDARD_INPUT), unread))
}

/// What another program hands over on standard input, of any length.
///
/// # Errors
/// It is no text, or cannot be read.
pub fn whole_standard_input() -> Result<String, Trouble> {
    std::io::read_to_string(stdin().lock()).map_err(|why| Trouble::unread(Path::new(STANDARD_INPUT), why))
}

/// Does the same for every file. Where that fails the other files are done all the same: each trouble but the last is
/// told, and the last is how the run ends.
///
/// # Errors
/// The last trouble; the output's own at once, because nobody reads on.
pub fn each(files: &[PathBuf], mut work: impl FnMut(&Path) -> Result<(), Trouble>) -> Result<(), Trouble> {
    let mut last: Option<Trouble> = None;
    for path in files {
        match work(path) {
            Err(Trouble::Output(error)) => return Err(Trouble::Output(error)),
            Err(trouble) => {
                if let Some(earlier) = last.replace(trouble) {
                    earlier.tell();
                }
            }
            Ok(()) => {}
        }
    }
    last.map_or(Ok(()), Err)
}

/// The files that paths stand for, each once, in the order of the paths and sorted within a folder.
///
/// # Errors
/// A path is not there, or a folder cannot be walked.
pub fn files(paths: &[PathBuf]) -> Result<Vec<PathBuf>, Trouble> {
    let mut files = Vec::new();
    for path in paths {
        if path.is_dir() {
            walk(path, &mut files)?;
        } else {
            files.push(path.clone());
        }
    }
    if paths.len() > 1 {
        let mut seen = HashSet::new();
        files.retain(|file| seen.insert(LocalDisk.real(file).unwrap_or_else(|_| file.clone())));
    }
    Ok(files)
}

/// The files below a folder. A link in it was not named by whoever runs this, so it is followed only as far as the
/// folder's project reaches.
fn walk(folder: &Path, files: &mut Vec<PathBuf>) -> Result<(), Trouble> {
    let real = LocalDisk
        .real(folder)
        .map_err(|error| Trouble::unread(folder, error))?;
    // Asked of a name in the folder: a file's project is that of the folder that it stands in.
    let project = LocalDisk.project(&real.join(STANDARD_INPUT));
    let mut walk = WalkBuilder::new(folder);
    walk.require_git(false).sort_by_file_path(Path::cmp);
    for entry in walk.build() {
        let entry = entry.map_err(|error| Trouble::unread(folder, error))?;
        let is_file = entry.file_type().is_some_and(|kind| !kind.is_dir());
        if !is_file || !Kind::is_searched_for(entry.path()) || !entry.path().is_file() {
            continue;
        }
        let leaves = || {
            !LocalDisk
                .real(entry.path())
                .is_ok_and(|real| real.starts_with(&project))
        };
        if entry.path_is_symlink() && leaves() {
            Trouble::unread(
                &plain(entry.path()),
                "it is a link that leads out of the project folder; name it to have it read",
            )
            .tell();
            continue;
        }
        files.push(plain(entry.path()));
    }
    Ok(())
}

/// Without the `./` that a walk of `.` puts in front of every file.
fn plain(path: &Path) -> PathBuf {
    path.strip_prefix(".").unwrap_or(path).to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::fs;

    #[test]
    fn folders_are_walked_in_order_without_what_is_hidden_or_ignored() {
        let folder = tempfile::tempdir().unwrap();
        let at = |name: &str| folder.path().join(name);
        fs::create_dir_all(at("b/.hidden")).unwrap();
        for name in [
            "b/two.rig",
            "a.md",
            "c.txt",
            "b/.hidden/x.rig",
            "old.rig",
            "b/one.MARKDOWN",
        ] {
            fs::write(at(name), "").unwrap();
        }
        fs::write(at(".gitignore"), "old.rig\n").unwrap();
        let found = files(&[folder.path().to_owned()]).unwrap();
        assert_eq!(found, [at("a.md"), at("b/one.MARKDOWN"), at("b/two.rig")]);
        let named = files(&[at("c.txt"), at("b"), at("b/two.rig")]).unwrap();
        assert_eq!(named, [at("c.txt"), at("b/one.MARKDOWN"), at("b/two.rig")]);
    }

    #[test]
    fn standard_input_stands_alone() {
        let paths = |words: &[&str]| words.iter().map(PathBuf::from).collect::<Vec<_>>();
        assert!(is_standard_input(&paths(&["-"])).unwrap());
        assert!(!is_standard_input(&paths(&["a", "b"])).unwrap());
        assert!(is_standard_input(&paths(&["a", "-"])).is_err());
    }
}
