//! `snell show`: rigs from rod to fly, in the form that was asked for.
//!
//! A word on its command line is a rig's name, FILE:RIG, or a path; which of
//! them is settled here.

use super::{Ended, Outcome, Session};
use crate::cli::{Show, UnitsShown};
use crate::forms::places::Places;
use crate::forms::text;
use crate::inputs;
use crate::sheet::{Form, Sheet, csv, html, json, markdown, plain};
use crate::terminal::{Stream, Terminal};
use crate::trouble::Trouble;
use notebook::view::{self, ShownRig, Units};
use notebook::{Disk, Kind, LocalDisk, Notebook};
use report::Level;
use std::io::{Write, stderr};
use std::path::{Path, PathBuf};

/// Runs the command.
///
/// # Errors
/// A path cannot be read, a rig is not there, or the output cannot be written.
pub fn run(options: &Show, session: &mut Session) -> Outcome {
    let words: Vec<Wanted> = options.rigs.iter().map(|word| Wanted::read(word)).collect();
    let paths = paths(&words, &options.within);
    let notebook = inputs::open(&paths, None)?;
    let rigs = wanted(&notebook, &words, options)?;
    let faulty = tell_faults(&notebook, &rigs, session)?;
    print(&rigs, options.form, session)?;
    Ok(Ended::found_if(faulty))
}

/// What a word on the command line asks for.
#[derive(Debug, PartialEq, Eq)]
enum Wanted {
    /// Rigs of a name.
    Name(String),
    /// A rig of a file.
    InFile(PathBuf, String),
    /// All rigs of a file or folder.
    All(PathBuf),
}

impl Wanted {
    fn read(word: &str) -> Self {
        let path = PathBuf::from(word);
        let is_path =
            word == inputs::STANDARD_INPUT || word.contains(['/', '\\']) || Kind::of(&path).is_some();
        if let Some((file, rig)) = word.rsplit_once(':').filter(|_| !path.exists())
            && !file.is_empty()
            && !rig.is_empty()
        {
            return Self::InFile(PathBuf::from(file), rig.to_owned());
        }
        if is_path || path.exists() {
            Self::All(path)
        } else {
            Self::Name(word.to_owned())
        }
    }
}

/// The paths to read: those of the words, and where names are looked up if there are names.
fn paths(words: &[Wanted], within: &[PathBuf]) -> Vec<PathBuf> {
    let mut paths: Vec<PathBuf> = words
        .iter()
        .filter_map(|word| match word {
            Wanted::Name(_) => None,
            Wanted::InFile(path, _) | Wanted::All(path) => Some(path.clone()),
        })
        .collect();
    if words.is_empty() || words.iter().any(|word| matches!(word, Wanted::Name(_))) {
        paths.extend_from_slice(within);
    }
    paths
}

fn wanted(notebook: &Notebook, words: &[Wanted], options: &Show) -> Result<Vec<ShownRig>, Trouble> {
    let units = match options.units {
        None => Units::Author,
        Some(UnitsShown::Imperial) => Units::Imperial,
        Some(UnitsShown::Metric) => Units::Metric,
        Some(UnitsShown::Both) => Units::Both,
    };
    let names = view::names(notebook);
    let everything: Vec<Wanted> = options.within.iter().cloned().map(Wanted::All).collect();
    let words = if words.is_empty() { &everything } else { words };
    for word in words {
        if !names.iter().any(|(name, file)| word.takes(name, file)) {
            return Err(word.missing(&names, &options.within));
        }
    }
    Ok(view::show(notebook, units, |name, file| {
        words.iter().any(|word| word.takes(name, file))
    }))
}

impl Wanted {
    fn takes(&self, name: &str, file: &str) -> bool {
        match self {
            Self::Name(wanted) => same_name(wanted, name),
            Self::InFile(path, wanted) => same_name(wanted, name) && is_within(Path::new(file), path),
            Self::All(path) => is_within(Path::new(file), path),
        }
    }

    /// Why there is no rig for it.
    fn missing(&self, names: &[(String, String)], within: &[PathBuf]) -> Trouble {
        let in_files = |path: &Path| {
            names
                .iter()
                .filter(|(_, file)| is_within(Path::new(file), path))
                .map(|(name, _)| name.as_str())
                .collect::<Vec<_>>()
        };
        let unknown = |name: &str, places: String, known: Vec<&str>| Trouble::Unknown {
            what: "rig",
            name: name.to_owned(),
            places,
            near: units::nearest(name, known).map(str::to_owned),
        };
        match self {
            Self::Name(name) => unknown(
                name,
                listed(within),
                names.iter().map(|(name, _)| name.as_str()).collect(),
            ),
            Self::InFile(path, name) => unknown(name, listed(std::slice::from_ref(path)), in_files(path)),
            Self::All(path) => Trouble::NoRig(listed(std::slice::from_ref(path))),
        }
    }
}

fn same_name(wanted: &str, name: &str) -> bool {
    wanted == name || wanted.to_lowercase() == name.to_lowercase()
}

/// Whether a file is the one at a path, or lies in the folder at it.
fn is_within(file: &Path, path: &Path) -> bool {
    if file == path {
        return true;
    }
    match (LocalDisk.real(file), LocalDisk.real(path)) {
        (Ok(file), Ok(path)) => file.starts_with(path),
        _ => false,
    }
}

fn listed(paths: &[PathBuf]) -> String {
    let told = |path: &PathBuf| match path.to_str() {
        Some(".") => "this folder".to_owned(),
        Some(inputs::STANDARD_INPUT) => "standard input".to_owned(),
        _ => format!("`{}`", path.display()),
    };
    paths.iter().map(told).collect::<Vec<_>>().join(", ")
}

/// Tells the faults of the files that are shown, apart from what is shown.
fn tell_faults(notebook: &Notebook, rigs: &[ShownRig], session: &Session) -> Result<bool, Trouble> {
    let mut findings = view::findings_of(notebook::check(notebook), notebook, rigs);
    findings.retain(|finding| finding.level == Level::Fault);
    if !findings.is_empty() {
        let terminal = Terminal::of(Stream::Err, session.colour);
        text::write(
            &mut stderr().lock(),
            &findings,
            &Places::new(notebook, &findings),
            &terminal,
        )?;
    }
    Ok(!findings.is_empty())
}

fn print(rigs: &[ShownRig], form: Form, session: &mut Session) -> Result<(), Trouble> {
    let out = &mut session.out;
    let sheets = || rigs.iter().map(Sheet::of);
    match form {
        Form::Table => {
            let terminal = Terminal::of(Stream::Out, session.colour);
            for (index, sheet) in sheets().enumerate() {
                let before = if index == 0 { "" } else { "\n" };
                write!(out, "{before}{}", plain::write(&sheet, &terminal))?;
            }
        }
        Form::Json => json::write(out, rigs)?,
        Form::Csv => csv::write(out, rigs)?,
        Form::Markdown => {
            for (index, sheet) in sheets().enumerate() {
                let before = if index == 0 { "" } else { "\n" };
                write!(out, "{before}{}", markdown::write(&sheet))?;
            }
        }
        Form::Html => write!(out, "{}", html::write(&sheets().collect::<Vec<_>>()))?,
    }
    Ok(())
}
