//! The rigs that a command line asks for: by name, as FILE:RIG, or all of a
//! path; and the faults of the files that they stand in.
//!
//! What is done with a rig is for the command.

use crate::cli::{Rigs, UnitsShown};
use crate::commands::Session;
use crate::forms::text;
use crate::inputs;
use crate::terminal::{Stream, Terminal};
use crate::trouble::Trouble;
use snell_analysis::{Disk, Kind, LocalDisk, Notebook, rigs};
use snell_finding::{Level, Limit};
use snell_view::{Estimates, Places, Units};
use std::io::Write;
use std::path::{Path, PathBuf};

/// The rigs that are asked for, and the notebook that they stand in.
pub struct Picked {
    /// All files that were read.
    pub notebook: Notebook,
    words: Vec<Word>,
}

impl Picked {
    /// Reads the files that words name, or those within which names are looked up.
    ///
    /// # Errors
    /// A path cannot be read, or a rig is not there.
    pub fn read(rigs: &Rigs) -> Result<Self, Trouble> {
        let (words, within) = (&rigs.named, &rigs.within);
        let words: Vec<Word> = words.iter().map(|word| Word::read(word)).collect();
        let notebook = inputs::open(&paths(&words, within), None)?;
        let words = if words.is_empty() {
            within.iter().cloned().map(Word::All).collect()
        } else {
            words
        };
        let names = snell_view::names(&notebook);
        for word in &words {
            if !names.iter().any(|(name, file)| word.takes(name, file)) {
                return Err(word.missing(&names, within));
            }
        }
        Ok(Self { notebook, words })
    }

    /// Whether a rig is asked for, by its name and file.
    pub fn takes(&self, name: &str, file: &str) -> bool {
        self.words.iter().any(|word| word.takes(name, file))
    }

    /// Tells the faults of the picked rigs and of what they are made from, apart from what is printed; whether there
    /// are any.
    ///
    /// # Errors
    /// They cannot be written.
    pub fn tell_faults(&self, session: &Session) -> Result<bool, Trouble> {
        let findings = self.notebook.ask(|query| {
            let mut picked = rigs(query.world);
            picked.retain(|block| {
                let file = snell_view::file_of(&self.notebook, *block);
                self.takes(&snell_rig::rig::name(*block), &file)
            });
            let mut faults = query.findings_of(&picked);
            faults.retain(|finding| finding.level == Level::Fault);
            query.with_mends(faults)
        });
        if !findings.is_empty() {
            let terminal = Terminal::of(Stream::Err, session.colour);
            let places = Places::new(&self.notebook, &findings);
            text::write(&mut session.err(), &findings, &places, &terminal)?;
        }
        Ok(!findings.is_empty())
    }
}

/// Tells, apart from what is printed, where so many rigs are shown without a verdict.
///
/// # Errors
/// It cannot be written.
pub fn tell_bare(rigs: usize, session: &Session) -> Result<(), Trouble> {
    match snell_view::estimates_of(rigs) {
        Estimates::Between => {}
        Estimates::Bare => writeln!(
            session.err(),
            "more than {} rigs at once are shown without a verdict, and without what their estimates lie between: name \
             those that you want it of",
            Limit::DrawnRigs.count()
        )?,
    }
    Ok(())
}

/// The units that an option names; without it the author's.
pub fn units(option: Option<UnitsShown>) -> Units {
    match option {
        None => Units::Author,
        Some(UnitsShown::Imperial) => Units::Imperial,
        Some(UnitsShown::Metric) => Units::Metric,
        Some(UnitsShown::Both) => Units::Both,
    }
}

/// What a word on the command line asks for.
#[derive(Debug, PartialEq, Eq)]
enum Word {
    /// Rigs of a name.
    Name(String),
    /// A rig of a file.
    InFile(PathBuf, String),
    /// All rigs of a file or folder.
    All(PathBuf),
}

impl Word {
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
fn paths(words: &[Word], within: &[PathBuf]) -> Vec<PathBuf> {
    let mut paths: Vec<PathBuf> = words
        .iter()
        .filter_map(|word| match word {
            Word::Name(_) => None,
            Word::InFile(path, _) | Word::All(path) => Some(path.clone()),
        })
        .collect();
    if words.is_empty() || words.iter().any(|word| matches!(word, Word::Name(_))) {
        paths.extend_from_slice(within);
    }
    paths
}

impl Word {
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
            near: snell_units::nearest(name, known).map(str::to_owned),
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
