//! Files that other files use: what is said of an open text follows them,
//! whether they are typed in or change on the disk.

use super::{address, folder};
use serde_json::{Value, json};
use snell_tests::{Build, Client};
use std::fs;

const SPOOLS: &str = "spool moss\n  size 6X\n  material fluoro\n";
const USER: &str = "use \"spools.rig\"\n\nrig a\n  tippet 30 in of moss\n";
const OTHER: &str = "rig b\n  tippet 30 in of 6X fluoro\n";
const ARTICLE: &str = "```rig\nuse \"spools.rig\"\n\nrig c\n  tippet 30 in of moss\n```\n";

fn codes(findings: &[Value]) -> Vec<&str> {
    findings
        .iter()
        .filter_map(|finding| finding["code"].as_str())
        .collect()
}

/// Waits until the findings of a text are as wanted: what was found before a change may still be told after it.
fn told(client: &mut Client, uri: &str, wanted: impl Fn(&[&str]) -> bool) {
    client.wait(|message| {
        message["method"] == "textDocument/publishDiagnostics"
            && message["params"]["uri"] == uri
            && message["params"]["diagnostics"]
                .as_array()
                .is_some_and(|found| wanted(&codes(found)))
    });
}

#[test]
fn a_file_that_changes_on_the_disk_wakes_those_that_use_it() {
    let folder = folder(&[("user.rig", USER), ("other.rig", OTHER), ("article.md", ARTICLE)]);
    let top = address(folder.path());
    let [user, other, article, spools] =
        ["user.rig", "other.rig", "article.md", "spools.rig"].map(|name| format!("{top}/{name}"));
    let watching = json!({ "workspace": { "didChangeWatchedFiles": { "dynamicRegistration": true } } });
    let mut client = Client::open(Build::AsTests, watching);
    let asked = client.wait(|message| message["method"] == "client/registerCapability");
    client.send(&json!({ "jsonrpc": "2.0", "id": asked["id"], "result": null }));
    for (uri, language, text) in [
        (&user, "rig", USER),
        (&other, "rig", OTHER),
        (&article, "markdown", ARTICLE),
    ] {
        client.open_text(uri, language, text);
    }
    assert!(codes(&client.findings(&user, 1)).contains(&"use-missing"));
    assert!(codes(&client.findings(&article, 1)).contains(&"use-missing"));
    client.findings(&other, 1);
    let changed = |client: &mut Client, text: Option<&str>, wanted: fn(&[&str]) -> bool| {
        let path = folder.path().join("spools.rig");
        match text {
            Some(text) => fs::write(&path, text).unwrap(),
            None => fs::remove_file(&path).unwrap(),
        }
        let change = json!({ "uri": spools, "type": 2 });
        client.tell("workspace/didChangeWatchedFiles", json!({ "changes": [change] }));
        told(client, &user, wanted);
        told(client, &article, wanted);
    };
    // It is there now; its spool has another name; it is gone.
    changed(&mut client, Some(SPOOLS), |found| found.is_empty());
    let renamed = SPOOLS.replace("moss", "blue");
    changed(&mut client, Some(&renamed), |found| found == ["name-unknown"]);
    changed(&mut client, None, |found| found.contains(&"use-missing"));
    let later = super::said_until_settled(&mut client);
    assert!(
        later.iter().all(|message| message["params"]["uri"] != other),
        "who does not use it is left alone: {later:?}"
    );
}

#[test]
fn a_file_that_is_typed_in_wakes_those_that_use_it() {
    let folder = folder(&[("user.rig", USER), ("spools.rig", SPOOLS)]);
    let top = address(folder.path());
    let (user, spools) = (format!("{top}/user.rig"), format!("{top}/spools.rig"));
    let mut client = Client::open(Build::AsTests, json!({}));
    client.open_text(&user, "rig", USER);
    assert_eq!(codes(&client.findings(&user, 1)), [""; 0]);
    client.open_text(&spools, "rig", SPOOLS);
    client.findings(&spools, 1);
    client.change(&spools, 2, &[json!({ "text": SPOOLS.replace("moss", "blue") })]);
    told(&mut client, &user, |found| found == ["name-unknown"]);
    // What was typed and never saved is gone with the text.
    client.close_text(&spools);
    told(&mut client, &user, |found| found.is_empty());
    client.close_text(&user);
    let closed = json!({ "textDocument": { "uri": user } });
    assert_eq!(
        client.ask("textDocument/codeLens", closed)["error"]["code"],
        -32602,
        "nothing is kept of a closed text"
    );
}
