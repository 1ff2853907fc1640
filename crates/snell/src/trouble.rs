//! Why the tool could not do its work, each told in one plain line.
//!
//! These are not findings about a rig; they end a run with status 2.

use crate::prose::printable;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// What went wrong.
#[derive(Debug, thiserror::Error)]
pub enum Trouble {
    /// A file was not read.
    #[error("`{path}` was not read: {why}")]
    Unread {
        /// The file as it was named.
        path: String,
        /// Why.
        why: String,
    },
    /// A file was not written.
    #[error("`{path}` was not written: {why}")]
    Unwritten {
        /// The file as it was named.
        path: String,
        /// Why.
        why: String,
    },
    /// Standard input stands beside other paths.
    #[error("`-` reads standard input and stands alone: leave the other paths out")]
    InputNotAlone,
    /// Mends are asked for where no file is.
    #[error("`--mend` changes files, and standard input is none: name a file, or leave `--mend` out")]
    NothingToMend,
    /// What was skipped has no place in a form.
    #[error("`--skipped` goes with the forms text and json: the others hold findings only")]
    NoSkipped,
    /// Pictures have no files of their own in a form.
    #[error("`--pictures` goes with the form markdown: an HTML page holds its pictures itself")]
    NoPictureFiles,
    /// Words for a picture go with a fragment.
    #[error("`--alt` goes with the form fragment")]
    NoAlt,
    /// Only a page of rigs is made for a class.
    #[error("`--class` goes with the form html")]
    NoClass,
    /// A name means nothing here.
    #[error("there is no {what} `{name}`{}{}", within(.places), meant(.near.as_deref()))]
    Unknown {
        /// What was looked for.
        what: &'static str,
        /// The name.
        name: String,
        /// Where it was looked for; empty where that is plain.
        places: String,
        /// The nearest name.
        near: Option<String>,
    },
    /// What stands instead of a rig's own figure is none.
    #[error("{0}")]
    NoQuantity(String),
    /// Several cards in a form that holds one.
    #[error("an SVG holds one card: name one rig, or write files with `-o`")]
    NotOneCard,
    /// A rig has no card to be drawn.
    #[error("there is no card of `{rig}` without {needs}")]
    NoCard {
        /// The rig.
        rig: String,
        /// What is missing.
        needs: String,
    },
    /// There is nothing to show.
    #[error("there is no rig in {0}")]
    NoRig(String),
    /// Nothing can be taken off the spools.
    #[error("nothing was taken: {0}")]
    NotTaken(String),
    /// A file that is to be filled is no page.
    #[error("`{0}` is no Markdown page: name a file that ends in `.md` or `.markdown`")]
    NoPage(String),
    /// What another program wrote is not what it says.
    #[error("standard input holds no {what}: {why}")]
    NotRead {
        /// What should have come.
        what: &'static str,
        /// What is wrong with it.
        why: String,
    },
    /// A fitted rig is not put into its file.
    #[error("the rig was not added: {0}")]
    NotAdded(String),
    /// A picture is asked for in a form that there is none of.
    #[error("`{0}` says no form of picture: end it in `.svg`, `.png` or `.pdf`")]
    NoPicture(String),
    /// What is there already would be written over.
    #[error("`{0}` is there already, so nothing was written; choose an empty folder")]
    There(String),
    /// Git is not there, or says no.
    #[error("{0}")]
    Git(String),
    /// Git called with other words than it does.
    #[error("`--{0}` is called by git itself, with the words that its manual lists under GIT_EXTERNAL_DIFF")]
    NotFromGit(&'static str),
    /// Nobody reads the output any more, or it cannot be written.
    #[error("the output could not be written: {0}")]
    Output(#[from] io::Error),
    /// Data could not be put into its form.
    #[error("the output could not be written: {0}")]
    Form(String),
}

fn within(places: &str) -> String {
    if places.is_empty() {
        String::new()
    } else {
        format!(" in {places}")
    }
}

fn meant(near: Option<&str>) -> String {
    near.map_or_else(String::new, |near| format!("; did you mean `{near}`?"))
}

impl Trouble {
    /// A file was not read.
    pub fn unread(path: &Path, why: impl ToString) -> Self {
        Self::Unread {
            path: path.display().to_string(),
            why: why.to_string(),
        }
    }

    /// A file was not written.
    pub fn unwritten(path: &Path, why: impl ToString) -> Self {
        Self::Unwritten {
            path: path.display().to_string(),
            why: why.to_string(),
        }
    }

    /// Tells it on standard error. If that is gone as well, the exit status must do.
    pub fn tell(&self) {
        let _ = writeln!(io::stderr(), "snell: {}", printable(&self.to_string()));
    }

    /// Whether only the reader of the output went away, as `head` does.
    pub fn is_broken_pipe(&self) -> bool {
        matches!(self, Self::Output(error) if error.kind() == io::ErrorKind::BrokenPipe)
    }
}

impl From<(PathBuf, snell_analysis::Unread)> for Trouble {
    fn from((path, unread): (PathBuf, snell_analysis::Unread)) -> Self {
        Self::unread(&path, unread)
    }
}

impl From<serde_json::Error> for Trouble {
    fn from(error: serde_json::Error) -> Self {
        match error.io_error_kind() {
            Some(kind) => Self::Output(kind.into()),
            None => Self::Form(error.to_string()),
        }
    }
}

impl From<csv::Error> for Trouble {
    fn from(error: csv::Error) -> Self {
        match error.into_kind() {
            csv::ErrorKind::Io(error) => Self::Output(error),
            other => Self::Form(format!("{other:?}")),
        }
    }
}
