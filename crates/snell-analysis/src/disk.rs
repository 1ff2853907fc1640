//! Reading files, behind a trait so that a browser or an editor can stand in
//! for the disk.

use crate::real::real;
use snell_finding::Limit;
use std::fs::{self, File};
use std::io::{self, Read};
use std::path::{Component, Path, PathBuf};

/// The largest file that is read, in bytes: a hundred times a season's notebook.
pub const FILE_LIMIT: u64 = Limit::FileBytes.most();

/// Why a file was not read.
#[derive(Debug, thiserror::Error)]
pub enum Unread {
    /// It is not there.
    #[error("there is no such file")]
    Missing,
    /// It is a folder.
    #[error("it is a folder, not a file")]
    Folder,
    /// It is a pipe, a device or a socket: reading it may never end.
    #[error("it is no plain file")]
    NoFile,
    /// It is larger than [`FILE_LIMIT`].
    #[error("it is larger than {} MiB, which no notebook needs; split it, or leave it out", FILE_LIMIT >> 20)]
    TooLarge,
    /// It is not text in UTF-8. Holds what could be read before that.
    #[error("it is not text in UTF-8")]
    NotUtf8(String),
    /// The system says no.
    #[error("{0}")]
    System(#[from] io::Error),
}

/// What the notebook asks of a file system.
pub trait Disk {
    /// The text of a file.
    ///
    /// # Errors
    /// Why it was not read.
    fn read(&self, path: &Path) -> Result<String, Unread>;

    /// A path with every link followed; equal for equal files.
    ///
    /// # Errors
    /// The file is not there, or the system says no.
    fn real(&self, path: &Path) -> Result<PathBuf, Unread>;

    /// The project folder of a file: the nearest one above it with version control, else that of the book that it
    /// belongs to, else the file's own.
    fn project(&self, real: &Path) -> PathBuf;
}

/// The disk of this machine.
#[derive(Clone, Copy, Debug, Default)]
pub struct LocalDisk;

/// Folders that version control keeps at a project's top.
const VERSION_CONTROL: &[&str] = &[".git", ".hg", ".jj", ".svn"];
/// Files at the top of a book. Source: the documentation of mdBook and of Quarto.
const BOOKS: &[&str] = &["book.toml", "_quarto.yml", "_quarto.yaml"];

impl LocalDisk {
    /// The bytes of a file, whatever it holds.
    ///
    /// # Errors
    /// Why it was not read.
    pub fn bytes(&self, path: &Path) -> Result<Vec<u8>, Unread> {
        bytes(opened(path)?)
    }
}

fn opened(path: &Path) -> Result<File, Unread> {
    // Asked before it is opened: opening a pipe waits for somebody at its other end.
    let kind = fs::metadata(path).map_err(told)?.file_type();
    if kind.is_dir() {
        return Err(Unread::Folder);
    }
    if !kind.is_file() {
        return Err(Unread::NoFile);
    }
    File::open(path).map_err(told)
}

impl Disk for LocalDisk {
    fn read(&self, path: &Path) -> Result<String, Unread> {
        from_reader(opened(path)?)
    }

    fn real(&self, path: &Path) -> Result<PathBuf, Unread> {
        real(path).map_err(told)
    }

    fn project(&self, real: &Path) -> PathBuf {
        let own = real.parent().unwrap_or(real);
        let nearest = |names: &[&str]| {
            let holds = |folder: &&Path| names.iter().any(|name| folder.join(name).exists());
            own.ancestors().find(holds)
        };
        let project = nearest(VERSION_CONTROL).or_else(|| nearest(BOOKS));
        project.unwrap_or(own).to_owned()
    }
}

/// A path without turns, by its words alone.
pub fn without_turns(path: &Path) -> PathBuf {
    let mut plain = PathBuf::new();
    for part in path.components() {
        match part {
            Component::ParentDir => {
                plain.pop();
            }
            Component::CurDir => {}
            part => plain.push(part),
        }
    }
    plain
}

fn told(error: io::Error) -> Unread {
    match error.kind() {
        io::ErrorKind::NotFound => Unread::Missing,
        io::ErrorKind::IsADirectory => Unread::Folder,
        _ => Unread::System(error),
    }
}

/// Bytes out of a reader, never more than [`FILE_LIMIT`] of them.
fn bytes(reader: impl Read) -> Result<Vec<u8>, Unread> {
    let mut bytes = Vec::new();
    reader.take(FILE_LIMIT + 1).read_to_end(&mut bytes)?;
    if bytes.len() as u64 > FILE_LIMIT {
        return Err(Unread::TooLarge);
    }
    Ok(bytes)
}

/// Text out of a reader, never more than [`FILE_LIMIT`] of it.
///
/// # Errors
/// It is too large, not UTF-8, or cannot be read.
pub fn from_reader(reader: impl Read) -> Result<String, Unread> {
    String::from_utf8(bytes(reader)?).map_err(|error| {
        let sound = error.utf8_error().valid_up_to();
        let mut bytes = error.into_bytes();
        bytes.truncate(sound);
        // The bytes up to `sound` were found to be UTF-8.
        Unread::NotUtf8(String::from_utf8(bytes).unwrap_or_default())
    })
}
