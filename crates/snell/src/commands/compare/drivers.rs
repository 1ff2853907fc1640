//! What git calls: its external diff, and its textconv.
//!
//! Git hands over texts, not commits. So each text is read in a state of the files
//! that it stood in, with the files that it uses as they were there. Where it
//! stood beside others as well, and they make a difference, that is said.

use super::standing::{self, Read, Side};
use crate::commands::{Ended, Outcome, Session};
use crate::comparison::{lines, text};
use crate::git::{Asked, Origin, Repository, is_none};
use crate::terminal::{Stream, Terminal};
use crate::trouble::Trouble;
use snell_view::compare::{Card, compare};
use std::io::Write;
use std::path::{Path, PathBuf};

/// What stands for a file that is not there. Source: git(1), GIT_EXTERNAL_DIFF.
const NOTHING: &str = "/dev/null";

/// One side of a diff as git names it.
#[derive(Clone, Copy)]
struct Given<'g> {
    path: &'g str,
    file: &'g str,
    id: &'g str,
}

/// `PATH OLD-FILE OLD-HEX OLD-MODE NEW-FILE NEW-HEX NEW-MODE`, two more words where a file was renamed, the path
/// alone where it is unmerged. Source: git(1), GIT_EXTERNAL_DIFF.
pub fn diff(words: &[String], session: &mut Session) -> Outcome {
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    let given = |path, file, id| Given { path, file, id };
    let (was, now) = match words.as_slice() {
        [path] => {
            writeln!(session.out, "{path}: not merged yet")?;
            return Ok(Ended::Well);
        }
        [path, old, old_id, _, new, new_id, _] => (given(path, old, old_id), given(path, new, new_id)),
        [path, old, old_id, _, new, new_id, _, new_path, ..] => {
            (given(path, old, old_id), given(new_path, new, new_id))
        }
        _ => return Err(Trouble::NotFromGit("git-diff")),
    };
    let (before, after) = both(was, now)?;
    let terminal = Terminal::of(Stream::Out, session.colour);
    let heading = match (was.file, now.file) {
        (NOTHING, _) => format!("{} (new file)", now.path),
        (_, NOTHING) => format!("{} (file removed)", was.path),
        _ if was.path != now.path => format!("{} (was {})", now.path, was.path),
        _ => now.path.to_owned(),
    };
    writeln!(session.out, "{}", terminal.quiet(&format!("--- {heading}")))?;
    for (side, read) in [("earlier", &before), ("later", &after)] {
        if let Some(doubt) = &read.doubt {
            writeln!(session.out, "  the {side} side: {doubt}")?;
        }
    }
    let comparison = compare(&before.state, &after.state);
    if comparison.is_empty() {
        writeln!(session.out, "  only the writing changed; every rig is the same")?;
    }
    session
        .out
        .write_all(text::write(&comparison, &terminal).as_bytes())?;
    writeln!(session.out)?;
    Ok(Ended::Well)
}

/// Both sides, each read where it stood: in one commit and the one before it, where that is the change.
fn both(was: Given<'_>, now: Given<'_>) -> Result<(Read, Read), Trouble> {
    let Some(repository) = Repository::of(Path::new("."))? else {
        return Ok((alone(was)?, alone(now)?));
    };
    let origins = repository.origins(Asked::Paths(&[was.path, now.path]))?;
    let side = |given: Given<'_>, origins: Vec<Origin>| match given.file {
        NOTHING => Ok(Read::default()),
        _ => standing::read(
            &repository,
            &Side {
                path: Path::new(given.path),
                file: Path::new(given.file),
                id: given.id,
            },
            &origins,
        ),
    };
    // The working tree is held against what is staged, which is most often what was committed last.
    let working = now.file != NOTHING && is_none(now.id);
    if !working {
        let pairs = origins.of_pair((was.path, was.id), (now.path, now.id));
        if !pairs.is_empty() {
            let (before, after) = pairs.into_iter().unzip();
            return Ok((side(was, before)?, side(now, after)?));
        }
    }
    let mut before = origins.of_text(was.path, was.id);
    if working && before.contains(&Origin::Staged) {
        before = vec![Origin::Staged];
    }
    let after = if working {
        vec![Origin::Working]
    } else {
        origins.of_text(now.path, now.id)
    };
    Ok((side(was, before)?, side(now, after)?))
}

/// A side outside of any repository.
fn alone(given: Given<'_>) -> Result<Read, Trouble> {
    if given.file == NOTHING {
        return Ok(Read::default());
    }
    standing::on_disk(Path::new(given.path), Path::new(given.file))
}

/// Prints the rigs of a file in lines that can be compared.
pub fn text(file: &Path, session: &mut Session) -> Outcome {
    let Read { state, doubt } = found(file)?;
    let cards: Vec<Card> = state.cards.iter().map(|card| state.whole(card)).collect();
    session
        .out
        .write_all(lines::write(&cards, &state.blocks).as_bytes())?;
    if let Some(doubt) = doubt {
        writeln!(session.out, "({doubt})")?;
    }
    Ok(Ended::Well)
}

/// A text that git laid down somewhere: all that it kept is the file's name, so it is found by what it holds.
fn found(file: &Path) -> Result<Read, Trouble> {
    let Some(repository) = Repository::of(Path::new("."))? else {
        return standing::on_disk(file, file);
    };
    let canonical = |path: &Path| snell_analysis::real(path).map_err(|error| Trouble::unread(path, error));
    let (real, top) = (canonical(file)?, canonical(&repository.top)?);
    let id = repository.id_of(&real)?;
    let origins = repository.origins(Asked::Text(&id))?;
    let here = real.strip_prefix(&top).ok().map(Path::to_owned);
    let mut paths: Vec<PathBuf> = match &here {
        Some(path) => vec![path.clone()],
        None => origins.paths(&id),
    };
    if here.is_none() {
        paths.retain(|path| path.file_name() == file.file_name());
    }
    let mut reads: Vec<Read> = Vec::new();
    for path in &paths {
        let stood = origins.of_text(&path.display().to_string(), &id);
        let stood = if stood.is_empty() && here.is_some() {
            vec![Origin::Working]
        } else {
            stood
        };
        let side = Side { path, file, id: &id };
        reads.push(standing::read(&repository, &side, &stood)?);
    }
    let mut reads = reads.into_iter();
    let Some(mut first) = reads.next() else {
        return standing::nowhere(&repository, file);
    };
    let written = |read: &Read| lines::write(&read.state.cards, &read.state.blocks);
    if reads.any(|read| written(&read) != written(&first)) {
        first.doubt = Some(format!(
            "read as {}; the same text stands in other folders too, beside other files",
            paths[0].display()
        ));
    }
    Ok(first)
}
