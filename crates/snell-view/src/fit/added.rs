//! A rig that is added to its file, and why it may not be.

use schemars::JsonSchema;
use serde::Serialize;
use snell_finding::Edit;
use std::path::PathBuf;
use std::sync::Arc;

/// A rig to be put beside the one that it is made from.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Addition {
    /// Its name.
    pub name: String,
    /// Its lines, to be pasted.
    pub lines: String,
    /// Where it goes; or why it goes nowhere.
    #[serde(skip)]
    pub(super) place: Result<Edit, Unwritable>,
}

impl Addition {
    /// Whether it can go into its file, as far as that is seen without trying.
    ///
    /// # Errors
    /// Why it cannot.
    pub fn may_be_added(&self) -> Result<(), &Unwritable> {
        self.place.as_ref().map(|_| ())
    }
}

/// Why a rig is not put into its file.
#[derive(Clone, Debug, thiserror::Error, PartialEq, Eq)]
pub enum Unwritable {
    /// The rig has no head by which another could be made from it.
    #[error(
        "the rig has no name of its own: open it with a line `rig NAME`, so that another can be made from it"
    )]
    Nameless,
    /// The name stands for another rig.
    #[error("there is a rig `{0}` already: choose another name with `--name`")]
    Taken(String),
    /// It is no name.
    #[error("`{0}` is no name: a letter, then letters, figures and hyphens")]
    NoName(String),
    /// The water stands where the file does not see it.
    #[error(
        "the water `{water}` stands in `{file}`, which the rig's file does not use: put a `use` line for it at the top of it"
    )]
    OutOfSight {
        /// The water.
        water: String,
        /// Its file.
        file: String,
    },
    /// The rig came by standard input.
    #[error("standard input is no file to write to")]
    NoFile,
    /// The lines would not be read there as they are meant.
    #[error("its lines would not be read there as they are meant")]
    Misread,
    /// What is found of it there is not what was promised.
    #[error("written there it would come to `{0}`, which the fit does not know of")]
    Unpromised(String),
}

/// A file with a rig put into it.
#[derive(Clone, Debug)]
pub struct Added {
    /// The file.
    pub path: PathBuf,
    /// Its text as it was read.
    pub read: Arc<str>,
    /// Its text with the rig.
    pub now: String,
}
