//! What is offered where.

use super::*;
use snell_analysis::LocalDisk;
use std::path::Path;

/// The words offered at the mark `|`.
fn offered(text: &str) -> Vec<String> {
    let at = text.find('|').unwrap();
    let text = text.replace('|', "");
    let book = Notebook::of_text(Path::new("a.rig"), snell_analysis::Kind::Rig, text, &LocalDisk);
    complete(&book, at as u32)
        .into_iter()
        .map(|one| one.word)
        .collect()
}

fn has(text: &str, wanted: &[&str], not: &[&str]) {
    let found = offered(text);
    for word in wanted {
        assert!(
            found.iter().any(|one| one == word),
            "{word} at {text:?}: {found:?}"
        );
    }
    for word in not {
        assert!(
            !found.iter().any(|one| one == word),
            "{word} at {text:?}: {found:?}"
        );
    }
}

#[test]
fn by_place() {
    has("|", &["rig", "fly", "use"], &["tippet"]);
    has(
        "rig a\n  ti|",
        &["tippet", "tip", "expect", "let"],
        &["bead", "limit"],
    );
    has("fly a\n  |", &["hook", "bead"], &["tippet"]);
    has(
        "rig a\n  tippet 20 |",
        &["in", "cm", "mm"],
        &["g", "fluoro", "of"],
    );
    has("rig a\n  tippet 20i|", &["in"], &["g"]);
    has("rig a\n  tippet 20 in |", &["of", "as"], &["in"]);
    has(
        "rig a\n  tippet 20 in of 6X f|",
        &["fluoro", "as"],
        &["of", "blood"],
    );
    has(
        "fly slate\n  hook #14\n\nrig a\n  point sl|",
        &["slate"],
        &["fluoro-x"],
    );
    has("rig a\n  knot bl|", &["blood"], &["fluoro"]);
    has("rig a\n  method |", &["tight-line", "streamer"], &["blood"]);
    has("rig a\n  expect to|", &["total", "tippet-ratio"], &["at least"]);
    has("rig a\n  expect total |", &["at least", "between"], &["total"]);
    has("rig a\n  expect gap.|", &["length", "hang-apart"], &["total"]);
    has("rig a\n  allow |", &["fly-spacing"], &["blood"]);
    has(
        "rig a\n  tippet 20 in of 6X as upper\n\nrig b from a\n  change |",
        &["upper", "tippet"],
        &[],
    );
    has(
        "rig a\n  tippet 20 in as upper\n\nrig b from a\n  change upper to 20 in |",
        &["of"],
        &[],
    );
    has("rig a\n  tippet 1 m\n\nrig b from |", &["a"], &["blood"]);
    has(
        "rig a\n  tippet 20 in of |",
        &["fluoro", "nylon", "pink"],
        &["brass", "foam", "glass", "lead", "tungsten"],
    );
    has("fly a\n  bead 2.8 mm |", &["tungsten", "brass"], &[]);
    has("rig a\n  note \"in |", &[], &["in"]);
    has("rig a\n  // in |", &[], &["in"]);
}

#[test]
fn what_line_may_be_of_has_the_authors_own_first() {
    let text = "spool clear\n  size 5X\n  material fluoro\n\nrig a\n  sighter 15 in of 0.20 mm nylon\n  tippet 20 in of 6X fluoro\n  tippet 20 in of 6X\n  tippet 30 in of |";
    let found = offered(text);
    assert_eq!(
        found[..5],
        ["clear", "0.20 mm", "6X", "copolymer", "fluoro"],
        "{found:?}"
    );
    let found = offered(&text.replace('|', "5X |"));
    assert_eq!(found[..2], ["clear", "copolymer"], "{found:?}");
}
