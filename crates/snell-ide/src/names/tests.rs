//! Every mention of a name, and nothing else.

use super::*;
use snell_analysis::{Kind, LocalDisk, Notebook};
use std::path::Path;

const TEXT: &str = "fly slate\n  hook #14\n\nrig a\n  let gap-wanted = 20 in\n  tippet 30 in of 5X fluoro as upper\n  dropper 8 in with slate\n  tippet gap-wanted of 6X fluoro\n  point slate\n  expect upper at least 20 in\n\nrig b from a\n  change upper to 40 in\n  change point to slate\n  allow fly-spacing because \"so\"\n";

fn words(word: &str) -> Vec<(u32, bool)> {
    let book = Notebook::of_text(Path::new("a.rig"), Kind::Rig, TEXT.to_owned(), &LocalDisk);
    let world = World::new(book.project());
    let first = at(&world, TextId(0), TEXT.find(word).unwrap() as u32).unwrap();
    occurrences(&world)
        .into_iter()
        .filter(|one| one.of == first.of)
        .map(|one| (one.place.span.start, one.defines))
        .collect()
}

fn places(word: &str) -> Vec<u32> {
    TEXT.match_indices(word).map(|(at, _)| at as u32).collect()
}

#[test]
fn an_outing_speaks_of_the_rig_that_was_fished() {
    let text = format!(
        "{TEXT}\nouting dusk\n  day 2026-05-14\n  rig b\n  change upper to 50 in\n  caught 3 on slate\n  caught 1 on upper\n"
    );
    let book = Notebook::of_text(Path::new("a.rig"), Kind::Rig, text.clone(), &LocalDisk);
    let world = World::new(book.project());
    for word in ["slate", "upper"] {
        let first = at(&world, TextId(0), text.find(word).unwrap() as u32).unwrap();
        let found = occurrences(&world).into_iter().filter(|one| one.of == first.of);
        let found: Vec<usize> = found.map(|one| one.place.span.start as usize).collect();
        let written: Vec<usize> = text.match_indices(word).map(|(at, _)| at).collect();
        assert_eq!(found, written, "{word}");
    }
}

#[test]
fn every_mention_of_a_block_and_a_label() {
    for word in ["slate", "upper", "gap-wanted"] {
        let found = words(word);
        let starts: Vec<u32> = found.iter().map(|(at, _)| *at).collect();
        assert_eq!(starts, places(word), "{word}");
        assert_eq!(found.iter().filter(|(_, defines)| *defines).count(), 1, "{word}");
    }
}
