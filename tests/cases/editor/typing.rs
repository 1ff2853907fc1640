//! A text that is followed while it is typed in is told the same of as one that
//! is read afresh: its letters, its findings, and what is shown between its
//! words. Here in a workspace; in `typed_through` by the real program.

use snell_analysis::Kind;
use snell_tests::laws::Typed;
use snell_tests::{Script, Typist};
use snell_text::Encoding;
use std::path::{Path, PathBuf};

fn type_and_compare(number: u64, path: &Path, kind: Kind, encoding: Encoding) {
    let script = Script::new(number, kind, encoding);
    let mut typist = Typist::new(!number);
    let mut typed = Typed::open(path, kind, &script.first);
    for (note, (edits, wanted)) in script.notes.iter().enumerate() {
        typed.edit(edits, encoding);
        assert_eq!(
            &*typed.text(),
            wanted,
            "script {number}, notification {note}: {edits:?}"
        );
        // Not every state is looked at before the next one comes.
        let last = note + 1 == script.notes.len();
        if last || typist.below(3) == 0 {
            let script = format!("script {number}, notification {}", note + 1);
            typed.compare(last, typist.below(2) == 0, &script);
        }
    }
}

/// Types scripts in every encoding, some of them on each of the machine's threads.
fn type_all(usual: u64, kind: Kind, name: &str) {
    let folder = super::folder(&snell_tests::BESIDE);
    let path: PathBuf = folder.path().join(name);
    let count = super::scripts(usual);
    let threads = std::thread::available_parallelism().map_or(1, usize::from) as u64;
    std::thread::scope(|scope| {
        for thread in 0..threads {
            let path = &path;
            scope.spawn(move || {
                for number in (thread..count).step_by(threads as usize) {
                    let encoding = super::ENCODINGS[(number % 3) as usize].0;
                    type_and_compare(number, path, kind, encoding);
                }
            });
        }
    });
    println!("{count} scripts typed in {name}");
}

#[test]
fn a_file_is_told_the_same_of_however_it_was_typed() {
    type_all(30, Kind::Rig, "typed.rig");
}

#[test]
fn a_page_is_told_the_same_of_however_it_was_typed() {
    type_all(24, Kind::MARKDOWN, "typed.md");
}
