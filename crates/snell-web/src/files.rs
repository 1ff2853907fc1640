//! The files of a page: texts by name, and nothing else.

use snell_analysis::{Disk, FILE_LIMIT, Unread, without_turns};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// The folder that all of them are said to lie in.
const TOP: &str = "/";

/// Texts by their path below [`TOP`].
#[derive(Debug, Default)]
pub struct Files(BTreeMap<PathBuf, Arc<str>>);

fn below_top(path: &Path) -> PathBuf {
    without_turns(&Path::new(TOP).join(path))
}

/// The name by which the page knows the file of a path.
#[cfg(feature = "editor")]
pub fn name(path: &Path) -> String {
    path.strip_prefix(TOP)
        .unwrap_or(path)
        .to_string_lossy()
        .into_owned()
}

impl Files {
    /// Puts a text there, or its next state; whether that changed anything.
    pub fn put(&mut self, name: &str, text: &str) -> bool {
        let path = below_top(Path::new(name));
        if self.0.get(&path).is_some_and(|known| **known == *text) {
            return false;
        }
        self.0.insert(path, text.into());
        true
    }

    /// All names.
    #[cfg(feature = "editor")]
    pub fn names(&self) -> impl Iterator<Item = String> {
        self.0.keys().map(|path| name(path))
    }

    pub fn remove(&mut self, name: &str) {
        self.0.remove(&below_top(Path::new(name)));
    }
}

impl Disk for Files {
    fn read(&self, path: &Path) -> Result<String, Unread> {
        match self.0.get(&below_top(path)) {
            Some(text) if text.len() as u64 > FILE_LIMIT => Err(Unread::TooLarge),
            Some(text) => Ok(text.to_string()),
            None => Err(Unread::Missing),
        }
    }

    fn real(&self, path: &Path) -> Result<PathBuf, Unread> {
        let path = below_top(path);
        match self.0.contains_key(&path) {
            true => Ok(path),
            false => Err(Unread::Missing),
        }
    }

    fn project(&self, _: &Path) -> PathBuf {
        TOP.into()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_leads_to_its_text_and_no_further() {
        let mut files = Files::default();
        assert!(files.put("a/b.rig", "rig a\n"));
        assert!(!files.put("a/./b.rig", "rig a\n"));
        assert_eq!(
            files.read(Path::new("/a/c/../b.rig")).unwrap_or_default(),
            "rig a\n"
        );
        assert!(matches!(
            files.read(Path::new("/etc/passwd")),
            Err(Unread::Missing)
        ));
        files.remove("a/b.rig");
        assert!(files.real(Path::new("a/b.rig")).is_err());
    }
}
