//! A session with the server: findings where they stand, answers to what is
//! asked, plain errors for what is none, and an end.

use serde_json::{Value, json};
use snell_tests::{Build, Client};
use std::time::Duration;

const URI: &str = "file:///none/session.rig";
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
fn the_newest_of_a_thousand_changes_is_told_last() {
    let mut client = client();
    client.open_text(URI, "rig", RIG);
    for version in 2..=1001 {
        let place = json!({ "line": 2, "character": 8 });
        let range = json!({ "start": place, "end": place });
        client.change(URI, version, &[json!({ "range": range, "text": "1" })]);
    }
    client.findings(URI, 1001);
    let later = client.quiet(Duration::from_millis(300));
    let versions: Vec<i64> = later
        .iter()
        .filter_map(|message| message["params"]["version"].as_i64())
        .collect();
    assert!(versions.is_sorted(), "{versions:?}");
    assert!(versions.iter().all(|version| *version < 1001), "{versions:?}");
}

#[test]
fn what_is_no_message_is_told_and_the_server_goes_on() {
    let mut client = Client::start(Build::AsTests);
    let early = client.ask("textDocument/hover", json!({}));
    assert_eq!(early["error"]["code"], -32002, "asked before `initialize`");
    client.answer("initialize", json!({ "capabilities": {} }));
    client.tell("initialized", json!({}));
    let huge = format!("Content-Length: {}\r\n\r\n", 65 << 20);
    let cases: [(&[u8], i64); 5] = [
        (b"Content-Length: 5\r\n\r\n{\"a\":", -32700),
        (b"Content-Length: 2\r\n\r\n{}", -32600),
        (b"Content-Length: many\r\n\r\n", -32700),
        (b"Foo: bar\r\n\r\n", -32700),
        (huge.as_bytes(), -32700),
    ];
    for (bytes, code) in cases {
        client.raw(bytes);
        let told = client.wait(|message| message["id"].is_null() && message.get("error").is_some());
        assert_eq!(told["error"]["code"], code, "{}", String::from_utf8_lossy(bytes));
    }
    let piece = vec![b' '; 1 << 20];
    (0..65).for_each(|_| client.raw(&piece));
    assert_eq!(client.ask("no/such", json!({}))["error"]["code"], -32601);
    let closed = client.ask(
        "textDocument/hover",
        json!({ "textDocument": { "uri": URI }, "position": { "line": 0, "character": 0 } }),
    );
    assert_eq!(closed["error"]["code"], -32602, "{closed}");
}

#[test]
fn it_ends_when_it_is_told_to_while_its_input_is_open() {
    let mut client = client();
    client.open_text(URI, "rig", RIG);
    client.answer("shutdown", Value::Null);
    client.tell("exit", Value::Null);
    assert_eq!(client.ended(), Some(0));
    let mut rude = self::client();
    rude.tell("exit", Value::Null);
    assert_eq!(rude.ended(), Some(1));
    let mut gone = self::client();
    gone.hang_up();
    assert_eq!(gone.ended(), Some(1));
}

/// The page says what the server answers, and has words for all of it.
#[test]
fn what_it_can_do_is_what_its_page_says() {
    let mut client = Client::start(Build::AsTests);
    let capabilities = json!({ "general": { "positionEncodings": ["utf-8"] } });
    let answer = client.answer("initialize", json!({ "capabilities": capabilities }));
    let page = std::fs::read_to_string(snell_tests::top().join("grammar/editor.md")).unwrap();
    let answered: Vec<&String> = answer["capabilities"].as_object().unwrap().keys().collect();
    for name in &answered {
        let told = snell_tests::TOLD
            .iter()
            .find(|(known, _)| known == name)
            .map(|(_, told)| told);
        let told = told.unwrap_or_else(|| panic!("`{name}` has no words"));
        assert!(page.contains(&format!("| `{name}` | {told} |")), "{name}");
    }
    assert_eq!(answered.len(), snell_tests::TOLD.len());
}
