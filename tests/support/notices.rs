//! The notices that go with the program because of what others wrote in it.

use crate::dependencies::{Dependency, shipped};
use crate::licences::taken;
use std::collections::BTreeMap;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

/// Where the notices lie: in the package of the program.
pub const NOTICES: &str = "crates/snell/NOTICES";

/// The notices of everything that is compiled into the program. A text that several packages share stands once.
///
/// # Errors
/// A package comes without the text of its licence, or cannot be read.
pub fn notices() -> io::Result<String> {
    let mut texts: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for dependency in shipped()? {
        for (of, text) in texts_of(&dependency)? {
            texts.entry(text).or_default().push(of);
        }
    }
    let mut sections: Vec<(Vec<String>, String)> = texts.into_iter().map(|(text, of)| (of, text)).collect();
    sections.sort();
    let mut page = "The program snell holds parts of the packages below, which others wrote. Each list of packages is \
                    followed by\nthe licence that they come under. snell itself comes under the licences in LICENSE.\n"
        .to_owned();
    for (of, text) in sections {
        page.push_str(&format!("\n{}\n\n", "=".repeat(80)));
        page.extend(of.iter().map(|of| format!("{of}\n")));
        page.push_str(&format!("\n{text}\n"));
    }
    Ok(page)
}

/// What one package asks to be handed on, each text with what it is of.
fn texts_of(dependency: &Dependency) -> io::Result<Vec<(String, String)>> {
    let named = format!("{} {}", dependency.name, dependency.version);
    let lacks = |what: &str| io::Error::other(format!("{named}: {what}"));
    let files = legal_files(&dependency.folder)?;
    let (at_top, deeper): (Vec<_>, Vec<_>) = files
        .iter()
        .partition(|(path, _)| path.parent() == Some(Path::new("")));
    let mut found = Vec::new();
    for licence in taken(&dependency.licence).map_err(|error| lacks(&error))? {
        let text = at_top
            .iter()
            .find(|(_, text)| joined(text).contains(licence.words))
            .ok_or_else(|| lacks(&format!("no text of {}", licence.name)))?;
        found.push((format!("{named} ({})", licence.name), text.1.clone()));
    }
    // Fonts and tables within a package come under licences of their own.
    for (path, text) in deeper {
        found.push((format!("{named}: {}", path.display()), text.clone()));
    }
    let notes = at_top.iter().filter(|(path, _)| is_called(path, &["notice"]));
    found.extend(notes.map(|(path, text)| (format!("{named}: {}", path.display()), text.clone())));
    Ok(found)
}

/// The files of a package that tell of licences, by their paths in it, in order.
fn legal_files(package: &Path) -> io::Result<Vec<(PathBuf, String)>> {
    let mut files = Vec::new();
    gather(package, Path::new(""), &mut files)?;
    files.sort();
    Ok(files)
}

fn gather(package: &Path, below: &Path, files: &mut Vec<(PathBuf, String)>) -> io::Result<()> {
    for entry in fs::read_dir(package.join(below))? {
        let entry = entry?;
        let path = below.join(entry.file_name());
        let legal = is_called(&path, &["licen", "notice", "unlicense", "ofl"]);
        if entry.file_type()?.is_dir() {
            // What only its own tests use does not reach the program.
            if !is_called(&path, &["tests", "benches", "examples"]) {
                gather(package, &path, files)?;
            }
        } else if legal && path.extension().is_none_or(|ending| ending != "rs") {
            files.push((path, tidied(&fs::read_to_string(entry.path())?)));
        }
    }
    Ok(())
}

/// Whether its name begins so, however it is written.
fn is_called(path: &Path, beginnings: &[&str]) -> bool {
    let name = path
        .file_name()
        .unwrap_or_default()
        .to_string_lossy()
        .to_lowercase();
    beginnings.iter().any(|beginning| name.starts_with(beginning))
}

/// Without what differs between copies of a text: ends of lines, spaces at them, empty lines around it.
fn tidied(text: &str) -> String {
    let lines: Vec<&str> = text
        .trim_start_matches('\u{FEFF}')
        .lines()
        .map(str::trim_end)
        .collect();
    lines.join("\n").trim_matches('\n').to_owned()
}

/// A text on one line, for words that go on over a line's end.
fn joined(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}
