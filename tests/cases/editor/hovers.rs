//! What is told of a place, and the picture with it.

use base64::prelude::{BASE64_STANDARD, Engine as _};
use serde_json::{Value, json};
use snell_tests::{Build, Client};

const URI: &str = "file:///none/hovers.rig";
const RIG: &str = "rig pair\n  method tight-line\n  water 3 ft at 2 ft/s over cobble\n  sighter 15 in of 0.20 mm nylon, pink\n  tippet 36 in of 5X fluoro as upper\n  dropper 8 in with #16\n  tippet 22 in of 6X fluoro\n  point #14 2.8 mm tungsten\n  expect total about 73 in\n";

fn hovers(initialize: Value) -> impl FnMut(u32, u32) -> String {
    let mut client = Client::start(Build::AsTests);
    client.answer("initialize", initialize);
    client.tell("initialized", json!({}));
    client.open_text(URI, "rig", RIG);
    move |line, character| {
        let position = json!({ "line": line, "character": character });
        let params = json!({ "textDocument": { "uri": URI }, "position": position });
        let hover = client.answer("textDocument/hover", params);
        hover["contents"]["value"].as_str().unwrap_or_default().to_owned()
    }
}

fn taking(formats: Value) -> Value {
    json!({ "textDocument": { "hover": { "contentFormat": formats } } })
}

#[test]
fn the_picture_of_a_rig_is_shown_where_pictures_are() {
    let page = taking(json!(["markdown", "plaintext"]));
    let plain = taking(json!(["plaintext"]));
    let shows = json!({ "pictures": true });
    let told = hovers(json!({ "capabilities": page, "initializationOptions": shows }))(0, 5);
    let (before, data) = told.split_once("(data:image/svg+xml;base64,").expect("a picture");
    assert!(
        before.starts_with("**rig** `pair`\n\npair fishes here: ")
            && before.contains("\n\ntotal 6 ft 1 in, "),
        "{before}"
    );
    let (data, after) = data.split_once(')').expect("the picture ends");
    assert!(after.contains("- total: 6 ft 1 in (1.85 m)"), "{after}");
    let svg = BASE64_STANDARD.decode(data).unwrap();
    let svg = String::from_utf8(svg).unwrap();
    let read = roxmltree::Document::parse(&svg).unwrap();
    assert_eq!(read.root_element().attribute("width"), Some("300"));
    assert!(svg.contains("upper"), "{svg}");
    for (capabilities, options) in [
        (&page, json!(null)),
        (&page, json!({ "pictures": false })),
        (&page, json!([])),
        (&plain, shows),
    ] {
        let told = hovers(json!({ "capabilities": capabilities, "initializationOptions": options }))(0, 5);
        assert!(told.contains("total"), "{told}");
        assert!(!told.contains("base64"), "{capabilities} {options}");
    }
}

#[test]
fn values_flies_and_sums_are_told_in_both_systems_with_their_sources() {
    let mut hover = hovers(json!({ "capabilities": taking(json!(["markdown"])) }));
    let (length, fly, sum) = (hover(4, 10), hover(7, 3), hover(8, 10));
    assert!(length.contains("**91.4 cm** (36 in)"), "{length}");
    for word in ["rides: about ", "sinks: about ", "ft/s)", "in)"] {
        assert!(fly.contains(word), "`{word}` in {fly}");
    }
    assert!(
        sum.contains("36 in from `tippet 36 in of 5X fluoro as upper`"),
        "{sum}"
    );
    let mut plain = hovers(json!({ "capabilities": {} }));
    let sum = plain(8, 10);
    assert!(!sum.contains("**") && !sum.contains('`'), "{sum}");
}

/// Two files of a project, and the answer for a position in the first of them.
fn told_across_files(line: u32, character: u32) -> String {
    let text = "use \"box/flies.rig\"\n\nrig pair\n  water 3 ft at 2 ft/s over cobble\n  method tight-line\n  tippet 36 in of 5X fluoro\n  dropper 8 in of 5X with slate\n  tippet 22 in of 6X fluoro\n  point slate\n";
    let flies = "fly slate \"slate spider\"\n  hook #16\n  bead 2 mm tungsten\n  barbless\n";
    let folder = super::folder(&[("beck.rig", text)]);
    for below in [".git", "box"] {
        std::fs::create_dir(folder.path().join(below)).unwrap();
    }
    std::fs::write(folder.path().join("box/flies.rig"), flies).unwrap();
    let uri = super::address(&folder.path().join("beck.rig"));
    let mut client = Client::open(Build::AsTests, json!({}));
    client.open_text(&uri, "rig", text);
    let position = json!({ "line": line, "character": character });
    let params = json!({ "textDocument": { "uri": uri }, "position": position });
    let hover = client.answer("textDocument/hover", params);
    hover["contents"]["value"].as_str().unwrap_or_default().to_owned()
}

#[test]
fn a_block_of_another_file_is_told_with_its_place_in_the_project() {
    let told = told_across_files(8, 10);
    assert!(told.starts_with("fly slate, in box/flies.rig\n"), "{told}");
    assert!(told.contains("- barbless\n"), "{told}");
    let dropper = told_across_files(6, 4);
    let of = |word: &str| {
        dropper
            .find(word)
            .unwrap_or_else(|| panic!("{word} in {dropper}"))
    };
    assert!(of("- rides: about ") < of("- length: 8 in"), "{dropper}");
}
