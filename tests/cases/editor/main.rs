//! The language server as an editor meets it: through the real program on its
//! standard input and output, and the desk behind it.

#![allow(clippy::unwrap_used, reason = "a test may stop at what it did not expect")]

mod session;
mod typed_through;
mod typing;

use std::path::Path;
use tempfile::TempDir;
use text::Encoding;

/// How many random scripts each property runs; raised for a long run.
fn scripts(usual: u64) -> u64 {
    let raised = std::env::var("SNELL_SCRIPTS").ok();
    raised.map_or(usual, |number| number.parse().expect("SNELL_SCRIPTS is a number"))
}

/// What an editor may count columns in, and its word for it.
const ENCODINGS: [(Encoding, &str); 3] = [
    (Encoding::Utf16, "utf-16"),
    (Encoding::Utf8, "utf-8"),
    (Encoding::Utf32, "utf-32"),
];

/// A folder with the files that a typed text may use.
fn beside() -> TempDir {
    let folder = tempfile::tempdir().unwrap();
    for (name, text) in snell_tests::BESIDE {
        std::fs::write(folder.path().join(name), text).unwrap();
    }
    folder
}

/// The address of a path, of letters that need no escaping.
fn address(path: &Path) -> String {
    format!("file://{}", path.canonicalize().unwrap().display())
}
