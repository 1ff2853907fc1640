//! What changes texts: names across files and an article, layout, and ways out
//! of findings.

use super::{address, applied, folder};
use serde_json::{Value, json};
use snell_tests::{Build, Client};

const FLIES: &str = "fly slate \"slate spider\"\n  hook #16\n";
const RIGS: &str = "// 🎣 slate is no name here\nuse \"flies.rig\"\n\nrig pair \"🎣\"\n  tippet 36 in of 5X fluoro as upper\n  dropper 8 in with slate\n  tippet 22 in of 6X fluoro\n  point #14 2.8 mm tungsten\n";
const ARTICLE: &str = "# 🎣 slate and upper\n\n> ```rig\n> use \"rigs.rig\"\n> use \"flies.rig\"\n>\n> rig short from pair\n>   change upper to 30 in\n>   change dropper to 6 in with slate\n> ```\n\nupper, slate.\n";

fn at(text: &str, word: &str) -> Value {
    let start = text.find(word).unwrap();
    let line = text[..start].matches('\n').count();
    let before = &text[text[..start].rfind('\n').map_or(0, |end| end + 1)..start];
    json!({ "line": line, "character": before.encode_utf16().count() })
}

#[test]
fn a_name_changes_in_two_files_and_an_article() {
    let folder = folder(&[("flies.rig", FLIES), ("rigs.rig", RIGS), ("article.md", ARTICLE)]);
    let top = address(folder.path());
    let [flies, rigs, article] = ["flies.rig", "rigs.rig", "article.md"].map(|name| format!("{top}/{name}"));
    let capabilities = json!({ "workspace": { "workspaceEdit": { "documentChanges": true } } });
    let mut client = Client::open(Build::AsTests, capabilities);
    client.open_text(&rigs, "rig", RIGS);
    client.open_text(&article, "markdown", ARTICLE);
    let mut rename = |position: Value, new: &str| {
        let params = json!({ "textDocument": { "uri": rigs }, "position": position, "newName": new });
        client.answer("textDocument/rename", params)["documentChanges"].take()
    };
    let all = rename(at(RIGS, "slate\n"), "shale");
    let of = |all: &Value, uri: &str, version: Value, text: &str| {
        let mut changes = all.as_array().unwrap().iter();
        let change = changes.find(|change| change["textDocument"]["uri"] == uri);
        let change = change.unwrap_or_else(|| panic!("{uri} in {all}"));
        assert_eq!(change["textDocument"]["version"], version, "{uri}");
        applied(text, &change["edits"])
    };
    assert_eq!(
        of(&all, &flies, Value::Null, FLIES),
        FLIES.replace("fly slate", "fly shale")
    );
    assert_eq!(
        of(&all, &rigs, json!(1), RIGS),
        RIGS.replace("with slate", "with shale")
    );
    assert_eq!(
        of(&all, &article, json!(1), ARTICLE),
        ARTICLE.replace("with slate", "with shale")
    );
    let all = rename(at(RIGS, "upper"), "first");
    assert_eq!(all.as_array().unwrap().len(), 2, "{all}");
    assert_eq!(of(&all, &rigs, json!(1), RIGS), RIGS.replace("upper", "first"));
    assert_eq!(
        of(&all, &article, json!(1), ARTICLE),
        ARTICLE.replace("change upper", "change first")
    );
    let params = json!({ "textDocument": { "uri": rigs }, "position": at(RIGS, "upper"), "newName": "of" });
    assert_eq!(client.ask("textDocument/rename", params)["error"]["code"], -32602);
}

#[test]
fn a_text_is_laid_out_as_tidy_does() {
    const URI: &str = "file:///none/rough.rig";
    let rough = "rig a   // 🎣\n tippet 30 in of 6X fluoro\n    point   #14 2.8 mm   tungsten\n";
    let mut client = Client::open(Build::AsTests, json!({}));
    client.open_text(URI, "rig", rough);
    let params =
        json!({ "textDocument": { "uri": URI }, "options": { "tabSize": 8, "insertSpaces": false } });
    let edits = client.answer("textDocument/formatting", params.clone());
    let smooth = applied(rough, &edits);
    let fresh = snell_syntax::tidy(rough, snell_text::TextId(0), &snell_syntax::whole(rough));
    let fresh = fresh.into_iter().map(|edit| (edit.place.span, edit.new));
    assert_eq!(smooth, snell_finding::apply(rough, fresh));
    assert_ne!(smooth, rough);
    client.change(URI, 2, &[json!({ "text": smooth })]);
    assert_eq!(client.answer("textDocument/formatting", params), json!([]));
}

#[test]
fn ways_out_are_offered_by_kind_and_the_sure_ones_preferred() {
    const URI: &str = "file:///none/mends.rig";
    let text = "rig a \"🎣\"\n  tippet 36 in of 5 x fluoro\n  dropper 8 in with #16\n  tippet 12 in of 6X fluorro\n  point #14 2.8 mm tungsten\n";
    let mut client = Client::open(Build::AsTests, json!({}));
    client.open_text(URI, "rig", text);
    let mut offered = |only: Value| {
        let range = json!({ "start": at(text, "tippet 36"), "end": at(text, "point") });
        let context = json!({ "diagnostics": [], "only": only });
        let params = json!({ "textDocument": { "uri": URI }, "range": range, "context": context });
        client.answer("textDocument/codeAction", params)
    };
    let all = offered(Value::Null);
    let titled = |title: &str| {
        let mut actions = all.as_array().unwrap().iter();
        let found = actions.find(|action| action["title"].as_str().unwrap().contains(title));
        found.unwrap_or_else(|| panic!("`{title}` in {all:#}"))
    };
    let after = |action: &Value| applied(text, &action["edit"]["changes"][URI]);
    let sure = titled("write `5X`");
    assert_eq!(
        (&sure["kind"], &sure["isPreferred"]),
        (&json!("quickfix"), &json!(true))
    );
    assert_eq!(after(sure), text.replace("5 x fluoro", "5X fluoro"));
    assert_eq!(sure["diagnostics"][0]["code"], "size-spaced");
    assert!(
        sure["diagnostics"][0]["message"]
            .as_str()
            .unwrap()
            .starts_with("`5 x` reads"),
        "{sure}"
    );
    let offer = titled("write `fluoro`");
    assert_eq!(
        (&offer["kind"], &offer["isPreferred"]),
        (&json!("quickfix"), &Value::Null)
    );
    let every = titled("all that can only mean one thing");
    assert_eq!(every["kind"], "source.fixAll");
    assert_eq!(after(every), text.replace("5 x fluoro", "5X fluoro"));
    let kinds = |actions: Value| -> Vec<String> {
        let actions = actions.as_array().unwrap().clone();
        actions
            .iter()
            .map(|action| action["kind"].as_str().unwrap().to_owned())
            .collect()
    };
    assert_eq!(kinds(offered(json!(["source"]))), ["source.fixAll"]);
    assert!(
        kinds(offered(json!(["quickfix"])))
            .iter()
            .all(|kind| kind == "quickfix")
    );
    assert_eq!(kinds(offered(json!(["refactor"]))), [""; 0]);
}
