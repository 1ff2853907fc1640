//! A text that is followed while it is typed in is told the same of as one that
//! is read afresh: its letters, its findings, and what is shown between its
//! words. Here at the desk; in `typed_through` by the real program.

use notebook::editor::{self, Desk, Hint, Lens, Painted};
use notebook::{Kind, LocalDisk, Notebook};
use report::Finding;
use serve::{Change, Texts};
use snell_tests::{Script, Typist};
use std::path::{Path, PathBuf};
use std::time::Instant;
use text::{Encoding, Span};

const ADDRESS: &str = "typed";

/// All that is told of a text.
#[derive(Debug, PartialEq)]
struct Told {
    findings: Vec<Finding>,
    hints: Vec<Hint>,
    lenses: Vec<Lens>,
    tokens: Vec<Painted>,
}

fn shown(findings: Vec<Finding>, notebook: &Notebook) -> Told {
    Told {
        findings,
        hints: editor::hints(notebook, Span::new(0, u32::MAX)),
        lenses: editor::lenses(notebook),
        tokens: editor::tokens(notebook),
    }
}

/// A text as a check reads it, which knows nothing of what it was before.
fn afresh(path: &Path, kind: Kind, text: &str) -> Told {
    let notebook = Notebook::of_text(path, kind, text.to_owned(), &LocalDisk);
    let mut findings = notebook::check(&notebook);
    findings.retain(|finding| finding.place().text.0 == 0);
    shown(findings, &notebook)
}

struct Typed<'a> {
    path: &'a Path,
    kind: Kind,
    texts: Texts,
    desk: Desk,
}

impl Typed<'_> {
    fn compare(&mut self, hints_first: bool, number: u64, note: usize) {
        let open = self.texts.get(ADDRESS).unwrap();
        self.desk.put(self.path, self.kind, open.text.clone());
        if hints_first {
            self.desk.notebook(self.path).unwrap();
        }
        let findings = self.desk.findings(self.path).unwrap().to_vec();
        let told = shown(findings, self.desk.notebook(self.path).unwrap());
        let wanted = afresh(self.path, self.kind, &open.text);
        assert!(
            told == wanted,
            "script {number}, notification {note}: of\n{:?}\nis told\n{told:#?}\nand should be\n{wanted:#?}",
            open.text
        );
    }
}

fn type_and_compare(number: u64, path: &Path, kind: Kind, encoding: Encoding) {
    let script = Script::new(number, kind, encoding);
    let mut typist = Typist::new(!number);
    let mut typed = Typed {
        path,
        kind,
        texts: Texts::default(),
        desk: Desk::default(),
    };
    typed
        .texts
        .open(ADDRESS, path.to_owned(), kind, 0, script.first.clone());
    typed.compare(false, number, 0);
    for (note, (edits, wanted)) in script.notes.iter().enumerate() {
        let change = |edit: &snell_tests::Edit| Change {
            places: edit.places,
            new: edit.new.clone(),
        };
        let changes = edits.iter().map(change).collect();
        typed.texts.change(ADDRESS, note as i32 + 1, changes, encoding);
        let open = typed.texts.get(ADDRESS).unwrap();
        assert_eq!(
            &*open.text, wanted,
            "script {number}, notification {note}: {edits:?}"
        );
        // Not every state is looked at before the next one comes.
        if note + 1 == script.notes.len() || typist.below(2) == 0 {
            typed.compare(typist.below(2) == 0, number, note + 1);
        }
    }
}

/// Types scripts in every encoding, some of them on each of the machine's threads.
fn type_all(usual: u64, kind: Kind, name: &str) {
    let folder = super::folder(&snell_tests::BESIDE);
    let path: PathBuf = folder.path().join(name);
    let (count, start) = (super::scripts(usual), Instant::now());
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
    println!(
        "{count} scripts typed in {name} at the desk in {:.1?}",
        start.elapsed()
    );
}

#[test]
fn a_file_is_told_the_same_of_however_it_was_typed() {
    type_all(30, Kind::Rig, "typed.rig");
}

#[test]
fn a_page_is_told_the_same_of_however_it_was_typed() {
    type_all(24, Kind::Markdown, "typed.md");
}
