//! Articles are kept true between their markers and left alone outside of them,
//! whatever their Markdown looks like and whenever the program is ended.

#![allow(clippy::unwrap_used, reason = "a test may stop at what it did not expect")]

use serde_json::Value;
use snell_tests::{Build, Ran, Run, top};
use snell_text::{Markup, Page};
use std::fs;
use std::path::Path;

mod kept;
mod words;

const RIGS: &str = "rig low \"a | b\"\n  method  tight-line\n  water   2 ft to 3 ft at 2.2 ft/s over cobble\n  butt    60 in  of 0.28 mm nylon\n  sighter 15 in  of 0.20 mm nylon\n  tippet  32 in  of 6X fluoro as upper\n  dropper 8 in   with #16 2 mm tungsten\n  tippet  20 in  of 6X fluoro\n  point   #14 2.8 mm tungsten\n";

fn run(folder: &Path, arguments: &[&str]) -> Ran {
    Run::new(Build::AsTests, arguments).within(folder).finish()
}

fn folder() -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("rigs.rig"), RIGS).unwrap();
    folder
}

/// What stands outside of the markers, piece by piece, the markers themselves with it but for the checksum.
fn outside(page: &str) -> Vec<String> {
    let mut pieces = Vec::new();
    let mut at = 0;
    let markers = Page::read(page, Markup::Markdown).markers;
    for pair in markers
        .iter()
        .filter(|marker| !marker.words.of(page).starts_with("use"))
        .collect::<Vec<_>>()
        .chunks(2)
    {
        let [open, end] = pair else { panic!("pairs") };
        assert!(end.words.of(page).starts_with("end"));
        pieces.push(page[at..open.comment.end as usize].to_owned());
        pieces.push(page[end.comment.start as usize..end.words.start as usize].to_owned());
        at = end.words.end as usize;
    }
    pieces.push(page[at..].to_owned());
    pieces
}

/// A page without the checksums in its end markers.
fn plain(page: &str) -> String {
    let mut plain = String::new();
    let mut at = 0;
    for marker in Page::read(page, Markup::Markdown).markers {
        if marker.words.of(page).starts_with("end ") {
            plain.push_str(&page[at..marker.words.start as usize + "end".len()]);
            at = marker.words.end as usize;
        }
    }
    plain + &page[at..]
}

const USE: &str = "<!-- rig: use \"rigs.rig\" -->\n\n";

/// Pages as people write them, each with markers in another surrounding.
fn pages() -> Vec<String> {
    let block = |asked: &str| format!("<!-- rig: {asked} -->\n\n<!-- rig: end -->\n");
    let figure = "It is <!-- rig: total of low -->9 ft<!-- rig: end --> *long*  \nand `<!-- rig: total of low -->` is code.";
    let pages = [
        format!(
            "---\ntitle: \"<!-- rig: show low -->\"\n---\n\n{USE}{}",
            block("show low")
        ),
        format!("{USE}{figure}\n\n{}\ttail without end", block("parts of low")),
        format!("{USE}> quoted\n>\n> <!-- rig: cut low -->\n> <!-- rig: end -->\n>\n> more\n"),
        format!(
            "{USE}1. one\n\n   - two\n\n     <!-- rig: measures of low in metric -->\n\n     <!-- rig: end -->\n   - {figure}\n2. two\n"
        ),
        format!("{USE}> - <!-- rig: parts of low --><!-- rig: end -->\n> - b\n"),
        format!(
            "{USE}<div class=\"x\">\n<!-- rig: parts of low -->\n<!-- rig: end -->\n</div>\n\n    <!-- rig: show low -->\n"
        ),
        format!(
            "{USE}~~~~ html\n<!-- rig: show low -->\n~~~~\n\n<script>\n<!-- rig: show low -->\n</script>\n\n{figure}\n"
        ),
        format!("{USE}| a | b |\n| - | - |\n| c | <!-- rig: total of low in cm --><!-- rig: end --> |\n"),
        format!("{USE}{}", block("draw low into pictures/a.svg")),
        format!("\u{feff}{USE}é 🎣 {figure} ½\n"),
        format!(
            "{RIGS:?}\n\n   ~~~rig\n   {}   ~~~\n\n{figure}\n",
            RIGS.replace('\n', "\n   ").trim_end_matches(' ')
        ),
    ];
    let windows = pages.clone().map(|page| page.replace('\n', "\r\n"));
    pages.into_iter().chain(windows).collect()
}

#[test]
fn nothing_outside_of_the_markers_changes() {
    let folder = folder();
    for (index, page) in pages().into_iter().enumerate() {
        let name = format!("page-{index}.md");
        let path = folder.path().join(&name);
        fs::write(&path, &page).unwrap();
        let stale = run(folder.path(), &["fill", "--check", &name]);
        assert_eq!(stale.status, Some(1), "{page}\n{}", stale.told());
        assert_eq!(
            fs::read_to_string(&path).unwrap(),
            page,
            "a check changes nothing"
        );
        let ran = run(folder.path(), &["fill", &name]);
        assert_eq!(ran.status, Some(0), "{page}\n{}", ran.told());
        let filled = fs::read_to_string(&path).unwrap();
        assert_eq!(outside(&filled), outside(&page), "{filled}");
        assert_ne!(filled, page);
        let lone = filled.replace("\r\n", "").contains(['\r', '\n']);
        assert!(
            !page.contains("\r\n") || !lone,
            "{filled:?} has line ends of two kinds"
        );
        let again = run(folder.path(), &["fill", "--check", &name]);
        assert_eq!(again.status, Some(0), "{filled}\n{}", again.told());
        let checked = run(folder.path(), &["check", "--bar", "fault", &name]);
        assert_eq!(checked.status, Some(0), "{}", checked.told());
    }
}

/// What is filled is read by Markdown as what it is meant to be, also in a quote within a list.
#[test]
fn tables_stay_where_their_marker_is() {
    let folder = folder();
    let page = format!("{USE}- a\n\n  > <!-- rig: parts of low --><!-- rig: end -->\n\n- b\n");
    fs::write(folder.path().join("a.md"), page).unwrap();
    assert_eq!(run(folder.path(), &["fill", "a.md"]).status, Some(0));
    let filled = fs::read_to_string(folder.path().join("a.md")).unwrap();
    let table: Vec<&str> = filled.lines().filter(|line| line.contains('|')).collect();
    assert!(
        table.len() > 6 && table.iter().all(|line| line.starts_with("  > | ")),
        "{filled}"
    );
    assert!(filled.contains("\n  >\n  > | part "), "{filled}");
    assert!(
        plain(&filled).contains("\n  >\n  > <!-- rig: end -->\n\n- b\n"),
        "{filled}"
    );
}

#[test]
fn an_edited_rig_makes_every_place_stale_that_shows_it() {
    let folder = folder();
    let at = |name: &str| folder.path().join(name);
    let page = format!(
        "{USE}All of it is <!-- rig: total of low --><!-- rig: end -->, the butt <!-- rig: length of butt of low --><!-- rig: end -->.\n\n<!-- rig: draw low -->\n<!-- rig: end -->\n"
    );
    fs::write(at("a.md"), page).unwrap();
    assert_eq!(run(folder.path(), &["fill"]).status, Some(0));
    let picture = fs::read(at("a-low.svg")).unwrap();
    let before = fs::read_to_string(at("a.md")).unwrap();
    assert!(before.contains("-->10 ft 7 in<!--"), "{before}");

    fs::write(at("rigs.rig"), RIGS.replace("32 in", "44 in")).unwrap();
    let ran = run(folder.path(), &["fill", "--check", "a.md"]);
    assert_eq!(ran.status, Some(1));
    let told: Vec<&str> = ran.out.lines().collect();
    assert_eq!(
        told,
        [
            "a.md:3:14: total of low: `10 ft 7 in` stands here, and it is `11 ft 7 in`",
            "a.md:5:1: draw low: not as the rig is now",
            "2 of 3 places in 1 article out of date; `snell fill` brings them up to date",
        ]
    );
    assert_eq!(run(folder.path(), &["fill", "a.md"]).status, Some(0));
    let after = fs::read_to_string(at("a.md")).unwrap();
    let expected = [
        ("10 ft 7 in", "11 ft 7 in"),
        ("upper 32 in", "upper 44 in"),
        ("tippet 52 in", "tippet 64 in"),
    ]
    .iter()
    .fold(plain(&before), |page, (was, now)| page.replace(was, now));
    assert_eq!(plain(&after), expected);
    assert_ne!(fs::read(at("a-low.svg")).unwrap(), picture);
    assert_eq!(run(folder.path(), &["fill", "--check"]).status, Some(0));
}

/// Faults of markers are findings like all others, and a broken one hurts no other.
#[test]
fn faults_of_markers_are_told_at_their_places() {
    let folder = folder();
    let page = format!(
        "{USE}a <!-- rig: totl of low --><!-- rig: end --> b <!-- rig: total of lo --><!-- rig: end -->\n\nc <!-- rig: length of uper of low --><!-- rig: end --> d <!-- rig: total of low in kg --><!-- rig: end -->\n\ne <!-- rig: sag of low --><!-- rig: end --> f <!-- rig: shew low --><!-- rig: end -->\n\n<!-- rig: parts of low -->\n\n# A heading\n\n<!-- rig: end -->\n\ng\n<!-- rig: total of low -->x<!-- rig: end --> h\n\n<!-- rig: draw low into ../a.svg -->\n<!-- rig: end -->\n\n<!-- rig: cut low -->\n"
    );
    fs::write(folder.path().join("a.md"), &page).unwrap();
    let ran = run(folder.path(), &["check", "--form", "lines", "a.md"]);
    assert_eq!(ran.status, Some(1));
    let told: Vec<&str> = ran.out.lines().filter(|line| line.starts_with("a.md")).collect();
    assert_eq!(
        told,
        [
            "a.md:3:13: fault: marker-measure: `totl` is no measure of a rig",
            "a.md:3:67: fault: marker-rig: there is no rig `lo` in sight of this page",
            "a.md:5:23: fault: marker-part: the rig `low` has no part `uper`",
            "a.md:5:84: fault: marker-unit: `total` is not told in `kg`",
            "a.md:7:13: fault: marker-unknown: `sag` of `low` is not known",
            "a.md:7:57: fault: marker-unread: `shew` is nothing that a marker asks for",
            "a.md:11:1: advice: marker-holds-text: what stands here has no checksum, so it may be somebody's own and is kept",
            "a.md:16:1: caution: marker-at-head: a line that begins with a comment is HTML to Markdown, and no part of its paragraph",
            "a.md:16:27: advice: marker-holds-text: what stands here has no checksum, so it may be somebody's own and is kept",
            "a.md:18:25: fault: marker-file: `../a.svg` is no place for a picture of this page",
            "a.md:21:1: fault: marker-unclosed: this marker is not closed",
        ]
    );
    let ran = run(folder.path(), &["fill", "a.md"]);
    assert_eq!(ran.status, Some(1), "{}", ran.told());
    let filled = fs::read_to_string(folder.path().join("a.md")).unwrap();
    assert_eq!(filled, page, "what somebody wrote is kept");
    // The way out is taken unasked, and Markdown then reads one paragraph.
    run(folder.path(), &["check", "--mend", "a.md"]);
    let mended = fs::read_to_string(folder.path().join("a.md")).unwrap();
    assert!(
        mended.contains("\ng <!-- rig: total of low -->x<!-- rig: end --> h"),
        "{mended}"
    );
}

/// Renderers that show comments take a link that nobody follows.
#[test]
fn markers_in_the_form_of_a_link_are_filled() {
    let folder = folder();
    let path = folder.path().join("a.mdx");
    let page = "[//]: # (rig: use \"rigs.rig\")\n\n[//]: # (rig: parts of low)\n\n[//]: # (rig: end)\n\n```md\n[//]: # (rig: cut low)\n```\n";
    fs::write(&path, page).unwrap();
    let ran = run(folder.path(), &["fill", "a.mdx"]);
    assert_eq!(ran.status, Some(0), "{}", ran.told());
    let filled = fs::read_to_string(&path).unwrap();
    assert!(filled.contains("| upper"), "{filled}");
    assert_eq!(outside(&filled), outside(page));
    assert_eq!(run(folder.path(), &["fill", "--check", "a.mdx"]).status, Some(0));
}

#[test]
fn a_page_on_standard_input_goes_to_standard_output() {
    let folder = folder();
    let page = format!("{USE}It is <!-- rig: total of low --><!-- rig: end -->.\r\n");
    let ran = Run::new(Build::AsTests, ["fill", "-"])
        .within(folder.path())
        .input(page.clone())
        .finish();
    assert_eq!((ran.status, ran.err.as_str()), (Some(0), ""));
    assert_eq!(plain(&ran.out), page.replace("--><!--", "-->10 ft 7 in<!--"));
}

/// A page is parsed where a document keeps what was read of it, and nowhere once for each fence or marker. Only pieces of HTML
/// that pandoc hands over are read by themselves.
#[test]
fn a_page_is_read_in_one_place() {
    let mut reads = Vec::new();
    for one in snell_tests::sources::crates() {
        for (path, text) in &one.files {
            let count = text.matches("Page::read(").count() + text.matches("fences(").count();
            reads.extend((count > 0).then(|| format!("{}/{path}", one.name)));
        }
    }
    reads.retain(|path| !path.starts_with("snell-text/"));
    assert_eq!(
        reads,
        [
            "snell/article/document.rs",
            "snell-analysis/document.rs",
            "snell-rig/shelf.rs",
        ]
    );
}

/// Every form of `export` tells of the same rigs.
#[test]
fn exported_forms_agree() {
    let examples = top().join("examples");
    let json = run(&examples, &["export", "."]);
    assert_eq!(json.status, Some(0), "{}", json.err);
    let shown = run(&examples, &["show", ".", "--form", "json"]);
    assert_eq!(json.out, shown.out);
    let all: Value = serde_json::from_str(&json.out).unwrap();
    let rigs = all["rigs"].as_array().unwrap();
    let lines = run(&examples, &["export", ".", "--form", "json-lines"]);
    let read: Vec<Value> = lines
        .out
        .lines()
        .map(|line| serde_json::from_str(line).unwrap())
        .collect();
    assert_eq!(&read, rigs);
    let csv = run(&examples, &["export", ".", "--form", "csv"]);
    let count = |part: &Value| part["measures"].as_object().unwrap().len();
    let parts = ["sections", "joins", "droppers", "gaps", "flies"];
    let measures: usize = rigs
        .iter()
        .map(|rig| {
            let of_parts = parts.iter().flat_map(|key| rig[*key].as_array().unwrap());
            count(rig) + of_parts.map(count).sum::<usize>()
        })
        .sum();
    assert_eq!(csv.out.lines().count(), measures + 1);
}
