//! A text that is followed while it is typed in, held against a fresh read: its
//! letters, its findings, and what is shown between its words.

use crate::Edit;
use snell_analysis::{Kind, LocalDisk, Notebook};
use snell_finding::Finding;
use snell_ide::{Hint, Lens, Painted, Snapshot, Workspace};
use snell_server::{Change, Texts};
use snell_text::{Encoding, Span};
use std::path::Path;

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

/// A text that is typed in, and what follows it.
pub struct Typed<'a> {
    path: &'a Path,
    kind: Kind,
    texts: Texts,
    workspace: Workspace,
    edited: i32,
}

impl<'a> Typed<'a> {
    /// Opens a text, and looks at it once.
    pub fn open(path: &'a Path, kind: Kind, text: &str) -> Self {
        let texts = Texts::default();
        texts.open(ADDRESS, path.to_owned(), kind, 0, text.to_owned());
        let workspace = Workspace::default();
        workspace.put(path, kind, text.into());
        if let Some(first) = workspace.snapshot(path) {
            first.findings(&|| false);
        }
        Self {
            path,
            kind,
            texts,
            workspace,
            edited: 0,
        }
    }

    /// Makes the edits of one notification.
    pub fn edit(&mut self, edits: &[Edit], encoding: Encoding) {
        let change = |edit: &Edit| Change {
            places: edit.places,
            new: edit.new.clone(),
        };
        self.edited += 1;
        let changes = edits.iter().map(change).collect();
        self.texts.change(ADDRESS, self.edited, changes, encoding);
    }

    /// The text as it is followed.
    ///
    /// # Panics
    /// It is no longer followed.
    pub fn text(&self) -> std::sync::Arc<str> {
        self.texts.get(ADDRESS).expect("it is open").text
    }

    /// Puts the newest state there, and holds what is told of it against a fresh read; what is shown, too, where it is
    /// the last.
    ///
    /// # Panics
    /// Something is told otherwise; `script` says of what.
    #[track_caller]
    pub fn compare(&mut self, last: bool, with_lenses: bool, script: &str) {
        let (path, text) = (self.path, self.text());
        self.workspace.put(path, self.kind, text.clone());
        let snapshot = self.workspace.snapshot(path).expect("it was put there");
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
            *snapshot.findings(&|| false).expect("nobody stops it"),
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
