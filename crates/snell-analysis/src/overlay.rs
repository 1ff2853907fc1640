//! The disk with other texts laid over it: what is being typed, or about to be
//! written, counts, not what was saved last.

use crate::disk::{Disk, LocalDisk, Unread};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Texts by their real path, over the disk of this machine. A copy is a snapshot and costs nothing.
#[derive(Clone, Debug, Default)]
pub struct Overlay {
    open: Arc<BTreeMap<PathBuf, Arc<str>>>,
}

impl Overlay {
    /// Lays a text over its file.
    pub fn lay(&mut self, path: &Path, text: Arc<str>) {
        Arc::make_mut(&mut self.open).insert(real_of(path), text);
    }

    /// Takes a text away, so that the file counts again.
    pub fn lift(&mut self, path: &Path) {
        Arc::make_mut(&mut self.open).remove(&real_of(path));
    }

    /// The text that is laid over a file.
    pub fn text(&self, path: &Path) -> Option<&Arc<str>> {
        self.open.get(&real_of(path))
    }
}

/// A path with every link followed, also of a file that was never saved: its folder's, and its name.
pub fn real_of(path: &Path) -> PathBuf {
    if let Ok(real) = LocalDisk.real(path) {
        return real;
    }
    let folder = path.parent().and_then(|folder| LocalDisk.real(folder).ok());
    match (folder, path.file_name()) {
        (Some(folder), Some(name)) => folder.join(name),
        _ => path.to_owned(),
    }
}

impl Disk for Overlay {
    fn read(&self, path: &Path) -> Result<String, Unread> {
        match self.text(path) {
            Some(text) => Ok(text.to_string()),
            None => LocalDisk.read(path),
        }
    }

    fn real(&self, path: &Path) -> Result<PathBuf, Unread> {
        let real = real_of(path);
        if self.open.contains_key(&real) {
            return Ok(real);
        }
        LocalDisk.real(path)
    }

    fn project(&self, real: &Path) -> PathBuf {
        LocalDisk.project(real)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_open_text_stands_before_its_file() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("a.rig");
        std::fs::write(&path, "rig saved\n").unwrap();
        let mut overlay = Overlay::default();
        assert_eq!(overlay.read(&path).unwrap(), "rig saved\n");
        overlay.lay(&path, Arc::from("rig typed\n"));
        assert_eq!(overlay.read(&path).unwrap(), "rig typed\n");
        let unsaved = folder.path().join("b.rig");
        overlay.lay(&unsaved, Arc::from("rig new\n"));
        assert_eq!(overlay.real(&unsaved).unwrap(), real_of(&unsaved));
        overlay.lift(&path);
        assert_eq!(overlay.read(&path).unwrap(), "rig saved\n");
    }
}
