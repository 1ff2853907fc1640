//! What git calls: its external diff, and its textconv.
//!
//! Neither is told the revision that a text comes from, so `use` lines are
//! followed in the working tree, for both sides alike.

use crate::commands::{Ended, Outcome, Session};
use crate::comparison::{lines, text};
use crate::git::Repository;
use crate::terminal::{Stream, Terminal};
use crate::trouble::Trouble;
use snell_analysis::{Disk, Kind, LocalDisk, Notebook};
use snell_view::compare::{State, compare};
use std::io::Write;
use std::path::{Path, PathBuf};

/// What stands for a file that is not there. Source: git(1), GIT_EXTERNAL_DIFF.
const NOTHING: &str = "/dev/null";

/// `PATH OLD-FILE OLD-HEX OLD-MODE NEW-FILE NEW-HEX NEW-MODE`, two more words where a file was renamed, the path
/// alone where it is unmerged. Source: git(1), GIT_EXTERNAL_DIFF.
pub fn diff(words: &[String], session: &mut Session) -> Outcome {
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    let (path, old, new, new_path) = match words.as_slice() {
        [path] => {
            writeln!(session.out, "{path}: not merged yet")?;
            return Ok(Ended::Well);
        }
        [path, old, _, _, new, _, _] => (*path, *old, *new, *path),
        [path, old, _, _, new, _, _, new_path, ..] => (*path, *old, *new, *new_path),
        _ => return Err(Trouble::NotFromGit("git-diff")),
    };
    let was = state(path, old)?;
    let now = state(new_path, new)?;
    let terminal = Terminal::of(Stream::Out, session.colour);
    let heading = match (old, new) {
        (NOTHING, _) => format!("{new_path} (new file)"),
        (_, NOTHING) => format!("{path} (file removed)"),
        _ if path != new_path => format!("{new_path} (was {path})"),
        _ => path.to_owned(),
    };
    writeln!(session.out, "{}", terminal.quiet(&format!("--- {heading}")))?;
    let comparison = compare(&was, &now);
    if comparison.is_empty() {
        writeln!(session.out, "  only the writing changed; every rig is the same")?;
    }
    session
        .out
        .write_all(text::write(&comparison, &terminal).as_bytes())?;
    writeln!(session.out)?;
    Ok(Ended::Well)
}

fn state(path: &str, file: &str) -> Result<State, Trouble> {
    if file == NOTHING {
        return Ok(State::default());
    }
    let notebook = as_if_at(Path::new(path), Path::new(file))?;
    let own = path.to_owned();
    let mut state = State::of(&notebook, |_, file| file == own);
    state.blocks.retain(|block| block.file == own);
    Ok(state)
}

/// Prints the rigs of a file in lines that can be compared.
pub fn text(file: &Path, session: &mut Session) -> Outcome {
    let path = stands_at(file)?.unwrap_or_else(|| file.to_owned());
    let notebook = as_if_at(&path, file)?;
    let own = path.display().to_string();
    let mut state = State::of(&notebook, |_, file| file == own);
    state.blocks.retain(|block| block.file == own);
    session
        .out
        .write_all(lines::write(&state.cards, &state.blocks).as_bytes())?;
    Ok(Ended::Well)
}

/// The notebook of a file's text, read as if it stood at `path`.
fn as_if_at(path: &Path, file: &Path) -> Result<Notebook, Trouble> {
    let kind = Kind::of(path).unwrap_or(Kind::Rig);
    let text = match LocalDisk.read(file) {
        Ok(text) => text,
        Err(snell_analysis::Unread::NotUtf8(sound)) => sound,
        Err(unread) => return Err(Trouble::unread(file, unread)),
    };
    Ok(Notebook::of_text(path, kind, text, &LocalDisk))
}

/// Where in the working tree a text belongs that git laid down somewhere else: git keeps the file's name, and if
/// the tree has one file of that name, that is the one.
fn stands_at(file: &Path) -> Result<Option<PathBuf>, Trouble> {
    let Some(repository) = Repository::of(Path::new("."))? else {
        return Ok(None);
    };
    let real = file
        .canonicalize()
        .map_err(|error| Trouble::unread(file, error))?;
    let top = repository
        .top
        .canonicalize()
        .map_err(|error| Trouble::unread(&repository.top, error))?;
    if real.starts_with(top) {
        return Ok(None);
    }
    let told = repository.ask(&["ls-files", "-z", "--full-name"])?;
    let names = told
        .split(|byte| *byte == 0)
        .filter_map(|name| std::str::from_utf8(name).ok());
    let mut alike = names.filter(|name| Path::new(name).file_name() == file.file_name());
    match (alike.next(), alike.next()) {
        (Some(one), None) => Ok(Some(repository.top.join(one))),
        _ => Ok(None),
    }
}
