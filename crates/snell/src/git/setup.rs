//! How git is told to show rigs in their own terms: a line of `.gitattributes`
//! and settings of one repository. Nothing here asks; that is for the command.

use super::{Repository, not_started};
use crate::trouble::Trouble;
use std::fs;
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

/// Sets a repository up; what is there already stays. Gives what was done, a line each.
///
/// # Errors
/// The file cannot be written, or git says no.
pub fn set_up(repository: &Repository) -> Result<Vec<String>, Trouble> {
    let mut done = Vec::new();
    let path = attributes(repository);
    let old = match fs::read_to_string(&path) {
        Ok(text) => Some(text),
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => None,
        Err(error) => return Err(Trouble::unread(&path, error)),
    };
    if mark(&path, old.as_deref())? {
        done.push(format!("`{ATTRIBUTE}` in {}", path.display()));
    }
    for (name, value) in SETTINGS {
        let known = repository.ask(&["config", "--local", "--get", name]);
        if known.is_ok_and(|known| String::from_utf8_lossy(&known).trim() == value) {
            continue;
        }
        let status = repository.command(["config", "--local", name, value]).status();
        if !status.map_err(not_started)?.success() {
            return Err(Trouble::Git(format!("git does not take the setting `{name}`")));
        }
        done.push(format!("`{name}` in the repository's own settings"));
    }
    Ok(done)
}

/// Adds the line to the file, unless it is there.
fn mark(path: &std::path::Path, old: Option<&str>) -> Result<bool, Trouble> {
    let Some(old) = old else {
        fs::write(path, format!("{ATTRIBUTE}\n")).map_err(|error| Trouble::unwritten(path, error))?;
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
