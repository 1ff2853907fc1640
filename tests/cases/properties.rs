//! What holds of every text, however wrong: it is read and checked without a
//! panic, every finding points into its text, and a sure fix mends what it
//! says it mends.

#![allow(clippy::unwrap_used, reason = "a test may stop at what it did not expect")]

use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample::{Index, select};
use snell_analysis::{Kind, LocalDisk, Notebook};
use snell_finding::{Finding, Fix, Level};
use snell_tests::laws::sound;
use snell_tests::{PIECES, generated_notebook, top};
use snell_text::Span;
use std::path::Path;

fn opened(kind: Kind, text: &str) -> Notebook {
    Notebook::of_text(Path::new("asked.rig"), kind, text.to_owned(), &LocalDisk)
}

/// A text with fixes made; all of them must lie in the notebook's own first text.
fn fixed<'f>(book: &Notebook, fixes: impl IntoIterator<Item = &'f Fix>) -> String {
    let document = &book.documents()[0];
    let edits = fixes.into_iter().flat_map(|fix| &fix.edits).map(|edit| {
        assert_eq!(edit.place.text, document.id);
        (edit.place.span, edit.new.clone())
    });
    snell_finding::apply(&document.text, edits)
}

fn line_of(text: &str, span: Span) -> usize {
    text[..span.start as usize].matches('\n').count()
}

fn faults(book: &Notebook) -> Vec<Finding> {
    snell_article::check(book)
        .into_iter()
        .filter(|finding| finding.level == Level::Fault)
        .collect()
}

fn sure(finding: &Finding) -> Option<&Fix> {
    finding.fixes.iter().find(|fix| fix.sure)
}

fn example(name: &str) -> String {
    std::fs::read_to_string(top().join("examples").join(name)).unwrap()
}

/// A text with pieces put in or put in place of characters.
fn disturbed(text: &str, changes: &[(Index, usize, &str)]) -> String {
    let mut letters: Vec<String> = text.chars().map(String::from).collect();
    for (at, goes, comes) in changes {
        let at = at.index(letters.len() + 1);
        let end = (at + goes).min(letters.len());
        letters.splice(at..end, [(*comes).to_owned()]);
    }
    letters.concat()
}

fn changes() -> impl Strategy<Value = Vec<(Index, usize, &'static str)>> {
    vec((any::<Index>(), 0..6_usize, select(PIECES)), 1..6)
}

/// As many cases as `PROPTEST_CASES` says; a failure is told, not filed.
fn config() -> ProptestConfig {
    ProptestConfig {
        failure_persistence: None,
        ..ProptestConfig::default()
    }
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn any_bytes_are_read_and_checked(bytes in vec(any::<u8>(), 0..400)) {
        let text = String::from_utf8_lossy(&bytes);
        sound(Kind::Rig, &text);
        sound(Kind::MARKDOWN, &text);
    }

    #[test]
    fn any_pieces_of_the_language_are_read_and_checked(pieces in vec(select(PIECES), 0..80), glue in select(&["", " "][..])) {
        let text = pieces.join(glue);
        sound(Kind::Rig, &text);
        sound(Kind::MARKDOWN, &format!("A page.\n\n```rig\n{text}\n```\n"));
    }

    #[test]
    fn a_disturbed_notebook_is_read_and_checked(changes in changes()) {
        sound(Kind::Rig, &disturbed(&example("harrow.rig"), &changes));
        sound(Kind::MARKDOWN, &disturbed(&example("evening-on-the-weir.md"), &changes));
    }

    /// Each round mends something, so the rounds end: no fix makes the slip that it mends.
    #[test]
    fn sure_fixes_come_to_an_end(changes in changes()) {
        let mut text = disturbed(&example("harrow.rig"), &changes);
        for _ in 0..40 {
            let book = opened(Kind::Rig, &text);
            let findings = snell_article::check(&book);
            let Some(fix) = findings.iter().find_map(sure) else { return Ok(()) };
            let next = fixed(&book, [fix]);
            prop_assert_ne!(&next, &text, "a fix that changes nothing: {:?}", fix);
            text = next;
        }
        prop_assert!(false, "forty fixes did not mend five slips:\n{text}");
    }
}

/// Slips that can only mean one thing, each a line of a rig or fly.
const SURE: &[&str] = &[
    "fly a\n  hook 14",
    "fly a\n  hook # 14",
    "fly a\n  hook: #14",
    "rod a\n  length 10 ft\n  weight 2",
    "water a\n  depth 2 ft\n  surface 2 ft / s",
    "rig a\n  tippet 3'8 of 6X fluoro",
    "rig a\n  tippet 20 in of 6 X fluoro",
    "rig a\n  tippet 20 in of 6Xfluoro",
    "rod a\n  length = 10 ft",
    "rig a\n  tippet 20 in of 6X fluoro\n  let half = tippet/2",
    "rig a\n  tippet 2 m of 6X fluoro\n  expect total > 1 m",
    "rig a\n  tippet 2 m of 6X fluoro\n  note \"not closed",
    "rig a\n  tippet 2 m of 6X fluoro as upper\n\nrig b from a\n  tippet 3 m",
];

#[test]
fn a_sure_fix_removes_its_finding_and_brings_no_other() {
    for text in SURE {
        let book = opened(Kind::Rig, text);
        let findings = faults(&book);
        assert_eq!(findings.len(), 1, "{text}: {findings:#?}");
        let fix = sure(&findings[0]).unwrap_or_else(|| panic!("{text}: no sure fix in {findings:#?}"));
        let mended = fixed(&book, [fix]);
        let left: Vec<String> = faults(&opened(Kind::Rig, &mended))
            .into_iter()
            .map(|finding| finding.message)
            .collect();
        assert_eq!(left, Vec::<String>::new(), "{text}\nmade\n{mended}");
    }
}

/// Slips whose line would not read whichever of them is mended first, each a line of a rig.
const UNSURE: &[&str] = &[
    "leader 9 ft 4X 4X",
    "tippet 45 cm 0.14 mm fuorocarbon",
    "sighter 50 cm 50 cm 0.16 mm",
    "rod 9 ft 5 5 wt",
    "tip\"pet 50 cm of 0.12 mm fluoro",
    "method d/ry",
    "m=ethod dry",
    "tippet: 6 4X ft fluorocarbon",
    "dropper: 8 in with 10 black buzzer",
];

#[test]
fn a_fix_is_sure_only_where_the_whole_line_then_reads() {
    for line in UNSURE {
        let book = opened(Kind::Rig, &format!("rig a\n  {line}\n"));
        let findings = faults(&book);
        assert!(!findings.is_empty(), "{line}");
        let sure: Vec<_> = findings.iter().filter_map(sure).collect();
        assert!(sure.is_empty(), "{line}: {sure:?}");
    }
}

/// All sure fixes of a file with forty faults at once, as `check --mend` makes them.
#[test]
fn sure_fixes_made_together_remove_their_findings() {
    let text = std::fs::read_to_string(top().join("tests/data/forty.rig")).unwrap();
    let book = opened(Kind::Rig, &text);
    let findings = snell_article::check(&book);
    let mended: Vec<_> = findings
        .iter()
        .filter(|finding| sure(finding).is_some())
        .collect();
    assert!(mended.len() >= 5, "the file holds usual slips");
    let after = fixed(&book, mended.iter().filter_map(|finding| sure(finding)));
    let left: Vec<_> = snell_article::check(&opened(Kind::Rig, &after))
        .iter()
        .map(|finding| (line_of(&after, finding.place().span), finding.code.clone()))
        .collect();
    for finding in mended {
        let was = (line_of(&text, finding.place().span), finding.code.clone());
        assert!(!left.contains(&was), "{finding:#?} is still there");
    }
}

#[test]
fn the_generated_notebook_is_sound_when_cut_anywhere() {
    let text = generated_notebook(20);
    for end in (0..text.len()).step_by(97) {
        sound(Kind::Rig, &text[..end]);
    }
}
