//! How git is told to show rigs in their own terms: a line of `.gitattributes`
//! and settings of one repository. Nothing here asks; that is for the command.

use crate::git::repository::Repository;
use crate::trouble::Trouble;
use snell_analysis::{Disk, LocalDisk, Unread};
use std::path::PathBuf;

/// The line that marks rig files.
pub const ATTRIBUTE: &str = "*.rig diff=rig";

/// The repository's settings, with what each does.
pub const SETTINGS: [(&str, &str); 3] = [
    ("diff.rig.command", "snell compare --git-diff"),
    ("diff.rig.textconv", "snell compare --git-text"),
    ("diff.rig.xfuncname", "^(rig .*)$"),
];

/// The file that marks rig files, at the top of the working tree.
pub fn attributes(repository: &Repository) -> PathBuf {
    repository.top.join(".gitattributes")
}

/// The file that holds the repository's settings.
fn settings(repository: &Repository) -> Result<PathBuf, Trouble> {
    let told = repository.ask(&["rev-parse", "--git-path", "config"])?;
    let path = String::from_utf8_lossy(&told);
    Ok(repository.top.join(path.trim_end_matches(['\r', '\n'])))
}

/// Sets a repository up; what is there already stays. Gives what was done, a line each.
///
/// # Errors
/// The file cannot be written, or git says no.
pub fn set_up(repository: &Repository) -> Result<Vec<String>, Trouble> {
    let mut done = Vec::new();
    let path = attributes(repository);
    for written in [&path, &settings(repository)?] {
        if written.is_symlink() {
            let why = "it is a link, which may lead anywhere; make it a file first";
            return Err(Trouble::unwritten(written, why));
        }
    }
    let old = match LocalDisk.read(&path) {
        Ok(text) => Some(text),
        Err(Unread::Missing) => None,
        Err(unread) => return Err(Trouble::unread(&path, unread)),
    };
    if mark(&path, old.as_deref())? {
        done.push(format!("`{ATTRIBUTE}` in {}", path.display()));
    }
    for (name, value) in SETTINGS {
        let known = repository.ask(&["config", "--local", "--get", name]);
        if known.is_ok_and(|known| String::from_utf8_lossy(&known).trim() == value) {
            continue;
        }
        repository.ask(&["config", "--local", name, value])?;
        done.push(format!("`{name}` in the repository's own settings"));
    }
    Ok(done)
}

/// Adds the line to the file, unless it is there.
fn mark(path: &std::path::Path, old: Option<&str>) -> Result<bool, Trouble> {
    let Some(old) = old else {
        crate::write::create(path, format!("{ATTRIBUTE}\n").as_bytes())
            .map_err(|error| Trouble::unwritten(path, error))?;
        return Ok(true);
    };
    let there = |line: &str| line.split_whitespace().eq(ATTRIBUTE.split_whitespace());
    if old.lines().any(there) {
        return Ok(false);
    }
    let end = if old.contains("\r\n") { "\r\n" } else { "\n" };
    let gap = if old.is_empty() || old.ends_with('\n') {
        ""
    } else {
        end
    };
    let new = format!("{old}{gap}{ATTRIBUTE}{end}");
    crate::write::replace(path, old, &new).map_err(|error| Trouble::unwritten(path, error))?;
    Ok(true)
}
