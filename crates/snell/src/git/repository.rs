//! A repository as git sees it: where its files are, and asking it.

use super::program;
use crate::trouble::Trouble;
use std::ffi::OsStr;
use std::path::{Path, PathBuf};
use std::process::Command;

/// A repository with its working tree.
#[derive(Clone, Debug)]
pub struct Repository {
    /// The top of its working tree.
    pub top: PathBuf,
    /// The asking folder below it, with a slash behind it; empty at the top.
    pub prefix: String,
}

impl Repository {
    /// The repository that a folder lies in; `None` where it lies in none.
    ///
    /// # Errors
    /// There is no git program, or there is a repository that cannot be used, and why.
    pub fn of(folder: &Path) -> Result<Option<Self>, Trouble> {
        let asked = ["rev-parse", "--show-toplevel", "--show-prefix"];
        let told = match program::run(program::command(folder, asked))? {
            Ok(told) => told,
            Err(complaint) if complaint.starts_with("not a git repository") => return Ok(None),
            Err(complaint) => return Err(Trouble::Git(unusable(folder, &complaint))),
        };
        let told = String::from_utf8_lossy(&told).into_owned();
        let mut lines = told.lines();
        let top = lines.next().map(PathBuf::from).unwrap_or_default();
        let prefix = lines.next().unwrap_or_default().to_owned();
        if !is_top(&top, folder) {
            let (folder, top) = (folder.display(), top.display());
            return Err(Trouble::Git(format!(
                "the git repository at `{folder}` says that its files lie in `{top}`, which is not where it is; \
                 it is not used"
            )));
        }
        Ok(Some(Self { top, prefix }))
    }

    /// The repository that a folder lies in.
    ///
    /// # Errors
    /// There is none, it cannot be used, or there is no git program.
    pub fn needed(folder: &Path) -> Result<Self, Trouble> {
        Self::of(folder)?.ok_or_else(|| {
            let folder = folder.display();
            Trouble::Git(format!("`{folder}` lies in no git repository"))
        })
    }

    /// A git command run at the top of the working tree.
    pub fn command(&self, arguments: impl IntoIterator<Item = impl AsRef<OsStr>>) -> Command {
        program::command(&self.top, arguments)
    }

    /// What a git command prints.
    ///
    /// # Errors
    /// It says no; in its own words.
    pub fn ask(&self, arguments: &[&str]) -> Result<Vec<u8>, Trouble> {
        program::run(self.command(arguments))?.map_err(Trouble::Git)
    }

    /// Whether older commits were left out when this clone was made.
    ///
    /// # Errors
    /// Git says no.
    pub fn is_shallow(&self) -> Result<bool, Trouble> {
        let told = self.ask(&["rev-parse", "--is-shallow-repository"])?;
        Ok(String::from_utf8_lossy(&told).trim() == "true")
    }

    /// Whether commits of it stand for others, by `git replace` or by a file of grafts, so that what git tells of its
    /// history is not what was committed.
    ///
    /// # Errors
    /// Git says no.
    pub fn is_grafted(&self) -> Result<bool, Trouble> {
        let replaced = self.ask(&["for-each-ref", "--count=1", "refs/replace/"])?;
        let told = self.ask(&["rev-parse", "--git-path", "info/grafts"])?;
        let grafts = String::from_utf8_lossy(&told);
        let grafts = self.top.join(grafts.trim_end_matches(['\r', '\n']));
        Ok(!replaced.is_empty() || grafts.symlink_metadata().is_ok())
    }

    /// The commit that a word names; `None` where it names none.
    pub fn commit(&self, word: &str) -> Option<String> {
        if word.is_empty() || word.starts_with('-') {
            return None;
        }
        let wanted = format!("{word}^{{commit}}");
        let told = self.ask(&["rev-parse", "--verify", "--quiet", &wanted]).ok()?;
        Some(String::from_utf8_lossy(&told).trim().to_owned())
    }
}

/// Whether the top of a working tree is where its repository lies. A repository's settings may name any folder of
/// the machine, and files would be read and written there.
pub(super) fn is_top(top: &Path, folder: &Path) -> bool {
    if std::env::var_os("GIT_DIR").is_some() {
        // Whoever started us named the repository.
        return true;
    }
    let (Ok(top), Ok(folder)) = (snell_analysis::real(top), snell_analysis::real(folder)) else {
        return false;
    };
    folder.starts_with(&top) && top.join(".git").symlink_metadata().is_ok()
}

/// Why a repository that is there cannot be used, with the way out.
pub(super) fn unusable(folder: &Path, complaint: &str) -> String {
    let folder = folder.display();
    if complaint.contains("dubious ownership") {
        format!(
            "the git repository at `{folder}` belongs to somebody else, so git does not trust it; \
             if you do, run `git config --global --add safe.directory` with its path"
        )
    } else if complaint.contains("bare repository") || complaint.contains("work tree") {
        format!("the git repository at `{folder}` is bare: it has no files to look at; clone it first")
    } else {
        complaint.to_owned()
    }
}
