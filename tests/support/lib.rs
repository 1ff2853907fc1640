//! What the cases share: the built program, folders that go away, a made-up
//! notebook, and texts written in other ways.

mod carets;
mod essence;
mod generated;
mod pieces;
mod program;
mod respelled;

pub use carets::{Mark, found, marked};
pub use essence::{Essence, essences};
use generated::Chance;
pub use generated::{FEWEST_RIGS, LINES_A_RIG, generated_notebook};
pub use pieces::PIECES;
pub use program::{Build, Peak, Ran, Run};
pub use respelled::{MANNERS, Manner, respelled};

use std::path::{Path, PathBuf};

/// The top folder of the project.
pub fn top() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .parent()
        .map(Path::to_owned)
        .unwrap_or_default()
}

pub mod judged;
pub mod reference;
mod rules_page;
pub mod vocabulary;

pub use rules_page::rules_page;
