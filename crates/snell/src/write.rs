//! The one way to write files: all of a text or none of it.
//!
//! A new text is written beside the old one, brought to the disk, and put in
//! its place in one step. Mode and owner stay, a link stays a link, and a file
//! that changed since it was read is left alone, also where two runs meet. What
//! a run that was ended left lying beside is cleared away by the next one.

mod stray;

use crate::write::stray::PREFIX;
use std::fs::{self, File, Metadata, TryLockError};
use std::io::{self, Read, Seek, Write};
use std::path::{Path, PathBuf};
use tempfile::NamedTempFile;

/// Why a file was left as it is.
#[derive(Debug, thiserror::Error)]
pub enum Unwritten {
    /// It is not what was read.
    #[error("it changed while it was being worked on; run again to take in the change")]
    Changed,
    /// Another run is at it.
    #[error("another run of snell is writing it; run again when that is done")]
    Busy,
    /// Its owner does not want it written.
    #[error("it may only be read")]
    ReadOnly,
    /// It is a folder, a device or a pipe.
    #[error("it is no plain file")]
    NoFile,
    /// Its other names would keep the old text.
    #[error("it has several names (hard links), and only this one would change; copy it first")]
    Linked,
    /// It would become the file of whoever runs this.
    #[error("it belongs to somebody else, and would not any more; ask its owner, or copy it first")]
    Owner,
    /// The system says no.
    #[error("{0}")]
    System(#[from] io::Error),
}

/// Replaces a file's text, if it still is what was read.
///
/// # Errors
/// Why it was left as it is.
pub fn replace(path: &Path, read: &str, new: &str) -> Result<(), Unwritten> {
    // The text lies where a link leads; the link itself must stay.
    let target = snell_analysis::real(path)?;
    let mut old = held(&target)?;
    let known = old.0.metadata()?;
    if known.permissions().readonly() {
        return Err(Unwritten::ReadOnly);
    }
    let fresh = beside(&target, new.as_bytes(), Some(&known))?;
    // As late as can be: what is written between this and the next line is lost.
    if standing(&mut old, &target)? != read.as_bytes() {
        return Err(Unwritten::Changed);
    }
    place(fresh, &target, old)
}

/// Puts a file in its place, over what is there. Mode and owner stay as they were.
///
/// # Errors
/// Why there is none, or it was left as it was.
pub fn put(path: &Path, bytes: &[u8]) -> Result<(), Unwritten> {
    let Ok(target) = snell_analysis::real(path) else {
        // A link that leads nowhere is not followed to make a file there.
        return create(path, bytes);
    };
    let old = held(&target)?;
    let fresh = beside(&target, bytes, Some(&old.0.metadata()?))?;
    place(fresh, &target, old)
}

/// Makes a file where there is none.
///
/// # Errors
/// There is one by now, or the system says no.
pub fn create(path: &Path, bytes: &[u8]) -> Result<(), Unwritten> {
    let fresh = beside(path, bytes, None)?;
    drop(Held(fresh.persist_noclobber(path).map_err(|error| error.error)?));
    synced(folder_of(path))?;
    Ok(())
}

/// A file that no other run writes while this lives.
#[derive(Debug)]
struct Held(File);

impl Drop for Held {
    /// Closing the file is not enough: a program that was started meanwhile may still have it open for a moment, and
    /// with it the lock.
    fn drop(&mut self) {
        // Where there are no locks there is none to give back.
        let _ = self.0.unlock();
    }
}

fn held(target: &Path) -> Result<Held, Unwritten> {
    // Asked before it is opened: opening a pipe waits for somebody at its other end.
    if !fs::metadata(target)?.is_file() {
        return Err(Unwritten::NoFile);
    }
    let file = File::open(target)?;
    match file.try_lock() {
        Err(TryLockError::WouldBlock) => Err(Unwritten::Busy),
        // Some file systems know no locks; then the comparison of the text must do.
        Ok(()) | Err(TryLockError::Error(_)) => Ok(Held(file)),
    }
}

/// What stands in a file that is held.
fn standing(held: &mut Held, target: &Path) -> io::Result<Vec<u8>> {
    if !cfg!(windows) {
        // By its name, under which another program may have put another file.
        return fs::read(target);
    }
    // There a lock keeps out whoever opens the file anew, this process too; and no other file takes the name of an open one.
    let mut bytes = Vec::new();
    held.0.rewind()?;
    held.0.read_to_end(&mut bytes)?;
    Ok(bytes)
}

/// The new text, whole and on the disk, under a name that is nobody's.
fn beside(target: &Path, bytes: &[u8], known: Option<&Metadata>) -> Result<NamedTempFile, Unwritten> {
    let folder = folder_of(target);
    stray::clear(folder);
    let mut builder = tempfile::Builder::new();
    builder.prefix(PREFIX);
    #[cfg(unix)]
    let new: fs::Permissions = std::os::unix::fs::PermissionsExt::from_mode(0o666);
    #[cfg(unix)]
    builder.permissions(new);
    let mut fresh = made(&builder, folder)?;
    if let Some(known) = known {
        owned_alike(fresh.as_file(), known)?;
        fresh.as_file().set_permissions(known.permissions())?;
    }
    fresh.write_all(bytes)?;
    fresh.as_file().sync_all()?;
    Ok(fresh)
}

/// A file that is locked: whoever clears strays away sees by this that it is none.
fn made(builder: &tempfile::Builder<'_, '_>, folder: &Path) -> Result<NamedTempFile, Unwritten> {
    loop {
        let fresh = builder.tempfile_in(folder)?;
        let taken = matches!(fresh.as_file().try_lock(), Err(TryLockError::WouldBlock));
        // Before it was locked, another run may have taken it for a stray.
        if !taken && fresh.path().exists() {
            return Ok(fresh);
        }
    }
}

#[cfg(unix)]
fn owned_alike(fresh: &File, known: &Metadata) -> Result<(), Unwritten> {
    use std::os::unix::fs::{MetadataExt, fchown};
    if known.nlink() > 1 {
        return Err(Unwritten::Linked);
    }
    let own = fresh.metadata()?;
    if (own.uid(), own.gid()) != (known.uid(), known.gid()) {
        fchown(fresh, Some(known.uid()), Some(known.gid())).map_err(|_| Unwritten::Owner)?;
    }
    Ok(())
}

#[cfg(not(unix))]
fn owned_alike(_: &File, _: &Metadata) -> Result<(), Unwritten> {
    Ok(())
}

fn place(fresh: NamedTempFile, target: &Path, old: Held) -> Result<(), Unwritten> {
    // Windows puts no file over one that is open. Who opens it in the instant between makes this run fail, and loses nothing.
    let old = (!cfg!(windows)).then_some(old);
    // Its lock goes as that of a held file does.
    drop(Held(fresh.persist(target).map_err(|error| error.error)?));
    drop(old);
    synced(folder_of(target))?;
    Ok(())
}

fn folder_of(path: &Path) -> &Path {
    path.parent()
        .filter(|folder| !folder.as_os_str().is_empty())
        .unwrap_or(Path::new("."))
}

/// Brings a folder to the disk, so that a new name in it outlives a loss of power.
fn synced(folder: &Path) -> io::Result<()> {
    if cfg!(unix) {
        File::open(folder)?.sync_all()
    } else {
        Ok(())
    }
}

/// Why a path that a text names is not written.
#[derive(Clone, Copy, PartialEq, Eq, Debug, thiserror::Error)]
pub enum Outside {
    /// It is not relative to the folder, or leaves it.
    #[error("its path leaves the folder of its page")]
    Leaves,
    /// Programs keep their settings in such places.
    #[error("its path goes through a hidden folder or names a hidden file")]
    Hidden,
    /// It may lead anywhere.
    #[error("its path goes through a link")]
    Link,
}

/// Where a file may be written that a text names, rather than the person who runs this: below the text's folder,
/// through no link and through nothing hidden.
///
/// # Errors
/// Why it may not.
pub fn named_by_text(folder: &Path, written: &Path) -> Result<PathBuf, Outside> {
    let mut path = folder.to_owned();
    for part in written.components() {
        let std::path::Component::Normal(part) = part else {
            return Err(Outside::Leaves);
        };
        if part.to_string_lossy().starts_with('.') {
            return Err(Outside::Hidden);
        }
        path.push(part);
        if path.is_symlink() {
            return Err(Outside::Link);
        }
    }
    Ok(path)
}

#[cfg(test)]
mod tests;
