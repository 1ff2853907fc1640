//! However a notebook comes out of a phone, a word processor or a mail, it
//! evaluates to the same rigs.

#![allow(clippy::unwrap_used, reason = "a test may stop at what it did not expect")]

use snell_analysis::{LocalDisk, Notebook};
use snell_tests::{Essence, MANNERS, Manner, essences, respelled, top};
use std::fs;
use std::path::{Path, PathBuf};

/// The notebooks that are rewritten: the file that is opened, then those that it uses.
const HARROW: &[&str] = &["harrow.rig"];
const SEASON: &[&str] = &["season.rig", "spools.rig", "flies.rig", "waters.rig"];

/// The rigs of files in a folder of their own, each rewritten.
fn rigs(files: &[&str], manners: &[Manner]) -> (Vec<Essence>, Vec<String>) {
    let folder = tempfile::tempdir().unwrap();
    for file in files {
        let text = fs::read_to_string(top().join("examples").join(file)).unwrap();
        fs::write(folder.path().join(file), respelled(&text, manners)).unwrap();
    }
    let book = opened(folder.path(), files[0]);
    let findings = snell_article::check(&book);
    let told = findings.iter().map(|finding| place(&book, finding)).collect();
    (essences(&book), told)
}

/// The file and line of a finding, and its name.
fn place(book: &Notebook, finding: &snell_finding::Finding) -> String {
    let place = finding.place();
    let document = book.document(place.text).unwrap();
    let file = document.path.file_name().unwrap_or_default().to_string_lossy();
    let at = document.index().line_column(&document.text, place.span.start);
    format!("{file}:{}: {}", at.line, finding.code)
}

fn opened(folder: &Path, file: &str) -> Notebook {
    let path: PathBuf = folder.join(file);
    Notebook::open(&[path], &LocalDisk)
        .map_err(|(path, why)| format!("{}: {why}", path.display()))
        .unwrap()
}

fn same(manners: &[Manner]) {
    for files in [HARROW, SEASON] {
        let (plain, other) = (rigs(files, &[]), rigs(files, manners));
        assert!(plain.0.len() >= 2);
        for (plain, other) in plain.0.iter().zip(&other.0) {
            assert_eq!(plain, other, "{manners:?}");
        }
        assert_eq!((plain.0.len(), plain.1), (other.0.len(), other.1), "{manners:?}");
    }
}

#[test]
fn carriage_returns() {
    same(&[Manner::CarriageReturns]);
}

#[test]
fn a_byte_order_mark() {
    same(&[Manner::ByteOrderMark]);
}

#[test]
fn tabs() {
    same(&[Manner::Tabs]);
}

#[test]
fn curly_quotes() {
    same(&[Manner::CurlyQuotes]);
}

#[test]
fn no_break_spaces() {
    same(&[Manner::NoBreakSpaces]);
}

#[test]
fn capitals() {
    same(&[Manner::Capitals]);
}

#[test]
fn decimal_commas() {
    same(&[Manner::DecimalCommas]);
}

#[test]
fn signs() {
    same(&[Manner::Signs]);
}

#[test]
fn full_stops() {
    same(&[Manner::FullStops]);
}

#[test]
fn lost_indent() {
    same(&[Manner::LostIndent]);
}

#[test]
fn all_together() {
    same(&MANNERS);
}

/// The rewriting does change the text: a manner that did nothing would prove nothing.
#[test]
fn every_manner_changes_the_season() {
    let season = fs::read_to_string(top().join("examples/season.rig")).unwrap();
    for manner in MANNERS {
        assert_ne!(respelled(&season, &[manner]), season, "{manner:?}");
    }
    assert_eq!(respelled(&season, &[]), season);
}
