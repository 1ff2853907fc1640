//! Lines of the language, each with whether its grammar reads it.
//!
//! Whether what it says makes sense is another matter: a fraction over nothing
//! is read here, for it is a number.

use crate::{Chance, PIECES, generated_notebook, top};
use snell_text::TextId;
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::{fs, io};

/// A line, and whether it can be read.
pub struct Judged {
    /// Without its end.
    pub line: String,
    /// Whether the grammar reads it.
    pub read: bool,
}

/// Faults of a number's value or of what a line means, found in lines that the grammar reads.
const OF_VALUES: &[&str] = &["number-over-zero", "number-too-large"];

/// A fault that is found in lines of both sorts.
const OF_BOTH: &str = "spread-unclear";

/// Faults of lines in their author's own hand, of which an editor's grammar knows nothing.
const OF_THE_HAND: &[&str] = &["read-two-ways", "word-near-miss"];

/// How many lines are put together at random.
const AT_RANDOM: usize = 20_000;

/// The traps, the lines of all texts of the project, and lines put together at random; each once, in order.
pub fn lines() -> io::Result<Vec<Judged>> {
    let mut lines = BTreeSet::new();
    let traps = fs::read_to_string(top().join("tests/data/line-traps.txt"))?;
    let traps = traps.lines().filter(|line| !line.starts_with('#'));
    lines.extend(traps.filter_map(|trap| Some(trap.split_once(" => ")?.0.to_owned())));
    for file in texts()? {
        let text = fs::read_to_string(file)?;
        lines.extend(text.lines().map(str::to_owned));
    }
    lines.extend(generated_notebook(200).lines().map(str::to_owned));
    let mut chance = Chance::new(20);
    lines.extend((0..AT_RANDOM).map(|_| at_random(&mut chance)));
    // To many a tool a text ends with this character.
    lines.retain(|line| !line.contains('\0'));
    Ok(lines.into_iter().filter_map(judged).collect())
}

/// The files of the project that hold rigs, and the tests' lists of broken lines.
fn texts() -> io::Result<Vec<PathBuf>> {
    let mut found = Vec::new();
    for folder in ["examples", "crates", "tests/data"] {
        gather(&top().join(folder), &mut found)?;
    }
    found.sort();
    Ok(found)
}

fn gather(folder: &Path, found: &mut Vec<PathBuf>) -> io::Result<()> {
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        if path.is_dir() {
            gather(&path, found)?;
        } else if path
            .extension()
            .is_some_and(|ending| ending == "rig" || ending == "md")
        {
            found.push(path);
        }
    }
    Ok(())
}

fn at_random(chance: &mut Chance) -> String {
    let mut line = String::from(if chance.in_ten(7) { "  " } else { "" });
    for _ in 0..chance.within(1..7) {
        line += chance.pick(PIECES).trim_end_matches(['\n', '\r']);
        if chance.in_ten(8) {
            line.push(' ');
        }
    }
    line.retain(|c| c != '\n' && c != '\r');
    line
}

/// `None` where it cannot be told.
fn judged(line: String) -> Option<Judged> {
    let file = snell_syntax::read(&line, TextId(0), &snell_syntax::whole(&line));
    // The grammars of editors follow the strict form; a line in its author's own hand is read as another one.
    let all = file
        .blocks
        .iter()
        .flat_map(|block| block.head.iter().chain(&block.body));
    if all.into_iter().any(|line| line.reading.is_some()) {
        return None;
    }
    let mut faults = file.findings.iter().map(|finding| &*finding.code);
    if faults
        .clone()
        .any(|fault| fault == OF_BOTH || OF_THE_HAND.contains(&fault))
    {
        return None;
    }
    let read = faults.all(|fault| OF_VALUES.contains(&fault));
    if read && (is_rule(&line) || has_colon(&line)) {
        return None;
    }
    Some(Judged { line, read })
}

/// A line of signs under a title, which only the language itself passes over.
fn is_rule(line: &str) -> bool {
    let line = line.trim();
    let sign = line.chars().next().filter(|sign| !sign.is_alphanumeric());
    sign.is_some_and(|sign| line.chars().count() > 2 && line.chars().all(|other| other == sign))
}

/// A colon behind the key, as an author's own hand has it.
fn has_colon(line: &str) -> bool {
    let mut words = line.split_whitespace();
    words.next().is_some_and(|key| key.ends_with(':'))
        || words.next().is_some_and(|word| word.starts_with(':'))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn there_are_many_of_both() {
        let lines = lines().expect("the project's own files can be read");
        let read = lines.iter().filter(|line| line.read).count();
        assert!(
            read > 5_000 && lines.len() - read > 5_000,
            "{read} of {}",
            lines.len()
        );
    }
}
