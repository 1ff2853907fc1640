//! What tables and pages say of a name, in Markdown, with the file that it
//! stands in.

use super::super::walk::ASKED;
use snell_analysis::Explained;
use snell_analysis::Notebook;
use snell_analysis::{Disk, LocalDisk};
use std::fmt::Write;
use std::path::Path;

/// An explanation as it is shown.
pub(super) fn explained(notebook: &Notebook, of: &Explained) -> String {
    let mut text = format!("**{}** `{}`", of.kind, of.name);
    if let Some(file) = of.file.as_deref().and_then(|file| elsewhere(notebook, file)) {
        let _ = write!(text, ", in {file}");
    }
    if !of.about.is_empty() {
        let _ = write!(text, "\n\n{}", of.about);
    }
    for (index, (word, fact)) in of.facts.iter().enumerate() {
        let before = if index == 0 { "\n\n" } else { "\n" };
        let colon = if fact.is_empty() { "" } else { ": " };
        let _ = write!(text, "{before}- {word}{colon}{fact}");
    }
    text
}

/// A file that is not the asked one, as it is called in the project.
fn elsewhere(notebook: &Notebook, file: &Path) -> Option<String> {
    let asked = notebook.document(ASKED)?;
    if asked.path == file {
        return None;
    }
    let project = LocalDisk.project(asked.real.as_deref().unwrap_or(&asked.path));
    let mut others = notebook.documents().iter();
    let real = others
        .find(|other| other.path == file)
        .and_then(|other| other.real.as_deref());
    let own = real.unwrap_or(file).strip_prefix(project).ok();
    let own = own.or_else(|| file.file_name().map(Path::new)).unwrap_or(file);
    Some(own.display().to_string())
}
