//! Files that a run which was ended left lying beside those that it wrote.

use std::fs::{self, File};
use std::path::Path;

/// More names than this are not looked at: clearing away must not take longer than the work itself.
const MOST: usize = 10_000;

/// Clears away what nobody holds any more. What cannot be cleared stays: it is in nobody's way.
pub fn clear(folder: &Path) {
    let Ok(entries) = fs::read_dir(folder) else { return };
    for entry in entries.take(MOST).flatten() {
        let ours = entry.file_name().to_string_lossy().starts_with(PREFIX);
        let file = entry.file_type().is_ok_and(|kind| kind.is_file());
        if ours && file {
            remove(&entry.path());
        }
    }
}

/// Removes what no run holds: a run locks what it writes, and its end lets go of the lock. It is locked while it is
/// removed, so that a run which has only just made it sees that it is lost.
fn remove(path: &Path) {
    let Ok(file) = File::open(path) else { return };
    if file.try_lock().is_ok() {
        let _ = fs::remove_file(path);
    }
}

/// What every file that is written beside another one is called first.
pub(super) const PREFIX: &str = ".snell-";
