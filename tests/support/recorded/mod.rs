//! What a program answers to thousands of texts, kept in a folder, so that two
//! programs can be held against each other and each difference is named.
//!
//! The texts are written once ([`texts::write_all`]), because the files of the
//! project change. A program's answers to them ([`answers::record`]) lie in a
//! folder of their own, one file a text; two such folders are compared by
//! [`differences::between`].

pub mod answers;
pub mod differences;
pub mod texts;

use std::path::{Path, PathBuf};
use std::{fs, io};

/// Every file below a folder, as paths below it, in order.
fn files(folder: &Path) -> io::Result<Vec<PathBuf>> {
    let mut found = Vec::new();
    gather(folder, Path::new(""), &mut found)?;
    found.sort();
    Ok(found)
}

fn gather(folder: &Path, below: &Path, found: &mut Vec<PathBuf>) -> io::Result<()> {
    for entry in fs::read_dir(folder.join(below))? {
        let entry = entry?;
        let path = below.join(entry.file_name());
        if entry.file_type()?.is_dir() {
            gather(folder, &path, found)?;
        } else {
            found.push(path);
        }
    }
    Ok(())
}

/// Writes a file and the folders above it.
fn write(path: &Path, text: &str) -> io::Result<()> {
    if let Some(folder) = path.parent() {
        fs::create_dir_all(folder)?;
    }
    fs::write(path, text)
}
