//! The language server as an editor meets it: through the real program on its
//! standard input and output, and the desk behind it.

#![allow(clippy::unwrap_used, reason = "a test may stop at what it did not expect")]

mod edits;
mod files;
mod hovers;
mod preview;
mod session;
mod strain;
mod typed_through;
mod typing;

use serde_json::Value;
use snell_tests::Client;
use snell_text::{Encoding, LineIndex, Position, Span};
use std::path::Path;
use tempfile::TempDir;

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

/// A folder with some files in it.
fn folder(files: &[(&str, &str)]) -> TempDir {
    let folder = tempfile::tempdir().unwrap();
    for (name, text) in files {
        std::fs::write(folder.path().join(name), text).unwrap();
    }
    folder
}

/// Whatever the server still had to say when it had worked out another text that came after all that was asked.
fn said_until_settled(client: &mut Client) -> Vec<Value> {
    const AFTER: &str = "file:///none/after.rig";
    client.open_text(AFTER, "rig", "rig after\n");
    client.findings(AFTER, 1);
    client.said()
}

/// The address of a path, of letters that need no escaping.
fn address(path: &Path) -> String {
    format!("file://{}", path.canonicalize().unwrap().display())
}

/// A text after the edits that a server answered, counted in UTF-16.
fn applied(text: &str, edits: &Value) -> String {
    let index = LineIndex::new(text);
    let at = |place: &Value| {
        let number = |name: &str| place[name].as_u64().unwrap() as u32;
        let (line, column) = (number("line"), number("character"));
        index.offset(text, Position { line, column }, Encoding::Utf16)
    };
    let edits = edits.as_array().unwrap().iter().map(|edit| {
        let span = Span::new(at(&edit["range"]["start"]), at(&edit["range"]["end"]));
        (span, edit["newText"].as_str().unwrap().to_owned())
    });
    snell_finding::apply(text, edits)
}
