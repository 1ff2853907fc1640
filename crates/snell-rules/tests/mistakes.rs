//! What an expert flags at once is flagged, at its place and with nothing
//! beside it; what an expert would fish is left alone.
//!
//! Each rig is a file: `rigs/mistakes` with one mistake each, marked by a caret
//! line, `rigs/sound` with none.

mod carets;
mod common;

use carets::{Expected, carets, line_start};
use common::findings;
use snell_finding::Level;
use snell_text::Span;
use std::fs;
use std::path::Path;

/// The rigs of a folder by name.
fn rigs(folder: &str) -> Vec<(String, String)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("tests/rigs")
        .join(folder);
    let mut rigs: Vec<(String, String)> = fs::read_dir(&folder)
        .unwrap_or_else(|error| panic!("{}: {error}", folder.display()))
        .map(|entry| entry.expect("an entry").path())
        .map(|path| {
            let name = path.file_stem().expect("a name").to_string_lossy().into_owned();
            (name, fs::read_to_string(&path).expect("a text"))
        })
        .collect();
    rigs.sort();
    rigs
}

/// A text as it is, with the line ends of other machines, and with letters of several bytes before it.
fn dressed(text: &str) -> [String; 3] {
    let comment = "// Für die Äsche: 鱒, ½ Rute länger\n";
    [
        text.to_owned(),
        text.replace('\n', "\r\n"),
        format!("{comment}{text}"),
    ]
}

/// The lines of a text that is one file.
fn lines(text: &str) -> Vec<Span> {
    snell_syntax::whole(text).concat()
}

/// What is found at caution or above, and whatever the carets name.
fn told(text: &str, expected: &[Expected]) -> Vec<Expected> {
    let named = |code: &str| expected.iter().any(|(_, name, _)| name == code);
    let mut told: Vec<Expected> = findings(text, &lines(text))
        .iter()
        .filter(|finding| finding.level >= Level::Caution || named(&finding.code))
        .map(|finding| {
            let span = finding.place().span;
            (
                line_start(text, span.start),
                finding.code.to_string(),
                span.of(text).to_owned(),
            )
        })
        .collect();
    told.sort();
    told
}

#[test]
fn each_of_twenty_mistakes_is_found_at_its_place_and_alone() {
    let rigs = rigs("mistakes");
    assert_eq!(rigs.len(), 20);
    let mut wrong = Vec::new();
    for (name, plain) in &rigs {
        for text in dressed(plain) {
            let expected = carets(&text, &lines(&text));
            assert_eq!(expected.len(), 1, "{name} has one mistake");
            let told = told(&text, &expected);
            if told != expected {
                wrong.push(format!("{name}\n  expected {expected:?}\n  found    {told:?}"));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn ten_sound_rigs_of_all_methods_raise_nothing_above_advice() {
    let rigs = rigs("sound");
    assert_eq!(rigs.len(), 10);
    for method in ["tight-line", "float", "dry-dropper", "team", "dry", "streamer"] {
        assert!(
            rigs.iter()
                .any(|(_, text)| text.contains(&format!("method  {method}\n"))),
            "{method}"
        );
    }
    for (name, plain) in &rigs {
        for text in dressed(plain) {
            assert_eq!(told(&text, &[]), [], "{name}");
        }
    }
}
