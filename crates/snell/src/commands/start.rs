//! `snell start`: a first notebook that checks clean.
//!
//! It never writes over a file: if one is there, nothing is written.

use super::{Ended, Outcome, Session};
use crate::cli::Start;
use crate::trouble::Trouble;
use std::fs::{self, OpenOptions};
use std::io::Write;
use std::path::Path;

/// The files of a first notebook, by name.
const FILES: [(&str, &str); 2] = [
    ("rigs.rig", include_str!("../../start/rigs.rig")),
    ("spools.rig", include_str!("../../start/spools.rig")),
];

/// Runs the command.
///
/// # Errors
/// A file is there already, or the folder cannot be written.
pub fn run(options: &Start, session: &mut Session) -> Outcome {
    let folder = options.folder.strip_prefix(".").unwrap_or(&options.folder);
    let paths = FILES.map(|(name, text)| (folder.join(name), text));
    if let Some((there, _)) = paths.iter().find(|(path, _)| path.symlink_metadata().is_ok()) {
        return Err(Trouble::There(there.display().to_string()));
    }
    fs::create_dir_all(Path::new(".").join(folder)).map_err(|error| Trouble::unwritten(folder, error))?;
    for (path, text) in &paths {
        create(path, text).map_err(|error| Trouble::unwritten(path, error))?;
        writeln!(session.out, "wrote {}", path.display())?;
    }
    let here = if folder.as_os_str().is_empty() {
        String::new()
    } else {
        format!(" {}", quoted(folder))
    };
    let within = if here.is_empty() {
        String::new()
    } else {
        format!(" --in{here}")
    };
    writeln!(session.out, "\nnext:")?;
    writeln!(session.out, "  snell check{here}")?;
    writeln!(session.out, "  snell show stones-pair{within}")?;
    writeln!(
        session.out,
        "then open rigs.rig and make it yours; `snell why tippet` explains a word."
    )?;
    Ok(Ended::Well)
}

/// Fails if somebody made the file in the meantime.
fn create(path: &Path, text: &str) -> std::io::Result<()> {
    let mut file = OpenOptions::new().write(true).create_new(true).open(path)?;
    file.write_all(text.as_bytes())
}

/// A path as it may be pasted into a shell.
fn quoted(path: &Path) -> String {
    let path = path.display().to_string();
    if path
        .chars()
        .all(|letter| letter.is_alphanumeric() || "/\\.-_:".contains(letter))
    {
        path
    } else {
        format!("\"{path}\"")
    }
}
