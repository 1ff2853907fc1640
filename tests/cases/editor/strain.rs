//! Too much, too early, too late, and what is none: the server keeps its word
//! and its memory, and ends when it is told to.

use serde_json::{Value, json};
use snell_tests::{Build, Client};

const URI: &str = "file:///none/strain.rig";
const RIG: &str = "// 🎣 back end\nfly slate\n  hook #14\n\nrig a\n  tippet 30 inn of 6X\n  point slate\n";

fn client() -> Client {
    Client::open(Build::AsTests, json!({}))
}

/// Text that no machine checks within a tenth of a second, after which work is shown; this one takes ten times as long.
fn long() -> String {
    snell_tests::generated_notebook(4000)
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
    // What is told of one more state ends the wait, however long the machine takes.
    client.change(URI, 1002, &[json!({ "text": RIG })]);
    client.findings(URI, 1002);
    let told = client.said();
    let versions: Vec<i64> = told
        .iter()
        .filter_map(|message| message["params"]["version"].as_i64())
        .collect();
    assert!(versions.is_sorted_by(|one, other| one < other), "{versions:?}");
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

#[test]
fn long_work_is_shown_and_can_be_given_up() {
    let capabilities = json!({ "window": { "workDoneProgress": true } });
    let mut client = Client::open(Build::AsTests, capabilities);
    client.open_text(URI, "rig", &long());
    let asked = client.wait(|message| message["method"] == "window/workDoneProgress/create");
    client.send(&json!({ "jsonrpc": "2.0", "id": asked["id"], "result": null }));
    let token = &asked["params"]["token"];
    let stage = |client: &mut Client, kind: &str| {
        client.wait(|message| {
            let params = &message["params"];
            message["method"] == "$/progress" && params["token"] == *token && params["value"]["kind"] == kind
        })
    };
    let begun = stage(&mut client, "begin");
    assert_eq!(begun["params"]["value"]["cancellable"], true);
    assert_eq!(begun["params"]["value"]["title"], "Working out strain.rig");
    client.tell("window/workDoneProgress/cancel", json!({ "token": token }));
    stage(&mut client, "end");
    client.change(URI, 2, &[json!({ "text": RIG })]);
    assert!(!client.findings(URI, 2).is_empty());
    let later = super::said_until_settled(&mut client);
    let of_first = later.iter().filter(|message| message["params"]["version"] == 1);
    assert_eq!(of_first.count(), 0, "what was given up is not told: {later:?}");
}

#[test]
fn an_answer_that_is_not_wanted_any_more_is_not_waited_for() {
    let mut client = client();
    client.open_text(URI, "rig", &long());
    let position = json!({ "line": 1, "character": 1 });
    let params = json!({ "textDocument": { "uri": URI }, "position": position });
    client.send(&json!({ "jsonrpc": "2.0", "id": "a", "method": "textDocument/hover", "params": params }));
    client.tell("$/cancelRequest", json!({ "id": "a" }));
    let answer = client.wait(|message| message["id"] == "a");
    assert_eq!(answer["error"]["code"], -32800, "{answer}");
    // One that is not known is no trouble.
    client.tell("$/cancelRequest", json!({ "id": 77 }));
    client.tell("$/no/such", json!({}));
    client.change(URI, 2, &[json!({ "text": RIG })]);
    assert!(!client.findings(URI, 2).is_empty());
}

#[test]
fn what_is_far_too_large_is_never_held() {
    let mut client = client();
    client.open_text(URI, "rig", RIG);
    client.findings(URI, 1);
    let size = 96 << 20;
    client.raw(format!("Content-Length: {size}\r\n\r\n").as_bytes());
    let piece = vec![b'['; 1 << 20];
    (0..size >> 20).for_each(|_| client.raw(&piece));
    let told = client.wait(|message| message["id"].is_null() && message.get("error").is_some());
    assert_eq!(told["error"]["code"], -32700);
    // Nested deeper than anything that means something.
    let (open, close) = ("[".repeat(100_000), "]".repeat(100_000));
    let deep = format!("{{\"jsonrpc\":\"2.0\",\"id\":1,\"method\":\"a\",\"params\":{open}{close}}}");
    client.raw(format!("Content-Length: {}\r\n\r\n{deep}", deep.len()).as_bytes());
    let told = client.wait(|message| message["id"].is_null() && message.get("error").is_some());
    assert_eq!(told["error"]["code"], -32700);
    client.change(URI, 2, &[json!({ "text": RIG })]);
    assert!(!client.findings(URI, 2).is_empty(), "it goes on");
    if let Some(peak) = client.peak() {
        assert!(peak < 96 << 20, "it held {} MiB", peak >> 20);
    }
}

#[test]
fn after_the_end_nothing_is_answered() {
    let mut client = client();
    client.open_text(URI, "rig", RIG);
    client.answer("shutdown", Value::Null);
    let late = client.ask("textDocument/codeLens", json!({ "textDocument": { "uri": URI } }));
    assert_eq!(late["error"]["code"], -32600, "{late}");
    client.tell("exit", Value::Null);
    assert_eq!(client.ended(), Some(0));
}
