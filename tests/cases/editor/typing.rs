//! A text that is followed while it is typed in is told the same of as one that
//! is read afresh: its letters, its findings, and what is shown between its
//! words. Here in a workspace; in `typed_through` by the real program.

use snell_analysis::{Kind, LocalDisk, Notebook};
use snell_finding::Finding;
use snell_ide::{Hint, Lens, Painted, Snapshot, Workspace};
use snell_server::{Change, Texts};
use snell_tests::{Script, Typist};
use snell_text::{Encoding, Span};
use std::path::{Path, PathBuf};

const ADDRESS: &str = "typed";

/// How much of a text is looked at at once, in bytes.
const SCREEN: u32 = 120;

/// What is shown of a text besides its findings.
#[derive(Debug, PartialEq)]
struct Shown {
    hints: Vec<Hint>,
    lenses: Vec<Lens>,
    tokens: Vec<Painted>,
}

impl Shown {
    fn afresh(notebook: &Notebook) -> Self {
        Self {
            hints: snell_ide::hints(notebook, Span::new(0, u32::MAX)),
            lenses: snell_ide::lenses(notebook),
            tokens: snell_ide::tokens(notebook),
        }
    }

    /// The hints are asked for a part at a time, as a screen is.
    fn followed(snapshot: &Snapshot) -> Self {
        let notebook = snapshot.notebook();
        let mut hints: Vec<Hint> = Vec::new();
        for start in (0..=snapshot.text().len() as u32).step_by(SCREEN as usize) {
            hints.extend(snell_ide::hints(notebook, Span::new(start, start + SCREEN)));
        }
        hints.sort();
        hints.dedup();
        Self {
            hints,
            lenses: snell_ide::lenses(notebook),
            tokens: snell_ide::tokens(notebook),
        }
    }
}

/// What a check finds in a text, which knows nothing of what it was before.
fn found(afresh: &Notebook) -> Vec<Finding> {
    let mut findings = snell_article::check(afresh);
    findings.retain(|finding| finding.place().text.0 == 0);
    findings
}

struct Typed<'a> {
    path: &'a Path,
    kind: Kind,
    texts: Texts,
    workspace: Workspace,
}

impl Typed<'_> {
    /// Puts the newest state there, and holds what is told of it against a fresh read; what is shown, too, where it is
    /// the last.
    fn compare(&mut self, last: bool, with_lenses: bool, script: &str) {
        let open = self.texts.get(ADDRESS).unwrap();
        let (path, text) = (self.path, &open.text);
        self.workspace.put(path, self.kind, text.clone());
        let snapshot = self.workspace.snapshot(path).unwrap();
        let afresh = Notebook::of_text(path, self.kind, text.to_string(), &LocalDisk);
        let wanted = found(&afresh);
        let mut told = snell_ide::found_near(snapshot.notebook(), Span::new(0, u32::MAX));
        assert!(
            told == wanted,
            "{script}: of\n{text:?}\nis told\n{told:#?}\nand should be\n{wanted:#?}"
        );
        // What is published has no mends of rules, and is the same otherwise.
        for finding in told.iter_mut().filter(|finding| finding.code.known().is_none()) {
            finding.fixes.clear();
        }
        assert_eq!(
            *snapshot.findings(&|| false).unwrap(),
            *told,
            "{script}: of\n{text:?}"
        );
        if last {
            let mut wanted = Shown::afresh(&afresh);
            wanted.hints.dedup();
            let shown = Shown::followed(&snapshot);
            assert_eq!(shown, wanted, "{script}: of\n{text:?}");
        } else if with_lenses {
            // Totals that are kept from state to state must not be those of an older one.
            let lenses = snell_ide::lenses(snapshot.notebook());
            assert_eq!(lenses, snell_ide::lenses(&afresh), "{script}: of\n{text:?}");
        }
    }
}

fn type_and_compare(number: u64, path: &Path, kind: Kind, encoding: Encoding) {
    let script = Script::new(number, kind, encoding);
    let mut typist = Typist::new(!number);
    let mut typed = Typed {
        path,
        kind,
        texts: Texts::default(),
        workspace: Workspace::default(),
    };
    typed
        .texts
        .open(ADDRESS, path.to_owned(), kind, 0, script.first.clone());
    typed.workspace.put(path, kind, script.first.as_str().into());
    let first = typed.workspace.snapshot(path).unwrap();
    first.findings(&|| false).unwrap();
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
    type_all(24, Kind::Markdown, "typed.md");
}
