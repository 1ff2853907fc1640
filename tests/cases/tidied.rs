//! Laying a file out changes no rig, and doing it twice changes nothing more:
//! over the examples, a made-up notebook, and both of them written as phones
//! and word processors write.

#![allow(clippy::unwrap_used, reason = "a test may stop at what it did not expect")]

use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample::{Index, select};
use snell_analysis::{LocalDisk, Notebook};
use snell_tests::laws::keeps_its_meaning;
use snell_tests::{Build, MANNERS, Manner, PIECES, Run, essences, generated_notebook, respelled, top};
use snell_text::TextId;
use std::fs;

fn tidied(text: &str) -> String {
    let edits = snell_syntax::tidy(text, TextId(0), &snell_syntax::whole(text));
    snell_finding::apply(text, edits.into_iter().map(|edit| (edit.place.span, edit.new)))
}

fn harrow() -> String {
    fs::read_to_string(top().join("examples/harrow.rig")).unwrap()
}

/// A sound text in any manners, with letters taken out and pieces put in.
fn changed() -> impl Strategy<Value = String> {
    let manners = vec(select(&MANNERS[..]), 0..4);
    let changes = vec((any::<Index>(), 0..4_usize, select(PIECES)), 0..4);
    (manners, changes).prop_map(|(manners, changes)| {
        let text = respelled(&harrow(), &manners);
        let mut letters: Vec<String> = text.chars().map(String::from).collect();
        for (at, goes, comes) in changes {
            let at = at.index(letters.len() + 1);
            letters.splice(at..(at + goes).min(letters.len()), [comes.to_owned()]);
        }
        letters.concat()
    })
}

fn config() -> ProptestConfig {
    ProptestConfig {
        failure_persistence: None,
        ..ProptestConfig::default()
    }
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn a_changed_notebook_keeps_its_meaning(text in changed()) {
        keeps_its_meaning(&text);
    }

    #[test]
    fn any_pieces_keep_their_meaning(pieces in vec(select(PIECES), 0..60), glue in select(&["", " "][..])) {
        keeps_its_meaning(&pieces.join(glue));
    }
}

#[test]
fn a_made_up_notebook_keeps_its_meaning_in_every_manner() {
    let text = generated_notebook(60);
    keeps_its_meaning(&text);
    // Its commas part values and its quotes stand in comments nowhere, so every manner can be had.
    for manner in MANNERS {
        keeps_its_meaning(&respelled(&text, &[manner]));
    }
    keeps_its_meaning(&respelled(&text, &MANNERS));
}

#[test]
fn what_was_written_otherwise_comes_out_plain() {
    let plain = tidied(&harrow());
    for manners in [
        &[Manner::Tabs][..],
        &[Manner::NoBreakSpaces],
        &[Manner::CurlyQuotes],
        &[Manner::DecimalCommas],
        &[Manner::LostIndent],
        &[Manner::FullStops],
    ] {
        assert_eq!(tidied(&respelled(&harrow(), manners)), plain, "{manners:?}");
    }
}

/// A slip keeps its words, so that it is still told for what it is: a spaced size is no product.
#[test]
fn a_slip_is_left_as_it_is() {
    for line in [
        "tippet 20 in of 6 X fluoro",
        "tippet 20 in of 6 x fluoro",
        "tippet 1,200 mm of 6X",
        "tippet 3'8 of 6X",
    ] {
        keeps_its_meaning(&format!("rig a\n  {line}\n"));
    }
}

/// Through the program and the disk, with the files that use one another and the article.
#[test]
fn the_examples_keep_their_meaning_on_disk() {
    let folder = tempfile::tempdir().unwrap();
    for entry in fs::read_dir(top().join("examples")).unwrap() {
        let path = entry.unwrap().path();
        let text = fs::read_to_string(&path).unwrap();
        let untidy = match path.extension().is_some_and(|ending| ending == "rig") {
            true => respelled(
                &text,
                &[
                    Manner::Tabs,
                    Manner::Capitals,
                    Manner::Signs,
                    Manner::CarriageReturns,
                ],
            ),
            false => text.replace("  of ", " of ").replace("  with ", "    with "),
        };
        fs::write(folder.path().join(path.file_name().unwrap()), untidy).unwrap();
    }
    let rigs = |file: &str| {
        let book = Notebook::open(&[folder.path().join(file)], &LocalDisk)
            .map_err(|(_, why)| why)
            .unwrap();
        essences(&book)
    };
    let snell = |arguments: &[&str]| Run::new(Build::AsTests, arguments).within(folder.path()).finish();
    let files = ["harrow.rig", "season.rig", "evening-on-the-weir.md"];
    let before = files.map(rigs);
    assert!(before.iter().all(|rigs| rigs.len() >= 2));
    assert_eq!(
        snell(&["tidy", "--check", "."]).status,
        Some(1),
        "there is something to lay out"
    );
    let ran = snell(&["tidy", "."]);
    assert_eq!(ran.status, Some(0), "{}", ran.told());
    assert_eq!(files.map(rigs), before);
    assert!(
        fs::read_to_string(folder.path().join("harrow.rig"))
            .unwrap()
            .contains("\r\n"),
        "line ends are kept"
    );
    assert_eq!(
        snell(&["tidy", "--check", "."]).status,
        Some(0),
        "nothing is left to lay out"
    );
}
