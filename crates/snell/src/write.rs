//! Putting new text in the place of a file's old text, all of it or none.
//!
//! A file keeps its permissions, a link stays a link, and a file that changed
//! since it was read is left alone. It does not know what the text is.

use std::fs;
use std::io::{self, Write};
use std::path::Path;

/// Why a file was left as it is.
#[derive(Debug, thiserror::Error)]
pub enum Unwritten {
    /// It is not what was read.
    #[error("it changed while it was being worked on; run again to take in the change")]
    Changed,
    /// Its owner does not want it written.
    #[error("it may only be read")]
    ReadOnly,
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
    let target = path.canonicalize()?;
    let permissions = fs::metadata(&target)?.permissions();
    if permissions.readonly() {
        return Err(Unwritten::ReadOnly);
    }
    let folder = target.parent().unwrap_or(Path::new("."));
    let mut fresh = tempfile::Builder::new().prefix(".snell-").tempfile_in(folder)?;
    fresh.write_all(new.as_bytes())?;
    fresh.as_file().set_permissions(permissions)?;
    fresh.as_file().sync_all()?;
    // As late as can be: what is written between this and the next line is lost.
    if fs::read(&target)? != read.as_bytes() {
        return Err(Unwritten::Changed);
    }
    fresh.persist(&target).map_err(|error| error.error)?;
    Ok(())
}

/// Puts a file in its place, over what is there: all of it or none. Permissions stay as they were.
///
/// # Errors
/// The system says no.
pub fn put(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let target = path.canonicalize().unwrap_or_else(|_| path.to_owned());
    let folder = target.parent().filter(|folder| !folder.as_os_str().is_empty());
    let mut builder = tempfile::Builder::new();
    builder.prefix(".snell-");
    let known = fs::metadata(&target).map(|metadata| metadata.permissions());
    #[cfg(unix)]
    let new = std::os::unix::fs::PermissionsExt::from_mode(0o666);
    #[cfg(unix)]
    builder.permissions(new);
    let mut fresh = builder.tempfile_in(folder.unwrap_or(Path::new(".")))?;
    fresh.write_all(bytes)?;
    if let Ok(known) = known {
        fresh.as_file().set_permissions(known)?;
    }
    fresh.persist(&target).map_err(|error| error.error)?;
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_that_changed_meanwhile_is_left_alone() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("a.rig");
        fs::write(&path, "theirs").unwrap();
        assert!(matches!(replace(&path, "read", "new"), Err(Unwritten::Changed)));
        assert_eq!(fs::read_to_string(&path).unwrap(), "theirs");
        replace(&path, "theirs", "new").unwrap();
        assert_eq!(fs::read_to_string(&path).unwrap(), "new");
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1);
    }

    #[cfg(unix)]
    #[test]
    fn permissions_and_links_stay() {
        use std::os::unix::fs::{PermissionsExt, symlink};
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("a.rig");
        let link = folder.path().join("link.rig");
        fs::write(&path, "old").unwrap();
        fs::set_permissions(&path, fs::Permissions::from_mode(0o640)).unwrap();
        symlink("a.rig", &link).unwrap();
        replace(&link, "old", "new").unwrap();
        assert_eq!(fs::read_to_string(&path).unwrap(), "new");
        assert_eq!(fs::metadata(&path).unwrap().permissions().mode() & 0o777, 0o640);
        assert!(fs::symlink_metadata(&link).unwrap().is_symlink());
        fs::set_permissions(&path, fs::Permissions::from_mode(0o440)).unwrap();
        assert!(matches!(replace(&link, "new", "newer"), Err(Unwritten::ReadOnly)));
    }
}
