//! What the preview beside a text asks: the rig at a place, its verdict, and the edits of its sliders.

use super::applied;
use serde_json::{Value, json};
use snell_tests::{Build, Client};

const URI: &str = "file:///none/preview.rig";
const TEXT: &str = "// 🎣\nwater tail\n  depth 3 ft\n  surface 2 ft/s\n  bed cobble\n\nrig pair \"🎣 Two flies\"\n  method tight-line\n  water tail\n  sighter 15 in of 0.20 mm nylon, pink\n  tippet 36 in of 5X fluoro as upper\n  point #14 2.8 mm tungsten\n\nrig bare\n  water tail\n";

fn client() -> Client {
    let mut client = Client::start(Build::AsTests);
    client.answer("initialize", json!({ "capabilities": {} }));
    client.tell("initialized", json!({}));
    client.open_text(URI, "rig", TEXT);
    client
}

fn at(line: u32) -> Value {
    json!({ "textDocument": { "uri": URI }, "position": { "line": line, "character": 0 } })
}

#[test]
fn the_rig_around_the_cursor_is_shown_and_judged() {
    let mut client = client();
    let pair = client.answer("snell/preview", at(8));
    assert_eq!(
        (&pair["name"], &pair["title"]),
        (&json!("pair"), &json!("🎣 Two flies"))
    );
    let picture = pair["picture"].as_str().unwrap();
    assert!(
        roxmltree::Document::parse(picture).is_ok() && picture.contains("36 in"),
        "{picture}"
    );
    let verdict = client.answer("snell/verdict", at(8));
    assert!(verdict[0].as_str().unwrap().starts_with("pair "), "{verdict}");
    // Above all rigs it is the first, and below their lines the last.
    assert_eq!(client.answer("snell/preview", at(0))["name"], "pair");
    let bare = client.answer("snell/preview", at(15));
    assert_eq!(
        (&bare["name"], &bare["undrawn"]),
        (&json!("bare"), &json!("no line to draw"))
    );
    client.change(URI, 2, &[json!({ "text": "water tail\n" })]);
    assert_eq!(client.answer("snell/preview", at(0)), Value::Null);
    assert_eq!(client.answer("snell/verdict", at(0)), Value::Null);
}

#[test]
fn a_slider_tells_the_edit_of_its_quantity() {
    let mut client = client();
    let pair = client.answer("snell/preview", at(8));
    let sliders = pair["sliders"].as_array().unwrap();
    let upper = sliders.iter().find(|slider| slider["name"] == "upper").unwrap();
    assert_eq!(
        (&upper["of"], &upper["value"], &upper["unit"]),
        (&json!("length"), &json!(36.0), &json!("in"))
    );
    let slide =
        |value: f64| json!({ "textDocument": { "uri": URI }, "range": upper["range"], "value": value });
    let edit = client.answer("snell/slide", slide(40.0));
    assert_eq!(applied(TEXT, &json!([edit])), TEXT.replace("36 in", "40 in"));
    assert_eq!(client.answer("snell/slide", slide(-1.0)), Value::Null);
    let nowhere = json!({ "start": { "line": 0, "character": 0 }, "end": { "line": 0, "character": 2 } });
    let none = json!({ "textDocument": { "uri": URI }, "range": nowhere, "value": 1.0 });
    assert_eq!(client.answer("snell/slide", none), Value::Null);
}
