//! The texts that programs are asked about: the project's own files, and 2,000
//! notebooks made by rule, which are the same on every machine.

use super::{files, write};
use crate::generated::{Chance, numbered_notebook};
use crate::{MANNERS, PIECES, Typist, respelled, top};
use std::path::Path;
use std::{fs, io};

/// Where rigs stand in the project. `README.md` and the pages of `grammar` are texts too.
const FOLDERS: &[&str] = &["crates", "editors", "examples", "grammar", "tests"];

/// How many notebooks of each sort are made.
const SEASONS: u64 = 800;
const RESPELLED: u64 = 300;
const STRUCK: u64 = 300;
const TYPED: u64 = 300;
const PAGES: u64 = 200;
const AT_RANDOM: u64 = 100;

/// Writes every text into a folder and gives their number.
pub fn write_all(folder: &Path) -> io::Result<usize> {
    let mut written = 0;
    for (path, text) in of_the_project()?.into_iter().chain(made()) {
        write(&folder.join(path), &text)?;
        written += 1;
    }
    Ok(written)
}

/// The project's texts, with the paths that they have in it.
pub fn of_the_project() -> io::Result<Vec<(String, String)>> {
    let mut texts = vec![(
        "README.md".to_owned(),
        fs::read_to_string(top().join("README.md"))?,
    )];
    for folder in FOLDERS {
        for path in files(&top().join(folder))? {
            let holds_rigs = path.extension().is_some_and(|end| end == "rig" || end == "md");
            // Beside an editor's grammar lie what its tools built, when they did.
            let built = path.components().any(|part| part.as_os_str() == "node_modules");
            if let Some(name) = path.to_str().filter(|_| holds_rigs && !built) {
                let text = fs::read_to_string(top().join(folder).join(&path))?;
                texts.push((format!("{folder}/{name}"), text));
            }
        }
    }
    Ok(texts)
}

/// The notebooks made by rule.
fn made() -> impl Iterator<Item = (String, String)> {
    let seasons = (1..=SEASONS).map(|number| (named("season", number, "rig"), season(number)));
    let respelled = (1..=RESPELLED).map(|number| (named("respelled", number, "rig"), another_hand(number)));
    let struck = (1..=STRUCK).map(|number| (named("struck", number, "rig"), with_slips(number)));
    let typed = (1..=TYPED).map(|number| {
        let text = Typist::new(number).lines(40);
        (named("typed", number, "rig"), text)
    });
    let pages = (1..=PAGES).map(|number| {
        let text = Typist::new(number).page(20);
        (named("page", number, "md"), text)
    });
    let at_random = (1..=AT_RANDOM).map(|number| (named("pieces", number, "rig"), pieces(number)));
    seasons
        .chain(respelled)
        .chain(struck)
        .chain(typed)
        .chain(pages)
        .chain(at_random)
}

fn named(sort: &str, number: u64, ending: &str) -> String {
    format!("made/{sort}/{number:04}.{ending}")
}

/// Short and long seasons by turns.
fn season(number: u64) -> String {
    numbered_notebook(number, 4 + (number % 25) as usize)
}

/// A season as somebody else would write it, in up to three ways at once.
fn another_hand(number: u64) -> String {
    let mut chance = Chance::new(number);
    let manners: Vec<_> = (0..chance.within(1..4))
        .map(|_| MANNERS[chance.below(MANNERS.len())])
        .collect();
    respelled(&numbered_notebook(number, 6), &manners)
}

/// A season with up to six slips of the finger.
fn with_slips(number: u64) -> String {
    let mut typist = Typist::new(number);
    let text = numbered_notebook(SEASONS + number, 8);
    (0..1 + typist.below(6)).fold(text, |text, _| typist.stroke(&text).made(&text))
}

fn pieces(number: u64) -> String {
    let mut chance = Chance::new(number);
    (0..chance.within(5..120)).map(|_| chance.pick(PIECES)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn two_thousand_notebooks_are_made_and_no_two_are_alike() {
        let all: Vec<_> = made().collect();
        assert_eq!(all.len(), 2_000);
        let paths: BTreeSet<_> = all.iter().map(|(path, _)| path).collect();
        assert_eq!(paths.len(), all.len());
        let texts: BTreeSet<_> = all.iter().map(|(_, text)| text).collect();
        // A typist who types nothing does so more than once.
        assert!(texts.len() > 1_950, "{}", texts.len());
        assert!(made().eq(all), "made anew, they are the same");
    }
}
