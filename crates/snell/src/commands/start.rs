//! `snell start`: a first notebook that checks clean.
//!
//! It never writes over a file: if one is there, nothing is written. Git is set
//! up only where its owner says so.

use super::{Ended, Outcome, Session};
use crate::cli::Start;
use crate::git::{Repository, setup};
use crate::prose::printable;
use crate::trouble::Trouble;
use crate::write;
use snell_analysis::{Disk, LocalDisk};
use std::fs;
use std::io::{IsTerminal, Write, stdin, stdout};
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
    let there = |path: &Path| path.symlink_metadata().is_ok();
    // What an earlier start wrote before it was ended is not in the way.
    let ours = |path: &Path, text: &str| LocalDisk.read(path).is_ok_and(|read| read == text);
    let left: Vec<_> = paths.iter().filter(|(path, text)| !ours(path, text)).collect();
    let in_the_way = match left.as_slice() {
        [] => paths.first(),
        left => left.iter().copied().find(|(path, _)| there(path)),
    };
    if let Some((path, _)) = in_the_way {
        return match options.git {
            // The notebook is there already: only git is left to do.
            true => set_up(folder, session).map(|()| Ended::Well),
            false => Err(Trouble::There(path.display().to_string())),
        };
    }
    fs::create_dir_all(Path::new(".").join(folder)).map_err(|error| Trouble::unwritten(folder, error))?;
    for (path, text) in left {
        write::create(path, text.as_bytes()).map_err(|error| Trouble::unwritten(path, error))?;
        writeln!(session.out, "wrote {}", printable(&path.display().to_string()))?;
    }
    offer_git(options, folder, session)?;
    let here = at(folder);
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

/// Sets git up if that is asked for, or asks; a script is told how to ask.
fn offer_git(options: &Start, folder: &Path, session: &mut Session) -> Result<(), Trouble> {
    if options.git {
        return set_up(folder, session);
    }
    if options.no_git {
        return Ok(());
    }
    // Without git, or outside of a repository, there is nothing to offer.
    let Ok(Some(repository)) = Repository::of(&Path::new(".").join(folder)) else {
        return Ok(());
    };
    if !(stdin().is_terminal() && stdout().is_terminal()) {
        writeln!(
            session.out,
            "\nthis is a git repository: `snell start --git{}` makes `git diff` tell what changed in a rig's own terms",
            at(folder)
        )?;
        return Ok(());
    }
    let path = setup::attributes(&repository);
    writeln!(
        session.out,
        "\ngit can tell what changed in a rig's own terms. That takes the line `{}` in {}\nand {} settings of this \
         repository alone:",
        setup::ATTRIBUTE,
        path.display(),
        setup::SETTINGS.len()
    )?;
    for (name, value) in setup::SETTINGS {
        writeln!(session.out, "  {name} = {value}")?;
    }
    write!(session.out, "Set it up? [y/N] ")?;
    session.out.flush()?;
    let mut answer = String::new();
    if stdin().read_line(&mut answer)? == 0 {
        // Whoever ended the input has typed no line end.
        writeln!(session.out)?;
    }
    if matches!(answer.trim().to_lowercase().as_str(), "y" | "yes") {
        set_up(folder, session)
    } else {
        writeln!(
            session.out,
            "git is left as it is; `snell start --git{}` does it later",
            at(folder)
        )?;
        Ok(())
    }
}

fn set_up(folder: &Path, session: &mut Session) -> Result<(), Trouble> {
    let repository = Repository::needed(&Path::new(".").join(folder))?;
    let done = setup::set_up(&repository)?;
    if done.is_empty() {
        writeln!(session.out, "git is set up already")?;
    }
    for one in done {
        writeln!(session.out, "set {one}")?;
    }
    Ok(())
}

/// The folder as the last word of a command line.
fn at(folder: &Path) -> String {
    if folder.as_os_str().is_empty() {
        String::new()
    } else {
        format!(" {}", quoted(folder))
    }
}

/// A path as it may be pasted into a shell: between single quotes nothing is run, in POSIX shells and in PowerShell.
fn quoted(path: &Path) -> String {
    let path = printable(&path.display().to_string()).into_owned();
    // A name that begins like an option is none behind `./`.
    let path = if path.starts_with('-') {
        format!("./{path}")
    } else {
        path
    };
    if path
        .chars()
        .all(|letter| letter.is_alphanumeric() || "/\\.-_:".contains(letter))
    {
        path
    } else if cfg!(windows) {
        format!("'{}'", path.replace('\'', "''"))
    } else {
        format!("'{}'", path.replace('\'', r"'\''"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[cfg(unix)]
    #[test]
    fn a_pasted_path_runs_nothing() {
        for name in [
            "a b",
            "$(touch x)",
            "`touch x`",
            "it's",
            "a\"b",
            "\\",
            "a;b",
            "!x",
        ] {
            let told = std::process::Command::new("sh")
                .args(["-c", &format!("printf %s {}", quoted(Path::new(name)))])
                .output()
                .expect("there is a shell");
            assert_eq!(String::from_utf8_lossy(&told.stdout), name);
        }
        assert_eq!(quoted(Path::new("-n")), "./-n");
        assert!(!quoted(Path::new("a\nb")).contains('\n'));
    }
}
