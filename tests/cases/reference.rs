//! Generated pages are fresh: they say what the code's tables say.

use std::fs;

#[test]
fn the_reference_says_what_the_tables_say() {
    let path = snell_tests::top().join("grammar/reference.md");
    let page = fs::read_to_string(&path).expect("the reference");
    let filled = snell_tests::reference::filled(&page).expect("markers that name tables");
    let rules = fs::read_to_string(snell_tests::top().join("grammar/rules.md")).expect("the page of rules");
    let stale = "is stale: run `cargo run -p snell-tests --bin reference`";
    assert!(rules == snell_tests::rules_page(), "grammar/rules.md {stale}");
    let editor =
        fs::read_to_string(snell_tests::top().join("grammar/editor.md")).expect("the page of the server");
    assert!(editor == snell_tests::editor_page(), "grammar/editor.md {stale}");
    assert!(page == filled, "grammar/reference.md {stale}");
}
