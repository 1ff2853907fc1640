//! A text that is followed while it is typed in is told the same of as one that
//! is read afresh.

use notebook::Kind;
use notebook::editor::Desk;
use report::Finding;
use snell_tests::Typist;
use std::path::Path;
use std::sync::Arc;

fn fresh(path: &Path, kind: Kind, text: &Arc<str>) -> Vec<Finding> {
    let mut desk = Desk::default();
    desk.put(path, kind, text.clone());
    let notebook = desk.notebook(path).unwrap();
    let all = notebook::check(notebook);
    all.into_iter()
        .filter(|finding| finding.place().text.0 == 0)
        .collect()
}

fn type_and_compare(number: u64, kind: Kind, path: &Path) {
    let mut typist = Typist::new(number);
    let first = match kind {
        Kind::Rig => typist.lines(40),
        Kind::Markdown => typist.page(12),
    };
    let mut text: Arc<str> = first.into();
    let mut desk = Desk::default();
    for stroke in 0..1 + typist.below(8) {
        desk.put(path, kind, text.clone());
        let told = desk.findings(path).unwrap();
        let wanted = fresh(path, kind, &text);
        let more: Vec<_> = told.iter().filter(|one| !wanted.contains(one)).collect();
        let less: Vec<_> = wanted.iter().filter(|one| !told.contains(one)).collect();
        assert!(
            *told == *wanted,
            "script {number}, stroke {stroke}: of\n{text:?}\nis told\n{more:?}\nand not\n{less:?}"
        );
        text = typist.stroke(&text).made(&text).into();
    }
}

#[test]
fn a_file_is_told_the_same_of_however_it_was_typed() {
    let folder = tempfile::tempdir().unwrap();
    for number in 0..super::scripts(150) {
        type_and_compare(number, Kind::Rig, &folder.path().join("typed.rig"));
    }
}

#[test]
fn a_page_is_told_the_same_of_however_it_was_typed() {
    let folder = tempfile::tempdir().unwrap();
    for number in 0..super::scripts(80) {
        type_and_compare(number, Kind::Markdown, &folder.path().join("typed.md"));
    }
}
