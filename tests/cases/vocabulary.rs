//! The editors colour the words that the tables of the code hold.

use snell_syntax::{BlockKind, Joint};
use std::collections::BTreeSet;
use std::fs;

#[test]
fn every_list_of_the_editors_forms_is_filled() {
    for page in snell_tests::vocabulary::pages() {
        let left = page.text.split('@').skip(1).find(|between| {
            !between.is_empty()
                && between
                    .bytes()
                    .all(|byte| byte.is_ascii_lowercase() || byte == b'-')
        });
        assert_eq!(left, None, "{} has a list that nothing fills", page.path);
    }
}

#[test]
fn the_colouring_of_code_editors_is_json() {
    let pages = snell_tests::vocabulary::pages();
    let json = pages.iter().filter(|page| page.path.ends_with(".json"));
    let mut read = 0;
    for page in json {
        let grammar: serde_json::Value = serde_json::from_str(&page.text).expect(page.path);
        assert!(
            grammar["patterns"]
                .as_array()
                .is_some_and(|patterns| patterns.len() > 5)
        );
        read += 1;
    }
    assert_eq!(read, 1);
}

#[test]
fn the_colouring_of_kate_is_xml() {
    let pages = snell_tests::vocabulary::pages();
    let page = pages
        .iter()
        .find(|page| page.path.ends_with(".xml"))
        .expect("a page for Kate");
    let mut reader = quick_xml::Reader::from_str(&page.text);
    // A hyphen too many in a comment is enough for Kate to pass the whole over.
    reader.config_mut().check_comments = true;
    let mut items = 0;
    loop {
        match reader.read_event().expect("well-formed") {
            quick_xml::events::Event::Eof => break,
            quick_xml::events::Event::Start(tag) if tag.name().as_ref() == "item" => items += 1,
            _ => {}
        }
    }
    assert!(items > 100, "only {items} words");
}

#[test]
fn the_grammar_for_editors_has_the_kinds_and_joining_words() {
    let path = snell_tests::top().join("grammar/tree-sitter-rig/grammar.js");
    let grammar = fs::read_to_string(path).expect("the grammar can be read");
    let listed = |name: &str| -> BTreeSet<String> {
        let from = format!("const {name} = [");
        let list = grammar
            .split_once(&from)
            .and_then(|(_, rest)| rest.split_once(']'));
        let (list, _) = list.expect("the grammar has such a list");
        list.split('\'').skip(1).step_by(2).map(str::to_owned).collect()
    };
    let kinds = BlockKind::ALL.map(|kind| kind.word().to_owned());
    let joints = Joint::ALL.map(|joint| joint.word().to_owned());
    assert_eq!(listed("KINDS"), BTreeSet::from(kinds));
    assert_eq!(listed("JOINTS"), BTreeSet::from(joints));
}
