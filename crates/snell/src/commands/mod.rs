//! The commands, one a module: each takes its options, does its work through
//! the notebook and says whether something was found.

pub mod card;
pub mod check;
pub mod compare;
pub mod cut;
pub mod draw;
pub mod drift;
pub mod export;
pub mod fill;
pub mod fit;
pub mod manual;
pub mod mdbook;
pub mod pandoc;
pub mod plan;
pub mod season;
pub mod serve;
pub mod shell;
pub mod show;
pub mod start;
pub mod tidy;
pub mod vary;
pub mod why;

use crate::screen::{StandardError, StandardOutput};
use crate::terminal::Colour;
use crate::trouble::Trouble;

/// What every command is given.
pub struct Session {
    /// Standard output.
    pub out: StandardOutput,
    /// When to colour.
    pub colour: Colour,
}

impl Session {
    /// Standard error.
    pub fn err(&self) -> StandardError {
        StandardError::stderr(self.colour)
    }
}

/// How a run ended.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Ended {
    /// All is well.
    Well,
    /// Something was found.
    Found,
}

impl Ended {
    /// Found, if so.
    pub fn found_if(found: bool) -> Self {
        if found { Self::Found } else { Self::Well }
    }
}

/// How a command ended, or why it could not do its work.
pub type Outcome = Result<Ended, Trouble>;
