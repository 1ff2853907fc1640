//! What is asked of git: where a repository is, what a revision holds, and how
//! it came about.
//!
//! The git program itself is asked, not a library: whoever has a history has
//! the program, it reads every format that a repository may be in, and a library
//! would add more to the build than all the rest of snell together. It is only
//! ever read from here; settings are `setup`'s.

mod blobs;
mod history;
pub mod setup;
mod tree;

pub use blobs::Blobs;
pub use history::Step;
pub use tree::{Tree, TreeDisk};

use crate::trouble::Trouble;
use std::ffi::OsStr;
use std::io;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

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
    /// There is no git program.
    pub fn of(folder: &Path) -> Result<Option<Self>, Trouble> {
        let mut command = Command::new("git");
        command
            .arg("-C")
            .arg(folder)
            .args(["rev-parse", "--show-toplevel", "--show-prefix"]);
        let output = command.stdin(Stdio::null()).output().map_err(not_started)?;
        if !output.status.success() {
            return Ok(None);
        }
        let told = String::from_utf8_lossy(&output.stdout).into_owned();
        let mut lines = told.lines();
        let top = lines.next().map(PathBuf::from).unwrap_or_default();
        let prefix = lines.next().unwrap_or_default().to_owned();
        Ok(Some(Self { top, prefix }))
    }

    /// The repository that a folder lies in.
    ///
    /// # Errors
    /// There is none, or no git program.
    pub fn needed(folder: &Path) -> Result<Self, Trouble> {
        Self::of(folder)?.ok_or_else(|| {
            let folder = folder.display();
            Trouble::Git(format!("`{folder}` lies in no git repository"))
        })
    }

    /// A git command run at the top of the working tree.
    pub fn command(&self, arguments: impl IntoIterator<Item = impl AsRef<OsStr>>) -> Command {
        let mut command = Command::new("git");
        command.arg("-C").arg(&self.top);
        command.arg("--no-optional-locks");
        command.args(arguments).stdin(Stdio::null());
        command
    }

    /// What a git command prints.
    ///
    /// # Errors
    /// It says no; in its own words.
    pub fn ask(&self, arguments: &[&str]) -> Result<Vec<u8>, Trouble> {
        let output = self.command(arguments).output().map_err(not_started)?;
        if output.status.success() {
            Ok(output.stdout)
        } else {
            let told = String::from_utf8_lossy(&output.stderr);
            let line = told.lines().next().unwrap_or("git failed");
            Err(Trouble::Git(line.trim_start_matches("fatal: ").to_owned()))
        }
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

/// Why git could not be started.
pub fn not_started(error: io::Error) -> Trouble {
    Trouble::Git(match error.kind() {
        io::ErrorKind::NotFound => "the program `git` is not on this machine's search path".to_owned(),
        _ => format!("git could not be started: {error}"),
    })
}
