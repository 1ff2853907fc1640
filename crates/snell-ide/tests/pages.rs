//! What an editor says of a page's markers is what a check says, and a page's
//! `use` comment is a line of its file.

use snell_analysis::{Kind, LocalDisk, Notebook};
use snell_article::check;
use snell_article::{Content, Lay, read};
use snell_ide::Workspace;
use snell_text::TextId;
use std::fs;
use std::path::Path;

const RIGS: &str = "rig low\n  tippet 32 in of 6X fluoro as upper\n  dropper 8 in with #16 2 mm tungsten\n  tippet 20 in of 6X fluoro\n  point #14 2.8 mm tungsten\n";

fn told(findings: &[snell_finding::Finding], page: &str) -> Vec<String> {
    findings
        .iter()
        .map(|finding| format!("{}: {}", finding.code, finding.place().span.of(page)))
        .collect()
}

#[test]
fn editor_and_check_agree_while_a_page_is_typed() {
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("rigs.rig"), RIGS).expect("written");
    let path = folder.path().join("a.md");
    let workspace = Workspace::default();
    let use_line = "<!-- rig: use \"rigs.rig\" -->\n\n";
    let marker = "a <!-- rig: total of low -->x<!-- rig: end --> b\n\n";
    let fence = "```rig\nrig own from low\n  change upper to 40 in\n```\n\n";
    let states = [
        marker.to_owned(),
        format!("{use_line}{marker}"),
        format!("{use_line}{marker}{fence}"),
        format!("{use_line}{fence}a <!-- rig: total of own -->x<!-- rig: end -->\n"),
        format!("{use_line}{fence}a <!-- rig: total of won -->x<!-- rig: end -->\n"),
        format!("{fence}{use_line}<!-- rig: parts of own -->\n"),
        format!("<!-- rig: use \"none.rig\" -->\n\n{fence}{marker}"),
        format!("{use_line}{}", fence.replace("40 in", "40")),
    ];
    for page in states {
        workspace.put(&path, Kind::MARKDOWN, page.as_str().into());
        let snapshot = workspace.snapshot(&path).expect("it is open");
        let live = snapshot.findings(&|| false).expect("nobody stops it");
        let notebook = Notebook::of_text(&path, Kind::MARKDOWN, page.clone(), &LocalDisk);
        let mut whole = check(&notebook);
        whole.retain(|finding| finding.place().text == TextId(0));
        assert_eq!(told(&live, &page), told(&whole, &page), "{page}");
    }
}

fn article(page: &str) -> snell_article::Article {
    let notebook = Notebook::of_text(Path::new("a.md"), Kind::MARKDOWN, page.to_owned(), &LocalDisk);
    read(&notebook, TextId(0))
}

#[test]
fn figures_of_rigs_and_parts() {
    let page = format!("```rig\n{RIGS}```\n");
    for (asked, expected) in [
        ("total of low", "52 in"),
        ("Total of LOW in metric", "1.32 m"),
        ("length of upper of low in cm", "81.3 cm"),
        ("hung of gap of low", "12 in"),
        ("mass of point of low in g", "about 0.197 g"),
        ("flies of low", "2"),
        ("role of upper of low", "tippet"),
    ] {
        let page = format!("{page}\na <!-- rig: {asked} --><!-- rig: end -->\n");
        let article = article(&page);
        assert_eq!(told(&article.findings, &page), Vec::<String>::new(), "{asked}");
        let place = &article.places[0];
        assert_eq!(place.slot.lay, Lay::Within);
        match &place.content {
            Content::Figure(text) => assert_eq!(text, expected, "{asked}"),
            other => panic!("{asked}: {other:?}"),
        }
    }
}

#[test]
fn one_file_holds_one_picture() {
    let page = format!(
        "```rig\n{RIGS}```\n\n<!-- rig: draw low into a.svg -->\n<!-- rig: end -->\n\n<!-- rig: draw low into a.svg -->\n<!-- rig: end -->\n\n<!-- rig: draw low in metric into A.svg -->\n<!-- rig: end -->\n"
    );
    let article = article(&page);
    assert_eq!(article.places.len(), 2);
    assert_eq!(
        told(&article.findings, &page),
        ["marker-file: <!-- rig: draw low in metric into A.svg -->"]
    );
}
