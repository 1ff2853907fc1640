//! What the cases share: the built program, folders that go away, a made-up
//! notebook, and texts written in other ways.

mod carets;
mod client;
pub mod dependencies;
mod editor_page;
mod essence;
mod generated;
pub mod hard;
mod history;
pub mod judged;
pub mod laws;
pub mod licences;
mod limits_page;
pub mod made;
pub mod notices;
mod pieces;
mod program;
pub mod readme;
pub mod recorded;
pub mod reference;
mod respelled;
mod rules_page;
mod script;
pub mod sources;
mod typist;
pub mod vocabulary;
pub mod widths;

pub use carets::{Mark, found, marked};
pub use client::Client;
pub use editor_page::{TOLD, editor_page};
pub use essence::{Essence, essences};
use generated::Chance;
pub use generated::{FEWEST_RIGS, LINES_A_RIG, generated_notebook};
pub use history::{History, True, generated_history};
pub use limits_page::limits_page;
pub use pieces::PIECES;
pub use program::{Build, Peak, Ran, Run};
pub use respelled::{MANNERS, Manner, respelled};
pub use rules_page::rules_page;
pub use script::{Edit, Script};
pub use typist::{BESIDE, Stroke, Typist};

use std::path::{Path, PathBuf};

/// The top folder of the project.
pub fn top() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .parent()
        .map(Path::to_owned)
        .unwrap_or_default()
}
