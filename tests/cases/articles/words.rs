//! What markers can ask for besides figures, what a published rig is read back as, and where a book's rigs lie.

use super::{RIGS, USE, folder, plain, run};
use serde_json::Value;
use snell_tests::{Ran, top};
use std::fs;

/// Every word of a rig can stand in a sentence, and follows the rig.
#[test]
fn words_of_a_rig_are_filled_and_go_stale() {
    let folder = folder();
    let path = folder.path().join("a.md");
    let asked = [
        ("title of low", "a \\| b"),
        ("stuff of upper of low", "6X fluoro"),
        ("stuff of butt of low", "0.28 mm nylon"),
        ("fly on point of low", "\\#14 2.8 mm tungsten"),
        ("knot below butt of low", "three-turn-surgeon"),
        ("knot above point of low", "clinch"),
        ("step below butt of low", "0.08 mm"),
        ("water of low", "2 ft to 3 ft at 2.2 ft/s over cobble"),
    ];
    let line = |(asked, _): &(&str, &str)| format!("It is <!-- rig: {asked} --><!-- rig: end -->.\n\n");
    let page = format!("{USE}{}", asked.iter().map(line).collect::<String>());
    fs::write(&path, page).unwrap();
    let ran = run(folder.path(), &["fill", "a.md"]);
    assert_eq!(ran.status, Some(0), "{}", ran.told());
    let filled = plain(&fs::read_to_string(&path).unwrap());
    for (asked, expected) in asked {
        let wanted = format!("<!-- rig: {asked} -->{expected}<!-- rig: end -->");
        assert!(filled.contains(&wanted), "{wanted}\n{filled}");
    }
    fs::write(
        folder.path().join("rigs.rig"),
        RIGS.replace("6X fluoro as upper", "5X fluoro as upper"),
    )
    .unwrap();
    let ran = run(folder.path(), &["fill", "--check", "a.md"]);
    assert!(
        ran.out
            .contains("stuff of upper of low: `6X fluoro` stands here, and it is `5X fluoro`"),
        "{}",
        ran.out
    );
}

/// Blocks of every kind, a picture as PNG among them, and alt text that the writer betters.
#[test]
fn comparisons_and_pictures_of_both_kinds() {
    let folder = folder();
    let at = |name: &str| folder.path().join(name);
    fs::write(
        at("rigs.rig"),
        format!("{RIGS}\nrig long from low\n  change upper to 44 in\n"),
    )
    .unwrap();
    let page = format!(
        "{USE}<!-- rig: compare long with low -->\n<!-- rig: end -->\n\n<!-- rig: draw low into p/low.png as \"The low rig, as I tie it\" -->\n<!-- rig: end -->\n\n<!-- rig: draw long -->\n<!-- rig: end -->\n"
    );
    fs::write(at("a.md"), page).unwrap();
    let ran = run(folder.path(), &["fill", "a.md"]);
    assert_eq!(ran.status, Some(0), "{}", ran.told());
    let filled = fs::read_to_string(at("a.md")).unwrap();
    assert!(
        filled.contains("- upper is 12 in longer: 44 in, was 32 in"),
        "{filled}"
    );
    assert!(
        filled.contains("![The low rig, as I tie it](p/low.png)"),
        "{filled}"
    );
    assert!(
        filled.contains("![long. From the rod down: butt 60 in"),
        "{filled}"
    );
    assert!(fs::read(at("p/low.png")).unwrap().starts_with(b"\x89PNG"));
    assert_eq!(run(folder.path(), &["fill", "--check", "a.md"]).status, Some(0));
    // Somebody else's picture is left alone.
    fs::write(at("p/low.png"), b"\x89PNG\r\n\x1a\nmine").unwrap();
    let ran = run(folder.path(), &["fill", "a.md"]);
    assert_eq!(ran.status, Some(2), "{}", ran.told());
    assert_eq!(fs::read(at("p/low.png")).unwrap(), b"\x89PNG\r\n\x1a\nmine");
}

/// A rig that goes out as a piece of a page comes back as the same rig, with all that it uses.
#[test]
fn a_published_rig_is_read_back() {
    let examples = top().join("examples");
    let folder = tempfile::tempdir().unwrap();
    let value = |ran: &Ran| -> Value {
        let mut all: Value = serde_json::from_str(&ran.out).unwrap_or_else(|_| panic!("{}", ran.told()));
        for rig in all["rigs"].as_array_mut().unwrap() {
            let rig = rig.as_object_mut().unwrap();
            rig.remove("file");
            rig.remove("line");
        }
        all
    };
    for asked in [
        "harrow.rig:harrow-low",
        "harrow.rig:harrow-spate",
        "evening-on-the-weir.md:weir-up",
    ] {
        let piece = run(&examples, &["show", asked, "--form", "fragment"]);
        assert_eq!(piece.status, Some(0), "{}", piece.err);
        let page = format!(
            "<!DOCTYPE html>\n<title>A page</title>\n<p>Before.</p>\n{}",
            piece.out
        );
        fs::write(folder.path().join("page.html"), page).unwrap();
        let checked = run(folder.path(), &["check", "--bar", "fault", "page.html"]);
        assert_eq!(checked.status, Some(0), "{}", checked.told());
        let name = asked.rsplit(':').next().unwrap();
        let back = run(
            folder.path(),
            &["show", &format!("page.html:{name}"), "--form", "json"],
        );
        let was = run(&examples, &["show", asked, "--form", "json"]);
        assert_eq!(value(&back), value(&was), "{asked}");
    }
}

/// Chapters share rigs of a file beside the book, which its own file makes a project.
#[test]
fn a_book_is_a_project() {
    for top in ["book.toml", "_quarto.yml"] {
        let folder = folder();
        let at = |name: &str| folder.path().join(name);
        fs::create_dir_all(at("src/deep")).unwrap();
        let page =
            "<!-- rig: use \"../../rigs.rig\" -->\n\nIt is <!-- rig: total of low --><!-- rig: end -->.\n";
        fs::write(at("src/deep/a.md"), page).unwrap();
        let ran = run(folder.path(), &["fill", "src/deep/a.md"]);
        assert_eq!(ran.status, Some(1), "outside of a project: {}", ran.told());
        fs::write(at(top), "").unwrap();
        let ran = run(folder.path(), &["fill", "src/deep/a.md"]);
        assert_eq!(ran.status, Some(0), "{top}: {}", ran.told());
    }
}

/// A chapter shows rigs that stand in the fences of another, also where the two use each other.
#[test]
fn chapters_use_each_other() {
    let folder = folder();
    let at = |name: &str| folder.path().join(name);
    fs::write(at("book.toml"), "").unwrap();
    fs::create_dir_all(at("src/two")).unwrap();
    let one = format!(
        "<!-- rig: use \"two/b.md\" -->\n\n```rig\n{RIGS}```\n\n<!-- rig: total of high --><!-- rig: end --> it is.\n"
    );
    let two = "<!-- rig: use \"../a.md\" -->\n\n```rig\nrig high from low\n  change upper to 44 in\n```\n\nIt is <!-- rig: total of low --><!-- rig: end -->.\n\n```rig alone\nrig own\n  tippet 1 m of 6X fluoro\n  point #14\n```\n";
    fs::write(at("src/a.md"), one).unwrap();
    fs::write(at("src/two/b.md"), two).unwrap();
    let ran = run(folder.path(), &["fill", "src"]);
    assert_eq!(ran.status, Some(0), "{}", ran.told());
    let filled = |name: &str| fs::read_to_string(at(name)).unwrap();
    assert!(
        filled("src/two/b.md").contains("-->10 ft 7 in<!--"),
        "{}",
        filled("src/two/b.md")
    );
    assert!(
        filled("src/a.md").contains("-->11 ft 7 in<!--"),
        "{}",
        filled("src/a.md")
    );
    let ran = run(folder.path(), &["check", "--bar", "fault", "src"]);
    assert_eq!(ran.status, Some(0), "{}", ran.told());
    // What only its own fence sees is nobody else's.
    fs::write(at("src/c.md"), "<!-- rig: use \"d.md\" -->\n").unwrap();
    fs::write(
        at("src/d.md"),
        "```rig alone\nrig own\n  tippet 1 m of 6X fluoro\n```\n",
    )
    .unwrap();
    let ran = run(folder.path(), &["check", "src/c.md"]);
    assert!(ran.out.contains("use-markdown"), "{}", ran.told());
}
