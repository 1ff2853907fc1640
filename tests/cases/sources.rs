//! What the sources may not do: import each other in a circle, search the text
//! of a line that the tree has cut already, part from the grammar.

#![allow(clippy::unwrap_used, reason = "a test may stop at what it did not expect")]

use snell_tests::sources::{Crate, crates, searches};
use snell_tests::top;
use std::collections::BTreeSet;
use std::fs;

#[test]
fn files_do_not_import_each_other_in_a_circle() {
    let found: Vec<String> = crates()
        .iter()
        .flat_map(|one| {
            let name = &one.name;
            one.circles()
                .into_iter()
                .map(move |file| format!("{name} {file}"))
        })
        .collect();
    assert!(
        found.is_empty(),
        "these files import each other in a circle: {found:#?}"
    );
}

#[test]
fn a_circle_is_seen() {
    let files = [
        ("lib.rs", "mod a;\nmod b;\npub use a::A;\n"),
        ("a.rs", "use crate::b::{self, c::C};\npub struct A;\n"),
        (
            "b/mod.rs",
            "mod c;\n// use super::a::A;\nfn b() -> &'static str { \"crate::a\" }\n",
        ),
        ("b/c.rs", "pub struct C(pub super::super::a::A);\n"),
    ];
    let one = Crate::of(
        "made-up",
        files.map(|(path, text)| (path.to_owned(), text.to_owned())),
    );
    assert_eq!(one.circles(), ["a.rs", "b/c.rs"]);
}

/// Files that still search, each with what it searches.
const SEARCHES: &[(&str, &str)] = &[
    // The words of a comment in a page, which is no line of a rig.
    ("snell-analysis/src/document.rs", "split_whitespace"),
    // The path in the quotes of a `use` line.
    ("snell-analysis/src/reading.rs", "contains"),
    ("snell-rig/src/evaluation/claims.rs", "strip_prefix"),
    ("snell-view/src/lib.rs", "["),
];

/// A line is read once. Elsewhere what is written at a span may be shown, compared as a whole or given its value, not
/// searched: what stands where is for the tokens to say.
#[test]
fn the_text_of_a_line_is_not_searched() {
    let mut found: BTreeSet<(String, &str)> = BTreeSet::new();
    for one in crates().iter().filter(|one| one.reads_lines()) {
        for (file, text) in &one.files {
            let path = format!("{}/src/{file}", one.name);
            found.extend(searches(text).into_iter().map(|search| (path.clone(), search)));
        }
    }
    let listed: BTreeSet<(String, &str)> = SEARCHES
        .iter()
        .map(|(path, what)| ((*path).to_owned(), *what))
        .collect();
    let new: Vec<_> = found.difference(&listed).collect();
    assert!(
        new.is_empty(),
        "a line's text is searched, where its tokens are to be asked: {new:#?}"
    );
    let gone: Vec<_> = listed.difference(&found).collect();
    assert!(
        gone.is_empty(),
        "no longer searched, to be taken off the list: {gone:#?}"
    );
}

#[test]
fn a_search_is_seen() {
    let cases = [
        ("let at = line.written(span).find(' ');", Some("find")),
        (
            "let words = fit\n  .line\n  .written(fit.expr.span)\n  .split_whitespace();",
            Some("split_whitespace"),
        ),
        (
            "let w = line.written(span);\nlet c = w.chars().next();",
            Some("chars"),
        ),
        ("let w = span.of(&document.text);\nlet c = &w[1..];", Some("[")),
        ("let w = line.written(span).to_owned();\nshow(w);", None),
        ("let w = line.written(span);\nformat!(\"{w}\");", None),
        ("let w = value.written();\nw.find(' ');", None),
    ];
    for (body, found) in cases {
        let text = format!("fn f() {{\n{body}\n}}\n");
        assert_eq!(searches(&text).first().copied(), found, "{body}");
    }
}

/// The crate is packed with a copy, because a package holds only what lies below its folder.
#[test]
fn the_packed_grammar_is_the_grammar() {
    let read = |path: &str| fs::read_to_string(top().join(path)).unwrap();
    let same = read("grammar/snell.pest") == read("crates/snell-syntax/src/snell.pest");
    assert!(
        same,
        "copy grammar/snell.pest to crates/snell-syntax/src/snell.pest"
    );
}
