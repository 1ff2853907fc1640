//! A session with the server: findings where they stand, answers to what is
//! asked, plain errors for what is none, and an end.

use serde_json::{Value, json};
use snell_tests::{Build, Client};

const URI: &str = "file:///none/session.rig";
const URI_AFTER: &str = "file:///none/after.rig";
const PAGE: &str = "file:///none/article.md";
const RIG: &str = "// 🎣 back end\nfly slate\n  hook #14\n\nrig a\n  tippet 30 inn of 6X\n  point slate\n";

fn client() -> Client {
    Client::open(Build::AsTests, json!({}))
}

#[test]
fn a_finding_stands_at_its_utf_16_column_behind_an_emoji() {
    let mut client = client();
    client.open_text(URI, "rig", "rig a \"🎣\" of\n  tippet 30 in of 6X\n");
    let found = client.findings(URI, 1);
    let code = |finding: &Value| finding["code"].as_str().map(str::to_owned);
    assert_eq!(code(&found[0]).as_deref(), Some("text-not-last"));
    // `rig a "🎣" of`: the emoji counts two.
    let start = json!({ "line": 0, "character": 11 });
    assert_eq!(found[0]["range"]["start"], start, "{found:?}");
    client.open_text(
        PAGE,
        "markdown",
        &format!(
            "# 🎣\n\n> ```rig\n> {}\n> ```\n",
            RIG.trim_end().replace('\n', "\n> ")
        ),
    );
    let found = client.findings(PAGE, 1);
    let at = found
        .iter()
        .find(|finding| finding["code"] == "unit-unknown")
        .unwrap();
    assert_eq!(
        at["range"]["start"],
        json!({ "line": 8, "character": 14 }),
        "{at}"
    );
}

#[test]
fn positions_are_counted_as_the_editor_counts() {
    for (asked, wanted, column) in [
        ("utf-8", "utf-8", 13),
        ("utf-32", "utf-32", 10),
        ("utf-7", "utf-16", 11),
    ] {
        let mut client = Client::start(Build::AsTests);
        let capabilities = json!({ "general": { "positionEncodings": [asked] } });
        let answer = client.answer("initialize", json!({ "capabilities": capabilities }));
        assert_eq!(answer["capabilities"]["positionEncoding"], wanted);
        client.tell("initialized", json!({}));
        client.open_text(URI, "rig", "rig a \"🎣\" of\n  tippet 30 in of 6X\n");
        let found = client.findings(URI, 1);
        assert_eq!(
            found[0]["range"]["start"]["character"], column,
            "{asked}: {found:?}"
        );
    }
}

#[test]
fn what_is_asked_is_answered() {
    let mut client = client();
    client.open_text(URI, "rig", RIG);
    let document = json!({ "uri": URI });
    let mut ask = |method: &str, line: u32, character: u32| {
        let position = json!({ "line": line, "character": character });
        client.answer(
            method,
            json!({ "textDocument": document, "position": position, "newName": "shale" }),
        )
    };
    let hover = ask("textDocument/hover", 6, 9);
    assert!(
        hover["contents"]["value"].as_str().unwrap().contains("fly"),
        "{hover}"
    );
    assert_eq!(
        ask("textDocument/definition", 6, 9)["range"]["start"],
        json!({ "line": 1, "character": 4 })
    );
    let edits = ask("textDocument/rename", 6, 9);
    assert_eq!(edits["changes"][URI].as_array().unwrap().len(), 2, "{edits}");
    let offers = ask("textDocument/completion", 5, 16);
    assert!(
        offers
            .as_array()
            .unwrap()
            .iter()
            .any(|offer| offer["label"] == "of"),
        "{offers}"
    );
}

#[test]
fn an_editor_that_asks_for_findings_is_not_told_of_them_twice() {
    let capabilities = json!({ "textDocument": { "diagnostic": {} } });
    let mut client = Client::open(Build::AsTests, capabilities);
    client.open_text(URI, "rig", RIG);
    let asked = |client: &mut Client| {
        let document = json!({ "textDocument": { "uri": URI } });
        let report = client.answer("textDocument/diagnostic", document);
        assert_eq!(report["kind"], "full");
        report["items"].as_array().unwrap().len()
    };
    assert!(asked(&mut client) > 0);
    client.change(URI, 2, &[json!({ "text": "rig a\n" })]);
    assert_eq!(asked(&mut client), 0);
    // Work on another text is behind that on the first.
    client.open_text(URI_AFTER, "rig", RIG);
    client.answer(
        "textDocument/diagnostic",
        json!({ "textDocument": { "uri": URI_AFTER } }),
    );
    let told = |message: &&Value| message["method"] == "textDocument/publishDiagnostics";
    assert_eq!(client.said().iter().find(told), None);
}

/// The page says what the server answers, and has words for all of it.
#[test]
fn what_it_can_do_is_what_its_page_says() {
    let mut client = Client::start(Build::AsTests);
    let capabilities = json!({ "general": { "positionEncodings": ["utf-8"] } });
    let answer = client.answer("initialize", json!({ "capabilities": capabilities }));
    let page = std::fs::read_to_string(snell_tests::top().join("grammar/editor.md")).unwrap();
    let answered: Vec<&str> = answer["capabilities"]
        .as_object()
        .unwrap()
        .keys()
        .map(String::as_str)
        .collect();
    let rows = page
        .lines()
        .filter_map(|line| line.strip_prefix("| `")?.split_once("` | "));
    let rows: Vec<(&str, &str)> = rows.collect();
    let named: Vec<&str> = rows.iter().map(|(name, _)| *name).collect();
    assert_eq!(named, answered, "the page, and what is answered");
    for (name, told) in rows {
        let words = snell_tests::TOLD.iter().find(|(known, _)| *known == name);
        let (_, words) = words.unwrap_or_else(|| panic!("`{name}` has no words"));
        assert_eq!(told.strip_suffix(" |"), Some(*words), "{name}");
    }
}
