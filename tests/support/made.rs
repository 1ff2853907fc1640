//! Every file of the project that is made by a program and kept beside those
//! that people write: pages of the language, word lists of editors, what the
//! README's commands print, what fills the article of the examples, the
//! notices of what others wrote, and the copy of the grammar that a package
//! contains.
//!
//! `cargo refresh` writes them; a test fails where one is stale.

use crate::{
    Build, Run, editor_page, licences, limits_page, notices, readme, reference, rules_page, top, vocabulary,
    widths,
};
use std::{fs, io};

/// The command that makes all of them anew.
pub const REFRESH: &str = "cargo refresh";

/// A file that is made.
pub struct Page {
    /// Below the top folder.
    pub path: String,
    /// What it should hold today.
    pub text: String,
}

/// All of them as they should be today.
///
/// # Errors
/// A file that one of them is made from cannot be read, or has a marker that nothing fills.
pub fn pages() -> io::Result<Vec<Page>> {
    let page = |path: &str, text| Page {
        path: path.to_owned(),
        text,
    };
    let written = fs::read_to_string(top().join("grammar/reference.md"))?;
    let mut pages = vec![
        page(
            "grammar/reference.md",
            reference::filled(&written).map_err(io::Error::other)?,
        ),
        page("grammar/rules.md", rules_page()),
        page("grammar/limits.md", limits_page()),
        page("grammar/editor.md", editor_page()),
        page("README.md", readme::refreshed()?),
        page("tests/fuzz/words.dict", vocabulary::dictionary()),
        page("deny.toml", licences::deny()),
        page(notices::NOTICES, notices::notices()?),
        page(widths::WIDTHS, widths::widths()),
        // A package holds nothing from outside its crate.
        page(
            "crates/snell-syntax/src/snell.pest",
            fs::read_to_string(top().join("grammar/snell.pest"))?,
        ),
    ];
    pages.extend(
        vocabulary::pages()
            .into_iter()
            .map(|list| page(list.path, list.text)),
    );
    pages.extend(articles()?);
    Ok(pages)
}

/// The articles of the examples, filled in a copy of them.
fn articles() -> io::Result<Vec<Page>> {
    let folder = readme::examples()?;
    let ran = Run::new(Build::AsTests, ["fill", "examples"])
        .within(folder.path())
        .finish();
    if ran.status != Some(0) {
        return Err(io::Error::other(format!(
            "`snell fill examples` fails: {}",
            ran.told()
        )));
    }
    let mut pages = Vec::new();
    for entry in fs::read_dir(folder.path().join("examples"))? {
        let path = entry?.path();
        if path
            .extension()
            .is_some_and(|ending| ending == "md" || ending == "svg")
        {
            let name = path.file_name().unwrap_or_default().to_string_lossy();
            pages.push(Page {
                path: format!("examples/{name}"),
                text: fs::read_to_string(&path)?,
            });
        }
    }
    Ok(pages)
}
