//! Input that nobody means well with, through the program as it ships: each
//! ends in a plain message or a plain result, without a panic and with memory
//! in proportion to what was read.

#![allow(clippy::unwrap_used, reason = "a test may stop at what it did not expect")]

#[cfg(unix)]
mod doors;
#[cfg(unix)]
mod ended;
mod files;
mod limits;
#[cfg(unix)]
mod repositories;
mod sizes;
mod values;

use snell_tests::{Build, Peak, Ran, Run};
use std::fs;
use std::path::Path;
use tempfile::TempDir;

/// What the program holds before it has read anything, with room to spare.
const IDLE: u64 = 40 * 1024 * 1024;

/// How many bytes may be held for each byte that is read: a line's words, its tree, its block.
const A_BYTE: u64 = 24;

/// A file larger than this is not read at all. Source: `snell_analysis::FILE_LIMIT`.
const LARGEST: u64 = snell_analysis::FILE_LIMIT;

fn folder() -> TempDir {
    tempfile::tempdir().unwrap()
}

fn snell(folder: &Path, arguments: &[&str]) -> Run {
    Run::new(Build::Shipped, arguments).within(folder)
}

/// Ends a run and asks what every run must answer: a status of its own, and no panic.
#[track_caller]
fn ended(run: Run) -> (Ran, Peak) {
    let (ran, peak) = run.measured();
    assert!(
        matches!(ran.status, Some(0..=2)),
        "{:?}: {}",
        ran.status,
        head(&ran.told())
    );
    assert!(!ran.told().contains("panicked"), "{}", head(&ran.told()));
    assert!(
        ran.status == Some(0) || !ran.told().trim().is_empty(),
        "a status of {:?} without a word",
        ran.status
    );
    (ran, peak)
}

fn head(told: &str) -> String {
    told.chars().take(2000).collect()
}

#[track_caller]
fn within(peak: Peak, read: u64) {
    let allowed = IDLE + A_BYTE * read;
    let Some(peak) = peak else { return };
    assert!(
        peak <= allowed,
        "{} KiB held for {} KiB read, allowed are {}",
        peak >> 10,
        read >> 10,
        allowed >> 10
    );
}

/// Writes a file, checks it, and holds the memory against its size, or against the largest that is read.
#[track_caller]
fn checked(text: impl AsRef<[u8]>) -> Ran {
    let folder = folder();
    fs::write(folder.path().join("asked.rig"), text.as_ref()).unwrap();
    let (ran, peak) = ended(snell(folder.path(), &["check", "--bar", "fault", "asked.rig"]));
    within(peak, (text.as_ref().len() as u64).min(LARGEST));
    ran
}

#[track_caller]
fn says(ran: &Ran, status: i32, words: &str) {
    assert_eq!(ran.status, Some(status), "{}", head(&ran.told()));
    let told = ran.told().split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(told.contains(words), "`{words}` is not said: {}", head(&told));
}

#[track_caller]
fn ended_plainly(text: &str) {
    checked(text);
}
